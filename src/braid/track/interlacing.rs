//! How engaged carriers interlace: floats, gaps, threads that lie loose.
//!
//! A carrier meets every other-way carrier once in each turn of half a period, always in the same order. The second
//! turn is laid as the first, or, where half a period is no whole number of slots (horn gears 2 mod 4), with every side
//! changed. So one turn and that one fact say all. Analytic.

use super::{Carrier, Direction, Engaged, Track, bits};

/// What a part load does to the braid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Interlacing {
    /// The most crossings in a row any thread stays on one side.
    pub longest_float: u32,
    /// The widest step from one engaged carrier to the next of its direction round the ring, in places; 1 with a thread
    /// on every place.
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

impl Track {
    /// How the engaged carriers interlace. Carriers that are not mounted count for nothing.
    pub fn interlacing(self, engaged: &Engaged) -> Interlacing {
        let engaged = self.only_mounted(engaged);
        let mut found = Interlacing {
            longest_float: 0,
            widest_gap: self.widest_gap(&engaged),
            unsound: Vec::new(),
        };
        for carrier in engaged.carriers() {
            let lay = self.lay(carrier, engaged.of(carrier.direction.other()));
            if lay.is_loose() {
                found.unsound.push(carrier);
            }
            found.longest_float = found.longest_float.max(lay.longest_float());
        }
        found
    }

    fn only_mounted(self, engaged: &Engaged) -> Engaged {
        let those = |carrier: &Carrier| self.has(*carrier);
        engaged
            .carriers()
            .filter(those)
            .fold(Engaged::default(), Engaged::with)
    }

    /// The widest step from one engaged carrier to the next of its direction, in places round the ring; the whole ring
    /// where a direction has fewer than two.
    pub fn widest_gap(self, engaged: &Engaged) -> u32 {
        let widest = |direction: Direction| {
            let places = self.places_of(direction, engaged.of(direction));
            steps(places, self.places_each_way()).max()
        };
        let ways =
            Direction::BOTH.map(|direction| widest(direction).unwrap_or(self.places_each_way()));
        ways.into_iter().max().unwrap_or_default()
    }

    /// The squares of the steps between engaged neighbours of one direction, summed round the ring: least where they are
    /// spread most evenly.
    pub(crate) fn squared_gaps(self, direction: Direction, numbers: u64) -> u32 {
        self.squared_steps(self.places_of(direction, numbers))
    }

    /// The same of the places they stand on.
    pub(crate) fn squared_steps(self, places: u64) -> u32 {
        steps(places, self.places_each_way())
            .map(|step| step * step)
            .sum()
    }

    /// The places of the carriers with these numbers.
    pub(crate) fn places_of(self, direction: Direction, numbers: u64) -> u64 {
        let mounted = bits(self.mounted[direction as usize]).zip(0..);
        mounted
            .filter(|&(_, number): &(u32, u32)| numbers >> number & 1 == 1)
            .fold(0, |places, (place, _)| places | 1 << place)
    }

    /// Carriers of a direction that pass over the same ones, and so lie alike whatever is engaged: whom they pass over in
    /// their first turn, and who they are.
    pub(crate) fn alike(self, direction: Direction) -> Vec<(u64, u64)> {
        let mut alike: Vec<(u64, u64)> = Vec::new();
        for number in 0..self.mounted(direction) {
            let over = self.overs(Carrier { direction, number });
            match alike.iter_mut().find(|others| others.0 == over) {
                Some(others) => others.1 |= 1 << number,
                None => alike.push((over, 1 << number)),
            }
        }
        alike
    }

    /// Which mounted carriers of the other direction this one passes over in its first turn, bit `n` for number `n`.
    pub(crate) fn overs(self, carrier: Carrier) -> u64 {
        let clockwise = carrier.direction == Direction::Clockwise;
        let place = self.place(carrier);
        let others = bits(self.mounted[carrier.direction.other() as usize]).zip(0..);
        // The rule is the same seen from either side, but for who is over.
        others
            .filter(|&(other, _)| self.clockwise_is_over(place, other) == clockwise)
            .fold(0, |set, (_, number)| set | 1 << number)
    }

    /// Whether every second turn is laid with all sides changed.
    pub(crate) const fn sides_change(self) -> bool {
        !self.places_each_way().is_multiple_of(self.slots)
    }

    fn lay(self, carrier: Carrier, met: u64) -> Lay {
        Lay {
            over: self.overs(carrier) & met,
            met,
            sides_change: self.sides_change(),
        }
    }
}

/// How one thread lies among those it meets in a turn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Lay {
    /// Those it passes over in the first turn, among `met`.
    pub(crate) over: u64,
    /// Those it meets, in order.
    pub(crate) met: u64,
    /// Whether the next turn is laid with all sides changed.
    pub(crate) sides_change: bool,
}

impl Lay {
    /// Whether the thread never passes over, or never under.
    pub(crate) const fn is_loose(self) -> bool {
        self.met == 0 || (self.is_one_sided() && !self.sides_change)
    }

    /// Whether it stays on one side for the whole turn.
    const fn is_one_sided(self) -> bool {
        self.over == 0 || self.over == self.met
    }

    /// The most meetings in a row on one side; for a loose thread, all of a period of two turns.
    pub(crate) fn longest_float(self) -> u32 {
        if self.is_one_sided() {
            let turns = if self.sides_change { 1 } else { 2 };
            return self.met.count_ones() * turns;
        }
        let (mut longest, mut run, mut first_run) = (0, 0, 0);
        let first = self.is_over(self.met.trailing_zeros());
        let mut side = first;
        for meeting in bits(self.met) {
            if self.is_over(meeting) != side {
                first_run = if first_run == 0 { run } else { first_run };
                (run, side) = (0, !side);
            }
            run += 1;
            longest = longest.max(run);
        }
        // The last run goes on into the next turn's first.
        let goes_on = (side == first) != self.sides_change;
        longest.max(if goes_on { run + first_run } else { run })
    }

    const fn is_over(self, meeting: u32) -> bool {
        self.over >> meeting & 1 == 1
    }
}

/// The steps from each place that is set to the next one round a ring; none where no place is set.
fn steps(places: u64, ring: u32) -> impl Iterator<Item = u32> {
    bits(places).map(move |place| step_to_next(places, place, ring))
}

/// The step from a place to the next one that is set, going up round a ring; the whole ring where it stands alone.
fn step_to_next(places: u64, place: u32, ring: u32) -> u32 {
    let above = places & (u64::MAX << place) & !(1 << place);
    if above != 0 {
        above.trailing_zeros() - place
    } else {
        places.trailing_zeros() + ring - place
    }
}
