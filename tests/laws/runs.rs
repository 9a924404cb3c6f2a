//! A line at the machine: whatever goes wrong, what is braided stays, and the rest can be braided.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::braid::track::Carrier;
use taperwright::design::Design;
use taperwright::plan::run::{MishapKind, Run, RunClock, Ticks};
use taperwright::plan::{Action, AdjustedPlan, Event, Plan};

use crate::likely::{pinned, unpinned};
use crate::lines::cases;

fn line() -> impl Strategy<Value = Design> {
    prop_oneof![unpinned().boxed(), pinned().boxed()]
}

/// What goes wrong: after which share of the events, at which share of the way to the next or to the end, and what.
#[derive(Clone, Copy, Debug)]
struct Trouble {
    done: f64,
    along: f64,
    kind: u8,
}

fn trouble() -> impl Strategy<Value = Trouble> {
    (0.0_f64..1.0, 0.0_f64..1.0, 0_u8..4).prop_map(|(done, along, kind)| Trouble {
        done,
        along,
        kind,
    })
}

/// A run without what was counted since its last step.
pub(crate) fn uncounted(run: &Run) -> Run {
    Run {
        circuits: 0,
        clock: RunClock::default(),
        ..run.clone()
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn share_of(count: usize, share: f64) -> usize {
    ((count as f64) * share) as usize
}

/// The run with more ticked, until so large a share of its adjusted plan is done, but at least the start.
fn ticked_to(mut run: Run, adjusted: &AdjustedPlan, share: f64) -> Run {
    let target = share_of(adjusted.events.len(), share).max(1);
    while run.done < target {
        run = run.tick(adjusted);
    }
    run
}

/// The run with something gone wrong in it; what the run refuses is left as it was.
fn troubled(run: &Run, adjusted: &AdjustedPlan, trouble: Trouble) -> Run {
    let run = ticked_to(run.clone(), adjusted, trouble.done);
    let stands = run.stands_at(adjusted);
    let next = run
        .next(adjusted)
        .map_or(adjusted.line.length(), |event| event.at);
    let along = |to: Length| stands + (to - stands) * trouble.along;
    let wrong = match trouble.kind {
        0 => run.standing_at(adjusted, MishapKind::Elsewhere, along(next)),
        1 => run.standing_at(adjusted, MishapKind::Skipped, along(adjusted.line.length())),
        2 => run.standing_at(adjusted, MishapKind::Broke, stands),
        _ => run.made_late(adjusted, Length::from_metres(trouble.along - 0.3)),
    };
    wrong.unwrap_or(run)
}

/// Carriers with their ends, after these events.
fn engaged(events: &[Event]) -> Vec<(Carrier, u32)> {
    let mut set = Vec::new();
    for event in events {
        match &event.action {
            Action::Start(start) => set.clone_from(start),
            Action::Add { carrier, ends } => {
                assert!(
                    set.iter().all(|(other, _)| other != carrier),
                    "{carrier:?} is on already"
                );
                set.push((*carrier, *ends));
            }
            Action::Drop { carrier, .. } => {
                let before = set.len();
                set.retain(|(other, _)| other != carrier);
                assert_eq!(set.len() + 1, before, "{carrier:?} is not on");
            }
            Action::Swap { carrier, from, to } => {
                let one = set.iter_mut().find(|(other, _)| other == carrier);
                let one = one.expect("a swapped carrier is on");
                assert_eq!(one.1, *from);
                one.1 = *to;
            }
            Action::Gear { .. } | Action::End(_) => {}
        }
    }
    set
}

/// Where the last stop among some events begins.
fn last_stop(events: &[Event]) -> usize {
    let place = events[events.len() - 1].at;
    events
        .iter()
        .position(|event| event.at == place)
        .unwrap_or(0)
}

/// Every event can be done: places never run backward, each carrier is added and dropped in turn, wheels come off that are on,
/// and the last event is the end with just the carriers that are on.
fn can_be_braided(plan: &Plan, adjusted: &AdjustedPlan) {
    let events = &adjusted.events;
    for pair in events.windows(2) {
        assert!(
            pair[0].at <= pair[1].at,
            "{:?} before {:?}",
            pair[0].at,
            pair[1].at
        );
        if let Action::Gear { from, to } = pair[1].action {
            assert_eq!((from, to), (pair[0].wheels, pair[1].wheels));
        } else {
            assert_eq!(pair[0].wheels, pair[1].wheels);
        }
        let since = pair[1].at - pair[0].at;
        assert!((pair[1].since - since).abs().metres() < 1e-12);
    }
    let mut on = engaged(events);
    let last = &events[events.len() - 1];
    assert_eq!(last.at, plan.length);
    let Action::End(end) = &last.action else {
        panic!("the last is {:?}", last.action)
    };
    let mut end = end.clone();
    let order = |one: &(Carrier, u32)| (format!("{:?}", one.0), one.1);
    on.sort_by_key(order);
    end.sort_by_key(order);
    assert_eq!(on, end);
    assert_eq!(adjusted.line.length(), plan.length);
}

proptest! {
    #![proptest_config(cases(150))]

    /// Whatever goes wrong, time after time: what was done stays done, at its place except the one entered as late; what is
    /// braided weighs what it weighed; and the rest can be braided.
    #[test]
    fn what_is_braided_stays(design in line(), troubles in proptest::collection::vec(trouble(), 1..4)) {
        let plan = Plan::of(&design);
        let mut run = Run::default();
        let mut adjusted = run.adjusted(&design, &plan);
        prop_assert_eq!(&adjusted.events, &plan.events);
        for trouble in troubles {
            let next = troubled(&run, &adjusted, trouble);
            let after = next.adjusted(&design, &plan);
            can_be_braided(&plan, &after);
            let done = next.done.min(adjusted.events.len());
            let is_late = next.mishaps.len() > run.mishaps.len() && trouble.kind == 3;
            let same = if is_late { last_stop(&adjusted.events[..done]) } else { done };
            prop_assert_eq!(&after.events[..same], &adjusted.events[..same]);
            let until = adjusted.events[same.saturating_sub(1)].at;
            let (then, now) = (adjusted.line.mass(Length::ZERO, until), after.line.mass(Length::ZERO, until));
            prop_assert!((then.grams() - now.grams()).abs() <= 1e-9 * then.grams().max(1.0), "{} {}", then.grams(), now.grams());
            let stands = next.stands_at(&after);
            for event in &after.events[done..] {
                prop_assert!(event.at >= stands, "{:?} lies before {:?}", event.at, stands);
            }
            (run, adjusted) = (next, after);
        }
    }

    /// A thread that broke and was joined, and a place entered at which nothing is overdue, change nothing but what is known.
    #[test]
    fn where_nothing_is_missed_nothing_changes(design in line(), done in 0.0_f64..1.0, along in 0.0_f64..1.0) {
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let run = ticked_to(Run::default(), &adjusted, done);
        let stands = run.stands_at(&adjusted);
        let broke = run.standing_at(&adjusted, MishapKind::Broke, stands).expect("it stands there");
        prop_assert_eq!(&broke.adjusted(&design, &plan), &adjusted);
        if let Some(next) = run.next(&adjusted) {
            let at = stands + (next.at - stands) * along;
            let told = run.standing_at(&adjusted, MishapKind::Elsewhere, at).expect("on the line");
            prop_assert_eq!(&told.adjusted(&design, &plan), &adjusted);
        }
    }

    /// Whatever is missed is made up for where the machine stands; what is planned far enough after it keeps its place, action,
    /// and wheels; and in between no stop is passed over that does not undo itself.
    #[test]
    fn what_was_missed_is_made_at_once_and_the_rest_stays(design in line(), done in 0.0_f64..1.0, along in 0.0_f64..1.0) {
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let run = ticked_to(Run::default(), &adjusted, done);
        let stands = run.stands_at(&adjusted);
        let at = stands + (plan.length - stands) * along;
        let run = run.standing_at(&adjusted, MishapKind::Elsewhere, at).expect("on the line");
        let stands = run.stands_at(&run.adjusted(&design, &plan));
        let after = run.adjusted(&design, &plan);
        can_be_braided(&plan, &after);
        let is_end = |event: &Event| matches!(event.action, Action::End(_));
        let missed = adjusted.events[run.done..].iter().filter(|event| event.at < stands).count();
        let planned: Vec<&Event> = adjusted.events[run.done + missed..].iter().filter(|event| !is_end(event)).collect();
        let rest: Vec<&Event> = after.events[run.done..].iter().filter(|event| !is_end(event)).collect();
        if (plan.length - stands).millimetres() > 21.0 {
            prop_assert!(rest.len() >= planned.len());
            let (made_up, kept) = rest.split_at(rest.len() - planned.len());
            prop_assert!(made_up.len() <= missed);
            prop_assert!(made_up.iter().all(|event| event.at == stands), "{made_up:?}");
            // Every stop made up may push one planned by the least distance, and that one the next.
            let mut free = stands;
            for (kept, planned) in kept.iter().zip(planned) {
                prop_assert_eq!(&kept.action, &planned.action);
                prop_assert_eq!(kept.wheels, planned.wheels);
                prop_assert!(kept.at >= planned.at);
                let is_crowded = planned.at < free + design.least_spacing();
                prop_assert!(kept.at == planned.at || is_crowded, "{:?} for {:?}", kept.at, planned.at);
                free = kept.at;
            }
        }
    }

    /// Kept as text and read again after every tick, a whole line is braided with nothing repeated and nothing left out.
    #[test]
    fn every_event_is_done_once(design in line(), wrong in proptest::option::of(trouble())) {
        let plan = Plan::of(&design);
        let mut run = Run::default();
        if let Some(wrong) = wrong {
            run = troubled(&run, &run.adjusted(&design, &plan), wrong);
        }
        let adjusted = run.adjusted(&design, &plan);
        let mut seen = run.done;
        while let Some(step) = run.steps_ahead(&adjusted).next() {
            prop_assert!(!step.is_empty() && step.iter().all(|event| event.at == step[0].at));
            prop_assert_eq!(step, &adjusted.events[seen..seen + step.len()]);
            seen += step.len();
            let ticked = run.clone().tick(&adjusted);
            prop_assert_eq!(ticked.done, seen);
            let (done, all) = run.steps_of(&adjusted);
            prop_assert_eq!(ticked.steps_of(&adjusted), (done + 1, all));
            let back = ticked.clone().back(&adjusted);
            prop_assert_eq!(uncounted(&back), uncounted(&run));
            // The machine stands where it stood; circuits are whole.
            let stood = ticked.stands_at(&adjusted);
            let stands = back.stands_at(&adjusted) + back.length_of(&adjusted, f64::from(back.circuits));
            let circuit = adjusted.line.station_before(stood).piece.lay;
            prop_assert!(back.done == 0 || (stands - stood).abs() <= circuit, "{:?} {:?}", stands, stood);
            let text = serde_json::to_string(&ticked).expect("plain data");
            run = serde_json::from_str(&text).expect("it reads back");
            prop_assert_eq!(&run, &ticked);
        }
        prop_assert_eq!(seen, adjusted.events.len());
        prop_assert_eq!(run.clone().tick(&adjusted), run);
    }
}

/// The example engages a thread and changes the gear at one place: one step, ticked and taken back together.
#[test]
fn what_is_done_at_one_place_is_one_step() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let begun = Run::default().tick(&adjusted);
    assert_eq!(begun.done, 1);
    let step: Vec<&Action> = begun
        .steps_ahead(&adjusted)
        .next()
        .expect("there is more to do")
        .iter()
        .map(|event| &event.action)
        .collect();
    assert!(
        matches!(step[..], [Action::Add { .. }, Action::Gear { .. }]),
        "{step:?}"
    );
    let ticked = begun.clone().tick(&adjusted);
    assert_eq!(ticked.done, 3);
    assert_eq!(uncounted(&ticked.back(&adjusted)), begun);
    let places: std::collections::BTreeSet<String> = adjusted
        .events
        .iter()
        .map(|event| format!("{:?}", event.at))
        .collect();
    assert_eq!(begun.steps_of(&adjusted), (1, places.len()));
    // Kept between the two by an early version, the rest of it is a step.
    let between = Run { done: 2, ..begun };
    assert_eq!(between.clone().tick(&adjusted).done, 3);
    assert_eq!(between.back(&adjusted).done, 1);
}

/// Circuits counted before a tick count again once it is taken back; those counted since do not.
#[test]
fn a_tick_taken_back_keeps_the_circuits_counted() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let (mut ticks, mut run, mut before) = (Ticks::default(), Run::default(), Vec::new());
    for circuits in [0, 7, 30] {
        let shown = run.circuits;
        run = run.nudged(shown, circuits, 0.0);
        before.push(run.clone());
        run = ticks.tick(run, &adjusted, (0.0, false), 0.0);
        assert_eq!(run.circuits, 0);
    }
    let broke = run.standing_at(&adjusted, MishapKind::Broke, run.stands_at(&adjusted));
    run = ticks.take_back(broke.expect("it stands there"), &adjusted);
    assert!(run.mishaps.is_empty());
    let shown = run.circuits;
    run = run.nudged(shown, 4, 0.0);
    for wished in before.into_iter().rev() {
        run = ticks.take_back(run, &adjusted);
        assert_eq!(run, wished);
    }
}

