//! Where along the line what is done: changes of thread and of wheels, placed so that they can be braided.
//!
//! From the places where the drawing passes from one level to the next to the pieces of a line, in this order:
//!
//! 1. [`stops`]: changes the maker pinned are moved; a swelling shorter than the least distance is left out; changes that
//!    would come closer are made at one stop.
//! 2. [`crate::braid::gearing`] chooses the wheels of every tread between two stops.
//! 3. Every change is moved to where the drawing passes half-way between the levels as these wheels really make them, and
//!    by what buried tails and the late angle add, so that each section keeps its mass. A swelling or a waist that this
//!    leaves shorter than the least distance is left out too, and the wheels are chosen again.
//! 4. A change of wheels is made earlier or later than the stop it belongs to where that keeps the angle nearer to the
//!    target; then stops move by what that adds or takes away.

mod done;
mod mass;
mod pieces;
pub mod pins;
pub mod stops;
mod wheels;

use core::cell::RefCell;

use crate::base::units::{Length, LinearDensity};
use crate::braid::gearing::{Gearing, Tread};
use crate::braid::geometry::Load;
use crate::braid::stretch::{BraidedLine, Making, Piece, Rest, Rests};
use crate::braid::takeoff::{TakeOff, Wheels};
use crate::braid::taper::Taper;
use crate::braid::threads::{Level, Staircase, Supply};
use crate::design::Design;
use crate::design::pin::Pin;
pub use done::Done;
use pins::DroppedPin;
use stops::{Crowd, Step, Stop};

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
    pub making: Making,
    /// The train and the gears owned.
    pub take_off: TakeOff,
    /// Everything that can be fitted, shortest lay first; at least one.
    pub choices: Vec<Wheels>,
    /// Price of a change of wheels.
    pub price: Length,
    /// Least distance between two stops.
    pub spacing: Length,
    /// Length over which a dropped thread's tail is buried.
    pub tail: Length,
    /// What was solved before. It changes no result, only how soon it is there.
    rests: RefCell<Rests>,
}

/// A line laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The level at the tip.
    pub first: usize,
    /// Where threads are changed, in order.
    pub stops: Vec<Stop>,
    /// The wheels of every tread: one more than there are stops.
    pub wheels: Vec<Wheels>,
    /// The wheels that would do best were they never changed.
    pub one_throughout: Wheels,
    /// Where the wheels of the tread behind each stop are fitted.
    pub wheels_at: Vec<Length>,
    /// For every tread the pin that holds its wheels, by its place in the design's list.
    pub pinned_treads: Vec<Option<usize>>,
    /// Changes made at one stop since they would come too close, and swellings left out.
    pub crowds: Vec<Crowd>,
    /// Pins that no longer make sense.
    pub dropped_pins: Vec<DroppedPin>,
}

impl Ground {
    /// The typed parts of a design.
    pub fn of(design: &Design) -> Self {
        let (making, supply) = (design.making(), design.supply());
        let levels = supply.levels();
        let loads: Vec<Load> = levels.iter().map(|&level| supply.load(level)).collect();
        let one_metre = Length::from_metres(1.0);
        let take_off = design.take_off();
        Self {
            taper: design.taper(),
            staircase: Staircase {
                threads_per_diameter_squared: making.braiding.threads_for(one_metre, making.target),
                film: making.dressing.film,
                yarn: loads.iter().map(|load| load.yarn).collect(),
            },
            supply,
            levels,
            loads,
            making,
            choices: take_off.choices(),
            take_off,
            price: design.gear_change_price(),
            spacing: design.least_spacing(),
            tail: design.buried_tail(),
            rests: RefCell::default(),
        }
    }

