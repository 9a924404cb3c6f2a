//! Level stretches have whole threads. So a reshaped drawing gives them the size that whole threads make, or leaves them as they were.

use super::balance::Balance;
use super::handles::{Handle, Moves};
use crate::base::units::Length;
use crate::braid::threads::Staircase;

/// Most ways to give level stretches whole threads that are looked at. Our own choice: two stretches of five sizes each.
const MOST_WAYS: usize = 25;

/// Ways to give level stretches whole threads near to moves that divide them: each stretch as it is, or with the count of threads just
/// below or above what one of the moves asks for. In each way, `None` stands for what may be moved freely.
pub(super) fn ways(
    balance: &Balance<'_>,
    moves: &[Vec<f64>],
    stairs: &Staircase,
) -> Vec<Vec<Option<f64>>> {
    let mut ways = vec![Vec::new()];
    for (index, handle) in balance.handles.iter().enumerate() {
        let options = match level_stretch(handle) {
            None => vec![None],
            Some(first) => {
                let size = balance.points[first].diameter;
                let asked = moves.iter().map(|moves| moves[index]);
                let sizes = whole_threads(stairs, size, asked, handle.limits);
                sizes.into_iter().map(Some).collect()
            }
        };
        // Too many stretches: the rest stay as they are, which is the first option.
        let room = (MOST_WAYS / ways.len()).max(1);
        let longer = |way: &Vec<Option<f64>>, option| [way.as_slice(), &[option]].concat();
        let options = &options[..options.len().min(room)];
        ways = ways
            .iter()
            .flat_map(|way| options.iter().map(|&option| longer(way, option)))
            .collect();
    }
    ways
}

/// The first point of the level stretch that a handle resizes.
fn level_stretch(handle: &Handle) -> Option<usize> {
    match &handle.moves {
        Moves::Size { points, is_level } if *is_level => points.first().copied(),
        _ => None,
    }
}

/// No move, and the moves to the sizes of whole threads just below and above those asked for, within limits. A stretch whose threads
/// stay keeps its size.
fn whole_threads(
    stairs: &Staircase,
    size: Length,
    asked: impl Iterator<Item = f64>,
    (low, high): (f64, f64),
) -> Vec<f64> {
    let now = stairs.nearest(size);
    let to = |level: usize| (stairs.diameter(stairs.yarn[level]) - size).millimetres();
    let mut found = vec![0.0];
    for by in asked {
        let above = (0..stairs.yarn.len())
            .take_while(|&level| to(level) < by)
            .count();
        let beside = [
            above.checked_sub(1),
            (above < stairs.yarn.len()).then_some(above),
        ];
        for level in beside.into_iter().flatten().filter(|&level| level != now) {
            if (low..=high).contains(&to(level)) && !found.contains(&to(level)) {
                found.push(to(level));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Plan;

    /// The belly of the demo has 14 threads; beside it are 13 and 15.
    #[test]
    fn a_level_stretch_moves_by_whole_threads_within_its_limits() {
        let stairs = Plan::of(&demo()).layout.staircase;
        let size = Length::from_millimetres(1.085);
        let by = |asked: &[f64], limit: f64| {
            let asked = asked.iter().copied();
            whole_threads(&stairs, size, asked, (-limit, limit))
        };
        let one = by(&[0.02], 0.2);
        assert_eq!(one.len(), 2, "{one:?}");
        assert_eq!(one[0], 0.0);
        assert!((0.02..0.05).contains(&one[1]), "{one:?}");
        let more = by(&[0.02, 0.06, -0.01], 0.2);
        assert_eq!(more.len(), 4, "{more:?}");
        assert_eq!(more[1], one[1]);
        assert!((0.06..0.1).contains(&more[2]), "{more:?}");
        assert!((-0.05..-0.02).contains(&more[3]), "{more:?}");
        assert_eq!(by(&[0.02, 0.06, -0.01], 0.01), [0.0]);
    }
}
