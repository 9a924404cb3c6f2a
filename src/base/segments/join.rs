//! Separate straight pieces joined to one broken line.

use super::broken::{Bounds, Broken};
use super::partition::Partition;
use super::sums::{Straight, Sums};

/// A piece of at least two numbers: its line, and the places of its first and last number.
#[derive(Clone, Copy)]
struct Part {
    line: Straight,
    first: f64,
    last: f64,
}

/// The broken line that follows the pieces of a cut.
///
/// Where the lines of two neighbours meet in the gap between them, or at most half a piece beyond it, there is one knot.
/// Where they do not, there are two, a third of the gap from either end: a steep piece in between that no number shows.
/// Of two places taken at random in a gap, these are the means. A piece of one number shows no line, and belongs to the gap.
pub fn join(sums: &Sums, cut: &Partition, bounds: &Bounds) -> Broken {
    let places = sums.places();
    let mut begin = 0;
    let mut parts: Vec<Part> = Vec::new();
    for &end in &cut.ends {
        let line = sums.straight(begin, end).filter(|_| end >= begin + 2);
        parts.extend(line.map(|line| Part {
            line,
            first: places[begin],
            last: places[end - 1],
        }));
        begin = end;
    }
    let knots = parts
        .windows(2)
        .flat_map(|pair| knots_between(pair[0], pair[1]));
    Broken::along(sums, knots.flatten(), bounds)
}

fn knots_between(before: Part, after: Part) -> [Option<f64>; 2] {
    let gap = after.first - before.last;
    let bend = after.line.slope - before.line.slope;
    let meet =
        before.last + (before.line.value_at(before.last) - after.line.value_at(before.last)) / bend;
    let [low, high] = [
        before.last - 0.5 * (before.last - before.first),
        after.first + 0.5 * (after.last - after.first),
    ];
    if meet >= low && meet <= high {
        [Some(meet), None]
    } else {
        [Some(before.last + gap / 3.0), Some(after.first - gap / 3.0)]
    }
}
