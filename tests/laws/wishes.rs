//! Wishes: a thread plan found keeps its word, and a class matched is the class.

use proptest::prelude::*;
use taperwright::base::choice::Choice as _;
use taperwright::base::units::{Angle, Length, Mass};
use taperwright::braid::ladder::LadderCache;
use taperwright::braid::weight::{CLASSES, Class, Verdict};
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft, DraftPoint};
use taperwright::edit::finder::{Finder, ThreadPlan, judge};
use taperwright::edit::matching::{Mover, NoMatch, reach_class};
use taperwright::edit::{Edit, LineEnds, MoveOptions};
use taperwright::plan::Plan;

use crate::designs::{design, usual};
use crate::likely::unpinned;
use crate::lines::{cases, some_of};

/// What a plan found promises is what its line then has.
#[track_caller]
fn keeps_its_word(design: &Design, found: &ThreadPlan) {
    let line = Edit::Supply(found.supply)
        .apply(design)
        .unwrap_or_else(|refusal| panic!("{found:?}: {refusal}"));
    let plan = Plan::of(&line);
    assert_eq!(plan.head_mass, found.head);
    assert_eq!(
        (plan.thread_changes(), plan.gear_changes()),
        (found.thread_changes, found.gear_changes)
    );
    assert_eq!(
        (plan.plying.len(), plan.diameter_error),
        (found.kinds, found.diameter_error)
    );
    assert_eq!(line.draft().points, design.draft().points);
}

/// Within the maker's fewest and most threads, always. A recommended plan makes a line whose angle, looked at every millimetre, is
/// hardly outside the tolerance, and never far.
#[track_caller]
fn meets_what_it_says(design: &Design, found: &ThreadPlan) {
    let line = Edit::Supply(found.supply)
        .apply(design)
        .expect("it was planned");
    let plan = Plan::of(&line);
    assert_eq!(found.threads, (plan.threads_min(), plan.threads_max()));
    let own = design.supply();
    assert!(own.fewest <= plan.threads_min() && plan.threads_max() <= own.most);
    if !found.is_recommended() {
        return;
    }
    let (target, tolerance) = (line.target_angle(), line.angle_tolerance());
    let millimetre = Length::from_millimetres(1.0);
    let (mut at, mut off, mut lasting) = (Length::ZERO, Angle::ZERO, 0);
    while at < plan.length {
        let stretch = plan.line.stretch_at(at);
        let here = (stretch.angle_at(at) - target).abs();
        off = off.max(here);
        let is_lasting = (stretch.steady.angle - target).abs() > tolerance;
        lasting += u32::from(here > tolerance && is_lasting);
        at += millimetre;
    }
    let share = f64::from(lasting) / plan.length.millimetres();
    assert!(share <= 0.021, "{share} of the line stays off: {found:?}");
    assert!(off <= tolerance * 3.01, "{off:?}: {found:?}");
}

#[track_caller]
fn finds(design: &Design) -> Vec<ThreadPlan> {
    let listed = Finder::new(design).finish();
    assert!(!listed.is_empty());
    assert!(
        listed
            .windows(2)
            .all(|pair| pair[0].cmp_rank(&pair[1]).is_le())
    );
    let own = judge(design, design.supply(), &mut LadderCache::default())
        .unwrap_or_else(|| panic!("the design's own threads make no design"));
    assert!(
        listed[0].cmp_rank(&own).is_le(),
        "{:?} is worse than {own:?}",
        listed[0]
    );
    for found in &listed {
        keeps_its_word(design, found);
        meets_what_it_says(design, found);
    }
    listed
}

/// The design's own threads are tried too, so nothing listed first is worse; what is listed keeps its word.
#[test]
fn the_best_plan_found_is_no_worse_than_the_threads_there_are() {
    let designs = [demo(), usual()].into_iter().chain(some_of(&unpinned(), 6));
    let mut better = 0;
    for design in designs {
        let own = judge(&design, design.supply(), &mut LadderCache::default());
        let found = finds(&design);
        better += u32::from(own.is_some_and(|own| found[0].cmp_rank(&own).is_lt()));
    }
    assert!(better > 2, "only {better} lines are bettered");
}

