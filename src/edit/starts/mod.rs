//! Ready drawings to begin a new line from, each of a stated class.
//!
//! [`Start::design`] gives the drawing in the invented workshop of the example, [`Start::on`] the same drawing on the
//! maker's own machine, with the maker's own yarn. Every length, size and count of ends is invented; what kind of line
//! serves for what is common practice, no source.
//!
//! On the maker's own machine the threads are those that suit it (`edit::suitable_threads`).

mod own;

use crate::base::choice::Choice;
use crate::base::units::METRES_PER_FOOT;
use crate::braid::weight::Class;
use crate::design::demo::demo;
use crate::design::settings::Setting;
use crate::design::{Design, Draft, DraftPoint};

pub use crate::edit::suitable_threads::FAR;
pub use own::NoStart;

/// A ready drawing to start from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// One size from end to end: 75 ft.
    Level,
    /// A tip and a taper at either end: 89.5 ft.
    DoubleTaper,
    /// A heavy head of 37 ft and a thin running line: 88 ft.
    WeightForward,
    /// A tip and a taper in front, the belly to the end: 45 ft.
    SingleTaper,
    /// A head of 70 ft with a long front taper, and a running line: 118 ft.
    LongTwoHanded,
}

impl Choice for Start {
    const ALL: &'static [Self] = &[
        Self::Level,
        Self::DoubleTaper,
        Self::WeightForward,
        Self::SingleTaper,
        Self::LongTwoHanded,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Level => "level",
            Self::DoubleTaper => "double-taper",
            Self::WeightForward => "weight-forward",
            Self::SingleTaper => "single-taper",
            Self::LongTwoHanded => "long-two-handed",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Level => "Level line",
            Self::DoubleTaper => "Double taper",
            Self::WeightForward => "Weight-forward",
            Self::SingleTaper => "Single taper",
            Self::LongTwoHanded => "Long two-handed line",
        }
    }
}

/// A drawing that keeps its class in the example's workshop.
struct ReadyDrawing {
    /// The number of the class it keeps.
    class: u8,
    /// Ends plied to a thread, so that tip and belly lie at whole threads.
    ends: f64,
    /// Distances from the tip in feet and finished diameters in millimetres.
    points: &'static [(f64, f64)],
}

/// Fourteen threads of eleven ends.
const LEVEL: ReadyDrawing = ReadyDrawing {
    class: 4,
    ends: 11.0,
    points: &[(0.0, 0.965), (75.0, 0.965)],
};
/// Ten threads at the tips; sixteen of twelve ends in the belly, which for a class 5 is common practice, no source.
const DOUBLE_TAPER: ReadyDrawing = ReadyDrawing {
    class: 5,
    ends: 12.0,
    points: &[
        (0.0, 0.855),
        (0.5, 0.855),
        (10.5, 1.075),
        (79.0, 1.075),
        (89.0, 0.855),
        (89.5, 0.855),
    ],
};
/// Eight threads at the tip and in the running line, sixteen in the belly. A taper back to the running line that is
/// shorter than the belly is common practice, no source.
const WEIGHT_FORWARD: ReadyDrawing = ReadyDrawing {
    class: 6,
    ends: 14.0,
    points: &[
        (0.0, 0.825),
        (0.5, 0.825),
        (10.0, 1.16),
        (30.0, 1.16),
        (37.0, 0.825),
        (88.0, 0.825),
    ],
};
/// Nine threads at the tip, sixteen in the belly. About half a double taper: common practice, no source.
const SINGLE_TAPER: ReadyDrawing = ReadyDrawing {
    class: 7,
    ends: 16.0,
    points: &[(0.0, 0.935), (0.5, 0.935), (10.5, 1.24), (45.0, 1.24)],
};
/// Eight threads at the tip and in the running line, thirteen in the belly. A front taper longer than that of lines for
/// one hand is common practice, no source.
const LONG_TWO_HANDED: ReadyDrawing = ReadyDrawing {
    class: 8,
    ends: 23.0,
    points: &[
        (0.0, 1.055),
        (0.5, 1.055),
        (16.0, 1.34),
        (60.0, 1.34),
        (70.0, 1.055),
        (118.0, 1.055),
    ],
};

impl Start {
    fn drawing(self) -> &'static ReadyDrawing {
        match self {
            Self::Level => &LEVEL,
            Self::DoubleTaper => &DOUBLE_TAPER,
            Self::WeightForward => &WEIGHT_FORWARD,
            Self::SingleTaper => &SINGLE_TAPER,
            Self::LongTwoHanded => &LONG_TWO_HANDED,
        }
    }

    /// What such a line is for, in one sentence. Common practice, no source.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Level => {
                "One size from end to end, with no changes on the way. The easiest line to braid, and a good first one."
            }
            Self::DoubleTaper => {
                "Thin at both ends, so it lands lightly. You can turn it round when one end is worn."
            }
            Self::WeightForward => {
                "The weight is in front, with a thin running line after it. For casting far with little line in the air."
            }
            Self::SingleTaper => {
                "Thin in front only, and short: about half a double taper. Join it to backing or to a running line."
            }
            Self::LongTwoHanded => {
                "A long front taper and a long belly for two-handed rods. Its class counts the first 30 ft, as for every line here."
            }
        }
    }

    /// The class it is drawn for, by its first 30 ft.
    pub fn class(self) -> Class {
        let found = Class::of_number(self.drawing().class);
        found.expect("a ready drawing names a class of the table")
    }

    /// The drawing in the example's workshop: machine, gears, yarn and dressing of [`demo`], with the ends that suit it.
    pub fn design(self) -> Design {
        let mut draft = self.draft_on(&demo(), self.class(), 1.0);
        draft
            .settings
            .set(Setting::EndsPerThread, self.drawing().ends);
        Design::parse(draft).expect("a ready drawing is valid: a test parses each")
    }

    /// The drawing in a workshop, its diameters multiplied by `times` and rounded to whole micrometres.
    fn draft_on(self, workshop: &Design, class: Class, times: f64) -> Draft {
        let point = |&(feet, diameter_mm): &(f64, f64)| DraftPoint {
            at_m: feet * METRES_PER_FOOT,
            diameter_mm: (diameter_mm * times * 1e3).round() / 1e3,
        };
        Draft {
            name: format!("{}, class {}", self.name(), class.number),
            notes: "Started from a ready drawing. Its lengths and sizes are invented.".to_owned(),
            pins: Vec::new(),
            original: None,
            points: self.drawing().points.iter().map(point).collect(),
            ..workshop.draft().clone()
        }
    }
}
