//! Other gears after a check: what a correction may change, and what it never does.

use proptest::prelude::*;
use taperwright::base::units::{Angle, Length};
use taperwright::braid::takeoff::Wheels;
use taperwright::design::demo::demo;
use taperwright::design::{Design, Draft};
use taperwright::plan::layout::Ground;
use taperwright::plan::run::{CheckKind, Measured, MishapKind, Proposal, Run};
use taperwright::plan::{Action, AdjustedPlan, Event, Plan};

use crate::designs::parsed;
use crate::likely::{pinned, unpinned};
use crate::lines::cases;
use crate::runs::uncounted;

fn line() -> impl Strategy<Value = Design> {
    prop_oneof![unpinned().boxed(), pinned().boxed()]
}

/// The run with more ticked, until so large a share of its adjusted plan is done, but at least the start, and never the end.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn ticked_to(adjusted: &AdjustedPlan, share: f64) -> Run {
    let target = ((adjusted.events.len() as f64) * share) as usize;
    let mut run = Run::default().tick(adjusted);
    while run.done < target {
        let next = run.clone().tick(adjusted);
        if next.done >= adjusted.events.len() {
            break;
        }
        run = next;
    }
    run
}

/// A place between the one where the machine stands and the next step.
fn along(run: &Run, adjusted: &AdjustedPlan, share: f64) -> Length {
    let stands = run.stands_at(adjusted);
    let next = run.next(adjusted).map_or(stands, |next| next.at);
    stands + (next - stands) * share
}

fn threads(events: &[Event]) -> Vec<(Action, Length)> {
    let changes = events.iter().filter(|event| event.action.is_of_threads());
    changes
        .map(|event| (event.action.clone(), event.at))
        .collect()
}

/// Places never run backward, wheels come off that are on, and each can be fitted with the gears owned.
fn can_be_braided(design: &Design, adjusted: &AdjustedPlan) {
    let take_off = design.take_off();
    for pair in adjusted.events.windows(2) {
        assert!(pair[0].at <= pair[1].at);
        assert!(take_off.can_fit(pair[1].wheels), "{:?}", pair[1].wheels);
        if let Action::Gear { from, to } = pair[1].action {
            assert_eq!((from, to), (pair[0].wheels, pair[1].wheels));
            assert_ne!(from, to);
        } else {
            assert_eq!(pair[0].wheels, pair[1].wheels);
        }
    }
    for (event, stretch) in adjusted.events.iter().zip(adjusted.line.stretches()) {
        assert!(event.since.metres() >= 0.0 && event.circuits >= 0.0);
        assert!(stretch.length().metres() > 0.0);
    }
}

/// Squared degrees off the target times metres from a place on, settled, with the wheels of each interval between two changes of
/// thread, and the price of every change. `wheels` gives those of an interval that begins at a place and ends at another.
fn cost(
    design: &Design,
    adjusted: &AdjustedPlan,
    (at, drawn): (Length, f64),
    wheels: impl Fn(Length, Length) -> Wheels,
) -> f64 {
    let ground = Ground::of(design);
    let mut places = vec![at];
    let changes = threads(&adjusted.events);
    places.extend(
        changes
            .iter()
            .map(|change| change.1)
            .filter(|&place| place > at),
    );
    places.push(adjusted.line.length());
    places.dedup();
    let mut fitted = None;
    places
        .windows(2)
        .map(|ends| {
            let on = adjusted
                .events
                .iter()
                .rfind(|event| event.at <= ends[0] && event.action.is_of_threads());
            let level = on.unwrap_or(&adjusted.events[0]).level;
            let level = ground.levels.iter().position(|&one| one == level);
            let load = ground.loads[level.expect("a level of the ladder")];
            let wheels = wheels(ends[0], ends[1]);
            let lay = ground.take_off.lay(wheels) * drawn;
            let angle = ground.process.braiding.at_lay(load, lay).angle;
            let changed = fitted.is_some_and(|fitted| fitted != wheels);
            fitted = Some(wheels);
            let off = (angle - ground.process.target).degrees();
            off * off * (ends[1] - ends[0]).metres()
                + if changed { ground.price.metres() } else { 0.0 }
        })
        .sum()
}

