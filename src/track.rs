//! The machine's track: carriers, directions, crossings, and whether a part load holds together.
//!
//! A track of `H` horn gears with `S` slots each carries `N = H·S/2` carriers, half each way, and at full load every
//! thread floats over `S/2` others. Number the carriers of each direction in track order. Along its path, clockwise
//! carrier `i` meets the counter-clockwise carriers one after another; the `k`-th one met is carrier `k mod N/2`, and
//! `i` passes over it when `(i + k) mod S < S/2`, else under. Analytic, by simulating the track: neighbouring
//! horn gears turn opposite ways, so the outer side changes from one meeting place to the next.

use core::fmt;

use crate::choice::Choice;

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

/// Which way a carrier runs, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// With the clock.
    Clockwise,
    /// Against the clock.
    CounterClockwise,
}

impl Direction {
    /// The trade's abbreviation: `cw`, `ccw`.
    pub const fn short(self) -> &'static str {
        match self {
            Self::Clockwise => "cw",
            Self::CounterClockwise => "ccw",
        }
    }

    /// The other way.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Clockwise => Self::CounterClockwise,
            Self::CounterClockwise => Self::Clockwise,
        }
    }
}

/// One carrier: its direction, and its number from 0 in track order among those of that direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Carrier {
    /// Which way it runs.
    pub direction: Direction,
    /// Its number, 0 … N/2 − 1.
    pub number: u32,
}

/// The key of a carrier: `cw0`, `ccw7`.
impl fmt::Display for Carrier {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}{}", self.direction.short(), self.number)
    }
}

/// A maypole track with all its carriers mounted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Track {
    each_way: u32,
    slots: u32,
}

/// The most carriers a track may have: one bit of a machine word for each meeting of a circuit.
pub const MOST_CARRIERS: u32 = 64;

impl Track {
    /// The track with this many carriers that braids `pattern` at full load.
    ///
    /// `None` unless carriers are a multiple of the slots, at least two each way and at most [`MOST_CARRIERS`]:
    /// horn gears `H = 2N/S` must be a whole, even number, since neighbours in the ring turn opposite ways. Analytic.
    pub fn new(carriers: u32, pattern: Pattern) -> Option<Self> {
        let slots = pattern.slots();
        let fits = (4..=MOST_CARRIERS).contains(&carriers) && carriers.is_multiple_of(slots);
        fits.then_some(Self {
            each_way: carriers / 2,
            slots,
        })
    }

    /// The count of carriers nearest to a wish that has a track of this pattern; the larger of two equally near.
    pub fn nearest_carriers(wish: u32, pattern: Pattern) -> u32 {
        let counts = (4..=MOST_CARRIERS).filter(|&count| Self::new(count, pattern).is_some());
        counts
            .min_by_key(|&count| (count.abs_diff(wish), MOST_CARRIERS - count))
            .unwrap_or(MOST_CARRIERS)
    }

    /// Carriers of both directions together.
    pub const fn carriers(self) -> u32 {
        self.each_way * 2
    }

    /// Horn gears in the ring.
    pub const fn horn_gears(self) -> u32 {
        self.carriers() * 2 / self.slots
    }

    /// Whether clockwise carrier `i` passes over at its `meeting`-th meeting, counted from 0.
    pub const fn clockwise_is_over(self, i: u32, meeting: u32) -> bool {
        (i + meeting) % self.slots < self.slots / 2
    }

    /// How the engaged carriers interlace.
    pub fn interlacing(self, engaged: &Engaged) -> Interlacing {
        let mut found = Interlacing {
            longest_float: 0,
            widest_gap: engaged.widest_gap(self.each_way),
            unsound: Vec::new(),
        };
        for carrier in engaged.carriers() {
            let met = self.meetings(engaged.of(carrier.direction.other()));
            let over = self.overs(carrier) & met;
            if over == 0 || over == met {
                found.unsound.push(carrier);
            }
            found.longest_float = found.longest_float.max(longest_run(over, met));
        }
        found
    }

    /// The engaged carriers of one direction, as bits over the meetings of a whole period of N meetings.
    fn meetings(self, each_way: u64) -> u64 {
        each_way | each_way << self.each_way
    }

