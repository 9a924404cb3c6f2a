//! Whatever comes to a door, no more than 16 MB is taken up beside it, and it is refused or read before long.
//!
//! An allocator that counts (the crate `peak_alloc`) says how much. How long it takes is told, not asserted:
//! `cargo test --release --test caps -- --nocapture`. The goal is 50 ms; what a machine is busy with is no fault of ours.
#![cfg(not(target_arch = "wasm32"))]

#[path = "../common/designs.rs"]
#[allow(dead_code, reason = "few of them are needed here")]
mod designs;
mod hostile;
mod largest;
#[path = "../common/small_pictures.rs"]
#[allow(dead_code, reason = "only the largest is needed here")]
mod small_pictures;
mod storage;
mod tables;

use std::sync::{Mutex, PoisonError};
use std::time::Instant;

use peak_alloc::PeakAlloc;
use taperwright::keep::book::file as book;
use taperwright::keep::dropped;
use taperwright::keep::share::readings::{self, AskedUnits};
use taperwright::keep::share::{file, link, measured_file};

use storage::nowhere;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// Most that may be taken up beside the input, in bytes.
const MOST: usize = 16_000_000;

/// Memory is counted for all threads together: only one measures at a time.
static ALONE: Mutex<()> = Mutex::new(());

/// Runs a test while no other does.
fn alone(test: impl FnOnce()) {
    let _alone = ALONE.lock().unwrap_or_else(PoisonError::into_inner);
    test();
}

/// Bytes taken up at most while something is done, beyond those before.
fn growth(operation: impl FnOnce()) -> usize {
    let before = MEMORY.current_usage();
    MEMORY.reset_peak_usage();
    operation();
    MEMORY.peak_usage().saturating_sub(before)
}

/// Asserts that a door keeps within its room, and tells how long it took.
#[track_caller]
fn keeps_within(what: &str, operation: impl FnOnce()) {
    let start = Instant::now();
    let growth = growth(operation);
    let millis = start.elapsed().as_secs_f64() * 1e3;
    println!("{:>9} kB {millis:>8.1} ms  {what}", growth / 1000);
    assert!(growth <= MOST, "{what}: {growth} bytes");
}

/// A way in for a text, and the most bytes it reads; the answer is whether it read it.
type Door = (&'static str, usize, fn(&str) -> bool);

const DOORS: [Door; 11] = [
    ("link", link::LONGEST, |text| {
        matches!(link::read(text), Some(Ok(_)))
    }),
    ("message", 1_000_000, |text| {
        link::fragment_in(text).is_some()
    }),
    ("design file", file::LARGEST, |text| {
        file::read(text).is_ok()
    }),
    ("newer design file", file::LARGEST, |text| {
        file::glimpse(text).is_some()
    }),
    ("bench book", book::LARGEST, |text| book::read(text).is_ok()),
    ("newer bench book", book::LARGEST, |text| {
        book::glimpse(text).is_some()
    }),
    ("measured line", measured_file::LARGEST, |text| {
        measured_file::read(text).is_ok()
    }),
    ("newer measured line", measured_file::LARGEST, |text| {
        measured_file::glimpse(text).is_some()
    }),
    ("table of readings", readings::LARGEST, reads_readings),
    ("dropped file", dropped::LARGEST, |text| {
        dropped::read(text).is_ok()
    }),
    (
        "file of everything",
        taperwright::keep::shelf::backup::LARGEST,
        |text| nowhere().import(text).is_ok(),
    ),
];

fn reads_readings(text: &str) -> bool {
    readings::read(text, &AskedUnits::default()).is_ok()
}

#[test]
fn what_is_taken_up_is_counted() {
    alone(|| {
        let counted = growth(|| drop(vec![1_u8; 2 * MOST]));
        // The harness itself may give back a little meanwhile.
        assert!(
            (2 * MOST - MOST / 100..3 * MOST).contains(&counted),
            "{counted}"
        );
    });
}

#[test]
fn hostile_texts_take_up_little() {
    alone(|| {
        for (door, largest, read) in DOORS {
            for hostile in hostile::ALL {
                // As long as is admitted, and one byte longer.
                for size in [largest, largest + 1] {
                    let text = hostile.text(size);
                    let what = format!("{door}, {} bytes of {}", text.len(), hostile.name);
                    keeps_within(&what, || {
                        assert!(!read(&text) || door == "message", "{what} was read");
                    });
                }
            }
        }
    });
}

#[test]
fn the_largest_that_is_read_takes_up_little() {
    alone(|| {
        let tables =
            tables::largest().map(|(what, text)| (what, reads_readings as fn(&str) -> bool, text));
        for (what, read, text) in largest::all().into_iter().chain(tables) {
            let what = format!("{what}, {} bytes", text.len());
            keeps_within(&what, || assert!(read(&text), "{what} was not read"));
        }
    });
}

#[test]
fn tables_of_readings_take_up_little() {
    alone(|| {
        for (what, unit) in tables::UNITS {
            for text in tables::made_of(unit) {
                let what = format!("table of readings, {} bytes of {what}", text.len());
                keeps_within(&what, || {
                    std::hint::black_box(reads_readings(&text));
                });
            }
        }
    });
}

#[test]
fn damaged_files_take_up_little() {
    alone(|| {
        for (what, read, text) in largest::damaged() {
            let what = format!("{what}, {} bytes", text.len());
            keeps_within(&what, || assert!(read(&text), "{what}: no whole piece"));
        }
    });
}

#[test]
fn spoilt_files_take_up_little() {
    alone(|| {
        for (what, read, text) in largest::spoilt() {
            let what = format!("{what}, {} bytes", text.len());
            keeps_within(&what, || assert!(!read(&text), "{what} was read"));
        }
    });
}
