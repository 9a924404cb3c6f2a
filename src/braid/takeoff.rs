//! The take-off: the wheels that can be fitted, and the length each draws.
//!
//! One carrier circuit draws `L = C · driver/driven`: `C` is the machine constant, the length drawn in one circuit when
//! both wheels have equal teeth. Which wheel is fitted where is chosen in [`crate::braid::gearing`].

use crate::base::rule::{Rule, rule};
use crate::base::units::text::Unit;
use core::fmt;

use crate::base::choice::Choice;
use crate::base::units::{Angle, Length};
use crate::braid::geometry::{Braid, Braiding, Load};

/// Teeth of a change gear.
pub const TEETH: Rule = rule("teeth of a change gear", Unit::One, 8.0, 200.0, 1);

/// How the wheels that are changed sit in the train.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Train {
    /// The change gear drives a fixed partner: more teeth draw more.
    Driver,
    /// A fixed partner drives the change gear: more teeth draw less.
    Driven,
    /// Two change gears on fixed centres: their teeth have a constant sum.
    FixedCentres,
    /// Any two of the gears owned.
    FreePair,
}

impl Choice for Train {
    const ALL: &'static [Self] = &[
        Self::Driver,
        Self::Driven,
        Self::FixedCentres,
        Self::FreePair,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Driver => "driver",
            Self::Driven => "driven",
            Self::FixedCentres => "fixed-centres",
            Self::FreePair => "free-pair",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Driver => "change gear drives the fixed gear",
            Self::Driven => "fixed gear drives the change gear",
            Self::FixedCentres => "pair of change gears on fixed centres",
            Self::FreePair => "any two of your gears",
        }
    }
}

impl Train {
    /// Whether both wheels are changed.
    pub const fn is_pair(self) -> bool {
        matches!(self, Self::FixedCentres | Self::FreePair)
    }
}

/// The wheels fitted, of which the train tells which can be changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wheels {
    /// Teeth of the wheel that drives.
    pub driver: u32,
    /// Teeth of the wheel that is driven.
    pub driven: u32,
    /// The train they sit in.
    pub train: Train,
}

impl Wheels {
    /// Teeth of the wheel that is changed; of a pair, of the one that drives.
    pub const fn teeth(self) -> u32 {
        match self.train {
            Train::Driven => self.driven,
            Train::Driver | Train::FixedCentres | Train::FreePair => self.driver,
        }
    }

    /// Length drawn, in machine constants.
    pub fn ratio(self) -> f64 {
        f64::from(self.driver) / f64::from(self.driven)
    }
}

/// What the maker fits: the teeth of the change gear, `22`; of a pair the driver first, `22/38`.
impl fmt::Display for Wheels {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.train {
            Train::Driver => write!(out, "{}", self.driver),
            Train::Driven => write!(out, "{}", self.driven),
            Train::FixedCentres | Train::FreePair => write!(out, "{}/{}", self.driver, self.driven),
        }
    }
}

/// The gears owned and the train they serve.
#[derive(Clone, Debug, PartialEq)]
pub struct TakeOff {
    /// The train.
    pub train: Train,
    /// Teeth of every change gear owned, ascending; one owned twice stands twice.
    pub gears: Vec<u32>,
    /// Teeth of the fixed partner, where there is one.
    pub partner: u32,
    /// Teeth of a pair on fixed centres together.
    pub pair_sum: u32,
    /// Length drawn in one carrier circuit at equal teeth.
    pub constant: Length,
}

/// Wheels for a load, and the braid they make of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The wheels.
    pub wheels: Wheels,
    /// The braid at the lay they draw, settled.
    pub braid: Braid,
}

impl TakeOff {
    /// Length drawn in one carrier circuit by these wheels.
    pub fn lay(&self, wheels: Wheels) -> Length {
        self.constant * wheels.ratio()
    }

    /// Everything that can be fitted with the gears owned, shortest lay first. Of pairs that draw alike only the first
    /// stands. Empty when no two gears owned make a pair.
    pub fn choices(&self) -> Vec<Wheels> {
        let owned = |teeth: u32, beside: u32| {
            let count = self.gears.iter().filter(|&&gear| gear == teeth).count();
            count > usize::from(teeth == beside)
        };
        let mut singles = self.gears.clone();
        singles.dedup();
        let found = match self.train {
            Train::Driver | Train::Driven => {
                singles.iter().map(|&teeth| self.single(teeth)).collect()
            }
            Train::FixedCentres => singles
                .iter()
                .filter_map(|&driver| {
                    let driven = self.pair_sum.checked_sub(driver)?;
                    owned(driven, driver).then(|| self.pair(driver, driven))
                })
                .collect(),
            Train::FreePair => pairs(&singles)
                .filter(|&(driver, driven)| owned(driven, driver))
                .map(|(driver, driven)| self.pair(driver, driven))
                .collect(),
        };
        ordered(found)
    }

    /// Whether the gears owned make these wheels. [`TakeOff::choices`] names only one of those that draw alike.
    pub fn can_fit(&self, wheels: Wheels) -> bool {
        let Wheels {
            driver,
            driven,
            train,
        } = wheels;
        let owned = |teeth: u32| self.gears.iter().filter(|&&gear| gear == teeth).count();
        let both = owned(driver) > usize::from(driver == driven) && owned(driven) > 0;
        train == self.train
            && match train {
                Train::Driver => driven == self.partner && owned(driver) > 0,
                Train::Driven => driver == self.partner && owned(driven) > 0,
                Train::FixedCentres => driver + driven == self.pair_sum && both,
                Train::FreePair => both,
            }
    }

