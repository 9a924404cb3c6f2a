//! The pictures of the machine: the carriers stand where they stand, and the threads cross as they cross.
#![cfg(not(target_arch = "wasm32"))]

#[path = "pictures/braid.rs"]
mod braid;
#[path = "pictures/crossings.rs"]
mod crossings;
#[path = "pictures/gauge.rs"]
mod gauge;
#[path = "pictures/map.rs"]
mod map;
#[path = "pictures/outline.rs"]
mod outline;
#[path = "pictures/small.rs"]
mod small;
#[path = "pictures/terms.rs"]
mod terms;
#[path = "pictures/threads.rs"]
mod threads;

use taperwright::braid::track::{Carrier, Direction, Pattern, Track};
use taperwright::paper::chart::ring::{MountedCarrier, Ring};

/// Both directions.
const WAYS: [Direction; 2] = [Direction::Clockwise, Direction::CounterClockwise];

/// Machines of every pattern, from the smallest to the largest, among them rings of 4n + 2 gears.
const MACHINES: [(u32, Pattern); 12] = [
    (4, Pattern::Diamond),
    (16, Pattern::Diamond),
    (32, Pattern::Diamond),
    (64, Pattern::Diamond),
    (4, Pattern::Regular),
    (8, Pattern::Regular),
    (12, Pattern::Regular),
    (16, Pattern::Regular),
    (32, Pattern::Regular),
    (64, Pattern::Regular),
    (24, Pattern::Hercules),
    (60, Pattern::Hercules),
];

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

fn track(carriers: u32, pattern: Pattern) -> Track {
    let horn_gears = 2 * carriers / pattern.slots();
    Track::new(horn_gears, pattern.slots())
        .unwrap_or_else(|| panic!("no track of {carriers} {pattern:?}"))
}

fn ring(carriers: u32, pattern: Pattern) -> Ring {
    Ring {
        horn_gears: track(carriers, pattern).horn_gears(),
        slots: pattern.slots(),
        places_each_way: carriers / 2,
    }
}

/// A carrier at every place, numbered by it, with what `ends` says of each.
fn mounted(carriers: u32, ends: impl Fn(Direction, u32) -> Option<u32>) -> Vec<MountedCarrier> {
    let places = WAYS.into_iter().flat_map(|direction| {
        let ends = &ends;
        (0..carriers / 2).map(move |place| MountedCarrier {
            carrier: Carrier {
                direction,
                number: place,
            },
            place,
            ends: ends(direction, place),
            is_next: false,
        })
    });
    places.collect()
}

fn all_on(carriers: u32) -> Vec<MountedCarrier> {
    mounted(carriers, |_, _| Some(12))
}