/// A page searches in small steps and draws between them; what comes out is the same.
#[test]
fn small_steps_find_the_same() {
    for design in some_of(&unpinned(), 3) {
        let mut finder = Finder::new(&design);
        while finder.step(1) {}
        assert_eq!(finder.design(), &design);
        assert_eq!(finder.finish(), Finder::new(&design).finish());
    }
}

/// The draft with what a mover may change taken over from another.
fn but_for(mover: Mover, changed: &Draft, from: &Draft, (first, last): (usize, usize)) -> Draft {
    let mut draft = changed.clone();
    match mover {
        Mover::BellySize => {
            let ends = first..=last;
            ends.for_each(|index| draft.points[index].diameter_mm = from.points[index].diameter_mm);
        }
        Mover::EndsPerThread => {
            draft.settings.set(
                Setting::EndsPerThread,
                from.settings.get(Setting::EndsPerThread),
            );
        }
        Mover::TaperLength => draft.points[first].at_m = from.points[first].at_m,
        Mover::TipSize => draft.points[0].diameter_mm = from.points[0].diameter_mm,
        Mover::Gears => draft.settings.set(
            Setting::TargetAngle,
            from.settings.get(Setting::TargetAngle),
        ),
    }
    draft
}

/// A match is in its class and moves only what it was to move; a refusal changes nothing and says why.
#[track_caller]
fn matches_or_says_why(design: &Design, number: usize, mover: Mover) -> bool {
    let class = CLASSES[number];
    match reach_class(design, class, &[mover]) {
        Ok(found) => {
            let changed = found
                .edit
                .apply(design)
                .unwrap_or_else(|refusal| panic!("{refusal}"));
            let head = Plan::of(&changed).head_mass.unwrap_or_default();
            assert!(
                (class.low..=class.high).contains(&head.grains()),
                "{} gr for {class:?}",
                head.grains()
            );
            assert!(
                (head - Mass::from_grains(class.target) - found.off).abs()
                    < Mass::from_grains(1e-9)
            );
            let run = design.taper().level_run(design.taper().belly().0);
            assert_eq!(
                &but_for(mover, changed.draft(), design.draft(), run),
                design.draft()
            );
            true
        }
        Err(no) => {
            says_why(design, number, mover, &no);
            false
        }
    }
}

#[track_caller]
fn says_why(design: &Design, number: usize, mover: Mover, no: &NoMatch) {
    let words = no.to_string();
    match no {
        NoMatch::TooShort => {
            assert!(Plan::of(design).head_mass.is_none());
            assert!(words.contains("30 ft"));
        }
        NoMatch::NoTaper => {
            assert!(mover == Mover::TaperLength && words.contains("no front taper"));
        }
        NoMatch::OutOfReach {
            class,
            mover: moved,
            nearest,
        } => {
            assert_eq!((*class, *moved), (CLASSES[number], Some(mover)));
            assert_ne!(Verdict::of(*nearest).number(), Some(class.number));
            for word in [
                mover.name(),
                &class.number.to_string(),
                &class.low.to_string(),
                &class.high.to_string(),
            ] {
                assert!(words.contains(word), "“{words}” does not say “{word}”");
            }
        }
    }
}

proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn a_class_is_matched_or_refused(design in unpinned(), number in 0_usize..15, mover in proptest::sample::select(Mover::ALL)) {
        matches_or_says_why(&design, number, mover);
    }
}

/// The demo makes class 5; its neighbours are a thicker or a thinner belly away, or one of more or fewer ends.
#[test]
fn the_neighbours_of_a_class_are_matched() {
    for number in [3, 4, 5] {
        assert!(
            matches_or_says_why(&demo(), number, Mover::BellySize),
            "class {}",
            number + 1
        );
    }
    // The belly's size stays where ends change, so that threads drop or come in: seldom far enough.
    let matched =
        (0..15).filter(|&number| matches_or_says_why(&demo(), number, Mover::EndsPerThread));
    assert!(matched.count() >= 1);
    assert!(matches_or_says_why(&demo(), 4, Mover::TaperLength));
}

