//! The parts of the line: what each weighs, how far that is from the drawing, and why.

use super::drawn::Drawn;
use crate::layout::stops::Crowd;
use crate::layout::{Ground, Layout};
use crate::letters::Letter;
use crate::stretch::{BraidedLine, Stretch};
use crate::taper::Section;
use crate::units::{Length, Mass};

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

/// A section may be this share off its drawing before that is said.
const SAID_FROM: f64 = 0.01;

impl SectionWeight {
    /// How much heavier than drawn it is, as a share; lighter where negative.
    pub fn off(&self) -> f64 {
        self.mass / self.drawn - 1.0
    }
}

pub(super) fn weigh(
    ground: &Ground,
    drawn: &Drawn<'_>,
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
    } else if layout.crowds.iter().any(|crowd| within(crowd.at())) {
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

impl Crowd {
    /// Where it is.
    pub fn at(&self) -> Length {
        match *self {
            Self::Together { at, .. } | Self::Close { at, .. } => at,
            Self::LeftOut { into, .. } => into.change.at,
        }
    }
}

/// Lags behind which the way to rest is no longer followed piece by piece.
const FOLLOWED: [f64; 3] = [0.5, 1.5, 4.0];

/// Root of the mean square error of the finished diameter against the drawing, as a share. By Simpson's rule between control
/// points, ends of stretches, and some places on the way to rest: a few thousandths of it off at most.
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
    let (from, to) = (stretch.from(), stretch.to());
    let points = ground.taper.points();
    let first = points.partition_point(|point| point.at <= from);
    let drawn = points[first..].iter().map(|point| point.at);
    let drawn = drawn.take_while(|&at| at < to);
    let followed = FOLLOWED.map(|lags| from + stretch.convergence.lag() * lags);
    let is_within = |at: &Length| !stretch.convergence.is_at_rest() && *at < to;
    let mut cuts: Vec<Length> = drawn
        .chain(followed.into_iter().filter(is_within))
        .collect();
    cuts.extend([from, to]);
    cuts.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
    let squared = |at: Length| {
        let made = line.station_in(stretch, at).dressed.diameter;
        (made / ground.taper.diameter_at(at) - 1.0).powi(2)
    };
    let over = |pair: &[Length]| {
        let (a, b) = (pair[0], pair[1]);
        let sum = squared(a) + 4.0 * squared((a + b) / 2.0) + squared(b);
        (b - a).metres() * sum / 6.0
    };
    cuts.windows(2).map(over).sum()
}
