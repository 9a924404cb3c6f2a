//! What the pictures need to know, gathered in one place from the design and its plan.

use leptos::prelude::*;

use crate::braid::Braid;
use crate::chart::ring::{Mounted, Ring};
use crate::design::Design;
use crate::plan::{Action, Plan};
use crate::track::{Carrier, Direction};
use crate::units::{Angle, Length};
use crate::view::bench::Bench;

/// The place told of. What changes with every move of the pointer stands apart from what needs a new drawing.
#[derive(Clone, Copy)]
pub(super) struct Station {
    /// Where it is, from the tip.
    pub(super) at: Memo<Length>,
    /// The machine and the braid there.
    pub(super) here: Memo<Here>,
    /// Where the next thread is added or dropped, if any is.
    pub(super) next_at: Memo<Option<Length>>,
}

/// The machine and the braid at a place.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Here {
    pub(super) ring: Ring,
    /// All carriers on the machine, clockwise ones first, each direction in track order.
    pub(super) mounted: Vec<Mounted>,
    pub(super) braid: Braid,
    /// The angle aimed at.
    pub(super) target: Angle,
    /// Width of the standard thread.
    pub(super) thread_width: Length,
    /// Ends of the standard thread.
    pub(super) thread_ends: u32,
    pub(super) next: Option<Next>,
}

/// The next thread change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Next {
    /// Whether the carrier comes in, not out.
    pub(super) adds: bool,
    pub(super) carrier: Carrier,
}

impl Here {
    /// The carriers engaged.
    pub(super) fn engaged(&self) -> Vec<Carrier> {
        let on = self.mounted.iter().filter(|one| one.is_engaged());
        on.map(|one| one.carrier).collect()
    }
}

/// What the pictures follow.
pub(super) fn station(bench: Bench) -> Station {
    let at = Memo::new(move |_| bench.place());
    let here = Memo::new(move |_| {
        bench
            .design
            .with(|design| bench.plan.with(|plan| here(design, plan, at.get())))
    });
    let next_at = Memo::new(move |_| {
        bench
            .plan
            .with(|plan| next_change(plan, at.get()).map(|(_, at)| at))
    });
    Station { at, here, next_at }
}

fn here(design: &Design, plan: &Plan, at: Length) -> Here {
    let (stretch, thread) = (plan.stretch_at(at), design.thread());
    let next = next_change(plan, at).map(|(next, _)| next);
    let engaged = plan.ladder.engaged(stretch.threads);
    let ends = |carrier| engaged.contains(&carrier).then_some(thread.ends);
    Here {
        ring: ring(design),
        mounted: mounted(design, ends, next),
        braid: stretch.fit.braid,
        target: design.target_angle(),
        thread_width: thread.width(),
        thread_ends: thread.ends,
        next,
    }
}

fn ring(design: &Design) -> Ring {
    let track = design.track();
    Ring {
        horn_gears: track.horn_gears(),
        slots: design.draft().pattern.slots(),
        places_each_way: track.carriers() / 2,
    }
}

/// A carrier at every place of the track, numbered by it.
fn mounted(
    design: &Design,
    ends: impl Fn(Carrier) -> Option<u32>,
    next: Option<Next>,
) -> Vec<Mounted> {
    let each_way = design.track().carriers() / 2;
    let at = |direction, place| {
        let carrier = Carrier {
            direction,
            number: place,
        };
        Mounted {
            carrier,
            place,
            ends: ends(carrier),
            is_next: next.is_some_and(|next| next.carrier == carrier),
        }
    };
    [Direction::Clockwise, Direction::CounterClockwise]
        .into_iter()
        .flat_map(|direction| (0..each_way).map(move |place| (direction, place)))
        .map(|(direction, place)| at(direction, place))
        .collect()
}

/// The first thread change beyond a place, and where it is.
fn next_change(plan: &Plan, at: Length) -> Option<(Next, Length)> {
    let mut beyond = plan.events.iter().filter(|event| event.at > at);
    beyond.find_map(|event| {
        let (adds, carrier) = match event.action {
            Action::Add(carrier) => (true, carrier),
            Action::Drop(carrier) => (false, carrier),
            Action::Start(_) | Action::Gear { .. } | Action::End(_) => return None,
        };
        Some((Next { adds, carrier }, event.at))
    })
}