    /// Lays the line out with these pins of the maker's. Pins of carriers are the ladder's business and passed over here.
    pub fn lay_out(&self, pins: &[Pin]) -> Layout {
        let (first, changes) = self.staircase.changes(self.taper.points());
        let mut steps: Vec<Step> = changes.into_iter().map(Step::of).collect();
        let mut dropped_pins = pins::place(&mut steps, pins, self);
        let (mut stops, mut crowds) = stops::gather(steps, self.spacing, self.taper.length());
        dropped_pins.extend(pins::lost_in(&crowds, pins));
        let (one_throughout, pinned_treads, wheels) = loop {
            let mut treads = self.treads(first, &stops);
            let (pinned_treads, dropped) = pins::fit(&mut treads, pins, self, &stops);
            let options = self.gearing().options(&treads);
            let wheels = self.gearing().choose(&options, &treads);
            let places: Vec<Length> = stops.iter().map(|stop| stop.at).collect();
            match self.keep_mass(first, &mut stops, &wheels, &pinned_treads) {
                Ok(()) => {
                    let one_throughout = options.one_throughout(&treads).unwrap_or(wheels[0]);
                    dropped_pins.extend(dropped);
                    break (one_throughout, pinned_treads, wheels);
                }
                Err(short) => {
                    // From the beginning with fewer: what was chosen with these stops leaves no trace.
                    for (stop, at) in stops.iter_mut().zip(places) {
                        stop.at = at;
                    }
                    stops::leave_out(&mut stops, &short, &mut crowds);
                }
            }
        };
        let mut layout = Layout {
            first,
            wheels_at: stops.iter().map(|stop| stop.at).collect(),
            stops,
            wheels,
            one_throughout,
            pinned_treads,
            crowds,
            dropped_pins,
        };
        wheels::centre_ramps(self, &mut layout);
        self.keep_mass_beside(&mut layout);
        let Layout { stops, crowds, .. } = &mut layout;
        crowds.extend(stops::together(stops));
        crowds.extend(stops::still_close(stops, self.spacing, self.taper.length()));
        layout
    }

    /// The line of a layout.
    pub fn braid(&self, layout: &Layout) -> BraidedLine {
        self.braid_pieces(&self.pieces(layout))
    }

    /// The line of pieces of a layout.
    pub(crate) fn braid_pieces(&self, pieces: &[Piece]) -> BraidedLine {
        self.making.braid_with(pieces, &mut self.rests.borrow_mut())
    }

    /// The line of a layout were the wheels that do best all along never changed.
    pub fn braid_with_one(&self, layout: &Layout) -> BraidedLine {
        let alike = vec![layout.one_throughout; layout.wheels.len()];
        self.braid_pieces(&self.pieces_of(layout.first, &layout.stops, &alike, &layout.wheels_at))
    }

    /// Pieces of the same line of yarn that is heavier by a factor: threads, wheels and places stay.
    pub fn braid_with_yarn(&self, pieces: &[Piece], factor: f64) -> BraidedLine {
        let mut making = self.making;
        making.braiding.thread.end = making.braiding.thread.end * factor;
        making.braid(pieces)
    }

    fn gearing(&self) -> Gearing<'_> {
        Gearing {
            take_off: &self.take_off,
            choices: &self.choices,
            braiding: &self.making.braiding,
            loads: &self.loads,
            target: self.making.target,
            price: self.price,
        }
    }

    fn treads(&self, first: usize, stops: &[Stop]) -> Vec<Tread> {
        let ends = ends(stops, self.taper.length());
        let levels = levels(first, stops);
        let tread = |(load, ends): (usize, &[Length])| Tread {
            load,
            length: ends[1] - ends[0],
            pinned: None,
        };
        levels.zip(ends.windows(2)).map(tread).collect()
    }

    /// Mass per length of a standard thread at the target angle.
    pub(super) fn standard_thread(&self) -> LinearDensity {
        let making = &self.making;
        making.braiding.at_angle(1, making.target).linear_density
    }

    /// What a level comes to rest at with these wheels.
    pub(super) fn rest(&self, level: usize, wheels: Wheels) -> Rest {
        let piece = self.piece((Length::ZERO, Length::ZERO), level, wheels, 0.0);
        *self.rests.borrow_mut().of(&self.making, &piece)
    }
}

/// The tip, every stop, and the end of the line.
fn ends(stops: &[Stop], length: Length) -> Vec<Length> {
    let stops = stops.iter().map(|stop| stop.at);
    core::iter::once(Length::ZERO)
        .chain(stops)
        .chain([length])
        .collect()
}

/// The level of every tread.
fn levels(first: usize, stops: &[Stop]) -> impl Iterator<Item = usize> {
    core::iter::once(first).chain(stops.iter().map(Stop::after))
}

impl Layout {
    /// The level of a tread.
    fn level(&self, tread: usize) -> usize {
        match tread.checked_sub(1) {
            Some(stop) => self.stops[stop].after(),
            None => self.first,
        }
    }

    /// Fewest and most yarn: the lowest and the highest level of any tread.
    pub fn level_range(&self) -> (usize, usize) {
        levels(self.first, &self.stops).fold((usize::MAX, 0), |(low, high), level| {
            (low.min(level), high.max(level))
        })
    }
}
