//! The order of carriers braids soundly at every step, and no order is better.

use taperwright::braid::ladder::{CarrierPin, Ladder, LadderCache};
use taperwright::braid::track::{Carrier, Direction, Engaged, Pattern, Track};

use brute::{Brute, is_balanced};

mod brute;
mod heavier;
mod pins;
mod plain;
mod recorded;

/// The track of a pattern with all of its carriers mounted.
#[track_caller]
fn full_track(carriers: u32, pattern: Pattern) -> Track {
    Track::new(carriers * 2 / pattern.slots(), pattern.slots())
        .unwrap_or_else(|| panic!("no track of {carriers} {pattern:?}"))
}

/// The ladder from half load to full load of a track, as a maker would use it.
#[track_caller]
fn from_half(carriers: u32, pattern: Pattern) -> (Ladder, core::ops::RangeInclusive<u32>) {
    let half = (carriers / 2).max(4);
    let track = full_track(carriers, pattern);
    (Ladder::new(track, half, carriers, &[]), half..=carriers)
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
            let track = full_track(carriers, pattern);
            let starts = 4..=carriers;
            let falls = |&threads: &u32| {
                !Ladder::new(track, threads, threads, &[])
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

/// A small congruential generator (no need for a good one), the same every time; gives numbers below a bound.
fn draws(mut state: u32) -> impl FnMut(u32) -> u32 {
    move |bound| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 8) % bound
    }
}

/// A track of this ring with so many carriers each way on random places.
fn part_mounted(ring: (u32, u32), counts: [u32; 2], draw: &mut impl FnMut(u32) -> u32) -> Track {
    let each_way = ring.0 * ring.1 / 4;
    let places = counts.map(|count| {
        let mut places = 0_u64;
        while places.count_ones() < count {
            places |= 1 << draw(each_way);
        }
        places
    });
    Track::with_mounted(ring.0, ring.1, places).expect("the ring has so many places")
}

/// Rings with few carriers on random places, directions not always the same in number, and starts.
fn small_machines() -> Vec<(Track, u32)> {
    let mut draw = draws(7);
    let rows = [
        ((16, 4), [4, 4], 3),
        ((16, 4), [5, 4], 5),
        ((16, 4), [3, 5], 4),
        ((16, 6), [5, 5], 6),
        ((12, 2), [4, 5], 4),
        ((14, 4), [4, 4], 4),
        ((8, 6), [5, 5], 5),
        ((32, 4), [4, 4], 4),
        ((10, 6), [2, 4], 3),
    ];
    let twice = rows.into_iter().chain(rows);
    twice
        .map(|(ring, counts, start)| (part_mounted(ring, counts, &mut draw), start))
        .collect()
}

/// Tracks with all carriers mounted that are small enough to go through every ladder.
fn small_tracks() -> Vec<(Track, u32)> {
    let rows = [
        (8, Pattern::Diamond, 3),
        (8, Pattern::Diamond, 4),
        (8, Pattern::Regular, 3),
        (8, Pattern::Regular, 5),
        (10, Pattern::Diamond, 4),
        (10, Pattern::Diamond, 5),
        (12, Pattern::Diamond, 6),
        (12, Pattern::Regular, 7),
        (12, Pattern::Hercules, 6),
        (6, Pattern::Hercules, 3),
    ];
    rows.map(|(carriers, pattern, start)| (full_track(carriers, pattern), start))
        .to_vec()
}

/// Held against every ladder there is: falls, floats, gaps and walk.
#[test]
fn no_ladder_is_better() {
    let (mut falling, mut floats) = (0, 0);
    for (track, start) in small_tracks().into_iter().chain(small_machines()) {
        let full = track.most_threads();
        let ladder = Ladder::new(track, start, full, &[]);
        let found = Brute::merits_of(track, start, ladder.engaged(full));
        let best = Brute::best(track, start, full, &[]);
        assert_eq!(Some(found), best, "{track:?} from {start}: {ladder:?}");
        falling += u32::from(found.0 > 0);
        floats += u32::from(found.1 > 2);
    }
    assert!(
        falling > 2 && floats > 2,
        "one-sided cases: {falling} fall, {floats} float far"
    );
}

