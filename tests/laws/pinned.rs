//! Pins hold, or are dropped with a reason.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::braid::takeoff::Wheels;
use taperwright::design::Design;
use taperwright::design::pin::Pin;
use taperwright::edit::Edit;
use taperwright::plan::layout::pins::Why;
use taperwright::plan::{Action, Event, Notice, Plan};

use crate::likely::pinned;
use crate::lines::{any_design, cases, some_of};

fn dropped(plan: &Plan) -> Vec<usize> {
    let mut dropped: Vec<usize> = plan
        .layout
        .dropped_pins
        .iter()
        .map(|pin| pin.index)
        .collect();
    dropped.sort_unstable();
    dropped
}

/// The one event a pin of a place holds.
#[track_caller]
fn event_of(plan: &Plan, index: usize) -> &Event {
    let held: Vec<&Event> = plan
        .events
        .iter()
        .filter(|event| event.action.is_of_threads() && event.pin == Some(index))
        .collect();
    let [event] = held[..] else {
        panic!("pin {index} holds {held:?}")
    };
    event
}

/// From the tip or a stop to the next stop or the end: the interval a pin holds.
#[track_caller]
fn tread_of(plan: &Plan, index: usize) -> (Length, Length) {
    let layout = &plan.layout;
    let interval = layout
        .pinned_intervals
        .iter()
        .position(|&pin| pin == Some(index));
    let interval = interval.unwrap_or_else(|| panic!("pin {index} holds no interval"));
    let from = interval
        .checked_sub(1)
        .map_or(Length::ZERO, |stop| layout.stops[stop].at);
    (
        from,
        layout
            .stops
            .get(interval)
            .map_or(plan.length, |stop| stop.at),
    )
}

#[track_caller]
fn braided_with(plan: &Plan, (from, to): (Length, Length), wheels: Wheels) {
    let within = plan
        .line
        .stretches()
        .iter()
        .filter(|stretch| stretch.from() < to && stretch.to() > from);
    for stretch in within {
        assert_eq!(
            stretch.piece.wheels,
            wheels,
            "from {:?} to {:?} of {from:?} to {to:?}",
            stretch.from(),
            stretch.to()
        );
    }
}

#[track_caller]
fn holds(plan: &Plan, index: usize, pin: &Pin) {
    match *pin {
        Pin::Place { lower, rising, at } => {
            let event = event_of(plan, index);
            assert_eq!((event.at, event.change()), (at, Some((lower, rising))));
        }
        Pin::Carrier { threads, carrier } => {
            assert_eq!(plan.ladder.step_above(threads), Some(carrier));
            let steps = plan.events.iter().filter(|event| {
                event
                    .change()
                    .is_some_and(|(lower, _)| lower.threads == threads && event.level.heavy == 0)
                    && event.action.carrier() == Some(carrier)
            });
            for event in steps {
                assert_eq!(event.carrier_pin, Some(index));
            }
        }
        Pin::Swap { heavy, carrier } => {
            assert_eq!(plan.heavier.get(heavy as usize), Some(&carrier));
            let swaps = plan.events.iter().filter(|event| {
                let is_swap = matches!(event.action, Action::Swap { .. });
                is_swap
                    && event
                        .change()
                        .is_some_and(|(lower, _)| lower.heavy == heavy)
            });
            for event in swaps {
                let found = (event.action.carrier(), event.carrier_pin);
                assert_eq!(found, (Some(carrier), Some(index)));
            }
        }
        Pin::Wheels { wheels, level, .. } => {
            let interval = tread_of(plan, index);
            braided_with(plan, interval, wheels);
            if interval.0 < interval.1 {
                let piece = plan.station((interval.0 + interval.1) / 2.0).piece;
                assert_eq!(piece.load.threads, level.threads);
            }
        }
    }
}

