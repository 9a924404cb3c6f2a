//! The order of carriers braids soundly at every step.

use taperwright::ladder::Ladder;
use taperwright::track::{Direction, Pattern, Track};

/// The ladder from half load to full load of a track, as a maker would use it.
#[track_caller]
fn from_half(carriers: u32, pattern: Pattern) -> (Ladder, core::ops::RangeInclusive<u32>) {
    let track = Track::new(carriers, pattern)
        .unwrap_or_else(|| panic!("no track of {carriers} {pattern:?}"));
    let half = (carriers / 2).max(4);
    (Ladder::new(track, half, carriers), half..=carriers)
}

#[track_caller]
fn is_sound(carriers: u32, pattern: Pattern, longest_float: u32) {
    let (ladder, counts) = from_half(carriers, pattern);
    for threads in counts {
        let found = ladder.interlacing(threads);
        assert!(
            found.is_sound(),
            "{carriers} {pattern:?} falls apart at {threads}: {:?}",
            found.unsound
        );
        assert!(
            found.longest_float <= longest_float,
            "{carriers} {pattern:?} floats {} at {threads}",
            found.longest_float
        );
    }
}

/// The two machines most lines are braided on: no thread may lie over or under more than two others on the way.
#[test]
fn sixteen_carriers_never_float_over_more_than_two() {
    is_sound(16, Pattern::Diamond, 2);
    is_sound(16, Pattern::Regular, 2);
}

/// Every track there is, from half load on: sound, with floats no longer than the pattern's own or two.
#[test]
fn from_half_load_every_track_braids_soundly() {
    for (pattern, slots) in [
        (Pattern::Diamond, 2),
        (Pattern::Regular, 4),
        (Pattern::Hercules, 6),
    ] {
        for carriers in (4..=64).filter(|carriers| carriers % slots == 0) {
            is_sound(carriers, pattern, (slots / 2).max(2));
        }
    }
}

/// Every state is one carrier more than the one before, no carrier comes twice, directions stay level.
#[test]
fn a_ladder_adds_one_carrier_at_a_time() {
    for (carriers, pattern) in [
        (16, Pattern::Diamond),
        (12, Pattern::Regular),
        (32, Pattern::Regular),
        (24, Pattern::Hercules),
    ] {
        let track = Track::new(carriers, pattern).unwrap_or_else(|| panic!("no track"));
        for start in 3..=carriers {
            let ladder = Ladder::new(track, start, carriers);
            let all = ladder.engaged(carriers);
            let mut seen = all.to_vec();
            seen.sort();
            seen.dedup();
            assert_eq!(
                seen.len(),
                carriers as usize,
                "{carriers} {pattern:?} from {start}"
            );
            for threads in start..=carriers {
                let clockwise = |n: u32| {
                    ladder
                        .engaged(n)
                        .iter()
                        .filter(|c| c.direction == Direction::Clockwise)
                        .count()
                };
                let half = threads as usize / 2;
                assert!(
                    (half..=half + threads as usize % 2).contains(&clockwise(threads)),
                    "at {threads}"
                );
                assert_eq!(
                    ladder.step_above(threads),
                    all.get(threads as usize).copied()
                );
                assert!(all.iter().all(|carrier| carrier.number < carriers / 2));
            }
        }
    }
}

/// From four threads up, with those few starts named for which no set was found that holds: the plan must warn of them.
#[test]
fn small_starts_braid_soundly_too() {
    let mut falling = Vec::new();
    for (pattern, slots) in [
        (Pattern::Diamond, 2),
        (Pattern::Regular, 4),
        (Pattern::Hercules, 6),
    ] {
        for carriers in (4..=64).filter(|carriers| carriers % slots == 0) {
            let track = Track::new(carriers, pattern).unwrap_or_else(|| panic!("no track"));
            let starts = 4..=carriers;
            let falls = |&threads: &u32| {
                !Ladder::new(track, threads, threads)
                    .interlacing(threads)
                    .is_sound()
            };
            falling.extend(
                starts
                    .filter(falls)
                    .map(|threads| (carriers, slots, threads)),
            );
        }
    }
    assert_eq!(falling, []);
}