/// Machines of either kind of search: full and part mounted, directions alike and not.
fn machines() -> Vec<Track> {
    let mut draw = draws(11);
    let full = [
        (16, Pattern::Diamond),
        (12, Pattern::Regular),
        (32, Pattern::Regular),
        (24, Pattern::Hercules),
    ];
    let part = [
        ((16, 4), [8, 8]),
        ((16, 4), [10, 9]),
        ((16, 6), [12, 12]),
        ((40, 2), [12, 10]),
        ((16, 4), [6, 12]),
        ((32, 4), [16, 16]),
    ];
    let full = full.map(|(carriers, pattern)| full_track(carriers, pattern));
    let part = part.map(|(ring, counts)| part_mounted(ring, counts, &mut draw));
    full.into_iter().chain(part).collect()
}

/// Every state is one carrier more than the one before, no carrier comes twice, all are mounted, directions stay level.
#[test]
fn a_ladder_adds_one_carrier_at_a_time() {
    for track in machines() {
        let full = track.most_threads();
        for start in [3, 4, 5, full / 2, full - 1, full] {
            let ladder = Ladder::new(track, start, full, &[]);
            let all = ladder.engaged(full);
            assert_eq!((ladder.start(), ladder.full()), (start, full));
            let mut seen = all.to_vec();
            seen.sort();
            seen.dedup();
            assert_eq!(seen.len(), full as usize, "{track:?} from {start}");
            assert!(all.iter().all(|&carrier| track.has(carrier)));
            for threads in start..=full {
                assert!(
                    is_balanced(Engaged::from_carriers(ladder.engaged(threads))),
                    "at {threads}"
                );
                let next = all.get(threads as usize).copied();
                assert_eq!(ladder.step_above(threads), next);
            }
        }
    }
}

/// The start set stands clockwise, counter-clockwise by turns, each direction in track order.
#[test]
fn a_start_set_is_listed_by_turns() {
    for track in machines() {
        for start in [4, 5, 8] {
            let ladder = Ladder::new(track, start, track.most_threads(), &[]);
            let set = ladder.engaged(start);
            let ways: Vec<_> = set.iter().map(|carrier| carrier.direction).collect();
            let pairs = ways.chunks(2).filter(|pair| pair.len() == 2);
            for pair in pairs {
                assert_eq!(
                    pair,
                    [Direction::Clockwise, Direction::CounterClockwise],
                    "{set:?}"
                );
            }
            for way in [Direction::Clockwise, Direction::CounterClockwise] {
                let numbers = set.iter().filter(|carrier| carrier.direction == way);
                assert!(numbers.map(|carrier| carrier.number).is_sorted(), "{set:?}");
            }
        }
    }
}

/// Whatever is asked for, there is a ladder: too few threads are three, too many as many as can be.
#[test]
fn ends_off_the_track_are_brought_onto_it() {
    let track = full_track(16, Pattern::Regular);
    let uneven = Track::with_mounted(8, 4, [0b11, 0xFF]).expect("a ring of 16 places");
    let rows = [
        (track, (0, 16), (3, 16)),
        (track, (8, 99), (8, 16)),
        (track, (99, 99), (16, 16)),
        (track, (12, 8), (8, 8)),
        (track, (0, 0), (3, 3)),
        (uneven, (2, 16), (3, 5)),
        (uneven, (u32::MAX, u32::MAX), (5, 5)),
    ];
    for (track, (start, full), (least, most)) in rows {
        let ladder = Ladder::new(track, start, full, &[]);
        assert_eq!(
            (ladder.start(), ladder.full()),
            (least, most),
            "{start} to {full}"
        );
        assert_eq!(ladder.engaged(u32::MAX).len(), most as usize);
        assert_eq!(ladder.step_above(u32::MAX), None);
    }
}

/// Whether a carrier never passes over or never under the others, by going through two turns of meetings.
pub(crate) fn is_loose(track: Track, carrier: Carrier, engaged: &[Carrier]) -> bool {
    let others = engaged
        .iter()
        .filter(|other| other.direction != carrier.direction);
    let sides = others.flat_map(|&other| {
        let (one, other) = match carrier.direction {
            Direction::Clockwise => (carrier, other),
            Direction::CounterClockwise => (other, carrier),
        };
        [0, 1].map(|turn| track.meeting_is_over(one, other, turn))
    });
    let sides: Vec<bool> = sides.collect();
    !(sides.contains(&true) && sides.contains(&false))
}

