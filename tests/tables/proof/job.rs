//! From a plan to what a braider is told.

use taperwright::braid::track::{Carrier, Direction, Track};
use taperwright::design::Design;
use taperwright::plan::{Action, Event, Plan};

use crate::braider::{Job, Operation, Ring, Seat, Yarn};

/// Where a carrier of the plan stands on the braider's ring.
pub(super) fn seat(track: Track, carrier: Carrier) -> Seat {
    let place = track.place(carrier) as usize;
    match carrier.direction {
        Direction::Clockwise => Seat::Forth(place),
        Direction::CounterClockwise => Seat::Back(place),
    }
}

/// The plan, done as its schedule says.
pub(super) fn job(design: &Design, plan: &Plan) -> Job {
    let track = design.track();
    let Action::Start(set) = &plan.events[0].action else {
        panic!("the schedule begins with no start");
    };
    let engaged = set
        .iter()
        .map(|&(carrier, ends)| (seat(track, carrier), ends));
    Job {
        ring: ring(track),
        yarn: yarn(design),
        guide_radius: design.process().guide.metres(),
        held_radius: None,
        constant: design.take_off().constant.metres(),
        ratio: plan.events[0].wheels.ratio(),
        engaged: engaged.collect(),
        events: (plan.events.iter())
            .filter_map(|event| Some((event.at.metres(), operation(design, event)?)))
            .collect(),
        length: plan.length.metres(),
    }
}

fn ring(track: Track) -> Ring {
    Ring {
        gears: track.horn_gears() as usize,
        slots: track.slots() as usize,
        mounted: track.all().map(|carrier| seat(track, carrier)).collect(),
    }
}

fn yarn(design: &Design) -> Yarn {
    let (thread, braiding) = (design.thread(), design.braiding());
    Yarn {
        end: thread.end.kilograms_per_metre(),
        fibre_density: thread.fibre_density.kilograms_per_cubic_metre(),
        packing: thread.packing,
        flattening: thread.flattening,
        crimp: braiding.crimp,
        fibre_fraction: braiding.fibre_fraction,
    }
}

fn operation(design: &Design, event: &Event) -> Option<Operation> {
    let seat = |carrier| seat(design.track(), carrier);
    let tail = design.buried_tail().metres();
    match event.action {
        Action::Start(_) | Action::End(_) => None,
        Action::Add { carrier, ends } => Some(Operation::Engage {
            seat: seat(carrier),
            ends,
        }),
        Action::Drop { carrier, .. } => Some(Operation::Drop {
            seat: seat(carrier),
            tail,
        }),
        Action::Swap { carrier, to, .. } => Some(Operation::Swap {
            seat: seat(carrier),
            ends: to,
            tail,
        }),
        Action::Gear { to, .. } => Some(Operation::Fit { ratio: to.ratio() }),
    }
}
