//! A moved drawing in digits a hand can use.

use super::balance::Balance;
use super::handles::Moves;
use crate::base::units::Length;
use crate::braid::taper::{LEVEL_WITHIN, Point};
use crate::design::DraftPoint;

/// The drawing with these moves made: sizes in whole micrometres, places in whole millimetres, where they are moved. `None` where a
/// slope would become level or turn round.
pub(super) fn drawn_by_hand(balance: &Balance<'_>, moves: &[f64]) -> Option<Vec<DraftPoint>> {
    let moves = balance.handles.iter().zip(moves);
    let rounded = moves.map(|(handle, &by)| {
        let from = match &handle.moves {
            Moves::Size { points, .. } => {
                let first = points.first().map(|&first| balance.points[first].diameter);
                first.unwrap_or_default().millimetres()
            }
            Moves::Place { index, .. } => balance.points[*index].at.metres(),
        };
        in_thousandths(from, by)
    });
    let moved = balance.moved(&rounded.collect::<Vec<f64>>());
    let draft = |point: &Point| DraftPoint {
        at_m: point.at.metres(),
        diameter_mm: point.diameter.millimetres(),
    };
    keeps_slopes(&balance.points, &moved).then(|| moved.iter().map(draft).collect())
}

/// A move that ends at a whole thousandth and is no greater than it was; none where that would be a move the other way.
fn in_thousandths(from: f64, by: f64) -> f64 {
    let to = (from + by) * 1e3;
    let to = if by > 0.0 { to.floor() } else { to.ceil() };
    let rounded = to / 1e3 - from;
    if rounded * by > 0.0 { rounded } else { 0.0 }
}

fn keeps_slopes(before: &[Point], after: &[Point]) -> bool {
    let slope = |pair: &[Point]| pair[1].diameter - pair[0].diameter;
    let is_level = |slope: Length| slope.abs() <= LEVEL_WITHIN;
    let is_kept = |(before, after): (Length, Length)| {
        is_level(before) || !is_level(after) && (after > Length::ZERO) == (before > Length::ZERO)
    };
    let slopes = before.windows(2).map(slope);
    slopes.zip(after.windows(2).map(slope)).all(is_kept)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_move_is_rounded_towards_where_it_began() {
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} {b}");
        near(in_thousandths(3.2004, 0.5), 0.4996);
        near(in_thousandths(3.2004, -0.5), -0.4994);
        near(in_thousandths(3.2004, 0.0003), 0.0);
        near(in_thousandths(3.2004, 0.0), 0.0);
    }
}