/// The wheels on the machine in the middle of a stretch.
fn in_middle(adjusted: &AdjustedPlan, from: Length, to: Length) -> Wheels {
    let events = &adjusted.events;
    let middle = from + (to - from) * 0.5;
    let last = events.iter().rfind(|event| event.at <= middle);
    last.expect("the start is at the tip").wheels
}

proptest! {
    #![proptest_config(cases(100))]

    /// A correction changes nothing that is done, nothing of the line before the last stop, no change of threads and no place of
    /// one. It can be braided with the gears owned, and its gears are changed only where the machine stands or threads are changed.
    #[test]
    fn a_correction_changes_gears_alone(design in line(), done in 0.0_f64..1.0, share in 0.0_f64..1.0, drawn in 0.8_f64..1.25) {
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let run = ticked_to(&adjusted, done);
        let at = along(&run, &adjusted, share);
        let corrected = run.drawn_corrected(&adjusted, at, drawn).expect("on the line");
        let stands = corrected.stands_at(&adjusted);
        let after = corrected.adjusted(&design, &plan);
        can_be_braided(&design, &after);
        prop_assert_eq!(&after.events[..run.done], &adjusted.events[..run.done]);
        prop_assert_eq!(threads(&after.events), threads(&adjusted.events));
        let last = adjusted.events[run.done - 1].at;
        for (now, then) in after.line.stretches().iter().zip(adjusted.line.stretches()) {
            if then.to() > last {
                break;
            }
            prop_assert_eq!(now, then);
        }
        prop_assert_eq!(after.line.length(), plan.length);
        let (end, planned) = (after.events.last(), adjusted.events.last());
        prop_assert_eq!(end.map(|end| &end.action), planned.map(|end| &end.action));
        let places: Vec<Length> = threads(&after.events).iter().map(|change| change.1).collect();
        for event in &after.events[run.done..] {
            let is_gear = matches!(event.action, Action::Gear { .. });
            let is_stop = event.at == stands || places.contains(&event.at);
            // On the last centimetres nothing is changed any more.
            let is_left = (plan.length - stands).millimetres() < 20.0;
            prop_assert!(!is_gear || is_stop || is_left, "{event:?}");
        }
        // Taken back, it leaves no trace.
        prop_assert_eq!(uncounted(&corrected.clone().back(&after)), uncounted(&run));
        let text = serde_json::to_string(&corrected).expect("plain data");
        let read: Run = serde_json::from_str(&text).expect("it reads back");
        prop_assert_eq!(&read, &corrected);
        // The same found once more changes nothing.
        let twice = corrected.drawn_corrected(&after, stands, drawn).expect("there is room");
        prop_assert_eq!(&twice.adjusted(&design, &plan), &after);
    }

    /// A take-off that draws what it should leaves the plan as it is, to the last bit.
    #[test]
    fn nothing_is_corrected_where_nothing_is_off(design in line(), done in 0.0_f64..1.0, share in 0.0_f64..1.0) {
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let run = ticked_to(&adjusted, done);
        let at = along(&run, &adjusted, share);
        let corrected = run.drawn_corrected(&adjusted, at, 1.0).expect("on the line");
        prop_assert_eq!(&corrected.adjusted(&design, &plan), &adjusted);
    }

    /// The gears chosen are never worse than those planned: squared degrees off the target times metres, with the price of changes.
    #[test]
    fn other_gears_are_never_worse(design in unpinned(), done in 0.0_f64..1.0, drawn in 0.8_f64..1.25) {
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let run = ticked_to(&adjusted, done);
        let at = run.stands_at(&adjusted);
        let fitted = adjusted.events[run.done - 1].wheels;
        let corrected = run.drawn_corrected(&adjusted, at, drawn).expect("on the line");
        let after = corrected.adjusted(&design, &plan);
        let drawn = corrected.mishaps[0].drawn;
        let price = design.gear_change_price().metres();
        let whole = |adjusted: &AdjustedPlan| {
            let cost = cost(&design, adjusted, (at, drawn), |from, to| in_middle(adjusted, from, to));
            let first = in_middle(adjusted, at, along(&run, adjusted, 1.0).max(at));
            cost + if first == fitted { 0.0 } else { price }
        };
        // Pairs are thinned out where there are very many: then a few thousandths may be missed.
        let slack = if design.take_off().choices().len() > 64 { 1.02 } else { 1.0 };
        let is_left = (plan.length - at).millimetres() < 20.0;
        prop_assume!(!is_left);
        let staying = cost(&design, &after, (at, drawn), |_, _| fitted);
        prop_assert!(whole(&after) <= staying * slack + 1e-6, "{} {staying}", whole(&after));
        prop_assert!(whole(&after) <= whole(&adjusted) * slack + 1e-6, "{} {}", whole(&after), whole(&adjusted));
    }

    /// Mixed with other mishaps, in any order: what is done stays, what it weighs stays, and the rest can be braided.
    #[test]
    fn corrections_mix_with_mishaps(design in line(), troubles in proptest::collection::vec((0.0_f64..1.0, 0.0_f64..1.0, 0_u8..4, 0.85_f64..1.18), 1..5)) {
        let plan = Plan::of(&design);
        let mut run = Run::default();
        let mut adjusted = run.adjusted(&design, &plan);
        for (done, share, kind, drawn) in troubles {
            while run.done < adjusted.events.len() && (run.done as f64) < done * adjusted.events.len() as f64 || run.done == 0 {
                run = run.tick(&adjusted);
            }
            let at = along(&run, &adjusted, share);
            let next = match kind {
                0 => run.standing_at(&adjusted, MishapKind::Skipped, at + Length::from_metres(share)),
                1 => run.standing_at(&adjusted, MishapKind::Elsewhere, at),
                _ => run.drawn_corrected(&adjusted, at, drawn),
            };
            let Ok(next) = next else { continue };
            let after = next.adjusted(&design, &plan);
            can_be_braided(&design, &after);
            prop_assert_eq!(&after.events[..run.done], &adjusted.events[..run.done]);
            let until = adjusted.events[run.done - 1].at;
            let [then, now] = [&adjusted, &after].map(|plan| plan.line.mass(Length::ZERO, until).grams());
            prop_assert!((then - now).abs() <= 1e-9 * then.max(1.0), "{then} {now}");
            (run, adjusted) = (next, after);
        }
    }

    /// What was measured is what the corrected line has there, where no other gear is fitted.
    #[test]
    fn the_corrected_line_is_the_one_measured(off in -4.0_f64..4.0, kind in 0_usize..2) {
        let mut draft: Draft = demo().draft().clone();
        draft.gears = vec![24.0];
        let design = parsed(draft);
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let run = ticked_to(&adjusted, 0.5);
        let at = run.stands_at(&adjusted);
        let kind = CheckKind::ALL[kind];
        let expected = run.expected(&adjusted, &design, at).expect("something is braided");
        let value = expected.of(kind).planned + off;
        let drawn = expected.judge(Measured::by_hand(kind, value)).expect("it can be").drawn.expect("it shows the lay");
        let corrected = run.drawn_corrected(&adjusted, at, drawn).expect("on the line");
        let after = corrected.adjusted(&design, &plan);
        let now = corrected.expected(&after, &design, at).expect("something is braided");
        prop_assert!((now.of(kind).planned - value).abs() < 1e-3, "{} {value}", now.of(kind).planned);
    }
}

