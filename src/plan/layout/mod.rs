//! Where along the line what is done: changes of thread and of wheels, placed so that they can be braided.
//!
//! From the places where the drawing passes from one level to the next to the pieces of a line, in this order:
//!
//! 1. [`stops`]: changes the maker pinned are moved; a swelling shorter than the least distance is left out; changes that
//!    would come closer are made at one stop.
//! 2. [`crate::braid::gearing`] chooses the wheels of every interval between two stops.
//! 3. Every change is moved to where the drawing passes half-way between the levels as these wheels really make them, and
//!    by what buried tails and the late angle add, so that each section keeps its mass. A swelling or a waist that this
//!    leaves shorter than the least distance is left out too, and the wheels are chosen again.
//! 4. A change of wheels is made earlier or later than the stop it belongs to where that keeps the angle nearer to the
//!    target; then stops move by what that adds or takes away.

mod done;
mod ground;
mod mass;
mod pieces;
pub mod pins;
mod places;
pub mod stops;
mod wheels;

use crate::base::units::Length;
use crate::braid::gearing::{Gearing, Interval};
use crate::braid::stretch::BraidedLine;
use crate::design::pin::Pin;
use stops::{Step, Stop, ends, levels};

pub use done::Done;
pub use ground::Ground;
pub use places::Layout;

impl Ground {
    /// Lays the line out with these pins of the maker's. Pins of carriers are the ladder's business and passed over here.
    pub fn lay_out(&self, pins: &[Pin]) -> Layout {
        let (first, changes) = self.staircase.changes(self.taper.points());
        let mut steps: Vec<Step> = changes.into_iter().map(Step::of).collect();
        let mut dropped_pins = pins::place(&mut steps, pins, self);
        let (mut stops, mut crowdings) = stops::gather(steps, self.spacing, self.taper.length());
        dropped_pins.extend(pins::lost_in(&crowdings, pins));
        let (one_throughout, pinned_intervals, wheels) = loop {
            let mut intervals = self.intervals(first, &stops);
            let (pinned_intervals, dropped) = pins::fit(&mut intervals, pins, self, &stops);
            let options = self.gearing().options(&intervals);
            let wheels = self.gearing().choose(&options, &intervals);
            let places: Vec<Length> = stops.iter().map(|stop| stop.at).collect();
            match self.keep_mass(first, &mut stops, &wheels, &pinned_intervals) {
                Ok(()) => {
                    let one_throughout = options.one_throughout(&intervals).unwrap_or(wheels[0]);
                    dropped_pins.extend(dropped);
                    break (one_throughout, pinned_intervals, wheels);
                }
                Err(short) => {
                    // From the beginning with fewer: what was chosen with these stops leaves no trace.
                    for (stop, at) in stops.iter_mut().zip(places) {
                        stop.at = at;
                    }
                    stops::leave_out(&mut stops, &short, &mut crowdings);
                }
            }
        };
        let mut layout = Layout {
            first,
            wheels_at: stops.iter().map(|stop| stop.at).collect(),
            stops,
            wheels,
            one_throughout,
            pinned_intervals,
            crowdings,
            dropped_pins,
        };
        wheels::centre_ramps(self, &mut layout);
        self.keep_mass_beside(&mut layout);
        let Layout {
            stops, crowdings, ..
        } = &mut layout;
        crowdings.extend(stops::together(stops));
        crowdings.extend(stops::still_close(stops, self.spacing, self.taper.length()));
        layout
    }

    /// The line of a layout.
    pub fn braid(&self, layout: &Layout) -> BraidedLine {
        self.braid_pieces(&self.pieces(layout))
    }

    /// The line of a layout were the wheels that do best all along never changed.
    pub fn braid_with_one(&self, layout: &Layout) -> BraidedLine {
        let alike = vec![layout.one_throughout; layout.wheels.len()];
        self.braid_pieces(&self.pieces_of(layout.first, &layout.stops, &alike, &layout.wheels_at))
    }

    fn gearing(&self) -> Gearing<'_> {
        Gearing {
            take_off: &self.take_off,
            choices: &self.choices,
            braiding: &self.process.braiding,
            loads: &self.loads,
            target: self.process.target,
            price: self.price,
        }
    }

    fn intervals(&self, first: usize, stops: &[Stop]) -> Vec<Interval> {
        let ends = ends(stops, self.taper.length());
        let levels = levels(first, stops);
        let interval = |(load, ends): (usize, &[Length])| Interval {
            load,
            length: ends[1] - ends[0],
            pinned: None,
        };
        levels.zip(ends.windows(2)).map(interval).collect()
    }
}
