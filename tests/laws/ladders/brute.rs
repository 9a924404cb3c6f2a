//! Every ladder there is, one after another, to hold the search against. Slow and plain on purpose.
//!
//! How a single state interlaces is taken from the track, which `tests/tables` holds against a stepped one; gaps, walks
//! and the rules for pins are calculated here again.

use std::collections::HashMap;

use taperwright::braid::ladder::CarrierPin;
use taperwright::braid::track::{Carrier, Direction, Engaged, Track};

/// Lower is better: states that fall apart, longest float, squared gaps, walk.
pub(crate) type Merits = (u32, u32, u64, u32);

/// One state: whether it falls apart, its longest float, its squared gaps.
type Judged = (bool, u32, u64);

const WAYS: [Direction; 2] = [Direction::Clockwise, Direction::CounterClockwise];

/// All ladders of a track from one count of threads to another.
pub(crate) struct Brute<'a> {
    track: Track,
    full: u32,
    pins: &'a [CarrierPin],
    judged: HashMap<Engaged, Judged>,
    best: Option<Merits>,
}

impl<'a> Brute<'a> {
    /// The best merits of any ladder that honours the pins, `None` if no ladder does.
    pub(crate) fn best(
        track: Track,
        start: u32,
        full: u32,
        pins: &'a [CarrierPin],
    ) -> Option<Merits> {
        let mut brute = Self {
            track,
            full,
            pins,
            judged: HashMap::new(),
            best: None,
        };
        for set in subsets(&track.all().collect::<Vec<_>>(), start as usize) {
            let barred = |carrier: &Carrier| pins.iter().any(|pin| pin.carrier == *carrier);
            let unbarred = !set.iter().any(barred);
            let set = Engaged::from_carriers(&set);
            if is_balanced(set) && unbarred {
                let (falls, float, gaps) = brute.judge(set);
                brute.climb(set, None, (u32::from(falls), float, gaps, 0));
            }
        }
        brute.best
    }

    /// The merits of one ladder.
    pub(crate) fn merits_of(track: Track, start: u32, carriers: &[Carrier]) -> Merits {
        let states = (start as usize..=carriers.len())
            .map(|count| judge(track, Engaged::from_carriers(&carriers[..count])));
        let sum = states.fold((0, 0, 0), |(falls, float, gaps), state: Judged| {
            (
                falls + u32::from(state.0),
                float.max(state.1),
                gaps + state.2,
            )
        });
        let added = &carriers[start as usize..];
        let walk = added
            .windows(2)
            .map(|pair| way(track, pair[0], pair[1]))
            .sum();
        (sum.0, sum.1, sum.2, walk)
    }

    fn climb(&mut self, set: Engaged, last: Option<Carrier>, merits: Merits) {
        let threads = counts(set).iter().sum::<u32>();
        if threads == self.full {
            self.best = Some(self.best.map_or(merits, |best| best.min(merits)));
            return;
        }
        for carrier in self.track.all() {
            let more = set.with(carrier);
            if set.holds(carrier) || !is_balanced(more) || !self.honours(threads, carrier) {
                continue;
            }
            let (falls, float, gaps) = self.judge(more);
            let walk = last.map_or(0, |last| way(self.track, last, carrier));
            let merits = (
                merits.0 + u32::from(falls),
                merits.1.max(float),
                merits.2 + gaps,
                merits.3 + walk,
            );
            self.climb(more, Some(carrier), merits);
        }
    }

    /// Whether a pin speaks neither of this carrier for another step nor of this step for another carrier.
    fn honours(&self, threads: u32, carrier: Carrier) -> bool {
        let of_step = |pin: &CarrierPin| pin.threads == threads;
        let of_carrier = |pin: &CarrierPin| pin.carrier == carrier;
        self.pins.iter().all(|pin| of_step(pin) == of_carrier(pin))
    }

    fn judge(&mut self, set: Engaged) -> Judged {
        let track = self.track;
        *self.judged.entry(set).or_insert_with(|| judge(track, set))
    }
}

fn judge(track: Track, set: Engaged) -> Judged {
    let found = track.interlacing(&set);
    let gaps = WAYS.map(|way| gaps(track, set, way));
    (!found.is_sound(), found.longest_float, gaps.iter().sum())
}

/// The squared steps from each carrier of one direction to the next, going round.
fn gaps(track: Track, set: Engaged, way: Direction) -> u64 {
    let one_way = set.carriers().filter(|carrier| carrier.direction == way);
    let mut places: Vec<u64> = one_way
        .map(|carrier| u64::from(track.place(carrier)))
        .collect();
    places.sort_unstable();
    places.extend(
        places
            .first()
            .map(|first| first + u64::from(track.places_each_way())),
    );
    places
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).pow(2))
        .sum()
}

/// The shorter way round the ring.
fn way(track: Track, from: Carrier, to: Carrier) -> u32 {
    let (from, to) = (track.place(from), track.place(to));
    let round =
        |from: u32, to: u32| (to + track.places_each_way() - from) % track.places_each_way();
    round(from, to).min(round(to, from))
}

fn counts(set: Engaged) -> [u32; 2] {
    WAYS.map(|way| set.count(way))
}

/// Whether the directions are at most one apart.
pub(crate) fn is_balanced(set: Engaged) -> bool {
    let [one, other] = counts(set);
    one.abs_diff(other) <= 1
}

/// All subsets of so many.
fn subsets(of: &[Carrier], count: usize) -> Vec<Vec<Carrier>> {
    let Some((first, rest)) = of.split_first().filter(|_| count > 0) else {
        return if count == 0 {
            vec![Vec::new()]
        } else {
            Vec::new()
        };
    };
    let with = subsets(rest, count - 1).into_iter().map(|mut set| {
        set.insert(0, *first);
        set
    });
    with.chain(subsets(rest, count)).collect()
}
