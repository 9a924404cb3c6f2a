//! What the machine is told to do can be done.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::braid::takeoff::Wheels;
use taperwright::braid::taper::Point;
use taperwright::braid::threads::{Build, Supply};
use taperwright::braid::track::{Carrier, Direction};
use taperwright::plan::{Action, Event, Plan, Set};

use crate::designs::usual;
use crate::likely::likely;
use crate::lines::{any_design, cases, usual_design};

/// The machine as the schedule finds it: carriers with their ends in the order they were engaged, and the wheels fitted.
struct Machine<'a> {
    plan: &'a Plan,
    supply: Supply,
    engaged: Set,
    wheels: Wheels,
}

/// How often something was done.
#[derive(Default)]
struct Count {
    adds: usize,
    drops: usize,
    swaps: usize,
    gears: usize,
}

impl<'a> Machine<'a> {
    /// Carries out a whole schedule, refusing what cannot be done.
    #[track_caller]
    fn run(plan: &'a Plan) -> Count {
        let events = &plan.events;
        let [first, .., last] = events.as_slice() else {
            panic!("a schedule begins and ends")
        };
        let Action::Start(set) = &first.action else {
            panic!("begins with {first:?}")
        };
        assert_eq!(
            (first.at, first.since, first.circuits),
            (Length::ZERO, Length::ZERO, 0.0)
        );
        assert!(matches!(last.action, Action::End(_)) && last.at == plan.length);
        let mut machine = Self {
            plan,
            supply: plan.supply,
            engaged: set.clone(),
            wheels: first.wheels,
        };
        machine.is_sane(first);
        let mut count = Count::default();
        for pair in events.windows(2) {
            let (before, event) = (&pair[0], &pair[1]);
            assert!(
                event.at >= before.at && event.since == event.at - before.at,
                "out of order: {event:?}"
            );
            machine.runs_as_told(before.at, event.at);
            machine.carry_out(event, &mut count);
            machine.is_sane(event);
        }
        count
    }

    #[track_caller]
    fn carry_out(&mut self, event: &Event, count: &mut Count) {
        match &event.action {
            Action::Start(_) => panic!("a second start"),
            Action::Add { carrier, ends } => {
                assert!(
                    self.ends_of(*carrier).is_none(),
                    "{carrier} is engaged already"
                );
                self.engaged.push((*carrier, *ends));
                count.adds += 1;
            }
            Action::Drop { carrier, ends } => {
                assert_eq!(
                    self.engaged.pop(),
                    Some((*carrier, *ends)),
                    "not the last one added"
                );
                count.drops += 1;
            }
            Action::Swap { carrier, from, to } => {
                self.swap(*carrier, *from, *to);
                count.swaps += 1;
            }
            Action::Gear { from, to } => {
                assert!(
                    *from == self.wheels && from != to,
                    "{from} to {to} with {} fitted",
                    self.wheels
                );
                self.wheels = *to;
                count.gears += 1;
            }
            Action::End(set) => assert_eq!(*set, self.engaged, "the end"),
        }
    }

    /// A bobbin of one kind comes off, one of the other goes on.
    #[track_caller]
    fn swap(&mut self, carrier: Carrier, from: u32, to: u32) {
        assert_eq!(
            self.ends_of(carrier),
            Some(from),
            "{carrier} has no thread of {from} ends"
        );
        let mut kinds = [from, to];
        kinds.sort_unstable();
        assert_eq!(kinds, [self.supply.light, self.supply.heavy]);
        let swapped = self
            .engaged
            .iter_mut()
            .filter(|(other, _)| *other == carrier);
        swapped.for_each(|(_, ends)| *ends = to);
    }

    fn ends_of(&self, carrier: Carrier) -> Option<u32> {
        let found = self.engaged.iter().find(|(other, _)| *other == carrier);
        found.map(|&(_, ends)| ends)
    }

