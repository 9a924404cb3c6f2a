//! Why a design was refused, said about the input: which value, and what would be allowed.

mod words;

use super::settings::Setting;
use crate::base::rule::{Misfit, Rule};
use crate::base::units::text::Unit;
use crate::braid::takeoff::Train;
use crate::braid::track::{NoTrack, Pattern};

/// Where on the page the refused value stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A numbered setting.
    Setting(Setting),
    /// The pattern of the track.
    Pattern,
    /// The list of gears.
    Gears,
    /// What the maker insists on, by its place in the list.
    Pin(usize),
    /// The control point of this index.
    Point(usize),
    /// The taper as a whole.
    Taper,
    /// The line's name.
    Name,
    /// The notes.
    Notes,
    /// The dressing step of this index.
    Step(usize),
    /// The name of the workshop.
    Workshop,
    /// What was learnt from measuring.
    Learned,
    /// The line it is a copy of.
    Original,
    /// A reading of a measured line, by its place in the list.
    Reading(usize),
    /// A weight of a measured line.
    Weight,
    /// A piece of a measured line that was weighed, by its place in the list.
    Cut(usize),
    /// A row of a table that was not understood, by its place in the list.
    Unread(usize),
    /// The length of a measured line.
    Length,
    /// The micrometer.
    Micrometer,
}

/// What the input did wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// A number does not fit its rule.
    Misfit {
        /// Where.
        place: Place,
        /// What is wrong with it.
        misfit: Misfit,
    },
    /// A number that follows from others, as it was typed, is outside the range they leave it.
    OutsideRange {
        /// Where.
        place: Place,
        /// What it is: `the length of the belly, from point 3 to point 4,`.
        what: String,
        /// The number, in `unit`.
        value: f64,
        /// From where to where it may be, in `unit`.
        range: (f64, f64),
        /// The unit.
        unit: Unit,
    },
    /// The finest end on the label is heavier than the heaviest.
    LabelUpsideDown {
        /// Finest end, denier.
        low: f64,
        /// Heaviest end, denier.
        high: f64,
    },
    /// The braid would hold more fibre in its section than its threads do in theirs.
    BraidDenserThanThread {
        /// Fibre in the braid's section, percent.
        braid: f64,
        /// Fibre in the thread's section, percent.
        thread: f64,
    },
    /// There is no room for another point at a place.
    NoRoomAt {
        /// The place, metres from the tip.
        at: f64,
    },
    /// The point of this index is the middle of a line whose ends are to stay alike.
    MiddleStays(usize),
    /// There is no such track, or it cannot be mounted so.
    NoSuchTrack {
        /// Horn gears wanted.
        horn_gears: f64,
        /// Pattern wanted.
        pattern: Pattern,
        /// What speaks against it.
        why: NoTrack,
    },
    /// More threads than the machine has carriers.
    MoreThreadsThanCarriers {
        /// The setting that asks for them.
        setting: Setting,
        /// Threads wanted.
        threads: f64,
        /// Carriers there are.
        carriers: f64,
    },
    /// The fewest threads are more than the most.
    FewestAboveMost {
        /// Fewest threads.
        fewest: f64,
        /// Most threads.
        most: f64,
    },
    /// One direction would run more than one thread ahead of the other.
    Lopsided {
        /// Threads wanted.
        threads: f64,
        /// Most threads of which neither direction has more than one too many.
        balanced: f64,
    },
    /// The heavier thread is not heavier.
    HeavierNotHeavier {
        /// Ends of the standard thread.
        light: f64,
        /// Ends of the heavier thread.
        heavy: f64,
    },
    /// No two gears owned make a pair for the train.
    NoPair {
        /// The train.
        train: Train,
        /// Teeth a pair on fixed centres has together.
        sum: f64,
    },
    /// The bobbin has no room between barrel and flange.
    BobbinWithoutRoom {
        /// Diameter of the barrel, millimetres.
        barrel: f64,
        /// Diameter full, millimetres.
        full: f64,
    },
    /// More pins than there is room for.
    PinCount(usize),
    /// A pin of more threads than any machine has.
    BadPin(usize),
    /// More dressing steps than there is room for.
    StepCount(usize),
    /// More would be left in the jar than there is air around it.
    AboveAir {
        /// Index of the step.
        index: usize,
        /// Pressure asked for, millibars.
        mbar: f64,
        /// Pressure of the air, millibars.
        air_mbar: f64,
    },
    /// Too few or too many gears.
    GearCount(usize),
    /// Too few or too many control points.
    PointCount(usize),
    /// The first control point is not at the tip.
    TipNotAtZero {
        /// Where it is, metres.
        at: f64,
    },
    /// A control point stands before its predecessor, or too close after it.
    PointsTooClose {
        /// Index of the point.
        index: usize,
        /// Its position, metres.
        at: f64,
        /// That of its predecessor, metres.
        previous: f64,
    },
    /// More of something in a measured line than there is room for.
    TooMany {
        /// Where the first is that is too many.
        place: Place,
        /// What, in words: `readings`.
        what: &'static str,
        /// How many.
        count: usize,
        /// How many there is room for.
        allowed: usize,
    },
    /// The weighed piece of this index does not end after it begins.
    CutWithoutLength(usize),
    /// A measured line would end before its last reading.
    ShorterThanReadings {
        /// The length given, metres.
        length: f64,
        /// Where the last reading is, metres.
        last: f64,
    },
    /// A text is longer than there is room for.
    TextTooLong {
        /// Where.
        place: Place,
        /// Characters given.
        characters: usize,
        /// Characters allowed.
        allowed: usize,
    },
}

