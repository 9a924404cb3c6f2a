//! Stops: far enough apart, nothing drawn is silently left undone, and every state holds.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::braid::threads::Build;
use taperwright::braid::track::Carrier;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::machine::Mounted;
use taperwright::design::settings::Setting;
use taperwright::plan::layout::Layout;
use taperwright::plan::layout::stops::Crowding;
use taperwright::plan::{Event, Notice, Plan};

use crate::ladders::is_loose;
use crate::likely::likely;
use crate::lines::{any_design, cases, some_of};

/// Any design, or a likely one.
fn design() -> impl Strategy<Value = Design> {
    prop_oneof![any_design().boxed(), likely().boxed()]
}

fn crowdings(plan: &Plan) -> Vec<Crowding> {
    let is_said_left_out = |at: &Length| {
        let says =
            |notice: &Notice| matches!(notice, Notice::LeftOut { places } if places.contains(at));
        plan.notices.iter().any(says)
    };
    let said = |crowding: &Crowding| match crowding {
        Crowding::LeftOut { into, .. } => is_said_left_out(&into.change.at),
        crowding => plan.notices.contains(&Notice::Crowded(*crowding)),
    };
    let crowdings = &plan.layout.crowdings;
    assert!(crowdings.iter().all(said), "{crowdings:?}");
    crowdings.clone()
}

/// Places at which the machine stands still, the tip and the end among them, each once.
fn places(plan: &Plan) -> Vec<Length> {
    plan.stops().map(|stop| stop[0].at).collect()
}

/// Lengths that differ by a hundredth of a step of the drawing are alike.
const HAIR: Length = Length::from_micrometres(1.0);

#[track_caller]
fn is_spaced_or_said(design: &Design, plan: &Plan) {
    if plan.layout.stops.is_empty() {
        return;
    }
    for pair in places(plan).windows(2) {
        let apart = pair[1] - pair[0];
        let is_said = |crowd: &Crowding| match *crowd {
            Crowding::Close { at, apart: said } => at == pair[0] && said == apart,
            Crowding::Together { .. } | Crowding::LeftOut { .. } => false,
        };
        let far_enough = apart >= design.least_spacing() - HAIR * 2.0;
        assert!(
            far_enough || crowdings(plan).iter().any(is_said),
            "{apart:?} behind {:?}: {:?}",
            pair[0],
            crowdings(plan)
        );
    }
}

/// Changes as (lower level, rising) in a fixed order.
fn sorted(mut changes: Vec<(usize, bool)>) -> Vec<(usize, bool)> {
    changes.sort_unstable();
    changes
}

fn made(layout: &Layout) -> impl Iterator<Item = (usize, bool)> {
    let steps = layout.stops.iter().flat_map(|stop| &stop.steps);
    steps.map(|step| (step.change.lower, step.change.rising))
}

/// Every change the drawing asks for is made, alone or with others at one stop, or left out; which is said.
#[track_caller]
fn is_accounted_for(design: &Design, plan: &Plan) {
    let (first, asked) = plan.layout.staircase.changes(design.taper().points());
    let asked = asked
        .iter()
        .map(|change| (change.lower, change.rising))
        .collect();
    let crowdings = crowdings(plan);
    let left_out = crowdings.iter().filter_map(|crowd| match crowd {
        Crowding::LeftOut { into, out_of } => Some([Some(*into), *out_of]),
        Crowding::Together { .. } | Crowding::Close { .. } => None,
    });
    let left_out: Vec<(usize, bool)> = left_out
        .flatten()
        .flatten()
        .map(|step| (step.change.lower, step.change.rising))
        .collect();
    let is_first_left_out = first != plan.layout.first;
    assert!(!is_first_left_out || !left_out.is_empty());
    assert_eq!(
        sorted(made(&plan.layout).chain(left_out).collect()),
        sorted(asked)
    );
    let together = crowdings.iter().filter_map(|crowd| match *crowd {
        Crowding::Together { at, changes } => Some((at, changes)),
        Crowding::LeftOut { .. } | Crowding::Close { .. } => None,
    });
    let together: Vec<_> = together.collect();
    let several = plan.layout.stops.iter().filter(|stop| stop.steps.len() > 1);
    let several: Vec<_> = several.map(|stop| (stop.at, stop.steps.len())).collect();
    assert_eq!(together, several);
    let changes = plan
        .events
        .iter()
        .filter(|event| event.action.is_of_threads())
        .count();
    assert_eq!(
        changes,
        made(&plan.layout).count(),
        "the schedule makes what the layout has"
    );
}

/// Carriers whose threads would lie loose at an event, by going through the meetings on the track.
fn loose(design: &Design, plan: &Plan, event: &Event) -> Vec<Carrier> {
    let engaged: Vec<Carrier> = plan
        .set_at(event.at)
        .into_iter()
        .map(|(carrier, _)| carrier)
        .collect();
    let mut loose = engaged.clone();
    loose.retain(|&carrier| is_loose(design.track(), carrier, &engaged));
    loose.sort_unstable();
    loose
}