    fn heavy(&self) -> impl Iterator<Item = Carrier> {
        let swaps = self.supply.build != Build::MoreThreads;
        let heavy = self.supply.heavy;
        let all = self
            .engaged
            .iter()
            .filter(move |(_, ends)| swaps && *ends == heavy);
        all.map(|&(carrier, _)| carrier)
    }

    /// The threads are those the event names, a prefix of the ladder, and of the order of heavier threads; directions
    /// are at most one apart.
    #[track_caller]
    fn is_sane(&self, event: &Event) {
        let carriers: Vec<Carrier> = self.engaged.iter().map(|&(carrier, _)| carrier).collect();
        assert_eq!(
            carriers,
            self.plan.ladder.engaged(event.level.threads),
            "{event:?}"
        );
        assert_eq!(carriers.len(), event.threads() as usize);
        let mut heavy: Vec<Carrier> = self.heavy().collect();
        let mut first = self.plan.heavier[..event.level.heavy as usize].to_vec();
        heavy.sort();
        first.sort();
        assert_eq!(heavy, first, "{event:?}");
        let clockwise = carriers
            .iter()
            .filter(|carrier| carrier.direction == Direction::Clockwise);
        let clockwise = clockwise.count();
        assert!(
            clockwise.abs_diff(carriers.len() - clockwise) <= 1,
            "{event:?}"
        );
        assert_eq!(event.wheels, self.wheels, "{event:?}");
    }

    /// Between two events the line is braided by the threads and wheels that are on.
    #[track_caller]
    fn runs_as_told(&self, from: Length, to: Length) {
        if from == to {
            return;
        }
        let middle = (from + to) / 2.0;
        let piece = self.plan.station(middle).piece;
        let yarn: u32 = self.engaged.iter().map(|&(_, ends)| ends).sum();
        assert_eq!(
            (piece.load.threads as usize, piece.wheels),
            (self.engaged.len(), self.wheels)
        );
        let wanted = f64::from(yarn) / f64::from(self.supply.light);
        assert!(
            (piece.load.yarn / wanted - 1.0).abs() < 1e-9,
            "{wanted} threads at {middle:?}"
        );
        let mut told = self.plan.set_at(middle);
        let mut engaged = self.engaged.clone();
        told.sort_unstable();
        engaged.sort_unstable();
        assert_eq!(told, engaged);
    }
}

#[track_caller]
fn is_physical(plan: &Plan) {
    let count = Machine::run(plan);
    let ends = [&plan.events[0], &plan.events[plan.events.len() - 1]]
        .map(|event| event.threads() as usize);
    assert_eq!(ends[0] + count.adds, ends[1] + count.drops);
    assert_eq!(
        plan.thread_changes(),
        count.adds + count.drops + count.swaps
    );
    assert_eq!(plan.gear_changes(), count.gears);
    let since: Length = plan.events.iter().map(|event| event.since).sum();
    assert!((since / plan.length - 1.0).abs() < 1e-9);
    let circuits: f64 = plan.events.iter().map(|event| event.circuits).sum();
    let whole = plan.line.circuits(Length::ZERO, plan.length);
    assert!(
        (circuits / whole - 1.0).abs() < 1e-9,
        "{circuits} circuits of {whole}"
    );
}

#[track_caller]
fn tiles(plan: &Plan) {
    let stretches = plan.line.stretches();
    assert_eq!(stretches[0].from(), Length::ZERO);
    assert_eq!(stretches[stretches.len() - 1].to(), plan.length);
    for stretch in stretches {
        assert!(stretch.from() < stretch.to(), "{stretch:?}");
    }
    for pair in stretches.windows(2) {
        assert_eq!(pair[0].to(), pair[1].from());
    }
}

