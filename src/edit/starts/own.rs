//! A ready drawing on the maker's own machine, with the maker's own yarn.

use core::fmt;

use super::Start;
use crate::base::units::{Angle, Mass};
use crate::braid::ladder::LadderCache;
use crate::braid::threads::{Build, Supply};
use crate::braid::weight::{Class, Verdict};
use crate::design::Design;
use crate::design::refusal::Refusal;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::edit::finder::{Finder, ThreadPlan, Unmet, judge};
use crate::plan::Plan;
use crate::plan::layout::Ground;

/// Most rounds of drawing thicker or thinner; a few are enough unless the film is thick.
const ROUNDS: u32 = 24;
/// The usual threads are preferred unless the best plan of the search is better by more than this, in the finder's sum of
/// faults: as much as a second kind of thread counts there. Our own choice.
const WORTH_OF_USUAL: f64 = 4.0;
/// How far the drawing may be from the target, as a share of it.
const NEAR_ENOUGH: f64 = 1e-3;

/// Tolerances from the target at which no line is begun, though it had its class. Our own choice.
pub const FAR: f64 = 6.0;

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
        let mut ladders = LadderCache::default();
        let own = judge(&drawn, drawn.supply(), &mut ladders);
        if own.is_some_and(|plan| plan.is_recommended() && is_of(class, &plan)) {
            return Ok(drawn);
        }
        let usual = usual_threads(&drawn);
        let usual = usual.filter_map(|supply| judge(&drawn, supply, &mut ladders));
        let usual = usual.map(|plan| (plan.demerit, plan));
        let searched = Finder::new(&drawn).finish().into_iter();
        let searched = searched.map(|plan| (plan.demerit + WORTH_OF_USUAL, plan));
        let tried: Vec<(f64, ThreadPlan)> = usual.chain(searched).collect();
        let kept = || tried.iter().filter(|(_, plan)| is_of(class, plan));
        let fewest_faults = |a: &&(f64, ThreadPlan), b: &&(f64, ThreadPlan)| a.0.total_cmp(&b.0);
        let recommended = kept().filter(|(_, plan)| plan.is_recommended());
        // Where nothing meets all conditions, the notices of the line say what it does not.
        let fair = kept().filter(|(_, plan)| angle_far(plan, workshop).is_none());
        let best = recommended.min_by(fewest_faults);
        match best.or_else(|| fair.min_by(fewest_faults)) {
            Some((_, best)) => Ok(Edit::Supply(best.supply).apply(&drawn)?),
            None => Err(why_none(
                class,
                tried.iter().map(|(_, plan)| plan),
                workshop,
            )),
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
    let far = tried.clone().filter(|plan| is_of(class, plan));
    let far = far.filter_map(|plan| angle_far(plan, workshop));
    let off = |angle: &Angle| (*angle - workshop.target_angle()).abs().degrees();
    if let Some(angle) = far.min_by(|a, b| off(a).total_cmp(&off(b))) {
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

/// The worst angle of a plan, if it is far from the target.
fn angle_far(plan: &ThreadPlan, workshop: &Design) -> Option<Angle> {
    let limit = workshop.angle_tolerance() * FAR;
    plan.unmet.iter().find_map(|one| match *one {
        Unmet::AngleFar(worst) | Unmet::AngleOff { worst, .. } => {
            ((worst - workshop.target_angle()).abs() > limit).then_some(worst)
        }
        _ => None,
    })
}

/// The usual threads: almost all of the most threads in the belly, common practice, no source. It takes three quarters of them
/// up to all, by the number of ends.
fn usual_threads(drawn: &Design) -> impl Iterator<Item = Supply> {
    let (ground, own) = (Ground::of(drawn), drawn.supply());
    let ends = ground.staircase.wanted(ground.taper.thickest()) * f64::from(ground.supply.light);
    let rule = Setting::EndsPerThread.rule();
    let (most_ends, full) = (rule.quanta(rule.high), f64::from(own.most));
    let fits = move |&light: &u32| (0.75 * full..=full + 0.5).contains(&(ends / f64::from(light)));
    (1..most_ends).filter(fits).map(move |light| Supply {
        build: Build::MoreThreads,
        light,
        heavy: light + 1,
        ..own
    })
}
