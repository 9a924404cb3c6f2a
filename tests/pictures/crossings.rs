//! The crossings of the braid drawn: in the order of the track, and each with the right thread above.

use core::f64::consts::PI;

use taperwright::braid::track::Direction;
use taperwright::paper::chart::braid_view::{BraidView, Crossing};

use crate::braid::{full, radius};
use crate::outline::{any_holds, pieces};
use crate::{MACHINES, track};

/// Every thread of a diamond, regular, Hercules braid floats over 1, 2, 3 and under as many: printed in any description of
/// maypole braiders.
#[test]
fn full_loads_float_by_their_pattern() {
    for (carriers, pattern) in MACHINES {
        let drawn = full(carriers, pattern);
        let float = pattern.slots() as usize / 2;
        let mut whole = 0;
        for place in 0..carriers / 2 {
            for way in [Direction::Clockwise, Direction::CounterClockwise] {
                let inner = inner_floats(&overs_along(&drawn, way, place));
                assert!(
                    inner.iter().all(|&run| run == float),
                    "{carriers} {pattern:?}: {inner:?}"
                );
                whole += inner.len();
            }
        }
        assert!(
            whole >= 4 || carriers < 12,
            "{carriers} {pattern:?}: {whole} floats are seen whole"
        );
    }
}

/// Whether a thread is over at each of its crossings in one unbroken sight of it.
fn overs_along(drawn: &BraidView, way: Direction, place: u32) -> Vec<bool> {
    let clockwise = way == Direction::Clockwise;
    let mut seen: Vec<_> = drawn
        .crossings
        .iter()
        .filter(|c| {
            place
                == if clockwise {
                    c.clockwise
                } else {
                    c.counter_clockwise
                }
        })
        .collect();
    seen.sort_by(|a, b| a.x.total_cmp(&b.x));
    // Where it comes round again it begins at the other edge.
    let last = seen
        .windows(2)
        .position(|pair| (pair[1].y > pair[0].y) != clockwise)
        .map_or(seen.len(), |at| at + 1);
    seen[..last]
        .iter()
        .map(|c| c.clockwise_is_over == clockwise)
        .collect()
}

/// Lengths of the runs, without the first and the last, which may be cut.
fn inner_floats(overs: &[bool]) -> Vec<usize> {
    let runs: Vec<_> = overs.chunk_by(|a, b| a == b).map(<[bool]>::len).collect();
    runs.get(1..runs.len().saturating_sub(1))
        .unwrap_or_default()
        .to_vec()
}

/// What is drawn at a crossing is what was said of it: the thread said to be above is drawn in the upper layer, the other
/// in the lower one, and neither in both.
#[test]
fn the_thread_above_is_drawn_above() {
    for (carriers, pattern) in MACHINES.into_iter().filter(|machine| machine.0 <= 32) {
        let drawn = full(carriers, pattern);
        let above = [&drawn.above.clockwise, &drawn.above.counter_clockwise].map(|d| pieces(d));
        let below = [&drawn.below.clockwise, &drawn.below.counter_clockwise].map(|d| pieces(d));
        assert!(!drawn.crossings.is_empty());
        for crossing in inside(&drawn) {
            let at = (crossing.x, crossing.y);
            let found = [&above, &below].map(|layer| [0, 1].map(|way| any_holds(&layer[way], at)));
            let over = crossing.clockwise_is_over;
            assert_eq!(
                found,
                [[over, !over], [!over, over]],
                "{carriers} {pattern:?} {crossing:?}"
            );
        }
    }
}

/// Analytic: N meetings in a lay, each with the next carrier of the other direction; at 45° the lay is the round of the path.
/// Who is over is the track's rule, which the tables check against a track stepped by hand.
#[test]
fn crossings_come_in_the_order_of_the_track() {
    for (carriers, pattern) in MACHINES {
        let (drawn, track) = (full(carriers, pattern), track(carriers, pattern));
        let step = 2.0 * PI * radius(&drawn) / f64::from(carriers);
        let mut seen = 0;
        for meeting in 0..carriers {
            let here = |c: &&Crossing| (c.x - step * f64::from(meeting)).abs() < 1e-6;
            for crossing in drawn.crossings.iter().filter(here) {
                let met = crossing.clockwise + meeting;
                assert_eq!(crossing.counter_clockwise, met % (carriers / 2));
                let over = track.clockwise_is_over(crossing.clockwise, met);
                assert_eq!(crossing.clockwise_is_over, over, "{carriers} {pattern:?}");
                seen += 1;
            }
        }
        assert_eq!(
            seen,
            drawn.crossings.len(),
            "crossings between the meetings"
        );
        assert!(seen > 0, "{carriers} {pattern:?}");
    }
}

/// Crossings a little away from the edges of the picture, where no piece is a sliver.
fn inside(drawn: &BraidView) -> impl Iterator<Item = &Crossing> {
    let (top, bottom) = drawn.body;
    drawn.crossings.iter().filter(move |c| {
        (2.0..drawn.width - 2.0).contains(&c.x) && (top + 2.0..bottom - 2.0).contains(&c.y)
    })
}