/// Aiming at the target is one way to aim; making the class likeliest never makes it less likely than that does, and where several
/// things may be moved, none alone does better. Chances less than a thousandth apart count as alike.
#[test]
fn the_likeliest_is_never_less_likely_than_the_nearest_to_the_target() {
    let mut likelier = 0;
    for design in [demo(), usual()]
        .into_iter()
        .chain(some_of(&unpinned(), 10))
    {
        let Some(head) = Plan::of(&design).head_mass else {
            continue;
        };
        let off = |class: &Class| (class.target - head.grains()).abs();
        let nearest = CLASSES.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        let class = nearest.expect("there are classes");
        let Ok(likeliest) = reach_class(&design, class, &[Mover::BellySize]) else {
            continue;
        };
        let aimed = aimed_at_target(&design, class);
        assert!(
            likeliest.chance >= aimed - 1e-3,
            "{} is less than {aimed}",
            likeliest.chance
        );
        likelier += u32::from(likeliest.chance > aimed + 1e-3);
        let any = reach_class(&design, class, Mover::ALL).expect("one of them reaches it");
        let made = |edit: &Edit| edit.clone().apply(&design).expect("it may be made");
        let breaks = |edit: &Edit| unmet(&made(edit)) > unmet(&design);
        assert!(any.chance >= likeliest.chance - 1e-3 || breaks(&likeliest.edit));
        assert!(!breaks(&any.edit) || breaks(&likeliest.edit));
        let prediction = Plan::of(&made(&any.edit)).prediction;
        let chance = prediction.expect("it has a head").chance_of(&class);
        assert_eq!(chance, any.chance);
    }
    println!("{likelier} lines are likelier than aimed at the target");
}

/// How many conditions of a good thread plan a design does not meet.
fn unmet(design: &Design) -> usize {
    let judged = judge(design, design.supply(), &mut LadderCache::default());
    judged.expect("its own threads make it").unmet.len()
}

/// The chance of a class when the belly is moved to where the head is nearest to its target, of three hundred sizes that break no
/// condition of a good plan; 0 where there are none.
fn aimed_at_target(design: &Design, class: Class) -> f64 {
    let first = design.taper().belly().0;
    let point = design.draft().points[first];
    let tried = (0..300).filter_map(|step| {
        let diameter_mm = point.diameter_mm * (0.5 + 1.3 * f64::from(step) / 300.0);
        let options = MoveOptions {
            ends: LineEnds::Apart,
            ..MoveOptions::default()
        };
        let point = DraftPoint {
            diameter_mm,
            ..point
        };
        let edit = Edit::Place {
            index: first,
            point,
            options,
        };
        let made = edit.apply(design).ok()?;
        let plan = Plan::of(&made);
        if unmet(&made) > unmet(design) {
            return None;
        }
        let off = (plan.head_mass?.grains() - class.target).abs();
        Some((off, plan.prediction?.chance_of(&class)))
    });
    let nearest = tried.min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map_or(0.0, |nearest| nearest.1)
}

/// Out of reach: a line far too thin for class 15, whatever is moved; one too short for any; one without a taper.
#[test]
fn a_class_out_of_reach_is_refused() {
    let thin = design(&[], &[(0.0, 0.5), (0.2, 0.5), (2.0, 0.6), (25.0, 0.6)]);
    for &mover in Mover::ALL {
        let refused = reach_class(&thin, CLASSES[14], &[mover]);
        assert!(
            matches!(refused, Err(NoMatch::OutOfReach { .. })),
            "{mover:?}: {refused:?}"
        );
        assert!(!matches_or_says_why(&thin, 14, mover));
    }
    let short = design(&[], &[(0.0, 1.0), (5.0, 1.0)]);
    let level = design(&[], &[(0.0, 1.0), (25.0, 1.0)]);
    assert_eq!(
        reach_class(&short, CLASSES[4], &[Mover::BellySize]),
        Err(NoMatch::TooShort)
    );
    assert_eq!(
        reach_class(&level, CLASSES[4], &[Mover::TaperLength]),
        Err(NoMatch::NoTaper)
    );
    says_why(&short, 4, Mover::BellySize, &NoMatch::TooShort);
    says_why(&level, 4, Mover::TaperLength, &NoMatch::NoTaper);
}
