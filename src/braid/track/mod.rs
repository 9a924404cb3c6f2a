//! The machine's track: its places, the carriers mounted on them, crossings, and whether a part load holds together.
//!
//! A ring of `H` horn gears with `S` slots each has `N = H·S/2` places, half each way; with a carrier on every one of
//! them each thread floats over `S/2` others. Number the places of each direction in track order. Along its path, a
//! clockwise carrier at place `i` meets the counter-clockwise places one after another; the `k`-th one met is place
//! `k mod N/2`, and the clockwise carrier passes over when `(i + k) mod S < S/2`, else under. After `N` meetings all
//! repeats. Analytic, by simulating the track: neighbouring horn gears turn opposite ways, so the outer side changes
//! from one meeting place to the next.
//!
//! A machine need not have a carrier on every place. A [`Carrier`] is counted among those mounted.

use crate::base::choice::Choice;

mod carrier;
mod engaged;
mod interlacing;

pub use carrier::{Carrier, Direction};
pub use engaged::Engaged;
pub(crate) use engaged::bits;
pub use interlacing::Interlacing;
pub(crate) use interlacing::Lay;

/// How threads float over one another at full load; fixes the slots of a horn gear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pattern {
    /// Over one, under one: two slots.
    Diamond,
    /// Over two, under two: four slots.
    Regular,
    /// Over three, under three: six slots.
    Hercules,
}

impl Choice for Pattern {
    const ALL: &'static [Self] = &[Self::Diamond, Self::Regular, Self::Hercules];

    fn key(self) -> &'static str {
        match self {
            Self::Diamond => "diamond",
            Self::Regular => "regular",
            Self::Hercules => "hercules",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Diamond => "diamond, over 1 under 1",
            Self::Regular => "regular, over 2 under 2",
            Self::Hercules => "Hercules, over 3 under 3",
        }
    }
}

impl Pattern {
    /// Slots of one horn gear.
    pub const fn slots(self) -> u32 {
        match self {
            Self::Diamond => 2,
            Self::Regular => 4,
            Self::Hercules => 6,
        }
    }
}

/// A maypole track and the carriers mounted on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Track {
    horn_gears: u32,
    slots: u32,
    /// The mounted places, clockwise and counter-clockwise.
    mounted: [u64; 2],
}

/// The most carriers that may be mounted, both ways together.
pub const MOST_CARRIERS: u32 = 64;

/// The most places a ring may have, both ways together: one bit of a machine word for each place of a direction.
pub const MOST_PLACES: u32 = 128;

/// The fewest carriers that must be mounted each way: with one alone, nothing holds the threads that run the other way.
pub const FEWEST_EACH_WAY: u32 = 2;

/// Why no such track exists.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoTrack {
    /// The horn gears are not even in number, their slots are not 2, 4 or 6, or the ring has fewer than 4 or more than
    /// [`MOST_PLACES`] places.
    NoSuchRing,
    /// A carrier is mounted on a place that the ring does not have: its direction, and the place counted from 0.
    PlaceOffTrack(Direction, u32),
    /// Fewer than [`FEWEST_EACH_WAY`] carriers are mounted one way.
    TooFewMounted,
    /// More than [`MOST_CARRIERS`] carriers are mounted.
    TooManyMounted,
}

impl Track {
    /// The track of this ring with a carrier on every place.
    ///
    /// `None` unless the ring exists (see [`NoTrack::NoSuchRing`]) and has at most [`MOST_CARRIERS`] places.
    pub fn new(horn_gears: u32, slots: u32) -> Option<Self> {
        let all = every_place(places_each_way(horn_gears, slots)?);
        Self::with_mounted(horn_gears, slots, [all, all]).ok()
    }

    /// The track of this ring with carriers on some of its places: clockwise ones, then counter-clockwise ones, bit `p`
    /// of each for place `p`, counted from 0 in track order. The directions may differ in number.
    ///
    /// # Errors
    ///
    /// The first rule broken, in the order of [`NoTrack`].
    pub fn with_mounted(horn_gears: u32, slots: u32, mounted: [u64; 2]) -> Result<Self, NoTrack> {
        let each_way = places_each_way(horn_gears, slots).ok_or(NoTrack::NoSuchRing)?;
        for (direction, places) in Direction::BOTH.into_iter().zip(mounted) {
            if let Some(place) = bits(places & !every_place(each_way)).next() {
                return Err(NoTrack::PlaceOffTrack(direction, place));
            }
        }
        let counts = mounted.map(u64::count_ones);
        if counts.iter().any(|&count| count < FEWEST_EACH_WAY) {
            return Err(NoTrack::TooFewMounted);
        }
        if counts.iter().sum::<u32>() > MOST_CARRIERS {
            return Err(NoTrack::TooManyMounted);
        }
        Ok(Self {
            horn_gears,
            slots,
            mounted,
        })
    }

