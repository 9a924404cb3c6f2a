//! A ready drawing on the maker's own machine, with the maker's own yarn.

use core::fmt;

use super::Start;
use crate::base::units::{Angle, Mass};
use crate::braid::weight::{Class, Verdict};
use crate::design::Design;
use crate::design::refusal::Refusal;
use crate::edit::Edit;
use crate::edit::finder::ThreadPlan;
use crate::edit::suitable_threads::{nearest_far_angle, suitable_threads};
use crate::plan::Plan;

/// Most rounds of drawing thicker or thinner; a few are enough unless the film is thick.
const ROUNDS: u32 = 24;
/// How far the drawing may be from the target, as a share of it.
const NEAR_ENOUGH: f64 = 1e-3;

/// Why a ready drawing cannot be made on the maker's own machine.
#[derive(Clone, Debug, PartialEq)]
pub enum NoStart {
    /// The machine and the yarn make no line of the drawing, which was to be of this class.
    NotBraided(Class),
    /// They make one, but not of its class.
    OffClass {
        /// The class wanted.
        class: Class,
        /// The nearest head mass.
        nearest: Mass,
    },
    /// They make one of its class, but only with the angle far from the target.
    AngleFar {
        /// The class wanted.
        class: Class,
        /// The angle where it is farthest off, of the threads that do best.
        angle: Angle,
    },
    /// At the size it would need it is no valid design.
    Refused(Refusal),
}

impl From<Refusal> for NoStart {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl fmt::Display for NoStart {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotBraided(class) => write!(
                out,
                "Your yarn, machine and gears give no sound braid for this drawing in class {}.",
                class.number
            )?,
            Self::OffClass { class, nearest } => {
                write!(
                    out,
                    "With your yarn, machine and gears, the first 30 ft stay {1:.1} grains away from class {0}. That \
                     class is {2} to {3} grains.",
                    class.number,
                    nearest.grains(),
                    class.low,
                    class.high
                )?;
            }
            Self::AngleFar { class, angle } => {
                write!(
                    out,
                    "With your yarn, machine and gears, class {} ({} to {} grains) needs a braid angle of {:.1}°. \
                     That is far from your target angle.",
                    class.number,
                    class.low,
                    class.high,
                    angle.degrees()
                )?;
            }
            Self::Refused(refusal) => write!(out, "{refusal}")?,
        }
        write!(
            out,
            " Choose another class or another workshop. Or change yarn, gears or machine in the workshop first."
        )
    }
}

impl Start {
    /// The same drawing on the machine of another design, with its yarn, gears, take-off and dressing: all but points,
    /// pins, name, notes, ends and build is kept, so also the fewest and the most threads. It is drawn thicker or thinner until
    /// it weighs what its class asks for; then the best threads are searched for. The maker's own ends are kept if they do.
    ///
    /// # Errors
    /// [`NoStart`] when that makes no line of the class.
    pub fn on(self, workshop: &Design, class: Class) -> Result<Design, NoStart> {
        let drawn = self.of_target_weight(workshop, class)?;
        match suitable_threads(&drawn, |plan| is_of(class, plan)) {
            Ok(supply) => Ok(Edit::Supply(supply).apply(&drawn)?),
            Err(tried) => Err(why_none(class, tried.iter(), workshop)),
        }
    }

    /// The drawing at the size at which it weighs the target of its class, as if the thread count were not whole: a lighter
    /// fibre needs a thicker line. Mass is roughly proportional to the square of the size; because of the film it takes a few rounds.
    fn of_target_weight(self, workshop: &Design, class: Class) -> Result<Design, Refusal> {
        let target = Mass::from_grains(class.target);
        let mut times = 1.0;
        let mut design = Design::parse(self.draft_on(workshop, class, times))?;
        for _ in 0..ROUNDS {
            let share = target / Plan::of(&design).head_drawn.unwrap_or(target);
            if (share - 1.0).abs() < NEAR_ENOUGH {
                break;
            }
            times *= share.sqrt();
            design = Design::parse(self.draft_on(workshop, class, times))?;
        }
        Ok(design)
    }
}

/// Whether a plan can be braided and makes a line of the class.
fn is_of(class: Class, plan: &ThreadPlan) -> bool {
    let number = plan.head.map(Verdict::of).and_then(|head| head.number());
    plan.is_sound() && number == Some(class.number)
}

fn why_none<'a>(
    class: Class,
    tried: impl Iterator<Item = &'a ThreadPlan> + Clone,
    workshop: &Design,
) -> NoStart {
    let of_class = tried.clone().filter(|plan| is_of(class, plan));
    if let Some(angle) = nearest_far_angle(of_class, workshop) {
        return NoStart::AngleFar { class, angle };
    }
    let target = Mass::from_grains(class.target);
    let off = |head: &Mass| (*head - target).abs().kilograms();
    let sound = tried.filter(|plan| plan.is_sound());
    let nearest = sound
        .filter_map(|plan| plan.head)
        .min_by(|a, b| off(a).total_cmp(&off(b)));
    nearest.map_or(NoStart::NotBraided(class), |nearest| NoStart::OffClass {
        class,
        nearest,
    })
}
