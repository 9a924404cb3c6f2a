//! What a layout is made from.

use core::cell::RefCell;

use crate::base::units::{Length, LinearDensity};
use crate::braid::geometry::Load;
use crate::braid::stretch::{BraidedLine, Piece, Process, SteadyStates};
use crate::braid::takeoff::{TakeOff, Wheels};
use crate::braid::taper::Taper;
use crate::braid::threads::{Level, Staircase, Supply};
use crate::design::Design;

/// What a layout is made from: the typed parts of a design.
#[derive(Clone, Debug)]
pub struct Ground {
    /// The drawing.
    pub taper: Taper,
    /// What threads there are.
    pub supply: Supply,
    /// The levels they make.
    pub levels: Vec<Level>,
    /// The load of each level.
    pub loads: Vec<Load>,
    /// Which level a diameter calls for.
    pub staircase: Staircase,
    /// How lines are made.
    pub process: Process,
    /// The train and the gears owned.
    pub take_off: TakeOff,
    /// Everything that can be fitted, shortest lay first; at least one.
    pub choices: Vec<Wheels>,
    /// Price of a change of wheels.
    pub price: Length,
    /// Length of line, one standard thread off, that is as bad as one stop.
    pub stop_price: Length,
    /// Least distance between two stops.
    pub spacing: Length,
    /// Length over which a dropped thread's tail is buried.
    pub tail: Length,
    /// What was solved before. It changes no result, only how soon it is there.
    pub(super) steady_states: RefCell<SteadyStates>,
}

impl Ground {
    /// The typed parts of a design.
    pub fn of(design: &Design) -> Self {
        let (process, supply) = (design.process(), design.supply());
        let levels = supply.levels();
        let loads: Vec<Load> = levels.iter().map(|&level| supply.load(level)).collect();
        let one_metre = Length::from_metres(1.0);
        let take_off = design.take_off();
        Self {
            taper: design.taper(),
            staircase: Staircase {
                threads_per_diameter_squared: process
                    .braiding
                    .threads_for(one_metre, process.target),
                film: process.dressing.film,
                yarn: loads.iter().map(|load| load.yarn).collect(),
            },
            supply,
            levels,
            loads,
            process,
            choices: take_off.choices(),
            take_off,
            price: design.gear_change_price(),
            stop_price: design.stop_price(),
            spacing: design.least_spacing(),
            tail: design.buried_tail(),
            steady_states: RefCell::default(),
        }
    }

    /// The same with a take-off that draws so much of what its gears should.
    pub(crate) fn drawing(&self, factor: f64) -> Self {
        let mut drawing = self.clone();
        drawing.take_off.constant = drawing.take_off.constant * factor;
        drawing
    }

    /// The line of pieces of a layout.
    pub(crate) fn braid_pieces(&self, pieces: &[Piece]) -> BraidedLine {
        self.process
            .braid_with(pieces, &mut self.steady_states.borrow_mut())
    }

    /// Pieces of the same line of yarn that is heavier by a factor: threads, wheels and places stay.
    pub fn braid_with_yarn(&self, pieces: &[Piece], factor: f64) -> BraidedLine {
        let mut process = self.process;
        process.braiding.thread.end = process.braiding.thread.end * factor;
        process.braid(pieces)
    }

    /// Mass per length of a standard thread at the target angle.
    pub(super) fn standard_thread(&self) -> LinearDensity {
        let process = &self.process;
        process.braiding.at_angle(1, process.target).linear_density
    }
}