/// A state that falls apart names the carriers that lie loose. Three threads always do where turns are laid alike.
#[test]
fn every_state_is_sound_or_named() {
    let (mut sound, mut falling) = (0, 0);
    for track in machines() {
        let ladder = Ladder::new(track, 3, track.most_threads(), &[]);
        for threads in 3..=ladder.full() {
            let engaged = ladder.engaged(threads);
            let mut loose = engaged.to_vec();
            loose.retain(|&carrier| is_loose(track, carrier, engaged));
            loose.sort();
            assert_eq!(
                ladder.interlacing(threads).unsound,
                loose,
                "{track:?} at {threads}"
            );
            falling += u32::from(!loose.is_empty());
            sound += u32::from(loose.is_empty());
        }
    }
    assert!(
        sound > 100 && falling > 4,
        "one-sided cases: {sound} sound, {falling} not"
    );
}

/// On tracks too large to try everything: never worse than the plain way in falls, then floats, then gaps.
#[test]
fn large_ladders_are_no_worse_than_plain_ones() {
    let rows = [
        (24, Pattern::Hercules, 12),
        (32, Pattern::Regular, 8),
        (32, Pattern::Regular, 21),
        (36, Pattern::Diamond, 18),
        (64, Pattern::Regular, 40),
        (64, Pattern::Diamond, 50),
        (60, Pattern::Hercules, 45),
        (20, Pattern::Regular, 4),
        (18, Pattern::Hercules, 9),
    ];
    for (carriers, pattern, start) in rows {
        let track = full_track(carriers, pattern);
        let ladder = Ladder::new(track, start, carriers, &[]);
        let plain = plain::ladder(track, start, carriers);
        let merits = |list: &[Carrier]| {
            let (falls, float, gaps, _) = Brute::merits_of(track, start, list);
            (falls, float, gaps)
        };
        assert!(
            merits(ladder.engaged(carriers)) <= merits(&plain),
            "{carriers} {pattern:?} from {start}"
        );
    }
}

/// Analytic: on horn gears of two slots, a thread passes over those on places as even as its own and under the others.
/// With a single odd place each way, a braid must take both of these carriers, wherever they stand in the ring.
#[test]
fn the_one_carrier_that_holds_the_braid_is_found() {
    for odd in [1, 7, 15] {
        let places = 0x5555 | 1 << odd;
        let track = Track::with_mounted(32, 2, [places; 2]).expect("a ring of 16 places each way");
        for start in [4, 5, 8, 18] {
            let ladder = Ladder::new(track, start, 18, &[]);
            for threads in start..=18 {
                let found = ladder.interlacing(threads);
                assert!(
                    found.is_sound(),
                    "{odd} from {start} at {threads}: {found:?}"
                );
            }
        }
    }
}

/// Whatever a cache was asked before, in whatever order and however often, it gives the ladder that a search gives.
#[test]
fn a_cache_changes_no_ladder() {
    let track = full_track(12, Pattern::Regular);
    let pin = CarrierPin {
        threads: 6,
        carrier: Carrier {
            direction: Direction::CounterClockwise,
            number: 3,
        },
    };
    let searched = |start: u32| Ladder::new(track, start, 12, &[pin]);
    let searched: Vec<Ladder> = (3..=12).map(searched).collect();
    let mut cache = LadderCache::default();
    let mut ask = |start: u32| cache.ladder(track, start, 12, &[pin]);
    let first: Vec<Ladder> = (3..=12).map(&mut ask).collect();
    let at_once: Vec<Ladder> = (3..=12).map(&mut ask).collect();
    assert_eq!(searched, first);
    assert_eq!(searched, at_once);
    // More than are kept.
    let small = full_track(8, Pattern::Diamond);
    for threads in 0..100 {
        cache.ladder(small, 4, 5, &[CarrierPin { threads, ..pin }]);
    }
    let mut ask = |start: u32| cache.ladder(track, start, 12, &[pin]);
    let later: Vec<Ladder> = (3..=12).rev().map(&mut ask).collect();
    assert!(searched.iter().eq(later.iter().rev()));
}
