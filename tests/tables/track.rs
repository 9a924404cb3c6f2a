//! Interlacing, full and part loaded.

use taperwright::track::{Carrier, Direction, Engaged, Interlacing, MOST_CARRIERS, Pattern, Track};

use crate::simulation::{Circuit, Way};

#[track_caller]
fn track(carriers: u32, pattern: Pattern) -> Track {
    Track::new(carriers, pattern)
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

/// Analytic: neighbours in a ring turn opposite ways, so the number of horn gears is even, 2N/S a whole even number.
#[test]
fn only_rings_of_even_gears_exist() {
    for pattern in [Pattern::Diamond, Pattern::Regular, Pattern::Hercules] {
        for carriers in 0..=MOST_CARRIERS + 8 {
            let gears = 2.0 * f64::from(carriers) / f64::from(pattern.slots());
            let exists = gears % 2.0 == 0.0 && (4..=MOST_CARRIERS).contains(&carriers);
            assert_eq!(
                Track::new(carriers, pattern).is_some(),
                exists,
                "{carriers} {pattern:?}"
            );
        }
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

/// Rings stepped by hand, among them those of H ≡ 2 mod 4 gears, whose carriers meet each other once over and once under.
const RINGS: [(u32, Pattern); 12] = [
    (4, Pattern::Diamond),
    (6, Pattern::Diamond),
    (16, Pattern::Diamond),
    (4, Pattern::Regular),
    (8, Pattern::Regular),
    (12, Pattern::Regular),
    (16, Pattern::Regular),
    (20, Pattern::Regular),
    (6, Pattern::Hercules),
    (18, Pattern::Hercules),
    (24, Pattern::Hercules),
    (30, Pattern::Hercules),
];

fn circuit(track: Track, pattern: Pattern) -> Circuit {
    Circuit::run(track.horn_gears() as usize, pattern.slots() as usize)
}

#[test]
fn the_rule_of_over_and_under_is_that_of_a_stepped_track() {
    for (carriers, pattern) in RINGS {
        let track = track(carriers, pattern);
        let circuit = circuit(track, pattern);
        for (number, seen) in (0_u32..).zip(&circuit.forth) {
            assert_eq!(seen.len(), carriers as usize, "passings of a circuit");
            for (passing, meeting) in seen.iter().zip(number..) {
                assert_eq!(
                    passing.met,
                    (meeting % (carriers / 2)) as usize,
                    "{track:?} {number}"
                );
                assert_eq!(
                    passing.over,
                    track.clockwise_is_over(number, meeting),
                    "{track:?} {number} {meeting}"
                );
            }
        }
    }
}

/// Part loads drawn by a small congruential generator (no need for a good one), the same every time.
fn loads(each_way: u32) -> impl Iterator<Item = (Vec<u32>, Vec<u32>)> {
    let mut state = 0x2545_F491_u32;
    let mut draw = move || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (0..each_way)
            .filter(|bit| state >> (bit + 8) & 1 == 1)
            .collect::<Vec<_>>()
    };
    core::iter::from_fn(move || Some((draw(), draw()))).take(200)
}

#[test]
fn part_loads_interlace_as_on_a_stepped_track() {
    let (mut sound, mut unsound) = (0, 0);
    for (carriers, pattern) in RINGS {
        let track = track(carriers, pattern);
        let circuit = circuit(track, pattern);
        for (forth, back) in loads(carriers / 2) {
            let wide = |numbers: &[u32]| numbers.iter().map(|&n| n as usize).collect::<Vec<_>>();
            let (longest, loose) = circuit.interlace(&wide(&forth), &wide(&back));
            let found = track.interlacing(&engaged(&forth, &back));
            let named: Vec<_> = found.unsound.iter().copied().map(way_and_number).collect();
            assert_eq!(
                (found.longest_float as usize, named),
                (longest, loose),
                "{track:?} {forth:?} {back:?}"
            );
            sound += u32::from(found.is_sound());
            unsound += u32::from(!found.is_sound());
        }
    }
    assert!(
        sound > 300 && unsound > 300,
        "one-sided cases: {sound} sound, {unsound} not"
    );
}

fn way_and_number(carrier: Carrier) -> (Way, usize) {
    let way = match carrier.direction {
        Direction::Clockwise => Way::Forth,
        Direction::CounterClockwise => Way::Back,
    };
    (way, carrier.number as usize)
}