proptest! {
    #![proptest_config(cases(250))]

    #[test]
    fn stops_keep_their_distance_or_it_is_said(design in design()) {
        is_spaced_or_said(&design, &Plan::of(&design));
    }

    #[test]
    fn no_change_is_silently_left_undone(design in design()) {
        is_accounted_for(&design, &Plan::of(&design));
    }

    /// Where threads would lie loose, whatever was pinned, the notice names them.
    #[test]
    fn a_line_that_falls_apart_says_who_lies_loose(design in design()) {
        let plan = Plan::of(&design);
        for stop in plan.stops() {
            let last = &stop[stop.len() - 1];
            let loose = loose(&design, &plan, last);
            let said = plan.notices.iter().any(|notice| matches!(notice,
                Notice::Unsound { threads, carriers } if *threads == last.threads() && *carriers == loose));
            prop_assert_eq!(said, !loose.is_empty(), "{:?} at {:?}", loose, last);
        }
    }

    /// With every place mounted and four threads at the start there is a set that holds at every step.
    #[test]
    fn a_full_machine_never_falls_apart_from_four_threads_on(design in design()) {
        let plan = Plan::of(&design);
        prop_assume!(design.draft().mounted == Mounted::default() && plan.threads_min() >= 4);
        let is_unsound = |notice: &Notice| matches!(notice, Notice::Unsound { .. });
        prop_assert!(!plan.notices.iter().any(is_unsound), "{:?}", plan.notices);
    }

    /// A section is said to be off when it is more than a hundredth from its drawing, and only then.
    #[test]
    fn sections_off_their_drawing_are_said(design in design()) {
        let plan = Plan::of(&design);
        let off = plan.sections.iter().filter(|section| (section.mass / section.drawn - 1.0).abs() > 0.01);
        let off: Vec<_> = off.copied().collect();
        let said = plan.notices.iter().filter_map(|notice| match notice {
            Notice::SectionOff(section) => Some(*section),
            _ => None,
        });
        prop_assert_eq!(said.collect::<Vec<_>>(), off);
    }
}

/// Places of two unpinned stops, one of which undoes the other, and of what stands before and after them.
fn undone_at_once(design: &Design, plan: &Plan) -> Vec<[Length; 4]> {
    let (stops, spacing) = (&plan.layout.stops, design.least_spacing());
    let pairs = stops.windows(2).enumerate().filter(|(first, pair)| {
        let is_held = |interval: usize| plan.layout.pinned_intervals[interval].is_some();
        let is_pinned = pair
            .iter()
            .any(taperwright::plan::layout::stops::Stop::is_pinned)
            || (*first..=first + 2).any(is_held);
        pair[0].is_rising() != pair[1].is_rising()
            && pair[1].at - pair[0].at < spacing + HAIR * 2.0
            && !is_pinned
    });
    let places = pairs.map(|(first, pair)| {
        let before = first
            .checked_sub(1)
            .map_or(Length::ZERO, |before| stops[before].at);
        let after = stops.get(first + 2).map_or(plan.length, |after| after.at);
        [before, pair[0].at, pair[1].at, after]
    });
    places.collect()
}

proptest! {
    #![proptest_config(cases(250))]

    /// A change is undone no sooner than the least distance; as soon as that only where its neighbours leave no more room.
    #[test]
    fn no_change_is_undone_at_once(design in design()) {
        let plan = Plan::of(&design);
        let reach = design.least_spacing() + HAIR * 2.0;
        for [before, into, out_of, after] in undone_at_once(&design, &plan) {
            prop_assert!(into - before < reach || after - out_of < reach,
                "{:?}: {:?} to {:?}", design.title(), into, out_of);
        }
    }
}

/// The belly of the example is drawn half-way between seven and eight carriers with threads of 25 ends. As the wheels make
/// these levels it is not thick enough for the eighth anywhere, so no bobbin is swapped in for the length of a hand.
#[test]
fn a_swap_for_which_the_belly_is_too_thin_is_not_made() {
    for (light, heavy, lower) in [(14, 25, 7), (13, 27, 6), (20, 30, 3)] {
        let mut draft = demo().draft().clone();
        draft.build = Build::HeavierThreads;
        let settings = &mut draft.settings;
        settings.set(Setting::EndsPerThread, f64::from(light));
        settings.set(Setting::HeavierEnds, f64::from(heavy));
        let design = Design::parse(draft).expect("threads one may ply");
        let plan = Plan::of(&design);
        let drawn = plan.staircase.changes(design.taper().points()).1;
        let highest = drawn.iter().map(|change| change.lower).max();
        assert_eq!(
            highest,
            Some(lower),
            "at the target angle one more would be nearest"
        );
        assert_eq!(
            made(&plan.layout).map(|(lower, _)| lower).max(),
            Some(lower - 1)
        );
        is_accounted_for(&design, &plan);
    }
}

/// The laws above are worth nothing if no stop is ever crowded and nothing ever falls apart.
#[test]
fn likely_lines_are_crowded_in_every_way() {
    let (mut together, mut left_out, mut close, mut unsound) = (0, 0, 0, 0);
    for design in some_of(&likely(), 450) {
        let plan = Plan::of(&design);
        for crowd in crowdings(&plan) {
            match crowd {
                Crowding::Together { .. } => together += 1,
                Crowding::LeftOut { .. } => left_out += 1,
                Crowding::Close { .. } => close += 1,
            }
        }
        unsound += plan
            .notices
            .iter()
            .filter(|notice| matches!(notice, Notice::Unsound { .. }))
            .count();
    }
    assert!(
        together > 20 && left_out > 10 && close >= 5 && unsound > 5,
        "{together} together, {left_out} left out, {close} close, {unsound} unsound"
    );
}