proptest! {
    #![proptest_config(cases(200))]

    /// Last in, first out; each carrier added is dropped later or reaches the end; what is dropped or swapped was
    /// engaged; directions stay within one of each other; wheels come off in the order they went on; and the line is
    /// used what is on.
    #[test]
    fn the_schedule_of_any_line_can_be_carried_out(design in any_design()) {
        is_physical(&Plan::of(&design));
    }

    #[test]
    fn the_schedule_of_a_likely_line_can_be_carried_out(design in likely()) {
        is_physical(&Plan::of(&design));
    }

    #[test]
    fn stretches_tile_the_line(design in prop_oneof![any_design().boxed(), likely().boxed()]) {
        tiles(&Plan::of(&design));
    }

    /// Bobbins count the engagements the schedule tells of; none is wound for a carrier that never runs.
    #[test]
    fn bobbins_are_engaged_as_often_as_the_schedule_says(design in likely()) {
        let plan = Plan::of(&design);
        for bobbin in &plan.bobbins {
            let kind = (bobbin.carrier, bobbin.ends);
            let comes_in = |event: &&Event| match &event.action {
                Action::Start(set) => set.contains(&kind),
                Action::Add { carrier, ends } | Action::Swap { carrier, to: ends, .. } => (*carrier, *ends) == kind,
                _ => false,
            };
            prop_assert!(bobbin.engagements > 0);
            prop_assert_eq!(plan.events.iter().filter(comes_in).count(), bobbin.engagements as usize);
        }
    }
}

/// The random drawings above are worth nothing if nothing ever changes on them.
#[test]
fn likely_lines_do_add_drop_swap_and_change_gears() {
    let mut sum = Count::default();
    for design in crate::lines::some_of(&likely(), 40) {
        let count = Machine::run(&Plan::of(&design));
        sum.adds += count.adds;
        sum.drops += count.drops;
        sum.swaps += count.swaps;
        sum.gears += count.gears;
    }
    assert!(
        sum.adds > 100 && sum.drops > 100,
        "{} adds, {} drops",
        sum.adds,
        sum.drops
    );
    assert!(
        sum.swaps > 100 && sum.gears > 50,
        "{} swaps, {} changes of gears",
        sum.swaps,
        sum.gears
    );
}

/// A drawing may just touch the place between two levels, at an end or at a peak: that is no change.
#[test]
fn touching_a_level_is_no_change() {
    let stairs = Plan::of(&usual()).staircase;
    let half = stairs.diameter(12.5).millimetres();
    // The staircase itself, since a design brings the diameter to its step.
    let drawn = |(at, size): (f64, f64)| Point {
        at: Length::from_metres(at),
        diameter: Length::from_millimetres(size),
    };
    for drawing in [
        [(0.0, 0.9), (1.0, half), (2.0, 0.9)],
        [(0.0, half), (1.0, 0.9), (2.0, 0.9)],
        [(0.0, 0.9), (1.0, 0.9), (2.0, half)],
    ] {
        let (mut level, changes) = stairs.changes(&drawing.map(drawn));
        let mut before = Length::ZERO;
        for change in changes {
            assert!(before < change.at && change.at.metres() < 2.0, "{change:?}");
            assert_eq!(change.before(), level);
            (level, before) = (change.after(), change.at);
            assert_ne!(
                level,
                stairs.nearest(Length::from_millimetres(half)),
                "touched in {drawing:?}"
            );
        }
    }
}

/// On the way between two places the drawing passes every level between: as many changes, each half-way.
#[test]
fn every_level_on_the_way_is_passed() {
    for design in crate::lines::some_of(&usual_design(), 60) {
        let (stairs, taper) = (Plan::of(&design).staircase, design.taper());
        let (mut level, changes) = stairs.changes(taper.points());
        for change in &changes {
            assert_eq!(change.before(), level);
            level = change.after();
            let drawn = stairs.wanted(taper.diameter_at(change.at));
            // One thread more or less at a time, from the eight at the bottom.
            assert!(
                (drawn - (8.5 + change.lower as f64)).abs() < 1e-6,
                "{drawn}"
            );
        }
        let end = stairs
            .wanted(taper.diameter_at(taper.length()))
            .clamp(8.0, 16.0);
        assert!((end - (8.0 + level as f64)).abs() <= 0.5 + 1e-9, "{end}");
    }
}
