//! What the head of a line will weigh, by how much it may differ, and how likely each class is.
//!
//! The variance is `gᵀ Σ g + (s m)²`: `Σ` is the covariance of the parameters, `g` the gradient of the head's mass `m`, `s`
//! what differs from one line to the next of the same hand. Of the braid's four parameters `g` takes one braiding more
//! each, of what lies within the head; those of the dressing change no braid.

pub mod knowledge;
pub(crate) mod other_parameters;
pub mod prior;

use crate::base::units::{Density, Length, Mass};
use crate::braid::stretch::{BraidedLine, Part, Piece};
use crate::braid::weight::{CLASSES, Class, Verdict};
use crate::design::Design;
use crate::design::parameters::{COUNT, Parameter, Parameters};
use knowledge::Knowledge;
use other_parameters::{braided, materials};

/// Spreads on either side of the mean that hold 95 of 100 of a normal distribution. Source: any table of it.
pub const NINETY_FIVE: f64 = 1.959_963_984_540_054;
/// A parameter is moved by this share of its spread to see what follows.
const NUDGE: f64 = 0.1;

/// What the head of a line will weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct Prediction {
    /// As planned.
    pub mass: Mass,
    /// One standard deviation of what it will be.
    pub spread: Mass,
    /// The chance of each class, in the order of [`CLASSES`]; the rest up to 1 is the chance of no class.
    pub chances: [f64; CLASSES.len()],
}

/// The share of a normal distribution below `z` spreads from its mean, Φ(z) = ½ (1 + erf(z/√2)). Analytic.
pub fn normal(z: f64) -> f64 {
    0.5 * (1.0 + libm::erf(z * core::f64::consts::FRAC_1_SQRT_2))
}

impl Prediction {
    /// A mass with its spread.
    pub fn new(mass: Mass, spread: Mass) -> Self {
        Self {
            mass,
            spread,
            chances: CLASSES
                .map(|class| below(mass, spread, class.high) - below(mass, spread, class.low)),
        }
    }

    /// The head of a braided design between two places, from its own pieces.
    pub fn of(
        design: &Design,
        pieces: &[Piece],
        line: &BraidedLine,
        ends: (Length, Length),
    ) -> Self {
        let knowledge = Knowledge::of(design);
        let slopes = Slopes {
            design,
            line,
            head: line.part(ends.0, ends.1),
            pieces: &pieces[..pieces.partition_point(|piece| piece.from < ends.1)],
            ends,
            planned: design.parameters(),
        };
        let mass = line.mass(ends.0, ends.1);
        let by_spread: [f64; COUNT] = core::array::from_fn(|index| {
            let spread = knowledge.spreads[index];
            slopes.by_spread(Parameter::ALL[index], spread, mass)
        });
        let scatter = knowledge.scatter * mass.grains();
        let variance = knowledge.variance(&by_spread) + scatter * scatter;
        Self::new(mass, Mass::from_grains(variance.sqrt()))
    }

    /// The margin on either side that 95 of 100 such lines keep.
    pub fn margin(&self) -> Mass {
        self.spread * NINETY_FIVE
    }

    /// The chance of one class.
    pub fn chance_of(&self, class: &Class) -> f64 {
        let place = CLASSES.iter().position(|one| one == class);
        place.map_or(0.0, |place| self.chances[place])
    }

    /// The verdict most likely, with its chance: a class, the gap between two, or what lies beyond the table.
    pub fn likeliest(&self) -> (Verdict, f64) {
        let classes = CLASSES.map(Verdict::Within).into_iter().zip(self.chances);
        let gaps = CLASSES.windows(2).map(|pair| {
            let (lighter, heavier) = (pair[0], pair[1]);
            let chance = self.below(heavier.low) - self.below(lighter.high);
            (Verdict::Between(lighter, heavier), chance)
        });
        let last = CLASSES[CLASSES.len() - 1];
        let beyond = [
            (Verdict::UnderFirst(self.mass), self.below(CLASSES[0].low)),
            (Verdict::OverLast(self.mass), 1.0 - self.below(last.high)),
        ];
        let none = (Verdict::Within(CLASSES[0]), f64::NEG_INFINITY);
        let all = classes.chain(gaps).chain(beyond);
        all.fold(none, |best, next| if next.1 > best.1 { next } else { best })
    }

