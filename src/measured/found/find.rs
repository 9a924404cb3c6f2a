//! The taper in the readings of a line.

use super::data::Data;
use super::filter::filtered;
use super::judge::{judged, without_lone_end, without_spike};
use super::places::Places;
use super::scatter::scatter;
use super::shape::{Shaped, Shaper};
use super::spread::spreads;
use super::taper::{Asked, FoundPoint, FoundTaper};
use crate::base::segments::{Bounds, Broken, Refined, Sums, join, partition, settle};
use crate::base::units::Length;
use crate::measured::reading::Reading;

/// Least distance between points, in metres: that of a drawing.
const GAP: f64 = 0.01;
/// Rounds of judging readings by the line after which patience ends.
const MOST_ROUNDS: usize = 6;
/// Spikes taken out in one round.
const MOST_SPIKES: usize = 12;
/// Most pieces a search begins with.
const MOST_PIECES: usize = 24;
/// Parameters that a piece costs, as many as a knot: its line and its place would be three, but a piece too many is taken out later,
/// and one too few is harder to find.
const OF_A_PIECE: f64 = 2.0;

/// The taper in readings, in any order. `None` with fewer than two places that can be used, or where all is shorter than the least
/// distance of points, 10 mm.
///
/// Used are readings from 0 to 10 km and from 1 µm to 1 m that the maker has not left out. See the module for how.
pub fn find(readings: &[Reading], asked: &Asked) -> Option<FoundTaper> {
    let data = Data::of(readings, asked, GAP)?;
    let (low, high) = data.range();
    let bounds = Bounds {
        first: 0.0,
        last: data.length,
        gap: GAP,
        // The ends may be drawn farther than they were measured, but not to nothing.
        low: 0.1 * low,
        high: 3.0 * high,
    };
    let mut left_out = if_enough(&data, filtered(&data), vec![false; data.usable.len()]);
    let places = Places::of(&data.usable, &left_out);
    let start = first_line(&places, &data, &bounds);
    let mut line = settled(&places, &data, start, &bounds).line;
    for _ in 0..MOST_ROUNDS {
        let spikes_out = without_spikes(&data, &mut left_out, &mut line, &bounds);
        let next = if_enough(&data, judged(&data, &line), left_out.clone());
        if next == left_out && !spikes_out {
            break;
        }
        left_out = next;
        line = settled(&Places::of(&data.usable, &left_out), &data, line, &bounds).line;
    }
    let places = Places::of(&data.usable, &left_out);
    let (sums, criterion) = (places.sums(), places.criterion(&data));
    let shaper = Shaper {
        sums: &sums,
        bounds: &bounds,
        criterion: &criterion,
    };
    let found = Refined {
        squares: line.squares(&sums),
        line,
    };
    let shaped = shaper.shaped(&found);
    let variance = criterion.variance(shaped.squares, shaped.ties.count());
    Some(answer(
        readings,
        &data,
        &left_out,
        (&shaped, &sums, variance),
    ))
}

/// What is to be left out, or what was before where too little would remain.
fn if_enough(data: &Data, next: Vec<bool>, before: Vec<bool>) -> Vec<bool> {
    if Places::of(&data.usable, &next).len() >= 2 {
        next
    } else {
        before
    }
}

/// The line that follows the best cut into straight pieces.
fn first_line(places: &Places, data: &Data, bounds: &Bounds) -> Broken {
    let sums = places.sums();
    let scatter = scatter(places, data.error);
    let mut penalty = OF_A_PIECE * places.criterion(data).price * scatter * scatter;
    let mut cut = partition(&sums, penalty);
    while cut.ends.len() > MOST_PIECES {
        penalty *= 4.0;
        cut = partition(&sums, penalty);
    }
    join(&sums, &cut, bounds)
}

fn settled(places: &Places, data: &Data, start: Broken, bounds: &Bounds) -> Refined {
    settle(&places.sums(), start, bounds, &places.criterion(data))
}

/// Takes out spikes and lone ends while there are any, and says whether there was one.
fn without_spikes(
    data: &Data,
    left_out: &mut Vec<bool>,
    line: &mut Broken,
    bounds: &Bounds,
) -> bool {
    let mut any = false;
    for _ in 0..MOST_SPIKES {
        let criterion = Places::of(&data.usable, left_out).criterion(data);
        let simpler = without_spike(data, left_out, (line, &criterion), bounds)
            .or_else(|| without_lone_end(data, left_out, line, bounds));
        let Some(simpler) = simpler else {
            break;
        };
        (*left_out, *line) = (simpler.left_out, simpler.line);
        any = true;
    }
    any
}

/// The shape found, in the terms of the readings given.
fn answer(
    readings: &[Reading],
    data: &Data,
    left_out: &[bool],
    (shaped, sums, variance): (&Shaped, &Sums, f64),
) -> FoundTaper {
    let spreads = spreads(shaped, sums, variance);
    let line = &shaped.line;
    // The last digits of mirrored places may differ.
    let last = line.places.len() - 1;
    let place = |knot: usize| match last - knot {
        other if shaped.is_mirrored && other < knot => data.length - line.places[other],
        _ => line.places[knot],
    };
    let points = spreads.into_iter().enumerate();
    let points = points.map(|(knot, (at_spread, diameter_spread))| FoundPoint {
        at: Length::from_metres(place(knot)),
        diameter: Length::from_metres(line.values[knot]),
        at_spread: Length::from_metres(at_spread),
        diameter_spread: Length::from_metres(diameter_spread),
    });
    // The middle of a mirrored line is level by that alone.
    let is_level = line.values.windows(2).zip(&shaped.is_level);
    let is_level = is_level.map(|(pair, is_tied)| *is_tied || pair[0] == pair[1]);
    // What could not be used is left out, too.
    let mut is_out = vec![true; readings.len()];
    for (one, &left_out) in data.usable.iter().zip(left_out) {
        is_out[one.index] = left_out;
    }
    let mut found = FoundTaper {
        points: points.collect(),
        is_level: is_level.collect(),
        is_mirrored: shaped.is_mirrored,
        scatter: Length::from_metres(variance.sqrt()),
        residuals: Vec::new(),
        left_out: is_out,
    };
    let taper = found.taper();
    let residual = |one: &Reading| one.diameter - taper.diameter_at(one.at);
    found.residuals = readings.iter().map(residual).collect();
    found
}