    /// The sum that most pairs of the gears owned have; of several the smallest. `None` of fewer than two gears.
    pub fn likeliest_pair_sum(&self) -> Option<u32> {
        let pairs = |&sum: &u32| {
            let fixed = Self {
                train: Train::FixedCentres,
                pair_sum: sum,
                ..self.clone()
            };
            fixed.choices().len()
        };
        let mut sums: Vec<u32> = Vec::new();
        for (index, one) in self.gears.iter().enumerate() {
            sums.extend(self.gears[index + 1..].iter().map(|other| one + other));
        }
        sums.sort_unstable();
        sums.dedup();
        let best = sums.iter().map(pairs).max()?;
        sums.into_iter().find(|sum| pairs(sum) == best)
    }

    /// Everything that could be fitted if one wheel more, of any teeth in a range, were bought; of a pair on fixed
    /// centres, both.
    pub fn choices_with_one_more(&self, teeth: core::ops::RangeInclusive<u32>) -> Vec<Wheels> {
        let fits = |teeth: &u32| (TEETH.low..=TEETH.high).contains(&f64::from(*teeth));
        let found = match self.train {
            Train::Driver | Train::Driven => teeth.map(|teeth| self.single(teeth)).collect(),
            Train::FixedCentres => teeth
                .filter_map(|driver| {
                    let driven = self.pair_sum.checked_sub(driver).filter(fits)?;
                    Some(self.pair(driver, driven))
                })
                .collect(),
            Train::FreePair => teeth
                .flat_map(|new| {
                    let both = |&owned: &u32| [self.pair(new, owned), self.pair(owned, new)];
                    self.gears.iter().flat_map(both).collect::<Vec<_>>()
                })
                .collect(),
        };
        ordered(found)
    }

    /// Of these wheels, shortest lay first, those that bring a load nearest to the target angle. `None` of none.
    ///
    /// A longer lay gives a smaller angle, so only the two on either side of the ideal lay can be nearest.
    pub fn nearest(
        &self,
        choices: &[Wheels],
        braiding: &Braiding,
        load: Load,
        target: Angle,
    ) -> Option<Fit> {
        let ideal = braiding.at_angle(load, target).lay;
        let above = choices.partition_point(|&wheels| self.lay(wheels) < ideal);
        let fit = |&wheels: &Wheels| Fit {
            wheels,
            braid: braiding.at_lay(load, self.lay(wheels)),
        };
        let short = above.checked_sub(1).and_then(|below| choices.get(below));
        let long = choices.get(above);
        let off = |fit: &Fit| (fit.braid.angle - target).abs();
        match (short.map(fit), long.map(fit)) {
            (Some(short), Some(long)) if off(&long) < off(&short) => Some(long),
            (Some(short), _) => Some(short),
            (None, long) => long,
        }
    }

    fn single(&self, teeth: u32) -> Wheels {
        let (driver, driven) = match self.train {
            Train::Driven => (self.partner, teeth),
            Train::Driver | Train::FixedCentres | Train::FreePair => (teeth, self.partner),
        };
        self.pair(driver, driven)
    }

    fn pair(&self, driver: u32, driven: u32) -> Wheels {
        Wheels {
            driver,
            driven,
            train: self.train,
        }
    }
}

/// Every ordered pair of these, a wheel with itself included.
fn pairs(singles: &[u32]) -> impl Iterator<Item = (u32, u32)> {
    let with = |&driver: &u32| singles.iter().map(move |&driven| (driver, driven));
    singles.iter().flat_map(with)
}

/// By lay, and of those that draw alike only the one with the fewest teeth.
fn ordered(mut found: Vec<Wheels>) -> Vec<Wheels> {
    found.sort_by_key(|wheels| wheels.driver + wheels.driven);
    found.sort_by(|a, b| a.ratio().total_cmp(&b.ratio()));
    found.dedup_by(|a, b| a.ratio() == b.ratio());
    found
}

/// How a machine constant is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measured {
    /// A braid was made with known wheels, and carrier circuits were counted over a length of it.
    Circuits {
        /// Carrier circuits counted.
        circuits: f64,
        /// Length braided in them.
        length: Length,
        /// Driver over driven.
        ratio: f64,
    },
    /// Crossings were counted along one rib of a finished braid.
    Crossings {
        /// Crossings counted.
        crossings: f64,
        /// Length they were counted over.
        length: Length,
        /// Threads engaged.
        threads: f64,
        /// Driver over driven.
        ratio: f64,
    },
    /// The machine's own wheels were counted and its roller measured.
    Roller {
        /// Horn gears in the ring.
        horn_gears: f64,
        /// Diameter of the roller that draws.
        diameter: Length,
        /// Turns of the roller in one turn of a horn gear, at equal change gears.
        train: f64,
    },
}

impl Measured {
    /// The machine constant that follows; not finite or not positive where nothing sensible was measured.
    ///
    /// Circuits: `length ÷ circuits ÷ ratio`. Crossings: a rib has N/(2L) of them a metre, so `L = N·length/(2·crossings)`.
    /// Roller: a circuit takes H/2 turns of a horn gear, so `C = H/2 · π · D · train`. Analytic.
    pub fn constant(self) -> Length {
        match self {
            Self::Circuits {
                circuits,
                length,
                ratio,
            } => length / (circuits * ratio),
            Self::Crossings {
                crossings,
                length,
                threads,
                ratio,
            } => length * (threads / (2.0 * crossings * ratio)),
            Self::Roller {
                horn_gears,
                diameter,
                train,
            } => diameter * (horn_gears / 2.0 * core::f64::consts::PI * train),
        }
    }
}
