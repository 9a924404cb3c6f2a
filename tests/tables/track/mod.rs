//! Interlacing, full and part loaded.

use taperwright::braid::track::{
    Carrier, Direction, Engaged, Interlacing, NoTrack, Pattern, Track,
};

mod stepped;

#[track_caller]
fn track(carriers: u32, pattern: Pattern) -> Track {
    Track::new(carriers * 2 / pattern.slots(), pattern.slots())
        .unwrap_or_else(|| panic!("{carriers} carriers, {pattern:?}: no track"))
}

fn carriers(direction: Direction, numbers: impl IntoIterator<Item = u32>) -> Vec<Carrier> {
    numbers
        .into_iter()
        .map(|number| Carrier { direction, number })
        .collect()
}

fn engaged(clockwise: &[u32], counter_clockwise: &[u32]) -> Engaged {
    let mut both = carriers(Direction::Clockwise, clockwise.iter().copied());
    both.extend(carriers(
        Direction::CounterClockwise,
        counter_clockwise.iter().copied(),
    ));
    Engaged::from_carriers(&both)
}

fn interlacing(track: Track, each_way: &[u32]) -> Interlacing {
    track.interlacing(&engaged(each_way, each_way))
}

fn every(carriers: u32) -> Vec<u32> {
    (0..carriers / 2).collect()
}

/// Analytic, and printed in any description of maypole braiders: H horn gears of S slots carry N = H·S/2 carriers; two
/// slots make a 1/1, four a 2/2 and six a 3/3 braid at full load.
#[test]
fn full_loads_float_by_their_pattern() {
    let rows = [
        (16, Pattern::Diamond, 16, 1),
        (8, Pattern::Diamond, 8, 1),
        (16, Pattern::Regular, 8, 2),
        (12, Pattern::Regular, 6, 2),
        (32, Pattern::Regular, 16, 2),
        (24, Pattern::Hercules, 8, 3),
        (64, Pattern::Regular, 32, 2),
        (64, Pattern::Diamond, 64, 1),
        (60, Pattern::Hercules, 20, 3),
    ];
    for (carriers, pattern, gears, float) in rows {
        let track = track(carriers, pattern);
        let found = interlacing(track, &every(carriers));
        assert_eq!((track.horn_gears(), track.carriers()), (gears, carriers));
        assert_eq!(
            (found.longest_float, found.is_sound(), found.widest_gap),
            (float, true, 1),
            "{track:?}"
        );
    }
}

/// Analytic: neighbours in a ring turn opposite ways, so the number of horn gears is even. That slots are 2, 4 or 6 and
/// carriers at most 64 is what the app plans for.
#[test]
fn only_rings_of_even_gears_exist() {
    for slots in 0..=8 {
        for gears in 0..=140 {
            let even = gears % 2 == 0 && [2, 4, 6].contains(&slots);
            let exists = even && (4..=64).contains(&(gears * slots / 2));
            let track = Track::new(gears, slots);
            assert_eq!(track.is_some(), exists, "{gears} of {slots}");
            assert!(track.is_none_or(|track| track.carriers() == gears * slots / 2));
        }
    }
    assert_eq!(Track::new(u32::MAX - 1, 6), None);
}

/// By the words of it: the nearest that exists, the larger of two as near.
#[test]
fn the_nearest_ring_is_near() {
    let rows = [
        ((7, 4), 8),
        ((9, 4), 10),
        ((0, 2), 4),
        ((0, 4), 2),
        ((0, 6), 2),
        ((64, 2), 64),
        ((999, 2), 64),
        ((33, 4), 32),
        ((u32::MAX, 6), 20),
        ((8, 3), 0),
    ];
    for ((wish, slots), nearest) in rows {
        let found = Track::nearest_horn_gears(wish, slots);
        assert_eq!(found, nearest, "{wish} of {slots}");
    }
}

/// The rules of what may be mounted, each broken by itself, and both sides of each limit.
#[test]
fn what_cannot_be_mounted_is_refused() {
    use Direction::{Clockwise, CounterClockwise};
    let all = u64::MAX;
    let rows = [
        ((7, 4, [0b11, 0b11]), Some(NoTrack::NoSuchRing)),
        ((0, 4, [0b11, 0b11]), Some(NoTrack::NoSuchRing)),
        ((8, 5, [0b11, 0b11]), Some(NoTrack::NoSuchRing)),
        ((130, 2, [0b11, 0b11]), Some(NoTrack::NoSuchRing)),
        ((128, 2, [0b11, 1 << 63 | 1]), None),
        ((2, 4, [0b11, 0b11]), None),
        (
            (2, 4, [0b111, 0b11]),
            Some(NoTrack::PlaceOffTrack(Clockwise, 2)),
        ),
        (
            (8, 4, [0b11, 1 << 40 | 1 << 8 | 1]),
            Some(NoTrack::PlaceOffTrack(CounterClockwise, 8)),
        ),
        ((8, 4, [0b11, 0b100]), Some(NoTrack::TooFewMounted)),
        ((8, 4, [0, 0b11]), Some(NoTrack::TooFewMounted)),
        ((128, 2, [all >> 2, 0b11]), None),
        ((128, 2, [all >> 2, 0b111]), Some(NoTrack::TooManyMounted)),
        ((128, 2, [all, all]), Some(NoTrack::TooManyMounted)),
    ];
    for ((gears, slots, mounted), refused) in rows {
        let found = Track::with_mounted(gears, slots, mounted);
        assert_eq!(found.err(), refused, "{gears} of {slots}, {mounted:?}");
    }
}

