//! Where along the line what is done: changes of thread and of wheels, placed so that they can be braided.
//!
//! From the places where the drawing passes from one level to the next to the pieces of a line, in this order:
//!
//! 1. [`stops`]: changes the maker pinned are moved; a swelling shorter than the least distance is left out; changes that
//!    would come closer are made at one stop. Which levels the drawing calls for is judged by what they weigh with the wheels
//!    they will have (`made`), so that a level stretch gets the count nearest to it by weight.
//! 2. [`crate::braid::gearing`] chooses the wheels of every interval between two stops.
//! 3. Every change is moved to where the drawing passes half-way between the levels as these wheels really make them, and
//!    by what buried tails and the late angle add, so that each section keeps its mass. Stops that this leaves without enough
//!    to put right (`worth`) are left out, and the wheels are chosen again.
//! 4. A change of wheels is made earlier or later than the stop it belongs to where that keeps the angle nearer to the
//!    target; then stops move by what that adds or takes away.

mod done;
mod ground;
mod made;
mod mass;
mod pieces;
pub mod pins;
mod places;
pub mod stops;
mod wheels;
mod worth;

use crate::base::units::Length;
use crate::braid::gearing::{Gearing, Interval};
use crate::braid::stretch::BraidedLine;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Staircase;
use crate::design::pin::Pin;
use pieces::Scratch;
use stops::{Step, Stop, ends, levels};
use worth::Worthless;

pub use done::Done;
pub use ground::Ground;
pub use places::Layout;

/// Most times a line is laid out for levels that weigh what the wheels of the time before made of them. Wheels that no longer
/// change call for the same levels, mostly at once; where two wheels take turns, the last is as good as the one before.
const MOST_ROUNDS: usize = 3;

impl Ground {
    /// Lays the line out with these pins of the maker's. Pins of carriers are the ladder's business and passed over here.
    ///
    /// Which levels the drawing calls for does not depend on pins: wheels pinned to a level would else drive it off.
    pub fn lay_out(&self, pins: &[Pin]) -> Layout {
        let mut layout = self.lay_out_by(self.staircase_with_nearest_wheels(), &[]);
        for _ in 1..MOST_ROUNDS {
            let staircase = self.staircase_as_laid_out(&layout);
            if self.calls_alike(&staircase, &layout.staircase) {
                break;
            }
            layout = self.lay_out_by(staircase, &[]);
        }
        if pins.is_empty() {
            layout
        } else {
            self.lay_out_by(layout.staircase, pins)
        }
    }

    /// Lays the line out with the levels that the drawing calls for by this staircase.
    fn lay_out_by(&self, staircase: Staircase, pins: &[Pin]) -> Layout {
        let (mut first, changes) = staircase.changes(self.taper.points());
        let mut steps: Vec<Step> = changes.into_iter().map(Step::of).collect();
        let mut dropped_pins = pins::place(&mut steps, pins, self);
        let (mut stops, mut crowdings) = stops::gather(steps, self.spacing, self.taper.length());
        dropped_pins.extend(pins::lost_in(&crowdings, pins));
        let mut layout = loop {
            let places: Vec<Length> = stops.iter().map(|stop| stop.at).collect();
            match self.with_wheels(first, &mut stops, pins) {
                Ok(layout) => break layout,
                // From the beginning with fewer: what was chosen with these stops leaves no trace.
                Err(worthless) => {
                    for (stop, at) in stops.iter_mut().zip(places) {
                        stop.at = at;
                    }
                    worth::leave_out(&mut first, &mut stops, &worthless, &mut crowdings);
                }
            }
        };
        crowdings.extend(stops::together(&layout.stops));
        let (spacing, length) = (self.spacing, self.taper.length());
        crowdings.extend(stops::still_close(&layout.stops, spacing, length));
        dropped_pins.append(&mut layout.dropped_pins);
        Layout {
            staircase,
            crowdings,
            dropped_pins,
            ..layout
        }
    }

    /// Chooses wheels for the intervals between stops, and moves both to where they belong. The layout takes the stops.
    ///
    /// # Errors
    /// The stops that are not worth their work where this brings them; the stops are then left there.
    fn with_wheels(
        &self,
        first: usize,
        stops: &mut Vec<Stop>,
        pins: &[Pin],
    ) -> Result<Layout, Vec<Worthless>> {
        let mut intervals = self.intervals(first, stops);
        let (pinned_intervals, dropped_pins) = pins::fit(&mut intervals, pins, self, stops);
        let options = self.gearing().options(&intervals);
        let wheels = self.gearing().choose(&options, &intervals);
        let mut scratch = Scratch::for_stops(stops.len());
        self.keep_mass(first, stops, &wheels, &pinned_intervals, &mut scratch)?;
        let mut layout = Layout {
            staircase: self.staircase.clone(),
            first,
            wheels_at: stops.iter().map(|stop| stop.at).collect(),
            stops: core::mem::take(stops),
            one_throughout: options.one_throughout(&intervals).unwrap_or(wheels[0]),
            wheels,
            pinned_intervals,
            crowdings: Vec::new(),
            dropped_pins,
        };
        wheels::centre_ramps(self, &mut layout, &mut scratch);
        self.keep_mass_beside(&mut layout, &mut scratch);
        match self.check_worth(first, &layout.stops, &layout.pinned_intervals) {
            Ok(()) => Ok(layout),
            Err(worthless) => {
                *stops = layout.stops;
                Err(worthless)
            }
        }
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

    /// The wheels that suit these intervals best, one for each.
    pub(crate) fn wheels_for(&self, intervals: &[Interval]) -> Vec<Wheels> {
        let gearing = self.gearing();
        gearing.choose(&gearing.options(intervals), intervals)
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
