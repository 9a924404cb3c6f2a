//! Every reading judged by the line found.

use super::data::{Data, Usable};
use super::places::Places;
use super::scatter::of_median;
use crate::base::segments::{Bounds, Broken, Criterion, FAR, Ties, refine};

/// Most neighbouring places that are looked at as one spike.
const TOGETHER: usize = 16;
/// Most knots of a spike.
const MOST_KNOTS: usize = 5;
/// So many places from the end of the line belong to a spike beside them.
const NEAR_END: usize = 3;

/// Which usable readings to leave out: those farther from the line than [`Data::far`] scatters.
pub(super) fn judged(data: &Data, line: &Broken) -> Vec<bool> {
    let residual = |index: usize| {
        let one = &data.usable[index];
        one.diameter - line.value_at(one.at)
    };
    let sizes: Vec<f64> = (0..data.usable.len())
        .map(|index| residual(index).abs())
        .collect();
    // What knots take up of the scatter is given back.
    let (all, parameters) = (
        sizes.len() as f64,
        Ties::free(line.places.len()).count() as f64,
    );
    let given_back = (all / (all - parameters).max(0.5 * all)).sqrt();
    let scatter = of_median(sizes.clone()).unwrap_or(0.0) * given_back;
    let limit = data.far() * scatter.max(data.error);
    let left_out = data.usable.iter().zip(&sizes);
    left_out
        .map(|(one, &size)| !one.is_sure && size > limit)
        .collect()
}

/// A line that explains fewer readings with fewer knots.
pub(super) struct Simpler {
    pub(super) left_out: Vec<bool>,
    pub(super) line: Broken,
    cost: f64,
}

/// The line without a spike, where a line with fewer knots that leaves out some of the readings there costs less.
///
/// A single wrong reading can be reached by three knots, two of them near each other by four. Whether they are rather errors is
/// decided by the same criterion: each reading left out has its price there.
pub(super) fn without_spike(
    data: &Data,
    left_out: &[bool],
    (line, criterion): (&Broken, &Criterion),
    bounds: &Bounds,
) -> Option<Simpler> {
    let places = Places::of(&data.usable, left_out);
    let parameters = Ties::free(line.places.len()).count();
    let squares = line.squares(&places.sums());
    let cost = criterion.cost(squares, parameters);
    let limit = data.far() * criterion.variance(squares, parameters).sqrt();
    let last = line.places.len() - 1;
    let mut best: Option<Simpler> = None;
    for (first, end) in spikes(last) {
        let Some(run) = around(&places, line, (first, end)) else {
            continue;
        };
        let (low, high) = (line.places[first], line.places[end - 1]);
        let outside: Vec<f64> = [&line.places[..first], &line.places[end..]].concat();
        let mut with_one = outside.clone();
        with_one.insert(first, f64::midpoint(low, high));
        for knots in [outside, with_one] {
            // Fewer knots save two parameters each, and one reading left out at least has its price.
            let saved = 2 * line.places.len().saturating_sub(knots.len());
            if saved as f64 * criterion.price <= data.far() * data.far() {
                continue;
            }
            // The line without the readings there shows which of them are wrong.
            let all_out = leaving(data, left_out, &places.readings[run.clone()], |_| true);
            let Some(without) = priced(data, all_out, knots, bounds) else {
                continue;
            };
            let is_wrong =
                |one: &Usable| (one.diameter - without.line.value_at(one.at)).abs() > limit;
            let some_out = leaving(data, left_out, &places.readings[run.clone()], is_wrong);
            let simpler = priced(data, some_out, without.line.places, bounds);
            let least = best.as_ref().map_or(cost, |best| best.cost);
            best = simpler.filter(|simpler| simpler.cost < least).or(best);
        }
    }
    best
}

/// Runs of inner knots that may be a spike: from the first up to the end, without it. At an end of the line one will do.
fn spikes(last: usize) -> impl Iterator<Item = (usize, usize)> {
    let runs =
        (1..=MOST_KNOTS).flat_map(move |count| (1..last).map(move |first| (first, first + count)));
    runs.filter(move |&(first, end)| {
        let is_at_end = first == 1 || end == last;
        end <= last && (end - first >= 2 || is_at_end)
    })
}

/// The places around a run of knots, up to one beyond them, or up to the end of the line where that is near; `None` where there are
/// too many for a spike.
fn around(
    places: &Places,
    line: &Broken,
    (first, end): (usize, usize),
) -> Option<core::ops::Range<usize>> {
    let before = |knot: usize| places.at.partition_point(|&at| at < line.places[knot]);
    let (mut low, mut high) = (
        before(first).saturating_sub(1),
        (before(end - 1) + 1).min(places.len()),
    );
    if first == 1 && low <= NEAR_END {
        low = 0;
    }
    if end + 1 == line.places.len() && places.len() - high <= NEAR_END {
        high = places.len();
    }
    (high - low <= TOGETHER && high - low + 2 <= places.len()).then_some(low..high)
}

/// The line without a corner that the reading at an end alone asks for.
///
/// Nothing confirms such a reading, and it is more often wrong than right, unless the line only becomes level there: many
/// lines have a short level tip.
pub(super) fn without_lone_end(
    data: &Data,
    left_out: &[bool],
    line: &Broken,
    bounds: &Bounds,
) -> Option<Simpler> {
    let places = Places::of(&data.usable, left_out);
    let (count, last) = (places.len(), line.places.len() - 1);
    if last < 2 || count < 4 {
        return None;
    }
    // The end, its neighbour, and the inner knot of the end piece.
    let ends = [(0, 1, 1), (count - 1, count - 2, last - 1)];
    ends.into_iter().find_map(|(end, next, knot)| {
        if places.is_sure[end] {
            return None;
        }
        let left_out = leaving(data, left_out, &places.readings[end..=end], |_| true);
        let mut knots = line.places.clone();
        knots.remove(knot);
        let with_it = priced(data, left_out.clone(), line.places.clone(), bounds)?;
        let simpler = priced(data, left_out, knots, bounds)?;
        let goes_on = simpler.line.value_at(places.at[end]);
        let beside = places.diameter[next];
        let slack = FAR * data.error;
        let (low, high) = (goes_on.min(beside) - slack, goes_on.max(beside) + slack);
        let becomes_level = (low..=high).contains(&places.diameter[end]);
        (simpler.cost < with_it.cost && !becomes_level).then_some(simpler)
    })
}

/// What is left out, with those readings of some places that are wrong.
fn leaving(
    data: &Data,
    left_out: &[bool],
    places: &[(usize, usize)],
    is_wrong: impl Fn(&Usable) -> bool,
) -> Vec<bool> {
    let mut more = left_out.to_vec();
    for index in places.iter().flat_map(|&(begin, end)| begin..end) {
        let one = &data.usable[index];
        more[index] |= !one.is_sure && is_wrong(one);
    }
    more
}

/// The line with these knots, moved to where they fit best, with its price.
fn priced(data: &Data, left_out: Vec<bool>, knots: Vec<f64>, bounds: &Bounds) -> Option<Simpler> {
    let places = Places::of(&data.usable, &left_out);
    if places.len() < 2 {
        return None;
    }
    let (sums, criterion) = (places.sums(), places.criterion(data));
    let start = Broken::along(&sums, knots, bounds);
    let ties = Ties::free(start.places.len());
    let refined = refine(&sums, start, &ties, bounds);
    Some(Simpler {
        left_out,
        cost: criterion.cost(refined.squares, ties.count()),
        line: refined.line,
    })
}
