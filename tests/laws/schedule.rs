//! What the machine is told to do can be done.

use proptest::prelude::*;
use taperwright::plan::{Action, Event, Plan};
use taperwright::taper::Point;
use taperwright::track::{Carrier, Direction};
use taperwright::units::Length;

use crate::designs::usual;
use crate::lines::{any_design, cases, usual_design};

/// The machine as the schedule finds it: carriers in the order they were engaged, and the gear fitted.
struct Machine {
    engaged: Vec<Carrier>,
    /// Carriers that must run the whole line.
    throughout: Vec<Carrier>,
    gear: u32,
}

impl Machine {
    /// Carries out a whole schedule, refusing what cannot be done; gives the number of adds and drops.
    #[track_caller]
    fn run(plan: &Plan) -> (usize, usize) {
        let events = &plan.events;
        let [first, .., last] = events.as_slice() else {
            panic!("a schedule begins and ends")
        };
        let Action::Start(set) = &first.action else {
            panic!("begins with {first:?}")
        };
        let mut machine = Self {
            engaged: set.clone(),
            throughout: plan.ladder.engaged(plan.threads_min()).to_vec(),
            gear: first.gear,
        };
        machine.is_sane(first);
        let (mut adds, mut drops, mut before) = (0, 0, first.at);
        assert_eq!((first.at, first.since), (Length::ZERO, Length::ZERO));
        for event in &events[1..] {
            assert!(
                event.at >= before && event.since == event.at - before,
                "out of order: {event:?}"
            );
            before = event.at;
            adds += usize::from(matches!(event.action, Action::Add(_)));
            drops += usize::from(matches!(event.action, Action::Drop(_)));
            machine.carry_out(event, std::ptr::eq(event, last));
        }
        (adds, drops)
    }

    #[track_caller]
    fn carry_out(&mut self, event: &Event, is_last: bool) {
        match &event.action {
            Action::Start(_) => panic!("a second start"),
            Action::Add(carrier) => {
                assert!(
                    !self.engaged.contains(carrier),
                    "{carrier} is engaged already"
                );
                self.engaged.push(*carrier);
            }
            Action::Drop(carrier) => {
                assert_eq!(self.engaged.pop(), Some(*carrier), "not the last one added");
            }
            Action::Gear { from, to } => {
                assert!(
                    *from == self.gear && from != to,
                    "{from} to {to} with {} fitted",
                    self.gear
                );
                self.gear = *to;
            }
            Action::End(set) => assert!(is_last && *set == self.engaged, "ends with {set:?}"),
        }
        self.is_sane(event);
    }

    #[track_caller]
    fn is_sane(&self, event: &Event) {
        let count = |direction| {
            self.engaged
                .iter()
                .filter(|carrier| carrier.direction == direction)
                .count()
        };
        assert!(
            self.throughout
                .iter()
                .all(|carrier| self.engaged.contains(carrier)),
            "{event:?}"
        );
        let (one, other) = (
            count(Direction::Clockwise),
            count(Direction::CounterClockwise),
        );
        assert!(one.abs_diff(other) <= 1, "{one} against {other}");
        assert_eq!(
            (event.threads as usize, event.gear),
            (self.engaged.len(), self.gear),
            "{event:?}"
        );
    }
}

#[track_caller]
fn is_physical(plan: &Plan) {
    let (adds, drops) = Machine::run(plan);
    let ends = [plan.events.first(), plan.events.last()]
        .map(|event| event.map_or(0, |event| event.threads as usize));
    assert_eq!(ends[0] + adds, ends[1] + drops);
    let last = &plan.events[plan.events.len() - 1];
    assert!(matches!(last.action, Action::End(_)) && last.at == plan.length);
}

