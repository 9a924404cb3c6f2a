//! The parts of the line: what each weighs, how far that is from the drawing, and why.

use super::drawn::Drawn;
use crate::layout::stops::Crowd;
use crate::layout::{Ground, Layout};
use crate::letters::Letter;
use crate::stretch::BraidedLine;
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
    /// It is drawn level, or has level parts, and threads come whole.
    WholeThreads,
    /// Changes the maker pinned, or gears that leave the angle off.
    AngleOrPins,
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
    let is_crowded = layout.crowds.iter().any(|crowd| within(crowd.at()));
    let wanted =
        [section.from, section.to].map(|at| ground.staircase.wanted(ground.taper.diameter_at(at)));
    let (least, most) = (ground.staircase.least(), ground.staircase.most());
    let is_out = wanted
        .iter()
        .any(|&yarn| yarn < least - 0.5 || yarn > most + 0.5);
    let is_level = has_level_part(ground, section);
    match (is_crowded, is_out, is_level) {
        (true, _, _) => WhyOff::Spacing,
        (_, true, _) => WhyOff::OutOfReach,
        (_, _, true) => WhyOff::WholeThreads,
        _ => WhyOff::AngleOrPins,
    }
}

/// Whether any piece of the drawing within a section is level.
fn has_level_part(ground: &Ground, section: Section) -> bool {
    let points = ground.taper.points();
    points.windows(2).any(|pair| {
        let within = section.from <= pair[0].at && pair[1].at <= section.to;
        within && (pair[0].diameter - pair[1].diameter).abs() <= Length::from_micrometres(1.0)
    })
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

/// Root of the mean square error of the finished diameter against the drawing, as a share. By Simpson's rule over each
/// stretch, which is exact for straight pieces of the drawing.
pub(super) fn diameter_error(ground: &Ground, line: &BraidedLine) -> f64 {
    let squared = |stretch: &crate::stretch::Stretch, at: Length| {
        let made = line.station_in(stretch, at).dressed.diameter;
        (made / ground.taper.diameter_at(at) - 1.0).powi(2)
    };
    let over = |stretch: &crate::stretch::Stretch| {
        let (from, to) = (stretch.from(), stretch.to());
        let middle = (from + to) / 2.0;
        let sum = squared(stretch, from) + 4.0 * squared(stretch, middle) + squared(stretch, to);
        (to - from).metres() * sum / 6.0
    };
    let total: f64 = line.stretches().iter().map(over).sum();
    (total / line.length().metres()).sqrt()
}
