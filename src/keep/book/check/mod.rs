//! What cannot be: numbers of swatches and lines that contradict themselves, each other, or the yarn.
//!
//! A number complained of stays in the book as it was written and is left out of learning until it is corrected.

pub mod line;
mod machine;
mod most;
pub mod swatch;
mod words;

use super::record::LineStage;
use crate::base::units::{Angle, Length, LinearDensity, Mass};
use crate::braid::takeoff::TakeOff;
use crate::braid::yarn::Thread;
use crate::design::Design;
use crate::design::settings::Setting;

/// Contradictions count from this many measuring errors on.
pub const BEYOND: f64 = 3.0;

/// What is wrong with some numbers, and with which.
#[derive(Clone, Debug, PartialEq)]
pub struct Complaint<Field> {
    /// The numbers left out for it; none where nothing was written down yet.
    pub fields: Vec<Field>,
    /// The reason. Shown, it says what to do.
    pub why: Why,
}

/// Why a number is left out.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Infinite or undefined.
    NotANumber,
    /// Zero or less.
    NotPositive(f64),
    /// Broken, where only whole numbers make sense.
    NotWhole(f64),
    /// Outside what there can be.
    OutOfRange {
        /// The number.
        value: f64,
        /// Least there can be.
        low: f64,
        /// Greatest there can be.
        high: f64,
    },
    /// Another number is needed to make sense of this one: its name.
    Alone(&'static str),
    /// Lighter than the yarn in it.
    LighterThanYarn {
        /// The mass.
        mass: Mass,
        /// The yarn alone, laid straight, the finest its label allows.
        yarn: Mass,
    },
    /// Thinner than the yarn in it, were it one solid rod.
    ThinnerThanYarn {
        /// The diameter.
        diameter: Length,
        /// That of the yarn, laid straight and packed as densely as round fibre can be.
        yarn: Length,
    },
    /// The angle does not go with lay and diameter.
    AngleOff {
        /// The angle.
        angle: Angle,
        /// Least angle that lay and diameter leave room for.
        low: Angle,
        /// Greatest such angle.
        high: Angle,
    },
    /// Circuits and crossings tell different lays.
    LaysApart {
        /// By circuits.
        circuits: Length,
        /// By crossings.
        crossings: Length,
    },
    /// Lighter than at an earlier stage: dressing cannot take away.
    LighterThanBefore {
        /// The earlier stage.
        earlier: LineStage,
        /// The later stage.
        later: LineStage,
        /// Mass at the earlier.
        before: Mass,
        /// Mass at the later.
        after: Mass,
    },
    /// The first 30 ft heavier than the whole line.
    HeadOverWhole {
        /// The first 30 ft.
        head: Mass,
        /// The whole.
        whole: Mass,
    },
    /// A line too short to have first 30 ft: this much is missing.
    NoHead(Length),
    /// A place beyond the end of the line.
    BeyondEnd {
        /// The place.
        at: Length,
        /// The length.
        length: Length,
    },
    /// More threads than carriers are mounted on the machine.
    MoreThanCarriers {
        /// The threads.
        threads: f64,
        /// The carriers.
        carriers: u32,
    },
    /// A gear that is not among those owned.
    NoSuchGear {
        /// Its teeth.
        teeth: f64,
        /// Teeth of those owned, as a maker writes them.
        owned: String,
    },
    /// Two gears of the same teeth, of which only one is owned.
    OnlyOneGear(f64),
    /// The wheel that is never changed has other teeth.
    OtherPartner {
        /// What was written down.
        teeth: f64,
        /// Its teeth.
        partner: u32,
    },
    /// A pair that does not fit between fixed centres.
    OtherSum {
        /// Teeth of the pair.
        sum: f64,
        /// Teeth of every pair that fits.
        fits: u32,
    },
    /// Heavier than the yarn in it can be, with all that goes on.
    HeavierThanYarn {
        /// The mass.
        mass: Mass,
        /// The most there can be.
        most: Mass,
    },
    /// Thicker than the yarn in it can make a braid.
    ThickerThanYarn {
        /// The diameter.
        diameter: Length,
        /// The most there can be.
        most: Length,
    },
    /// The line was to have so many coats of oil, and this is one more, or one that its recipe never lets dry.
    NoSuchCoat(usize),
    /// The line was made of another yarn than the workshop's.
    OtherYarn,
    /// The design it was made by cannot be read.
    NoDesign {
        /// Since a newer version of this program wrote it; else it is damaged.
        is_newer: bool,
    },
}

/// A circuit may draw as little as this share of what gears and machine constant say, where it was not measured: the constant may
/// be another machine's still.
const LEAST_LAY: f64 = 0.5;

