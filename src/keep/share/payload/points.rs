//! Control points in the payload of a link.

use crate::design::DraftPoint;
use crate::design::settings::{DIAMETER, POSITION};

/// Each point as the distance from the one before and its diameter, in counts.
pub(super) fn steps_of(points: &[DraftPoint]) -> Vec<(u32, u32)> {
    let mut before = 0;
    let step = |point: &DraftPoint| {
        let at = POSITION.quanta(point.at_m);
        let step = at - before;
        before = at;
        (step, DIAMETER.quanta(point.diameter_mm))
    };
    points.iter().map(step).collect()
}

/// The points of such steps; `None` where a sum is too large.
pub(super) fn points_of(steps: &[(u32, u32)]) -> Option<Vec<DraftPoint>> {
    let mut at = 0_u32;
    let point = |&(step, diameter): &(u32, u32)| {
        at = at.checked_add(step)?;
        Some(DraftPoint {
            at_m: POSITION.value(at),
            diameter_mm: DIAMETER.value(diameter),
        })
    };
    steps.iter().map(point).collect()
}
