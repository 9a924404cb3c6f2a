//! The ring of a maypole braider as the pictures need it: its gears, its places, and who is mounted where.

use crate::braid::track::{Carrier, Direction, Track};

/// The ring of horn gears.
///
/// Distances round it are counted in steps of one slot, clockwise seen from above, so that a circuit has as many steps
/// as there are places both ways. Clockwise place `i` begins at step `2i`, where it meets counter-clockwise place `i`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ring {
    /// Horn gears in the ring, an even number of at least 2.
    pub horn_gears: u32,
    /// Slots of one horn gear: 2, 4 or 6.
    pub slots: u32,
    /// Places for carriers of one direction, at least 2; horn gears times slots over 4.
    pub places_each_way: u32,
}

/// A carrier on the machine, at one place of the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MountedCarrier {
    /// Its direction, and its number from 0 among those mounted of that direction.
    pub carrier: Carrier,
    /// The place where it stands, from 0 in track order.
    pub place: u32,
    /// Filament ends of its thread; `None` while it is idle.
    pub ends: Option<u32>,
    /// Whether it is among the next to be added or dropped.
    pub is_next: bool,
}

impl MountedCarrier {
    /// Every carrier of a machine, clockwise ones first, each direction in track order: those of a set with their ends, and
    /// those marked as next.
    pub fn all(track: &Track, set: &[(Carrier, u32)], next: &[Carrier]) -> Vec<Self> {
        let stand = |carrier: Carrier| Self {
            carrier,
            place: track.place(carrier),
            ends: set.iter().find(|one| one.0 == carrier).map(|one| one.1),
            is_next: next.contains(&carrier),
        };
        track.all().map(stand).collect()
    }

    /// Whether its thread is in the braid.
    pub const fn is_engaged(&self) -> bool {
        self.ends.is_some()
    }
}

/// Steps from a meeting to the instant at which the ring is drawn: half-way to the next meeting, when every carrier is
/// in its own slot.
pub const INSTANT: f64 = 0.5;

impl Ring {
    /// The ring of a machine.
    pub fn of(track: &Track) -> Self {
        Self {
            horn_gears: track.horn_gears(),
            slots: track.slots(),
            places_each_way: track.places_each_way(),
        }
    }

    /// Places both ways, which is also the steps of a circuit.
    pub const fn places(self) -> u32 {
        2 * self.places_each_way
    }

    /// Where a place is at the instant drawn, in steps.
    ///
    /// Analytic: after the share `τ` of a circuit, clockwise place `i` of `n` is at `(i + τn)/n` of the ring and
    /// counter-clockwise place `j` at `(j − τn)/n`; here `τ` is half a step.
    pub fn step_of(self, direction: Direction, place: u32) -> f64 {
        let start = f64::from(2 * place);
        match direction {
            Direction::Clockwise => start + INSTANT,
            Direction::CounterClockwise => start - INSTANT,
        }
    }

    /// How far outside the middle of the ring the track of a direction runs at a step: 1 at the outermost, −1 at the
    /// innermost, 0 where one gear hands over to the next.
    ///
    /// Analytic, after the rule of [`crate::braid::track`]: gears hand over half a step before a meeting, and clockwise carriers
    /// ride the outer side of every other gear.
    pub fn outwards(self, direction: Direction, step: f64) -> f64 {
        let gears_passed = (step + INSTANT) / f64::from(self.slots / 2);
        let clockwise = (gears_passed * core::f64::consts::PI).sin();
        match direction {
            Direction::Clockwise => clockwise,
            Direction::CounterClockwise => -clockwise,
        }
    }

    /// Whether the clockwise thread is over where two threads cross `meetings` steps after clockwise place `place` began.
    ///
    /// The rule of [`crate::braid::track`], which counts the meetings of a carrier from where it meets counter-clockwise 0.
    pub fn clockwise_is_over(self, place: u32, meetings: i64) -> bool {
        let step = i64::from(2 * place) + meetings;
        step.rem_euclid(i64::from(self.slots)) < i64::from(self.slots / 2)
    }
}
