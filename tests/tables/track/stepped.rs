//! Tracks held against the stepped one.

use taperwright::braid::track::{Carrier, Direction, Engaged, Pattern, Track};

use super::{engaged, track};
use crate::simulation::{Circuit, Way};

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

/// The places of carriers that are mounted, as the stepped track has them.
fn places(track: Track, direction: Direction) -> Vec<usize> {
    let those = track.all().filter(|carrier| carrier.direction == direction);
    those.map(|carrier| track.place(carrier) as usize).collect()
}

fn circuit(track: Track) -> Circuit {
    let forth = places(track, Direction::Clockwise);
    let back = places(track, Direction::CounterClockwise);
    Circuit::run(
        track.horn_gears() as usize,
        track.slots() as usize,
        &forth,
        &back,
    )
}

#[test]
fn the_rule_of_over_and_under_is_that_of_a_stepped_track() {
    for (carriers, pattern) in RINGS {
        let track = track(carriers, pattern);
        for (number, seen) in (0_u32..).zip(&circuit(track).forth) {
            assert_eq!(seen.len(), carriers as usize, "passings of a circuit");
            for (passing, meeting) in seen.iter().zip(number..) {
                let met = (meeting % (carriers / 2)) as usize;
                let over = track.clockwise_is_over(number, meeting);
                let expected = (passing.met, passing.over);
                assert_eq!((met, over), expected, "{track:?} {number} {meeting}");
            }
        }
    }
}

/// A small congruential generator (no need for a good one), the same every time.
fn draws() -> impl FnMut(u32) -> Vec<u32> {
    let mut state = 0x2545_F491_u32;
    move |among| {
        let mut draw = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            state >> 16 & 1 == 1
        };
        (0..among).filter(|_| draw()).collect()
    }
}

/// Part loads of so many carriers each way.
fn loads(each_way: [u32; 2], count: usize) -> impl Iterator<Item = (Vec<u32>, Vec<u32>)> {
    let mut draw = draws();
    let [one, other] = each_way;
    core::iter::from_fn(move || Some((draw(one), draw(other)))).take(count)
}

/// Tracks of the rings above with carriers on random places, some for each ring.
fn part_mounted() -> impl Iterator<Item = Track> {
    let mut draw = draws();
    let set = |places: Vec<u32>| {
        places
            .into_iter()
            .fold(0_u64, |set, place| set | 1 << place)
    };
    RINGS.into_iter().flat_map(move |(places, pattern)| {
        // A ring for all its places mounted, one of twice the gears, and one so large that it cannot be full.
        let gears = [1, 2, 3].map(|times| places * 2 / pattern.slots() * times);
        let tracks = gears.map(|gears| {
            let each_way = gears * pattern.slots() / 4;
            let places = [set(draw(each_way)), set(draw(each_way))];
            Track::with_mounted(gears, pattern.slots(), places).ok()
        });
        tracks.into_iter().flatten()
    })
}

/// The order in which carriers on some of the places meet, and who is over, in two turns of one circuit.
#[test]
fn meetings_of_mounted_carriers_are_those_of_a_stepped_track() {
    let mut passings = 0;
    for track in part_mounted() {
        for (carrier, seen) in track.all().zip(&circuit(track).forth) {
            let each_way = track.places_each_way();
            let met = |meeting: u32| {
                let others = track
                    .all()
                    .filter(|other| other.direction != carrier.direction);
                let other = { others }.find(|&other| track.place(other) == meeting % each_way)?;
                let over = track.meeting_is_over(carrier, other, meeting / each_way);
                Some((other.number as usize, over))
            };
            let first = track.place(carrier);
            let expected: Vec<_> = seen
                .iter()
                .map(|passing| (passing.met, passing.over))
                .collect();
            let met: Vec<_> = (first..first + 2 * each_way).filter_map(met).collect();
            assert_eq!(met, expected, "{track:?} {carrier}");
            passings += met.len();
        }
    }
    assert!(passings > 5_000, "only {passings} passings were seen");
}

#[test]
fn part_loads_interlace_as_on_a_stepped_track() {
    let full = RINGS
        .into_iter()
        .map(|(carriers, pattern)| track(carriers, pattern));
    let (mut sound, mut unsound) = (0, 0);
    for track in full.chain(part_mounted()) {
        let circuit = circuit(track);
        let each_way =
            [Direction::Clockwise, Direction::CounterClockwise].map(|way| track.mounted(way));
        for (forth, back) in loads(each_way, 100) {
            let wide = |numbers: &[u32]| numbers.iter().map(|&n| n as usize).collect::<Vec<_>>();
            let stepped = circuit.interlace(&wide(&forth), &wide(&back));
            let found = track.interlacing(&engaged(&forth, &back));
            let named: Vec<_> = found.unsound.iter().copied().map(way_and_number).collect();
            let told = (found.longest_float as usize, named);
            assert_eq!(told, stepped, "{track:?} {forth:?} {back:?}");
            sound += u32::from(found.is_sound());
            unsound += u32::from(!found.is_sound());
        }
    }
    assert!(
        sound > 500 && unsound > 500,
        "one-sided cases: {sound} sound, {unsound} not"
    );
}

/// By walking round the ring place by place, twice so as to cross its seam.
fn walked_gap(track: Track, set: &Engaged, way: Direction) -> u32 {
    let places: Vec<u32> = set
        .carriers()
        .filter(|carrier| carrier.direction == way)
        .map(|carrier| track.place(carrier))
        .collect();
    let (mut widest, mut since) = (0, None);
    for place in 0..2 * track.places_each_way() {
        if places.contains(&(place % track.places_each_way())) {
            widest = since.map_or(widest, |since| widest.max(place - since));
            since = Some(place);
        }
    }
    if places.is_empty() {
        track.places_each_way()
    } else {
        widest
    }
}

#[test]
fn the_widest_gap_is_that_of_a_walk_round_the_ring() {
    for track in part_mounted() {
        let ways = [Direction::Clockwise, Direction::CounterClockwise];
        for (forth, back) in loads(ways.map(|way| track.mounted(way)), 20) {
            let set = engaged(&forth, &back);
            let walked = ways.map(|way| walked_gap(track, &set, way));
            let gap = track.widest_gap(&set);
            assert_eq!(Some(&gap), walked.iter().max(), "{track:?} {set:?}");
        }
    }
}

fn way_and_number(carrier: Carrier) -> (Way, usize) {
    let way = match carrier.direction {
        Direction::Clockwise => Way::Forth,
        Direction::CounterClockwise => Way::Back,
    };
    (way, carrier.number as usize)
}