#[track_caller]
fn all_hold(design: &Design) {
    let (plan, pins) = (Plan::of(design), design.pins());
    let dropped = dropped(&plan);
    assert!(
        dropped.windows(2).all(|pair| pair[0] < pair[1]),
        "a pin dropped twice: {dropped:?}"
    );
    for (index, pin) in pins
        .iter()
        .enumerate()
        .filter(|(index, _)| !dropped.contains(index))
    {
        holds(&plan, index, pin);
    }
    for lost in &plan.layout.dropped_pins {
        assert_eq!(lost.pin, pins[lost.index]);
        assert!(
            plan.notices.contains(&Notice::PinDropped(lost.clone())),
            "{lost:?} is not said"
        );
    }
    let held = plan
        .events
        .iter()
        .flat_map(|event| [event.pin, event.carrier_pin])
        .flatten();
    for index in held {
        assert!(!dropped.contains(&index), "pin {index} is dropped and held");
    }
}

/// The design with a level stretch of so many metres after it.
fn with_level_end(design: &Design, metres: f64) -> Option<Design> {
    let mut draft = design.draft().clone();
    let last = draft.points[draft.points.len() - 1];
    draft
        .points
        .push(crate::designs::point(last.at_m + metres, last.diameter_mm));
    Design::parse(draft).ok()
}

proptest! {
    #![proptest_config(cases(250))]

    /// A kept pin of a place stands there to the last bit, a carrier pinned is the one engaged, and a interval with pinned
    /// wheels is braided with them all along.
    #[test]
    fn a_pin_holds_or_is_dropped_with_a_reason(design in prop_oneof![1 => any_design().boxed(), 3 => pinned().boxed()]) {
        all_hold(&design);
    }

    /// Notes and a longer level end are no reason to drop what holds, or to keep what does not.
    #[test]
    fn an_unrelated_edit_leaves_pins_as_they_are(design in pinned()) {
        let noted = Edit::Notes("remember the heron".to_owned()).apply(&design);
        let noted = noted.unwrap_or_else(|refusal| panic!("{refusal}"));
        prop_assert_eq!(dropped(&Plan::of(&noted)), dropped(&Plan::of(&design)));
        if let (Some(short), Some(long)) = (with_level_end(&design, 4.0), with_level_end(&design, 5.0)) {
            prop_assert_eq!(dropped(&Plan::of(&short)), dropped(&Plan::of(&long)));
            all_hold(&long);
        }
    }

    /// What is dropped is passed over: without it the line is the same. A swelling left out is not: that the maker made
    /// it too short is what the pin was dropped for.
    #[test]
    fn a_dropped_pin_is_passed_over(design in pinned(), pick in 0_usize..5) {
        let count = design.draft().pins.len();
        let plan = Plan::of(&design);
        let index = pick % count;
        let without = Edit::Unpin(index).apply(&design).unwrap_or_else(|refusal| panic!("{refusal}"));
        let bare = Plan::of(&without);
        let lost = plan.layout.dropped_pins.iter().find(|pin| pin.index == index);
        prop_assume!(lost.is_some_and(|pin| pin.why != Why::LeftOut));
        prop_assert!(bare.line == plan.line, "{:?} leaves a trace", lost);
    }
}

/// The laws above are worth nothing if pins never hold or never fail.
#[test]
fn likely_pins_hold_and_fail_in_every_kind() {
    let (mut kept, mut lost) = ([0_usize; 4], [0_usize; 4]);
    for design in some_of(&pinned(), 120) {
        let dropped = dropped(&Plan::of(&design));
        for (index, pin) in design.pins().iter().enumerate() {
            let kind = match pin {
                Pin::Place { .. } => 0,
                Pin::Carrier { .. } => 1,
                Pin::Wheels { .. } => 2,
                Pin::Swap { .. } => 3,
            };
            let count = if dropped.contains(&index) {
                &mut lost
            } else {
                &mut kept
            };
            count[kind] += 1;
        }
    }
    // A carrier of a line's own steps hardly ever fails; the laws of ladders see to the reasons it may.
    let often = |kinds: &[usize], count: &[usize; 4]| kinds.iter().all(|&kind| count[kind] > 3);
    assert!(
        often(&[0, 1, 2, 3], &kept) && often(&[0, 2, 3], &lost),
        "{kept:?} kept, {lost:?} lost"
    );
}