    /// Bits of the meetings at which `carrier` is over.
    fn overs(self, carrier: Carrier) -> u64 {
        let clockwise = carrier.direction == Direction::Clockwise;
        (0..self.carriers())
            .filter(|&meeting| self.clockwise_is_over(carrier.number, meeting) == clockwise)
            .fold(0, |bits, meeting| bits | 1 << meeting)
    }
}

/// What a part load does to the braid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Interlacing {
    /// The most crossings in a row any thread stays on one side.
    pub longest_float: u32,
    /// The widest step from one engaged carrier to the next of its direction; 1 at full load.
    pub widest_gap: u32,
    /// Carriers whose thread never passes over, or never under: the braid falls apart.
    pub unsound: Vec<Carrier>,
}

impl Interlacing {
    /// Whether every engaged thread keeps passing both over and under.
    pub fn is_sound(&self) -> bool {
        self.unsound.is_empty()
    }
}

/// A set of engaged carriers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Engaged {
    clockwise: u64,
    counter_clockwise: u64,
}

impl Engaged {
    /// The set of these carriers.
    pub fn from_carriers(carriers: &[Carrier]) -> Self {
        carriers
            .iter()
            .fold(Self::default(), |set, &carrier| set.with(carrier))
    }

    /// The set with one carrier more.
    #[must_use]
    pub fn with(mut self, carrier: Carrier) -> Self {
        *self.bits(carrier.direction) |= 1 << carrier.number;
        self
    }

    /// Whether the carrier is in the set.
    pub fn holds(&self, carrier: Carrier) -> bool {
        self.of(carrier.direction) >> carrier.number & 1 == 1
    }

    /// How many carriers run that way.
    pub fn count(&self, direction: Direction) -> u32 {
        self.of(direction).count_ones()
    }

    /// The carriers, clockwise ones first, each direction in track order.
    pub fn carriers(self) -> impl Iterator<Item = Carrier> {
        [Direction::Clockwise, Direction::CounterClockwise]
            .into_iter()
            .flat_map(move |direction| {
                bits(self.of(direction)).map(move |number| Carrier { direction, number })
            })
    }

    /// The widest step between neighbours of one direction on a ring of `each_way` places.
    pub fn widest_gap(&self, each_way: u32) -> u32 {
        widest_step(self.clockwise, each_way).max(widest_step(self.counter_clockwise, each_way))
    }

    fn of(&self, direction: Direction) -> u64 {
        match direction {
            Direction::Clockwise => self.clockwise,
            Direction::CounterClockwise => self.counter_clockwise,
        }
    }

    fn bits(&mut self, direction: Direction) -> &mut u64 {
        match direction {
            Direction::Clockwise => &mut self.clockwise,
            Direction::CounterClockwise => &mut self.counter_clockwise,
        }
    }
}

/// The numbers of the bits that are set, ascending.
fn bits(mut word: u64) -> impl Iterator<Item = u32> {
    core::iter::from_fn(move || {
        let lowest = (word != 0).then(|| word.trailing_zeros())?;
        word &= word - 1;
        Some(lowest)
    })
}

/// The longest run of equal sides among the meetings in `met`, going round.
fn longest_run(over: u64, met: u64) -> u32 {
    let all = met.count_ones();
    if over == 0 || over == met {
        return all;
    }
    let (mut longest, mut run, mut side) = (0, 0, None);
    // A carrier meets everybody twice, the second time on the same side as the first or always on the other: the run
    // across the seam of the circuit stands in its middle too.
    for meeting in bits(met) {
        let now = Some(over >> meeting & 1);
        run = if now == side { run + 1 } else { 1 };
        side = now;
        longest = longest.max(run);
    }
    longest
}

fn widest_step(set: u64, places: u32) -> u32 {
    let Some(first) = bits(set).next() else {
        return places;
    };
    let next = bits(set).skip(1).chain([first + places]);
    bits(set)
        .zip(next)
        .map(|(here, there)| there - here)
        .max()
        .unwrap_or(places)
}
