//! A braider stepped by brute force, sharing nothing with the code under test: plain numbers in SI units, own formulas.
//!
//! Carriers run from meeting to meeting round a ring of horn gears while a take-off draws the braid away. Threads leave
//! a guide ring of radius R as tangents and reach the braid, of path radius r, an axial distance h on. Seen along the
//! axis their free part is as long as a tangent to the circle of radius r is, S = √(R² − r²), so that they lie at
//! tan α = S/h. Analytic.
//!
//! In one meeting of N in a circuit
//! * the take-off draws L/N,
//! * threads wind 2π/N round the braid and form r·(2π/N)/tan α of it, taking (1 + c)/cos α of thread for each length,
//! * what is drawn and not formed makes h longer.
//!
//! That balance is the kinematic equation of the convergence zone: Du and Popper, "Analysis of a circular braiding
//! process for complex shapes", Journal of the Textile Institute 85 (1994), 316–337. Threads there run straight, without
//! friction on each other; so they do here.
//!
//! Thread and braid are cut across as circles: d = √(4 T/(πρφ)), and the path's diameter is d less two thicknesses of
//! the mean thread, never less than one. Tails of dropped threads lie straight in the core and fill it. Analytic.

mod checks;
mod record;
mod section;
mod step;

pub(crate) use record::{Record, Spent};
pub(crate) use section::Yarn;

/// Where a carrier stands: which way it runs, and its place from 0 among those of that way, in track order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Seat {
    Forth(usize),
    Back(usize),
}

/// A ring of horn gears, and where carriers stand on it.
#[derive(Clone, Debug)]
pub(crate) struct Ring {
    pub(crate) gears: usize,
    /// Slots of one gear.
    pub(crate) slots: usize,
    pub(crate) mounted: Vec<Seat>,
}

impl Ring {
    /// A ring with a carrier on every place, or on every second, third … one.
    pub(crate) fn every(step: usize, gears: usize, slots: usize) -> Self {
        let each_way = gears * slots / 4;
        let seats = (0..each_way)
            .step_by(step)
            .flat_map(|place| [Seat::Forth(place), Seat::Back(place)]);
        Self {
            gears,
            slots,
            mounted: seats.collect(),
        }
    }

    /// Places of both ways, which is also how often any thread may meet another in one circuit.
    pub(crate) fn places(&self) -> usize {
        self.gears * self.slots / 2
    }
}

/// What a hand does to the machine.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Operation {
    /// A carrier comes in with so many ends.
    Engage { seat: Seat, ends: u32 },
    /// A carrier goes out; so many metres of its thread lie straight in the braid formed from there on.
    Drop { seat: Seat, tail: f64 },
    /// A carrier goes on with another thread; the old one's tail lies in the braid as that of a dropped one.
    Swap { seat: Seat, ends: u32, tail: f64 },
    /// Another gear: the take-off draws this many machine constants a circuit from there on.
    Fit { ratio: f64 },
}

/// A line to braid.
#[derive(Clone, Debug)]
pub(crate) struct Job {
    pub(crate) ring: Ring,
    pub(crate) yarn: Yarn,
    /// Radius of the guide ring, m.
    pub(crate) guide_radius: f64,
    /// For checks of the braider itself: the path radius is held at this many metres.
    pub(crate) held_radius: Option<f64>,
    /// What the take-off draws in one circuit at a gear ratio of 1, m.
    pub(crate) constant: f64,
    /// The gear ratio at the start.
    pub(crate) ratio: f64,
    /// Carriers engaged at the start, with the ends of their threads.
    pub(crate) engaged: Vec<(Seat, u32)>,
    /// What is done where, in metres of braid formed; of two operations at one place the one listed first comes first.
    pub(crate) events: Vec<(f64, Operation)>,
    /// Metres of braid to form.
    pub(crate) length: f64,
}

impl Job {
    /// Braids the line, beginning with h as it would be after a long run of the starting state.
    pub(crate) fn run(&self) -> Record {
        step::Braider::of(self).braid()
    }
}