/// A thread passed over by 30 cm comes in where the machine then stands, not later; whatever was planned after it stays.
#[test]
fn a_change_passed_over_is_made_up_for() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let mut run = Run::default();
    let adjusted = run.adjusted(&design, &plan);
    let first = adjusted
        .events
        .iter()
        .position(|event| matches!(event.action, Action::Add { .. }));
    let first = first.expect("the demo gets thicker");
    while run.done < first {
        run = run.tick(&adjusted);
    }
    let late = adjusted.events[first].at + Length::from_metres(0.3);
    let early = adjusted.events[first].at - Length::from_metres(0.1);
    let refused = run.standing_at(&adjusted, MishapKind::Skipped, early);
    assert!(
        refused
            .as_ref()
            .expect_err("not due yet")
            .to_string()
            .contains("not due before")
    );
    // The caller writes the place in the maker's own way.
    let why = refused.expect_err("not due yet");
    assert!(why.words(|_| "THERE".to_owned()).contains("THERE"));
    let run = run
        .standing_at(&adjusted, MishapKind::Skipped, late)
        .expect("a place on the line");
    let after = run.adjusted(&design, &plan);
    let added = run.next(&after).expect("there is more to do");
    assert_eq!(added.action, adjusted.events[first].action);
    assert!(
        (added.at - late).abs().millimetres() < 0.1,
        "{:?}",
        added.at
    );
    // A thread fewer for some 30 cm of the head leaves it lighter, by no more than that thread weighs.
    let (then, now) = (
        adjusted.head_mass.expect("a head"),
        after.head_mass.expect("a head"),
    );
    let thread = design.thread().linear_density().grams_per_metre() * 1.5 * 0.34 * 2.0;
    assert!(
        now < then && (then - now).grams() < thread,
        "{} {}",
        then.grams(),
        now.grams()
    );
}