#[track_caller]
fn tiles(plan: &Plan) {
    let stretches = &plan.stretches;
    assert_eq!(stretches[0].from, Length::ZERO);
    assert_eq!(stretches[stretches.len() - 1].to, plan.length);
    for stretch in stretches {
        assert!(stretch.from <= stretch.to, "{stretch:?}");
    }
    for pair in stretches.windows(2) {
        assert_eq!(pair[0].to, pair[1].from);
        assert_eq!(
            pair[0].threads.abs_diff(pair[1].threads),
            1,
            "more than one thread at once"
        );
    }
}

proptest! {
    #![proptest_config(cases(200))]

    /// Last in, first out; each carrier added is dropped later or reaches the end; directions stay within one of
    /// each other; as many threads as the thinnest place has run the whole line; gears come off in the order they went on.
    #[test]
    fn the_schedule_of_any_line_can_be_carried_out(design in any_design()) {
        is_physical(&Plan::of(&design));
    }

    #[test]
    fn the_schedule_of_a_usual_line_can_be_carried_out(design in usual_design()) {
        is_physical(&Plan::of(&design));
    }

    #[test]
    fn stretches_tile_the_line(design in any_design()) {
        tiles(&Plan::of(&design));
    }

    /// On a usual line, where the counts really go up and down.
    #[test]
    fn every_stretch_has_the_threads_its_drawing_calls_for(design in usual_design()) {
        let plan = Plan::of(&design);
        tiles(&plan);
        let taper = design.taper();
        for stretch in &plan.stretches {
            let middle = (stretch.from + stretch.to) / 2.0;
            let wanted = plan.staircase.wanted(taper.diameter_at(middle)).clamp(8.0, 16.0);
            prop_assert!((wanted - f64::from(stretch.threads)).abs() <= 0.5 + 1e-9);
        }
    }

    /// Bobbins count the engagements the schedule tells of.
    #[test]
    fn bobbins_are_engaged_as_often_as_the_schedule_says(design in usual_design()) {
        let plan = Plan::of(&design);
        for bobbin in &plan.bobbins {
            let comes_in = |event: &&Event| match &event.action {
                Action::Start(set) => set.contains(&bobbin.carrier),
                Action::Add(carrier) => *carrier == bobbin.carrier,
                _ => false,
            };
            prop_assert_eq!(plan.events.iter().filter(comes_in).count(), bobbin.engagements as usize);
        }
    }
}

/// The random drawings above are worth nothing if their counts never change.
#[test]
fn usual_lines_do_add_and_drop() {
    use proptest::strategy::ValueTree as _;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut changes = 0;
    for _ in 0..20 {
        let tree = usual_design()
            .new_tree(&mut runner)
            .expect("the strategy never gives up");
        let (adds, drops) = Machine::run(&Plan::of(&tree.current()));
        changes += adds.min(drops);
    }
    assert!(changes > 200, "{changes} adds and drops in twenty lines");
}

/// A drawing may just touch the place between two levels, at an end or at a peak: that is no change.
#[test]
fn touching_a_level_is_no_change() {
    let stairs = Plan::of(&usual()).staircase;
    let half = stairs.diameter(12.5).millimetres();
    let touching = |points: &[(f64, f64)]| {
        // The staircase itself, since a design brings the diameter to its step.
        let points: Vec<Point> = points
            .iter()
            .map(|&(at, size)| Point {
                at: Length::from_metres(at),
                diameter: Length::from_millimetres(size),
            })
            .collect();
        stairs.runs(&points)
    };
    for drawing in [
        [(0.0, 0.9), (1.0, half), (2.0, 0.9)],
        [(0.0, half), (1.0, 0.9), (2.0, 0.9)],
        [(0.0, 0.9), (1.0, 0.9), (2.0, half)],
    ] {
        let runs = touching(&drawing);
        assert!(runs.iter().all(|run| run.from < run.to), "{runs:?}");
        assert!(
            runs.windows(2)
                .all(|pair| pair[0].threads != pair[1].threads && pair[0].to == pair[1].from)
        );
        assert_eq!(runs[runs.len() - 1].to.metres(), 2.0);
    }
}