/// Most change gears in a design.
pub const MOST_GEARS: usize = 60;
/// Most pins in a design.
pub const MOST_PINS: usize = 100;
/// Most control points in a design.
pub const MOST_POINTS: usize = 1000;
/// Least distance between control points, in metres: closer than a maker can place a change.
pub const LEAST_SPACING: f64 = 0.01;

/// The value brought to the nearest step of its rule.
///
/// # Errors
/// [`Refusal::Misfit`] with the place, when it does not fit.
pub fn admit(rule: Rule, value: f64, place: Place) -> Result<f64, Refusal> {
    let refused = |misfit| Refusal::Misfit { place, misfit };
    rule.admit(value).map_err(refused)
}

impl Refusal {
    /// Where on the page the refused value stands.
    pub fn place(&self) -> Place {
        match *self {
            Self::Misfit { place, .. }
            | Self::OutsideRange { place, .. }
            | Self::TooMany { place, .. }
            | Self::TextTooLong { place, .. } => place,
            Self::LabelUpsideDown { .. } => Place::Setting(Setting::LabelHigh),
            Self::BraidDenserThanThread { .. } => Place::Setting(Setting::FibreFraction),
            Self::NoSuchTrack { .. } => Place::Pattern,
            Self::MoreThreadsThanCarriers { setting, .. } => Place::Setting(setting),
            Self::FewestAboveMost { .. } | Self::Lopsided { .. } => {
                Place::Setting(Setting::MostThreads)
            }
            Self::HeavierNotHeavier { .. } => Place::Setting(Setting::HeavierEnds),
            Self::BobbinWithoutRoom { .. } => Place::Setting(Setting::BobbinFull),
            Self::StepCount(index) | Self::AboveAir { index, .. } => Place::Step(index),
            Self::GearCount(_) | Self::NoPair { .. } => Place::Gears,
            Self::CutWithoutLength(index) => Place::Cut(index),
            Self::ShorterThanReadings { .. } => Place::Length,
            Self::PinCount(index) | Self::BadPin(index) => Place::Pin(index),
            Self::PointCount(_) | Self::NoRoomAt { .. } => Place::Taper,
            Self::TipNotAtZero { .. } => Place::Point(0),
            Self::PointsTooClose { index, .. } | Self::MiddleStays(index) => Place::Point(index),
        }
    }
}
