//! What came off the machine.

use std::collections::BTreeMap;

use super::{Ring, Seat};
use crate::simulation::Circuit;

/// The machine at one moment.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    /// Braid formed, m.
    pub(super) at: f64,
    /// Drawn by the take-off, m.
    pub(super) drawn: f64,
    /// Meetings since the start; a broken number between two.
    pub(super) meetings: f64,
    /// Whether carriers meet at this moment.
    pub(super) meets: bool,
    /// From the guides to where the braid forms, along the axis, m.
    pub(super) distance: f64,
    /// rad.
    pub(super) angle: f64,
    /// Outer diameter, m.
    pub(super) diameter: f64,
    /// Of the bare braid so far, kg.
    pub(super) mass: f64,
}

impl Row {
    pub(super) fn start(distance: f64) -> Self {
        Self {
            at: 0.0,
            drawn: 0.0,
            meetings: 0.0,
            meets: true,
            distance,
            angle: 0.0,
            diameter: 0.0,
            mass: 0.0,
        }
    }
}

/// Thread of one size that one carrier gave, m.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Spent {
    pub(crate) braided: f64,
    /// Of that size's tails, what lies within the line.
    pub(crate) tails: f64,
}

/// What lies on one line along the braid, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Rib {
    /// Threads running forth that pass the line.
    pub(crate) forth: usize,
    /// Threads running back that pass it.
    pub(crate) back: usize,
    /// Where two of them pass it together, which is a crossing on the line.
    pub(crate) crossings: usize,
}

/// Everything noted while a line was braided.
pub(crate) struct Record {
    ring: Ring,
    pub(super) rows: Vec<Row>,
    /// Where the braid formed at each meeting, the one at the start among them, m.
    pub(super) met: Vec<f64>,
    /// Carriers engaged from a place on, with the ends of their threads.
    engaged: Vec<(f64, BTreeMap<Seat, u32>)>,
    /// Thread given, by carrier and the thread's ends.
    pub(crate) threads: BTreeMap<(Seat, u32), Spent>,
}

impl Record {
    pub(super) fn new(ring: &Ring) -> Self {
        Self {
            ring: ring.clone(),
            rows: Vec::new(),
            met: Vec::new(),
            engaged: Vec::new(),
            threads: BTreeMap::new(),
        }
    }

    pub(super) fn change(&mut self, at: f64, engaged: BTreeMap<Seat, u32>) {
        self.engaged.push((at, engaged));
    }

    /// Braid angle at a place, rad; where something is done, the one after it.
    pub(crate) fn angle(&self, at: f64) -> f64 {
        self.value(at, |row| row.angle)
    }

    /// Outer diameter of the bare braid at a place, m; where something is done, the one after it.
    pub(crate) fn diameter(&self, at: f64) -> f64 {
        self.value(at, |row| row.diameter)
    }

    /// From the guides to where the braid forms when it has come to a place, m.
    pub(crate) fn distance(&self, at: f64) -> f64 {
        self.value(at, |row| row.distance)
    }

    /// Mass of the bare braid between two places, kg.
    pub(crate) fn mass(&self, from: f64, to: f64) -> f64 {
        self.value(to, |row| row.mass) - self.value(from, |row| row.mass)
    }

    /// What the take-off draws while the braid forms from one place to another, m.
    pub(crate) fn drawn(&self, from: f64, to: f64) -> f64 {
        self.value(to, |row| row.drawn) - self.value(from, |row| row.drawn)
    }

    /// Circuits turned while the braid forms from one place to another.
    pub(crate) fn circuits(&self, from: f64, to: f64) -> f64 {
        let meetings = self.value(to, |row| row.meetings) - self.value(from, |row| row.meetings);
        meetings / self.ring.places() as f64
    }

    /// Carriers engaged at a place, with their ends.
    pub(crate) fn engaged(&self, at: f64) -> &BTreeMap<Seat, u32> {
        let behind = self.engaged.partition_point(|(from, _)| *from <= at);
        &self.engaged[behind.max(1) - 1].1
    }

    /// Counts what lies between two places on the line along the braid that stands so many N-ths of a turn from where
    /// carriers of place 0 first meet.
    ///
    /// At the m-th meeting a thread of place p stands at 2p + m of N when it runs forth, at 2p − m when it runs back.
    /// Analytic. Where threads cross on the braid they do so a fixed part of a turn later than their carriers meet, which
    /// shifts all of them alike.
    pub(crate) fn rib(&self, line: usize, from: f64, to: f64) -> Rib {
        let mut rib = Rib::default();
        for (meeting, at) in self.meetings(from, to) {
            let stands = |seat| self.stands(seat, meeting) == line % self.ring.places();
            let engaged = self.engaged(at).keys().copied();
            let here: Vec<Seat> = engaged.filter(|&seat| stands(seat)).collect();
            let forth = here.iter().any(|seat| matches!(seat, Seat::Forth(_)));
            let back = here.iter().any(|seat| matches!(seat, Seat::Back(_)));
            rib.forth += usize::from(forth);
            rib.back += usize::from(back);
            rib.crossings += usize::from(forth && back);
        }
        rib
    }

    /// Whether a thread lies over or under each of the threads it crosses between two places, in order.
    pub(crate) fn lies_over(&self, seat: Seat, from: f64, to: f64) -> Vec<bool> {
        let each_way: Vec<usize> = (0..self.ring.places() / 2).collect();
        let (gears, slots) = (self.ring.gears, self.ring.slots);
        let circuit = Circuit::run(gears, slots, &each_way, &each_way);
        let (passings, other): (_, fn(usize) -> Seat) = match seat {
            Seat::Forth(place) => (&circuit.forth[place], Seat::Back),
            Seat::Back(place) => (&circuit.back[place], Seat::Forth),
        };
        let crossed = self.meetings(from, to).filter_map(|(meeting, at)| {
            let passing = passings[meeting % passings.len()];
            let both = [seat, other(passing.met)];
            let engaged = self.engaged(at);
            let cross = both.iter().all(|seat| engaged.contains_key(seat));
            cross.then_some(passing.over)
        });
        crossed.collect()
    }

    fn stands(&self, seat: Seat, meeting: usize) -> usize {
        let places = self.ring.places();
        match seat {
            Seat::Forth(place) => (2 * place + meeting) % places,
            Seat::Back(place) => (2 * place + places - meeting % places) % places,
        }
    }

    /// How many meetings there were before the braid came to a place, the one at the start among them.
    pub(crate) fn meetings_before(&self, at: f64) -> usize {
        self.met.partition_point(|&met| met < at)
    }

    /// The meetings between two places, counted from 0 at the start of the line, with where the braid formed.
    fn meetings(&self, from: f64, to: f64) -> impl Iterator<Item = (usize, f64)> + '_ {
        let within = self.meetings_before(from)..self.meetings_before(to);
        within.map(|meeting| (meeting, self.met[meeting]))
    }

    /// A number noted, at any place: evenly between one row and the next.
    fn value(&self, at: f64, noted: fn(&Row) -> f64) -> f64 {
        let behind = self.rows.partition_point(|row| row.at <= at).max(1);
        let before = &self.rows[behind - 1];
        let Some(after) = self.rows.get(behind) else {
            return noted(before);
        };
        let share = (at - before.at) / (after.at - before.at);
        noted(before) + share * (noted(after) - noted(before))
    }
}
