//! Where the guides, sizes that points snap to, lie on the chart.

use super::scale::Scale;
use crate::edit::snap::{Guide, GuideKind};

/// Labels closer than this, in pixels, would run into each other.
const LABEL_ROOM: f64 = 16.0;

/// Height of a label above its line, in pixels.
const ASCENT: f64 = 14.0;

/// A line across the upper half of the profile.
#[derive(Clone, Debug, PartialEq)]
pub struct GuideLine {
    /// Pixels from the top.
    pub y: f64,
    /// Its label, where there is room for it.
    pub label: Option<String>,
}

/// The guides that lie within the profile, thinnest first.
pub fn guide_lines(guides: &[Guide], scale: &Scale) -> Vec<GuideLine> {
    let band = scale.profile();
    let mut last = f64::INFINITY;
    let line = |guide: &Guide| {
        let y = band.middle() - scale.half_thickness(guide.diameter);
        let has_room = last - y >= LABEL_ROOM && y - ASCENT >= band.top;
        if has_room {
            last = y;
        }
        GuideLine {
            y,
            label: has_room.then(|| label(guide.kind)),
        }
    };
    let is_inside = |line: &GuideLine| line.y >= band.top;
    // What is thinner than the core is not drawn.
    let drawn = guides.iter().filter(|guide| guide.diameter >= scale.core);
    drawn.map(line).filter(is_inside).collect()
}

/// What stands at a guide: the threads, heavier ones after a plus, or the letter.
fn label(kind: GuideKind) -> String {
    match kind {
        GuideKind::Threads(level) if level.heavy == 0 => level.threads.to_string(),
        GuideKind::Threads(level) => format!("{} + {}", level.threads - level.heavy, level.heavy),
        GuideKind::Letter(name) => name.to_owned(),
    }
}