    /// The count of horn gears nearest to a wish whose ring exists with a carrier on every place; the larger of two
    /// equally near, and 0 where horn gears never have so many slots.
    pub fn nearest_horn_gears(wish: u32, slots: u32) -> u32 {
        (0..=MOST_PLACES)
            .filter(|&horn_gears| Self::new(horn_gears, slots).is_some())
            .min_by_key(|&horn_gears| (horn_gears.abs_diff(wish), MOST_PLACES - horn_gears))
            .unwrap_or(0)
    }

    /// Horn gears in the ring.
    pub const fn horn_gears(self) -> u32 {
        self.horn_gears
    }

    /// Slots of one horn gear.
    pub const fn slots(self) -> u32 {
        self.slots
    }

    /// Places of one direction, carriers on them or not: `H·S/4`.
    pub const fn places_each_way(self) -> u32 {
        self.horn_gears * self.slots / 4
    }

    /// Mounted carriers of both directions together.
    pub const fn carriers(self) -> u32 {
        self.mounted(Direction::Clockwise) + self.mounted(Direction::CounterClockwise)
    }

    /// Mounted carriers that run that way.
    pub const fn mounted(self, direction: Direction) -> u32 {
        self.mounted[direction as usize].count_ones()
    }

    /// The most threads that can be braided with the directions at most one apart.
    pub fn most_threads(self) -> u32 {
        let [one, other] = Direction::BOTH.map(|direction| self.mounted(direction));
        one.min(other) * 2 + u32::from(one != other)
    }

    /// Whether such a carrier is mounted.
    pub const fn has(self, carrier: Carrier) -> bool {
        carrier.number < self.mounted(carrier.direction)
    }

    /// The mounted carriers, clockwise ones first, each direction in track order.
    pub fn all(self) -> impl Iterator<Item = Carrier> {
        Direction::BOTH.into_iter().flat_map(move |direction| {
            (0..self.mounted(direction)).map(move |number| Carrier { direction, number })
        })
    }

    /// The place of a carrier, from 0 in track order; [`Track::places_each_way`], which is none, if it is not mounted.
    pub fn place(self, carrier: Carrier) -> u32 {
        bits(self.mounted[carrier.direction as usize])
            .nth(carrier.number as usize)
            .unwrap_or(self.places_each_way())
    }

    /// Whether a clockwise carrier at `place` passes over at its `meeting`-th meeting, counted from 0.
    pub const fn clockwise_is_over(self, place: u32, meeting: u32) -> bool {
        (place + meeting) % self.slots < self.slots / 2
    }

    /// Whether the clockwise one of two carriers passes over when they meet in the clockwise one's `turn`-th turn,
    /// counted from 0: that is its meeting `k = j + turn·N/2`, with `j` the place of the other. Turns repeat two by two.
    pub fn meeting_is_over(
        self,
        clockwise: Carrier,
        counter_clockwise: Carrier,
        turn: u32,
    ) -> bool {
        let turned = turn % 2 * self.places_each_way();
        self.clockwise_is_over(
            self.place(clockwise),
            self.place(counter_clockwise) + turned,
        )
    }
}

/// `H·S/4`, `None` where there is no such ring. Horn gears are even in number since neighbours in the ring turn opposite
/// ways. Analytic.
fn places_each_way(horn_gears: u32, slots: u32) -> Option<u32> {
    let meshes = horn_gears.is_multiple_of(2) && matches!(slots, 2 | 4 | 6);
    let places = horn_gears.checked_mul(slots / 2)?;
    (meshes && (4..=MOST_PLACES).contains(&places)).then_some(places / 2)
}

/// A bit for each of so many places, 1 … 64.
const fn every_place(each_way: u32) -> u64 {
    u64::MAX >> (64 - each_way)
}
