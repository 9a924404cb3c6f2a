//! Which threads get heavier first.

use taperwright::braid::ladder::Ladder;
use taperwright::braid::track::{Carrier, Direction, Engaged, Pattern};

use super::brute::is_balanced;
use super::{full_track, machines};

/// From the words: by turns, each once, as far as can be from those heavy already, then near to the one before.
#[test]
fn heavier_threads_come_in_evenly() {
    for track in machines() {
        let ladder = Ladder::new(track, 7, track.most_threads(), &[]);
        for threads in 7..=ladder.full() {
            let order = ladder.heavier_order(threads, &[]);
            let mut all = ladder.engaged(threads).to_vec();
            let mut sorted = order.clone();
            all.sort();
            sorted.sort();
            assert_eq!(sorted, all);
            let ring = track.places_each_way();
            let apart = |one: Carrier, other: Carrier| {
                let step = (track.place(one) + ring - track.place(other)) % ring;
                step.min(ring - step)
            };
            for (heavy, &next) in order.iter().enumerate() {
                let before = &order[..heavy];
                assert!(
                    is_balanced(Engaged::from_carriers(&order[..=heavy])),
                    "{order:?}"
                );
                let rank = |carrier: Carrier| {
                    let same = before
                        .iter()
                        .filter(|other| other.direction == next.direction);
                    let clear = same.map(|&other| apart(other, carrier)).min().unwrap_or(0);
                    (
                        u32::MAX - clear,
                        before.last().map_or(0, |&last| apart(last, carrier)),
                        carrier.number,
                    )
                };
                let left = order[heavy..]
                    .iter()
                    .filter(|other| other.direction == next.direction);
                assert!(
                    left.copied().all(|other| rank(next) <= rank(other)),
                    "{order:?}"
                );
            }
        }
    }
}

/// By hand: of eight round a ring, four apart, then two, then one. Half of them heavy is every second one.
#[test]
fn heavier_threads_on_sixteen_carriers() {
    let track = full_track(16, Pattern::Regular);
    let order = Ladder::new(track, 8, 16, &[]).heavier_order(16, &[]);
    let numbers = |way: Direction, count: usize| {
        let one_way = order.iter().filter(|carrier| carrier.direction == way);
        let mut numbers: Vec<u32> = one_way.take(count).map(|carrier| carrier.number).collect();
        numbers.sort_unstable();
        numbers
    };
    assert_eq!(
        order[0],
        Carrier {
            direction: Direction::Clockwise,
            number: 0
        }
    );
    for way in [Direction::Clockwise, Direction::CounterClockwise] {
        assert_eq!(numbers(way, 2), [0, 4]);
        assert_eq!(numbers(way, 4), [0, 2, 4, 6]);
    }
}