/// Every standing of the example, early and late: a step made some centimetres off its place is never undone by the next, and
/// the belly keeps its threads.
#[test]
fn a_step_made_late_is_not_taken_back() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    for done in 2..adjusted.events.len() {
        for by in [-3.0, -1.0, 1.0, 4.0] {
            let run = Run {
                done,
                ..Run::default()
            };
            let Ok(run) = run.made_late(&adjusted, Length::from_metres(by / 100.0)) else {
                continue;
            };
            let after = run.adjusted(&design, &plan);
            can_be_braided(&plan, &after);
            let actions = |adjusted: &AdjustedPlan| -> Vec<Action> {
                adjusted
                    .events
                    .iter()
                    .map(|event| event.action.clone())
                    .collect()
            };
            assert_eq!(
                actions(&after),
                actions(&adjusted),
                "after {done} steps, {by} cm"
            );
        }
    }
}

/// A place entered still holds when the last step is then entered as late.
#[test]
fn a_place_told_is_not_forgotten() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let run = Run {
        done: 2,
        ..Run::default()
    };
    let told = adjusted.events[1].at + Length::from_metres(0.4);
    let run = run
        .standing_at(&adjusted, MishapKind::Elsewhere, told)
        .expect("on the line");
    let adjusted = run.adjusted(&design, &plan);
    let run = run
        .made_late(&adjusted, Length::from_metres(0.03))
        .expect("it can be late");
    let stands = run.stands_at(&run.adjusted(&design, &plan));
    assert!((stands - told).abs().millimetres() < 0.1, "{stands:?}");
}

#[test]
fn places_that_cannot_be_are_refused() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let run = Run::default();
    let adjusted = run.adjusted(&design, &plan);
    assert!(run.made_late(&adjusted, Length::from_metres(0.1)).is_err());
    let unbegun = run.standing_at(&adjusted, MishapKind::Elsewhere, Length::from_metres(0.2));
    assert!(
        unbegun
            .expect_err("not begun")
            .to_string()
            .contains("not started")
    );
    let run = run.tick(&adjusted).tick(&adjusted).tick(&adjusted);
    let last = adjusted.events[run.done - 1].at;
    let before = run.standing_at(
        &adjusted,
        MishapKind::Elsewhere,
        last - Length::from_metres(0.01),
    );
    let words = before.expect_err("it lies before what is done").to_string();
    assert!(words.contains("cannot be before"), "{words}");
    let behind = run.standing_at(
        &adjusted,
        MishapKind::Elsewhere,
        plan.length + Length::from_metres(0.01),
    );
    assert!(
        behind
            .expect_err("it lies behind the end")
            .to_string()
            .contains("ends at")
    );
    assert!(
        run.made_late(&adjusted, Length::from_metres(100.0))
            .is_err()
    );
}