/// Lengths a bench has room and tools for, metres. What lies beyond these ranges is a slip of the pen or of the unit.
const LENGTHS: (f64, f64) = (0.001, 1_000.0);
/// Masses, grams.
const MASSES: (f64, f64) = (0.001, 10_000.0);
/// Diameters, millimetres.
const DIAMETERS: (f64, f64) = (0.01, 100.0);
/// Counts of circuits and crossings.
const COUNTS: (f64, f64) = (0.5, 1e6);

/// Checks that hold for any number: it must be one, more than nothing, and within a range.
fn plain(value: f64, (low, high): (f64, f64)) -> Option<Why> {
    if !value.is_finite() {
        Some(Why::NotANumber)
    } else if value <= 0.0 {
        Some(Why::NotPositive(value))
    } else {
        within(value, low, high)
    }
}

/// Checks of a number that must lie between two.
fn within(value: f64, low: f64, high: f64) -> Option<Why> {
    let outside = !(low..=high).contains(&value);
    outside.then_some(Why::OutOfRange { value, low, high })
}

/// The yarn of a workshop, as far as checks need it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YarnLimits {
    /// The thread, of any number of ends.
    thread: Thread,
    /// The finest end the label allows.
    finest: LinearDensity,
    /// The heaviest.
    heaviest: LinearDensity,
}

/// What a workshop's yarn and machine allow.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkshopLimits {
    /// Its yarn.
    yarn: YarnLimits,
    /// Carriers mounted.
    carriers: u32,
    /// Gears owned, and the train they serve.
    take_off: TakeOff,
}

impl WorkshopLimits {
    /// Those of a workshop with these settings.
    pub fn of(base: &Design) -> Self {
        Self {
            yarn: YarnLimits::of(base.thread(), base.label_spread()),
            carriers: base.track().carriers(),
            take_off: base.take_off(),
        }
    }
}

/// The densest packing of equal round fibres, π/(2√3). Source: Thue 1890; Tóth 1940, for circles in the plane.
const DENSEST: f64 = core::f64::consts::PI / (2.0 * 1.732_050_807_568_877_2);

impl YarnLimits {
    /// Those of a thread whose label may be off by a share.
    pub fn of(thread: Thread, label_spread: f64) -> Self {
        Self {
            finest: thread.end * (1.0 - label_spread),
            heaviest: thread.end * (1.0 + label_spread),
            thread,
        }
    }

    /// Mass per length of so many ends laid straight, the finest there may be.
    pub fn straight(&self, ends: f64) -> LinearDensity {
        self.finest * ends
    }

    /// Diameter of so many ends laid straight and packed as densely as round fibre can be. Analytic.
    pub fn solid(&self, ends: f64) -> Length {
        let straight = self.straight(ends);
        crate::braid::yarn::round_diameter(straight, self.thread.fibre_density, DENSEST)
    }

    /// The loosest braid of so many ends of which a circuit draws so much: its mass per length and its diameter. It has the
    /// heaviest yarn of the label, the most crimp and the least fibre in its section that can be set.
    ///
    /// Analytic: no thread lies on a wider path than the whole diameter `d`, so with the fibre's section `a` of all ends
    /// laid straight, the crimp `c`, the share of fibre `φ` and the lay `L`, `π/4 d² φ ≤ a (1 + c) √(1 + (π d/L)²)`, which is
    /// solved for `d²`.
    fn loosest(&self, ends: f64, lay: Length) -> (LinearDensity, Length) {
        let longer = 1.0 + Setting::Crimp.rule().high / 100.0;
        let share = Setting::FibreFraction.rule().low / 100.0;
        let straight = self.heaviest * (ends * longer);
        let density = self.thread.fibre_density;
        let round = crate::braid::yarn::round_diameter(straight, density, share).metres();
        let (square, turn) = (round * round, core::f64::consts::PI / lay.metres());
        let bent = square * turn;
        let squared = 0.5 * (bent * bent + (bent.powi(4) + 4.0 * square * square).sqrt());
        let diameter = squared.sqrt();
        let secant = (diameter * turn).hypot(1.0);
        (straight * secant, Length::from_metres(diameter))
    }

    /// Complains of a mass of some length of this many ends.
    fn mass(&self, mass: Mass, length: Length, ends: f64) -> Option<Why> {
        let yarn = length * self.straight(ends);
        let least = yarn - super::errors::of_mass(mass) * BEYOND;
        (mass < least).then_some(Why::LighterThanYarn { mass, yarn })
    }

    /// Complains of a diameter of a braid of this many ends.
    fn diameter(&self, diameter: Length, ends: f64) -> Option<Why> {
        let yarn = self.solid(ends);
        let least = yarn - super::errors::DIAMETER * BEYOND;
        (diameter < least).then_some(Why::ThinnerThanYarn { diameter, yarn })
    }
}