    /// The chance that the head is lighter than so many grains.
    fn below(&self, grains: f64) -> f64 {
        below(self.mass, self.spread, grains)
    }

    /// The whole in words: `141 ± 4 gr, 96 % chance of class 5`; beyond the table `2561 ± 80 gr, more than 99 % chance of
    /// a weight above class 15`.
    pub fn words(&self) -> String {
        let (verdict, chance) = self.likeliest();
        let class = match verdict {
            Verdict::Within(class) => format!("class {}", class.number),
            Verdict::Between(lighter, heavier) => {
                format!(
                    "a weight between classes {} and {}",
                    lighter.number, heavier.number
                )
            }
            Verdict::UnderFirst(_) => format!("a weight below class {}", CLASSES[0].number),
            Verdict::OverLast(_) => {
                format!("a weight above class {}", CLASSES[CLASSES.len() - 1].number)
            }
            Verdict::Missing(_) => "no class".to_owned(),
        };
        format!(
            "{:.0} ± {:.0} gr, {} chance of {class}",
            self.mass.grains(),
            self.margin().grains(),
            chance_percent(chance)
        )
    }
}

/// The chance that a mass with a spread is less than so many grains.
fn below(mass: Mass, spread: Mass, grains: f64) -> f64 {
    let off = Mass::from_grains(grains) - mass;
    if spread > Mass::ZERO {
        normal(off / spread)
    } else {
        f64::from(u8::from(off >= Mass::ZERO))
    }
}

/// A chance in percent: `96 %`. Never all, never none.
pub fn chance_percent(chance: f64) -> String {
    let hundredths = (100.0 * chance).round();
    if hundredths < 1.0 {
        "less than 1 %".to_owned()
    } else if hundredths > 99.0 {
        "more than 99 %".to_owned()
    } else {
        format!("{hundredths} %")
    }
}

/// How a head's mass depends on the parameters.
struct Slopes<'a> {
    design: &'a Design,
    line: &'a BraidedLine,
    head: Part,
    pieces: &'a [Piece],
    ends: (Length, Length),
    planned: Parameters,
}

impl Slopes<'_> {
    /// What one spread of a parameter adds to the mass, in grains.
    fn by_spread(&self, parameter: Parameter, spread: f64, mass: Mass) -> f64 {
        if spread <= 0.0 {
            return 0.0;
        }
        match parameter {
            Parameter::Constant | Parameter::Crimp | Parameter::FibreFraction | Parameter::Yarn => {
                self.of_braid(parameter, spread, mass)
            }
            Parameter::OilFill | Parameter::VarnishPickUp | Parameter::Weighed => {
                self.of_dressing(parameter, spread)
            }
        }
    }

    /// Downwards, where a step upwards would leave the parameter's range.
    fn of_braid(&self, parameter: Parameter, spread: f64, mass: Mass) -> f64 {
        let value = self.planned.get(parameter);
        let rule = parameter.setting().rule();
        let nudge = NUDGE * spread;
        let nudge = if value + nudge > rule.high {
            -nudge
        } else {
            nudge
        };
        let moved = self.planned.with(parameter, value + nudge);
        let line = braided(self.design, *self.line.process(), self.pieces, &moved);
        (line.mass(self.ends.0, self.ends.1) - mass).grains() / nudge * spread
    }

    /// Over a whole spread to either side: what pressure lets into a void ends abruptly, so that no slope at one point
    /// would tell it.
    fn of_dressing(&self, parameter: Parameter, spread: f64) -> f64 {
        let mass = |by: f64| {
            let value = (self.planned.get(parameter) + by).max(0.0);
            let moved = self.planned.with(parameter, value);
            let dressing = materials(self.design, &moved).finished(&self.design.draft().recipe);
            self.head.mass_with(&dressing, Density::ZERO)
        };
        0.5 * (mass(spread) - mass(-spread)).grains()
    }
}
