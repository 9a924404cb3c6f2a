//! Pins hold, or are given up for their reason.

use std::collections::BTreeMap;

use taperwright::braid::ladder::{CarrierPin, GivenUp, Ladder};
use taperwright::braid::track::{Carrier, Direction, Pattern, Track};

use super::brute::Brute;
use super::{draws, full_track, machines, small_machines, small_tracks};

/// Random pins for a machine; some of carriers that are not mounted, some off the line, some in each other's way.
fn pins(track: Track, start: u32, draw: &mut impl FnMut(u32) -> u32) -> Vec<CarrierPin> {
    let count = 1 + draw(4);
    let pin = |_| {
        let way = [Direction::Clockwise, Direction::CounterClockwise][draw(2) as usize];
        CarrierPin {
            threads: (start + draw(track.most_threads() - start + 2)).saturating_sub(1),
            carrier: Carrier {
                direction: way,
                number: draw(track.mounted(way) + 1),
            },
        }
    };
    (0..count).map(pin).collect()
}

/// What becomes of pins, by going through every ladder: those kept, and what is wrong with the others.
fn settled(
    track: Track,
    start: u32,
    pins: &[CarrierPin],
) -> (Vec<CarrierPin>, Vec<(CarrierPin, &'static str)>) {
    let full = track.most_threads();
    let holds = Brute::best(track, start, full, &[]).is_some_and(|best| best.0 == 0);
    let (mut kept, mut given_up) = (Vec::<CarrierPin>::new(), Vec::new());
    for &pin in pins {
        let mut more = kept.clone();
        more.push(pin);
        let twice = |held: &CarrierPin| held.carrier == pin.carrier || held.threads == pin.threads;
        let reason = if !track.all().any(|carrier| carrier == pin.carrier) {
            "not mounted"
        } else if pin.threads < start || pin.threads >= full {
            "step not on line"
        } else if kept.iter().any(twice) {
            "twice"
        } else {
            match Brute::best(track, start, full, &more) {
                None => "unbalanced",
                Some((falls, ..)) if falls > 0 && holds => "falls apart",
                Some(_) => {
                    kept = more;
                    continue;
                }
            }
        };
        given_up.push((pin, reason));
    }
    (kept, given_up)
}

fn reason(given_up: &GivenUp) -> &'static str {
    match given_up {
        GivenUp::NotMounted => "not mounted",
        GivenUp::StepNotOnLine => "step not on line",
        GivenUp::Twice => "twice",
        GivenUp::Unbalanced => "unbalanced",
        GivenUp::FallsApart(loose) => {
            assert!(!loose.is_empty(), "nobody is loose");
            "falls apart"
        }
    }
}

#[track_caller]
fn honours(ladder: &Ladder, pins: &[CarrierPin]) {
    for pin in pins {
        assert_eq!(
            ladder.step_above(pin.threads),
            Some(pin.carrier),
            "{ladder:?}"
        );
    }
}

/// Held against every ladder there is: each pin holds or is given up for its reason, and among the ladders that honour
/// those kept none is better.
#[test]
fn pins_hold_or_are_given_up_for_their_reason() {
    let mut draw = draws(3);
    let mut seen = BTreeMap::new();
    for (track, start) in small_tracks().into_iter().chain(small_machines()) {
        if track.carriers() > 10 {
            continue;
        }
        for _ in 0..3 {
            let pins = pins(track, start, &mut draw);
            let full = track.most_threads();
            let ladder = Ladder::new(track, start, full, &pins);
            let (kept, given_up) = settled(track, start, &pins);
            let told: Vec<_> = ladder
                .given_up()
                .iter()
                .map(|(pin, why)| (*pin, reason(why)))
                .collect();
            assert_eq!(told, given_up, "{track:?} from {start}: {pins:?}");
            honours(&ladder, &kept);
            let found = Brute::merits_of(track, start, ladder.engaged(full));
            assert_eq!(
                Some(found),
                Brute::best(track, start, full, &kept),
                "{track:?} {pins:?}"
            );
            *seen.entry("kept").or_insert(0) += kept.len();
            for (_, why) in given_up {
                *seen.entry(why).or_insert(0) += 1;
            }
        }
    }
    assert!(
        seen.len() == 6 && seen.values().all(|&count| count >= 2),
        "one-sided cases: {seen:?}"
    );
}

/// Without the pins that are given up, the ladder is the same; one that holds already changes nothing.
#[test]
fn a_pin_given_up_leaves_no_trace() {
    let track = full_track(16, Pattern::Regular);
    let bare = Ladder::new(track, 8, 16, &[]);
    let held = CarrierPin {
        threads: 10,
        carrier: bare.step_above(10).expect("a step on the line"),
    };
    let off = CarrierPin {
        threads: 16,
        ..held
    };
    let twice = CarrierPin {
        threads: 12,
        ..held
    };
    let ladder = Ladder::new(track, 8, 16, &[off, held, twice]);
    assert_eq!(
        ladder.given_up(),
        [(off, GivenUp::StepNotOnLine), (twice, GivenUp::Twice)]
    );
    assert_eq!(ladder.engaged(16), bare.engaged(16));
    honours(&ladder, &[held]);
}

/// Analytic: at even counts the directions are level, so the two steps from there on go one each way; the second of a
/// pair and the first of the next may go the same way.
#[test]
fn pins_that_unbalance_are_given_up() {
    let track = full_track(16, Pattern::Diamond);
    let pin = |threads, number| CarrierPin {
        threads,
        carrier: Carrier {
            direction: Direction::Clockwise,
            number,
        },
    };
    let ladder = Ladder::new(track, 8, 16, &[pin(10, 0), pin(11, 1)]);
    assert_eq!(ladder.given_up(), [(pin(11, 1), GivenUp::Unbalanced)]);
    honours(&ladder, &[pin(10, 0)]);
    let between_pairs = [pin(11, 0), pin(12, 1)];
    let ladder = Ladder::new(track, 8, 16, &between_pairs);
    assert_eq!(ladder.given_up(), []);
    honours(&ladder, &between_pairs);
}

/// On large tracks too, a pin holds or is given up.
#[test]
fn pins_hold_on_large_tracks() {
    let mut draw = draws(5);
    let (mut kept, mut given_up) = (0, 0);
    for track in machines().into_iter().filter(|track| track.carriers() > 16) {
        for start in [6, track.most_threads() / 2] {
            let pins = pins(track, start, &mut draw);
            let ladder = Ladder::new(track, start, track.most_threads(), &pins);
            let lost = |pin: &CarrierPin| ladder.given_up().iter().any(|(lost, _)| lost == pin);
            let held: Vec<CarrierPin> = pins.iter().copied().filter(|pin| !lost(pin)).collect();
            honours(&ladder, &held);
            kept += held.len();
            given_up += ladder.given_up().len();
        }
    }
    assert!(
        kept > 4 && given_up > 4,
        "one-sided cases: {kept} kept, {given_up} given up"
    );
}
