//! The parts of the line: what each weighs, how far that is from the drawing, and why.

use super::drawn_mass::DrawnMass;
use crate::base::units::{Length, Mass};
use crate::braid::letters::Letter;
use crate::braid::stretch::{BraidedLine, Stretch};
use crate::braid::taper::Section;
use crate::plan::layout::stops::Crowding;
use crate::plan::layout::{Ground, Layout};

/// A section with its weights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionWeight {
    /// Which part, and where.
    pub section: Section,
    /// Mass as planned, in whole threads at the angle that really comes.
    pub mass: Mass,
    /// Mass the drawing asks for, at the target angle.
    pub drawn: Mass,
    /// Silk size letters at its beginning and its end; `None` outside the table.
    pub letters: (Option<Letter>, Option<Letter>),
    /// Why its mass is more than a hundredth from the drawing, if it is.
    pub why_off: Option<WhyOff>,
}

/// Why a section does not have the mass drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyOff {
    /// Changes in it would come closer than the least distance.
    Spacing,
    /// The drawing is thicker or thinner than the threads there are.
    OutOfReach,
    /// Changes in it are pinned elsewhere.
    Pins,
    /// Threads come whole, and gears leave the angle a little off.
    WholeThreads,
}

/// From this share off its drawing a section gets a notice.
const SAID_FROM: f64 = 0.01;

impl SectionWeight {
    /// How much heavier than drawn it is, as a share; lighter where negative.
    pub fn off(&self) -> f64 {
        self.mass / self.drawn - 1.0
    }
}

pub(super) fn weigh(
    ground: &Ground,
    drawn: &DrawnMass<'_>,
    layout: &Layout,
    line: &BraidedLine,
    sections: &[Section],
) -> Vec<SectionWeight> {
    let begin = |at: Length| Letter::nearest(line.station(at).dressed.diameter);
    let end = |at: Length| Letter::nearest(line.station_before(at).dressed.diameter);
    let weigh = |&section: &Section| {
        let mass = line.mass(section.from, section.to);
        let drawn = drawn.mass_between((section.from, section.to));
        let weight = SectionWeight {
            section,
            mass,
            drawn,
            letters: (begin(section.from), end(section.to)),
            why_off: None,
        };
        SectionWeight {
            why_off: (weight.off().abs() > SAID_FROM).then(|| why(ground, layout, section)),
            ..weight
        }
    };
    sections.iter().map(weigh).collect()
}

fn why(ground: &Ground, layout: &Layout, section: Section) -> WhyOff {
    let within = |at: Length| section.from <= at && at <= section.to;
    let (least, most) = (ground.staircase.least(), ground.staircase.most());
    let is_out = |&&at: &&Length| {
        let yarn = ground.staircase.wanted(ground.taper.diameter_at(at));
        yarn < least - 0.5 || yarn > most + 0.5
    };
    let points = ground.taper.points().iter().map(|point| point.at);
    let drawn: Vec<Length> = points.filter(|&at| within(at)).collect();
    if drawn.iter().any(|at| is_out(&at)) {
        WhyOff::OutOfReach
    } else if layout.crowdings.iter().any(|crowd| within(crowd.at())) {
        WhyOff::Spacing
    } else if layout
        .stops
        .iter()
        .any(|stop| within(stop.at) && stop.is_pinned())
    {
        WhyOff::Pins
    } else {
        WhyOff::WholeThreads
    }
}

impl Crowding {
    /// Where it is.
    pub fn at(&self) -> Length {
        match *self {
            Self::Together { at, .. } | Self::Close { at, .. } => at,
            Self::LeftOut { into, .. } => into.change.at,
        }
    }
}

/// Distances, in lags, at which the way to the steady state is divided, and the share of a step left there: e to the power of
/// minus that number.
const FOLLOWED: [(f64, f64); 3] = [
    (0.5, 0.606_530_659_712_633_4),
    (1.5, 0.223_130_160_148_429_83),
    (4.0, 0.018_315_638_888_734_18),
];

/// Root of the mean square error of the finished diameter against the drawing, as a share. By Simpson's rule between control
/// points, ends of stretches, and some places on the way to the steady state: a few thousandths of it off at most.
pub(super) fn diameter_error(ground: &Ground, line: &BraidedLine) -> f64 {
    let total: f64 = line
        .stretches()
        .iter()
        .map(|stretch| squared_error(ground, line, stretch))
        .sum();
    (total / line.length().metres()).sqrt()
}

/// Squared error of the diameter times length over one stretch.
fn squared_error(ground: &Ground, line: &BraidedLine, stretch: &Stretch) -> f64 {
    let way = &stretch.convergence;
    let film = line.process().dressing.film * 2.0;
    let squared = |left: f64, drawn: Length| {
        let made = stretch.diameter_with(left) + film;
        (made / drawn - 1.0).powi(2)
    };
    let drawn_at = |at: Length| ground.taper.diameter_at(at);
    let (mut from, mut left, mut drawn) = (stretch.from(), 1.0, drawn_at(stretch.from()));
    let (mut before, mut total) = (squared(left, drawn), 0.0);
    for (at, left_at) in cuts(ground, stretch) {
        let left_at = left_at.unwrap_or_else(|| way.left(at - stretch.from()));
        let drawn_at = drawn_at(at);
        // Half-way the geometric mean of the step is left.
        let middle = squared((left * left_at).sqrt(), (drawn + drawn_at) / 2.0);
        let after = squared(left_at, drawn_at);
        total += (at - from).metres() * (before + 4.0 * middle + after) / 6.0;
        (from, left, drawn, before) = (at, left_at, drawn_at, after);
    }
    total
}

/// Control points within a stretch, places on the way to the steady state, and its end; with the share of the step left, where
/// that is known.
fn cuts(ground: &Ground, stretch: &Stretch) -> impl Iterator<Item = (Length, Option<f64>)> {
    let (from, to, way) = (stretch.from(), stretch.to(), stretch.convergence);
    let points = ground.taper.points();
    let first = points.partition_point(|point| point.at <= from);
    let drawn = points[first..].iter().map(|point| point.at);
    let mut drawn = drawn.take_while(move |&at| at < to).peekable();
    let followed = FOLLOWED.map(|(lags, left)| (from + way.lag() * lags, Some(left)));
    let is_within = move |(at, _): &(Length, Option<f64>)| !way.is_steady() && *at < to;
    let mut followed = followed.into_iter().filter(is_within).peekable();
    let mut end = Some((to, None));
    core::iter::from_fn(move || match (drawn.peek(), followed.peek()) {
        (Some(&point), Some(&(at, _))) if point < at => drawn.next().map(|at| (at, None)),
        (Some(_), None) => drawn.next().map(|at| (at, None)),
        (_, Some(_)) => followed.next(),
        (None, None) => end.take(),
    })
}
