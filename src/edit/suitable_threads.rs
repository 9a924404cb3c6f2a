//! The threads that suit a drawing on the maker's own machine.
//!
//! The maker's own are kept where they meet all conditions. The usual ones come next: half the carriers at the tip, nearly all in
//! the belly. The best plan of the search takes their place only where it is better by more than a second kind of thread is worth: by
//! its sum of faults alone it would often give a few thick threads.

use crate::base::units::Angle;
use crate::braid::ladder::LadderCache;
use crate::braid::threads::{Build, Supply};
use crate::design::Design;
use crate::design::settings::Setting;
use crate::edit::finder::{Finder, ThreadPlan, Unmet, judge};
use crate::plan::layout::Ground;

/// The usual threads are preferred unless the best plan of the search is better by more than this, in the finder's sum of
/// faults: as much as a second kind of thread counts there. Our own choice.
const WORTH_OF_USUAL: f64 = 4.0;

/// Tolerances from the target at which no line is begun, though it had its class. Our own choice.
pub const FAR: f64 = 6.0;

/// The threads that suit a drawing best, of those that are accepted.
///
/// # Errors
/// All plans tried, where none is accepted, or only such with the angle far from the target.
pub(super) fn suitable_threads(
    drawn: &Design,
    accepts: impl Fn(&ThreadPlan) -> bool,
) -> Result<Supply, Vec<ThreadPlan>> {
    let mut ladders = LadderCache::default();
    let own = judge(drawn, drawn.supply(), &mut ladders);
    if own.is_some_and(|plan| plan.is_recommended() && accepts(&plan)) {
        return Ok(drawn.supply());
    }
    let usual = usual_threads(drawn);
    let usual = usual.filter_map(|supply| judge(drawn, supply, &mut ladders));
    let usual = usual.map(|plan| (plan.demerit, plan));
    let searched = Finder::new(drawn).finish().into_iter();
    let searched = searched.map(|plan| (plan.demerit + WORTH_OF_USUAL, plan));
    let tried: Vec<(f64, ThreadPlan)> = usual.chain(searched).collect();
    let accepted = || tried.iter().filter(|(_, plan)| accepts(plan));
    let fewest_faults = |a: &&(f64, ThreadPlan), b: &&(f64, ThreadPlan)| a.0.total_cmp(&b.0);
    let recommended = accepted().filter(|(_, plan)| plan.is_recommended());
    // Where nothing meets all conditions, the notices of the line say what it does not.
    let fair = accepted().filter(|(_, plan)| angle_far(plan, drawn).is_none());
    let best = recommended.min_by(fewest_faults);
    match best.or_else(|| fair.min_by(fewest_faults)) {
        Some((_, best)) => Ok(best.supply),
        None => Err(tried.into_iter().map(|(_, plan)| plan).collect()),
    }
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

/// Of plans with the angle far from the target, the angle of the one nearest to it.
pub(super) fn nearest_far_angle<'a>(
    plans: impl Iterator<Item = &'a ThreadPlan>,
    workshop: &Design,
) -> Option<Angle> {
    let far = plans.filter_map(|plan| angle_far(plan, workshop));
    let off = |angle: &Angle| (*angle - workshop.target_angle()).abs().degrees();
    far.min_by(|a, b| off(a).total_cmp(&off(b)))
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
