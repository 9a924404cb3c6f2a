//! The pace of a machine from timed stretches, against a general library.
//!
//! `statsmodels` 0.15.0, `RLM(…, M=TukeyBiweight(c=4.685))`, which estimates its scale again in every round, while the core keeps one. The
//! figures are what `tests/against/pace.py` prints; it needs nothing of the core.

use taperwright::plan::run::{Pace, PaceBasis, RunClock, Timed};

/// Seed of the stretches, how many, every which one of them is wrong, and the library's circuits a minute.
const PACES: [(u64, u32, u32, f64); 6] = [
    (1, 5, 0, 40.9810),
    (2, 5, 5, 40.8844),
    (3, 8, 4, 41.0706),
    (4, 12, 5, 41.1061),
    (5, 20, 6, 40.9623),
    (6, 40, 7, 40.9814),
];

/// The stretches of the script: a machine of 41 circuits a minute, presses up to 6 s late, and some stops that were not marked.
fn stretches(seed: u64, count: u32, wrong: u32) -> Vec<Timed> {
    // That of `rand` in the C standard's example, modulo 2³¹ (from memory).
    let mut state = seed;
    let mut next = || {
        state = (1_103_515_245 * state + 12_345) % (1 << 31);
        state
    };
    let mut one = |index: u32| {
        let circuits = (80 + (next() >> 8) % 900) as f64;
        let last = next();
        let late = (((last >> 8) % 1201) as f64 - 600.0) / 100.0;
        let is_wrong = wrong > 0 && index % wrong == wrong - 1;
        let stop = if is_wrong {
            (90 + (last >> 12) % 300) as f64
        } else {
            0.0
        };
        let seconds = circuits / 41.0 * 60.0 + late + stop;
        Timed {
            circuits,
            seconds: (100.0 * seconds).round() / 100.0,
            with_stop: false,
        }
    };
    (0..count).map(&mut one).collect()
}

#[test]
fn the_pace_is_that_of_a_general_library() {
    for (seed, count, wrong, theirs) in PACES {
        let timed = stretches(seed, count, wrong);
        let clock = RunClock {
            timed,
            ..RunClock::default()
        };
        let pace = Pace::of(&clock, &[], 30.0);
        let ours = pace.circuits_per_minute;
        assert_eq!(pace.basis, PaceBasis::ThisLine(count as usize));
        // Scales that differ weigh a little differently; both are within a third of a percent of the truth.
        assert!(
            (ours / theirs - 1.0).abs() < 0.002,
            "{seed}: {ours} {theirs}"
        );
        assert!((ours / 41.0 - 1.0).abs() < 0.004, "{seed}: {ours}");
    }
}
