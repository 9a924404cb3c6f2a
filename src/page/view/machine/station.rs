//! What the pictures of the machine need from the design and its plan, gathered in one place.

use leptos::prelude::*;

use crate::base::units::{Angle, Length};
use crate::braid::geometry::Braid;
use crate::braid::track::Carrier;
use crate::design::Design;
use crate::page::view::bench::Bench;
use crate::paper::chart::ring::{MountedCarrier, Ring};
use crate::paper::words;
use crate::plan::run::Now;
use crate::plan::{Event, Plan, Set};

/// The place of the cursor. What changes with every move of the pointer is kept apart from what needs a new drawing.
#[derive(Clone, Copy)]
pub(crate) struct StationSignals {
    /// Where it is, from the tip.
    pub(crate) at: Memo<Length>,
    /// The machine and the braid there.
    pub(crate) here: Memo<MachineState>,
    /// Where the next thread is added or dropped, if any is.
    pub(crate) next_at: Memo<Option<Length>>,
}

/// The machine and the braid at a place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct MachineState {
    pub(crate) ring: Ring,
    /// All carriers on the machine, clockwise ones first, each direction in track order.
    pub(crate) mounted: Vec<MountedCarrier>,
    pub(super) braid: Braid,
    /// The angle aimed at.
    pub(super) target: Angle,
    /// Width of the standard thread.
    pub(super) thread_width: Length,
    /// Ends of the standard thread.
    pub(super) thread_ends: u32,
    pub(super) next: Option<NextChange>,
}

/// The next thread change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct NextChange {
    /// What is done: add, drop, swap.
    pub(super) action: &'static str,
    pub(super) carrier: Carrier,
}

impl MachineState {
    /// The carriers engaged.
    pub(crate) fn engaged(&self) -> Vec<Carrier> {
        let on = self.mounted.iter().filter(|one| one.is_engaged());
        on.map(|one| one.carrier).collect()
    }

    /// The carriers that change next.
    pub(crate) fn changing(&self) -> Vec<Carrier> {
        let next = self.mounted.iter().filter(|one| one.is_next);
        next.map(|one| one.carrier).collect()
    }
}

/// What the pictures follow.
pub(super) fn station(bench: Bench) -> StationSignals {
    let at = Memo::new(move |_| bench.place());
    let here = Memo::new(move |_| {
        bench.drawn(|design| bench.plan.with(|plan| here(design, plan, at.get())))
    });
    let next_at = Memo::new(move |_| {
        bench
            .plan
            .with(|plan| next_change(plan, at.get()).map(|(_, at)| at))
    });
    StationSignals { at, here, next_at }
}

impl StationSignals {
    /// The machine at the step of a run, with the carriers that the step is about.
    pub(crate) fn of_run(design: &Design, plan: &Plan, now: &Now) -> MachineState {
        let next: Vec<NextChange> = now.step.iter().filter_map(next_of).collect();
        machine(design, &now.engaged, &next, plan.station(now.stands).braid)
    }
}

fn here(design: &Design, plan: &Plan, at: Length) -> MachineState {
    let next = next_change(plan, at).map(|(next, _)| next);
    machine(
        design,
        &plan.set_at(at),
        next.as_slice(),
        plan.station(at).braid,
    )
}

fn machine(design: &Design, set: &Set, next: &[NextChange], braid: Braid) -> MachineState {
    let thread = design.thread();
    let track = design.track();
    let carriers: Vec<Carrier> = next.iter().map(|next| next.carrier).collect();
    MachineState {
        ring: Ring::of(&track),
        mounted: MountedCarrier::all(&track, set, &carriers),
        braid,
        target: design.target_angle(),
        thread_width: thread.width(),
        thread_ends: thread.ends,
        next: next.first().copied(),
    }
}

/// The first thread change beyond a place, and where it is.
fn next_change(plan: &Plan, at: Length) -> Option<(NextChange, Length)> {
    let event = plan.next_change(at)?;
    Some((next_of(event)?, event.at))
}

fn next_of(event: &Event) -> Option<NextChange> {
    Some(NextChange {
        action: words::event_key(&event.action),
        carrier: event.action.carrier()?,
    })
}
