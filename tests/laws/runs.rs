//! A line at the machine: whatever goes wrong, what is braided stays, and what is left can be braided.

use proptest::prelude::*;
use taperwright::design::Design;
use taperwright::plan::{Action, Course, Event, Plan};
use taperwright::run::{MishapKind, Run};
use taperwright::track::Carrier;
use taperwright::units::Length;

use crate::likely::{pinned, unpinned};
use crate::lines::cases;

fn line() -> impl Strategy<Value = Design> {
    prop_oneof![unpinned().boxed(), pinned().boxed()]
}

/// What goes wrong: after so many events as a share of all, so far along to the next or to the end, and what.
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

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn share_of(count: usize, share: f64) -> usize {
    ((count as f64) * share) as usize
}

/// The run with something gone wrong in it; what the run refuses is left as it was.
fn troubled(run: &Run, course: &Course, trouble: Trouble) -> Run {
    let mut run = run.clone();
    let target = run
        .done
        .max(share_of(course.events.len(), trouble.done))
        .max(1);
    while run.done < target {
        run = run.tick(course);
    }
    let stands = run.stands_at(course);
    let next = run
        .next(course)
        .map_or(course.line.length(), |event| event.at);
    let along = |to: Length| stands + (to - stands) * trouble.along;
    let wrong = match trouble.kind {
        0 => run.standing_at(course, MishapKind::Elsewhere, along(next)),
        1 => run.standing_at(course, MishapKind::Skipped, along(course.line.length())),
        2 => run.standing_at(course, MishapKind::Broke, stands),
        _ => run.made_late(course, Length::from_metres(trouble.along - 0.3)),
    };
    wrong.unwrap_or(run)
}

/// Carriers with their ends, after so many events.
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

/// Every event can be done: places never run backward, each carrier comes on and goes off in turn, wheels come off that are on,
/// and the last event is the end with just the carriers that are on.
fn can_be_braided(plan: &Plan, course: &Course) {
    let events = &course.events;
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
    assert_eq!(course.line.length(), plan.length);
}

proptest! {
    #![proptest_config(cases(150))]

    /// Whatever goes wrong, time after time: what was done stays done, at its place but for the one told to be late; what is
    /// braided weighs what it weighed; and the rest can be braided.
    #[test]
    fn what_is_braided_stays(design in line(), troubles in proptest::collection::vec(trouble(), 1..4)) {
        let plan = Plan::of(&design);
        let mut run = Run::default();
        let mut course = run.course(&design, &plan);
        prop_assert_eq!(&course.events, &plan.events);
        for trouble in troubles {
            let next = troubled(&run, &course, trouble);
            let after = next.course(&design, &plan);
            can_be_braided(&plan, &after);
            let done = next.done.min(course.events.len());
            let is_late = next.mishaps.len() > run.mishaps.len() && trouble.kind == 3;
            let same = if is_late { done - 1 } else { done };
            prop_assert_eq!(&after.events[..same], &course.events[..same]);
            let until = course.events[same.saturating_sub(1)].at;
            let (then, now) = (course.line.mass(Length::ZERO, until), after.line.mass(Length::ZERO, until));
            prop_assert!((then.grams() - now.grams()).abs() <= 1e-9 * then.grams().max(1.0), "{} {}", then.grams(), now.grams());
            let stands = next.stands_at(&after);
            for event in &after.events[done..] {
                prop_assert!(event.at >= stands, "{:?} lies before {:?}", event.at, stands);
            }
            (run, course) = (next, after);
        }
    }

    /// Kept as text and read again after every tick, a whole line is braided with nothing repeated and nothing left out.
    #[test]
    fn every_event_is_done_once(design in line(), wrong in proptest::option::of(trouble())) {
        let plan = Plan::of(&design);
        let mut run = Run::default();
        if let Some(wrong) = wrong {
            run = troubled(&run, &run.course(&design, &plan), wrong);
        }
        let course = run.course(&design, &plan);
        let mut seen = run.done;
        while let Some(event) = run.next(&course).cloned() {
            prop_assert_eq!(&event, &course.events[seen]);
            seen += 1;
            let ticked = run.clone().tick(&course);
            prop_assert_eq!(ticked.clone().back(), Run { circuits: 0, ..run });
            let text = serde_json::to_string(&ticked).expect("plain data");
            run = serde_json::from_str(&text).expect("it reads back");
            prop_assert_eq!(&run, &ticked);
        }
        prop_assert_eq!(seen, course.events.len());
        prop_assert_eq!(run.clone().tick(&course), run);
    }
}

/// A swelling missed by a third of its length: the threads come in as soon as the maker can, and the line ends as drawn.
#[test]
fn a_change_passed_over_is_made_up_for() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let mut run = Run::default();
    let course = run.course(&design, &plan);
    let first = course
        .events
        .iter()
        .position(|event| matches!(event.action, Action::Add { .. }));
    let first = first.expect("the demo gets thicker");
    while run.done < first {
        run = run.tick(&course);
    }
    let late = course.events[first].at + Length::from_metres(0.3);
    let run = run
        .standing_at(&course, MishapKind::Skipped, late)
        .expect("a place on the line");
    let after = run.course(&design, &plan);
    let added = run.next(&after).expect("there is more to do");
    assert_eq!(added.action, course.events[first].action);
    let apart = added.at - late;
    assert!(
        apart >= Length::ZERO && apart <= design.least_spacing() * 2.0,
        "{apart:?}"
    );
    // A thread fewer for some 33 cm of the head leaves it lighter, by no more than that thread weighs.
    let (then, now) = (
        course.head_mass.expect("a head"),
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

#[test]
fn places_that_cannot_be_are_refused() {
    let design = taperwright::design::demo::demo();
    let plan = Plan::of(&design);
    let run = Run::default();
    let course = run.course(&design, &plan);
    assert!(run.made_late(&course, Length::from_metres(0.1)).is_err());
    let run = run.tick(&course).tick(&course).tick(&course);
    let last = course.events[2].at;
    let before = run.standing_at(
        &course,
        MishapKind::Elsewhere,
        last - Length::from_metres(0.01),
    );
    let words = before.expect_err("it lies before what is done").to_string();
    assert!(words.contains("cannot stand before"), "{words}");
    let behind = run.standing_at(
        &course,
        MishapKind::Elsewhere,
        plan.length + Length::from_metres(0.01),
    );
    assert!(
        behind
            .expect_err("it lies behind the end")
            .to_string()
            .contains("ends at")
    );
    assert!(run.made_late(&course, Length::from_metres(100.0)).is_err());
}