/// The take-off of the example draws a twentieth too much: a smaller gear is offered, the class of both ways is given, and after it
/// nothing more is asked for.
#[test]
fn a_drifting_value_offers_another_gear() {
    let design = demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let run = Run::default().tick(&adjusted);
    let at = run.stands_at(&adjusted);
    assert!(
        run.offered_correction(&adjusted, &design, &plan, Length::ZERO)
            .is_none()
    );
    let expected = run.expected(&adjusted, &design, at).expect("braided");
    let crossings = expected.crossings.planned;
    let fine = run
        .checked(
            &adjusted,
            &design,
            at,
            Measured::by_hand(CheckKind::Crossings, crossings),
        )
        .expect("it can be");
    assert!(
        fine.offered_correction(&adjusted, &design, &plan, Length::ZERO)
            .is_none()
    );
    let off = run
        .checked(
            &adjusted,
            &design,
            at,
            Measured::by_hand(CheckKind::Crossings, crossings / 1.06),
        )
        .expect("it can be");
    let Proposal {
        run: taken,
        before,
        after,
        regearing,
        ..
    } = off
        .offered_correction(&adjusted, &design, &plan, Length::ZERO)
        .expect("a correction");
    let regearing = regearing.expect("of gears");
    let first = regearing.others[0];
    assert_eq!(first.from, at);
    assert!(first.wheels.driver < first.instead_of.driver, "{first:?}");
    assert!(regearing.gain.degrees() > 1.0, "{:?}", regearing.gain);
    // The lighter line is the one drawn too long; with the other gear the head is nearer to the plan.
    let (planned, before, after) = (
        plan.head_mass.expect("a head"),
        before.expect("a head"),
        after.expect("a head"),
    );
    assert!(before < planned && (after - planned).abs() < (before - planned).abs());
    let corrected = taken.adjusted(&design, &plan);
    let step = taken.steps_ahead(&corrected).next().expect("a step");
    assert!(
        matches!(step[0].action, Action::Gear { .. }) && step[0].at == at,
        "{step:?}"
    );
    assert!(
        taken
            .offered_correction(&corrected, &design, &plan, Length::ZERO)
            .is_none()
    );
    // With one gear there is nothing else to fit; the class is recalculated all the same.
    let mut draft = design.draft().clone();
    draft.gears = vec![f64::from(adjusted.events[0].wheels.driver)];
    let design = parsed(draft);
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let run = Run::default().tick(&adjusted);
    let expected = run.expected(&adjusted, &design, at).expect("braided");
    let value = Measured::by_hand(CheckKind::Crossings, expected.crossings.planned / 1.12);
    let off = run
        .checked(&adjusted, &design, at, value)
        .expect("it can be");
    let offered = off
        .offered_correction(&adjusted, &design, &plan, Length::ZERO)
        .expect("a correction");
    let regearing = offered.regearing.expect("of gears");
    assert!(regearing.others.is_empty() && regearing.gain == Angle::ZERO);
}

/// Whatever a file holds, the plan can be made.
#[test]
fn a_file_may_hold_any_correction() {
    let design = demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let run = Run::default().tick(&adjusted);
    let run = run
        .drawn_corrected(&adjusted, Length::ZERO, 1.1)
        .expect("on the line");
    for drawn in [0.0, -1.0, 1e300, 1e-300] {
        for (done, at_m) in [(0, -5.0), (1, 1e9), (usize::MAX, 3.0)] {
            let mut run = run.clone();
            let mishap = &mut run.mishaps[0];
            (mishap.drawn, mishap.done, mishap.at_m) = (drawn, done, at_m);
            let adjusted = run.adjusted(&design, &plan);
            can_be_braided(&design, &adjusted);
            assert!(
                adjusted
                    .line
                    .bare_mass(Length::ZERO, plan.length)
                    .grams()
                    .is_finite()
            );
        }
    }
}
