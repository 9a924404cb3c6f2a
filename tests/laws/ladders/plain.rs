//! A plain way to a ladder, to hold the search on large tracks against: of some evenly spread start sets the best, then
//! always the best next carrier, clockwise and counter-clockwise by turns.

use taperwright::braid::track::{Carrier, Direction, Engaged, Track};

/// The plain ladder of a track with the same carriers mounted each way.
pub(crate) fn ladder(track: Track, start: u32, full: u32) -> Vec<Carrier> {
    let sets =
        (0..10).flat_map(|spread| (0..6).map(move |turn| start_set(track, start, spread, turn)));
    let mut carriers = sets
        .flatten()
        .min_by_key(|set| demerit(track, set))
        .expect("some spread fits");
    while carriers.len() < full as usize {
        let ahead =
            count(&carriers, Direction::Clockwise) > count(&carriers, Direction::CounterClockwise);
        let direction = if ahead {
            Direction::CounterClockwise
        } else {
            Direction::Clockwise
        };
        let free = track
            .all()
            .filter(|carrier| carrier.direction == direction && !carriers.contains(carrier));
        let next = free.min_by_key(|&carrier| {
            let mut more = carriers.clone();
            more.push(carrier);
            demerit(track, &more)
        });
        carriers.push(next.expect("a carrier is left"));
    }
    carriers
}

fn count(carriers: &[Carrier], way: Direction) -> usize {
    carriers
        .iter()
        .filter(|carrier| carrier.direction == way)
        .count()
}

/// Loose threads, the longest float, the widest gap.
fn demerit(track: Track, carriers: &[Carrier]) -> (usize, u32, u32) {
    let found = track.interlacing(&Engaged::from_carriers(carriers));
    (found.unsound.len(), found.longest_float, found.widest_gap)
}

/// One to four together, evenly, or strung at a distance of one to six; the other way the same, turned.
fn start_set(track: Track, start: u32, spread: u32, turn: u32) -> Option<Vec<Carrier>> {
    let ring = track.mounted(Direction::Clockwise);
    let mut set = Vec::new();
    for (direction, count, turn) in [
        (Direction::Clockwise, start.div_ceil(2), 0),
        (Direction::CounterClockwise, start / 2, turn),
    ] {
        for k in 0..count {
            let at = if spread < 4 {
                let bundle = spread + 1;
                k / bundle * ring / count.div_ceil(bundle) + k % bundle
            } else {
                k * (spread - 3)
            };
            let number = (at + turn) % ring;
            let carrier = Carrier { direction, number };
            if set.contains(&carrier) {
                return None;
            }
            set.push(carrier);
        }
    }
    Some(set)
}