/// By counting the places by hand.
#[test]
fn carriers_are_counted_among_those_mounted() {
    let track = mounted(16, 4, [0b0101_0110, 1 << 15 | 1 << 3 | 1]);
    let counts = [Direction::Clockwise, Direction::CounterClockwise].map(|way| track.mounted(way));
    assert_eq!(
        (counts, track.carriers(), track.places_each_way()),
        ([4, 3], 7, 16)
    );
    assert_eq!(
        (track.horn_gears(), track.slots(), track.most_threads()),
        (16, 4, 7)
    );
    let places: Vec<_> = track
        .all()
        .map(|carrier| (carrier.to_string(), track.place(carrier)))
        .collect();
    let names = ["cw0", "cw1", "cw2", "cw3", "ccw0", "ccw1", "ccw2"].map(String::from);
    assert_eq!(
        places,
        names
            .into_iter()
            .zip([1, 2, 4, 6, 0, 3, 15])
            .collect::<Vec<_>>()
    );
    assert!(track.all().all(|carrier| track.has(carrier)));
    let none = Carrier {
        direction: Direction::CounterClockwise,
        number: 3,
    };
    assert_eq!((track.has(none), track.place(none)), (false, 16));
    assert_eq!(mounted(16, 4, [0b11, 0b1_1111]).most_threads(), 5);
}

#[track_caller]
fn mounted(gears: u32, slots: u32, places: [u64; 2]) -> Track {
    Track::with_mounted(gears, slots, places)
        .unwrap_or_else(|refused| panic!("{gears} of {slots}, {places:?}: {refused:?}"))
}

/// Analytic: of the sides (i + k) mod S met by a thread, only even ones are left on every second place, only 0 and 3 of
/// six on every third. Four slots then braid 1/1, six braid 2/1 or 1/1.
#[test]
fn a_ring_half_mounted_braids_another_pattern() {
    let second = 0x5555_5555_u64;
    let third = 0x0924_9249_u64;
    let rows = [
        (16, 4, second & 0xFFFF, 8, 1, 2),
        (16, 6, second & 0xFF_FFFF, 12, 2, 2),
        (16, 6, third & 0xFF_FFFF, 8, 1, 3),
        (20, 6, third & 0x3FFF_FFFF, 10, 1, 3),
    ];
    for (gears, slots, places, each_way, float, gap) in rows {
        let track = mounted(gears, slots, [places, places]);
        let found = interlacing(track, &every(2 * each_way));
        assert_eq!(track.carriers(), 2 * each_way);
        assert_eq!(
            (found.longest_float, found.widest_gap, found.is_sound()),
            (float, gap, true),
            "{track:?}"
        );
    }
}

/// Analytic, by stepping the track: 16 carriers on 8 horn gears of four slots.
#[test]
fn part_loads_of_a_regular_track() {
    let track = track(16, Pattern::Regular);
    let every_second = interlacing(track, &[0, 2, 4, 6]);
    assert_eq!(
        (every_second.longest_float, every_second.is_sound()),
        (1, true)
    );
    let without_every_fourth = interlacing(track, &[0, 1, 2, 4, 5, 6]);
    assert_eq!(
        (
            without_every_fourth.longest_float,
            without_every_fourth.is_sound()
        ),
        (2, true)
    );
    assert!(!interlacing(track, &[0, 1, 4, 5]).is_sound());
    let never = interlacing(track, &[0, 4]);
    assert_eq!(never.unsound.len(), 4, "{never:?}");
}

/// Analytic, by stepping the track: 16 carriers on 16 horn gears of two slots. Every second one each way looks even and
/// falls apart: each clockwise thread lies over everything.
#[test]
fn part_loads_of_a_diamond_track() {
    let track = track(16, Pattern::Diamond);
    assert_eq!(interlacing(track, &[0, 2, 4, 6]).unsound.len(), 8);
    let bundles = interlacing(track, &[0, 1, 4, 5]);
    assert_eq!((bundles.longest_float, bundles.is_sound()), (1, true));
}

/// The gap is counted on the ring, across its seam too.
#[test]
fn the_widest_gap_is_counted_round_the_ring() {
    let track = track(16, Pattern::Regular);
    assert_eq!(interlacing(track, &[0, 2, 4, 6]).widest_gap, 2);
    assert_eq!(interlacing(track, &[0, 1, 4, 5]).widest_gap, 3);
    assert_eq!(interlacing(track, &[2]).widest_gap, 8);
    assert_eq!(interlacing(track, &[0, 1, 2]).widest_gap, 6);
}
