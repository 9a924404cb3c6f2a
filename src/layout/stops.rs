//! Stops: the places where the machine stands still for a change of threads.

use crate::threads::Change;
use crate::units::Length;

/// A change of one carrier on its way to a stop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// The change; its place is where the drawing asks for it, or where the maker pinned it.
    pub change: Change,
    /// The pin that holds it there, by its place in the design's list.
    pub pinned: Option<usize>,
}

impl Step {
    /// A change where the drawing asks for it.
    pub fn of(change: Change) -> Self {
        Self {
            change,
            pinned: None,
        }
    }
}

/// A place where the machine stands still and one carrier after another is changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    /// Where.
    pub at: Length,
    /// The changes made there, one after another; at least one, all in the same sense.
    pub steps: Vec<Step>,
}

impl Stop {
    fn of(step: Step) -> Self {
        Self {
            at: step.change.at,
            steps: vec![step],
        }
    }

    /// The level from here on.
    pub fn after(&self) -> usize {
        self.steps[self.steps.len() - 1].change.after()
    }

    /// Whether the line gets thicker here.
    pub fn is_rising(&self) -> bool {
        self.steps[0].change.rising
    }

    /// Whether the maker pinned it.
    pub fn is_pinned(&self) -> bool {
        self.steps.iter().any(|step| step.pinned.is_some())
    }

    /// Takes in the changes of the stop behind; the place is the mean, or that of what is pinned.
    fn take_in(&mut self, other: Self) {
        let (here, there) = (self.steps.len() as f64, other.steps.len() as f64);
        self.at = match (self.is_pinned(), other.is_pinned()) {
            (true, _) => self.at,
            (false, true) => other.at,
            (false, false) => (self.at * here + other.at * there) / (here + there),
        };
        self.steps.extend(other.steps);
    }
}

/// Changes that would come closer than the maker can work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Crowd {
    /// So many changes are made at one stop.
    Together {
        /// Where.
        at: Length,
        /// How many.
        changes: usize,
    },
    /// A swelling or a waist shorter than the least distance is left out.
    LeftOut {
        /// The change into it, which is not made.
        into: Step,
        /// The change out of it, which is not made either.
        out_of: Step,
    },
    /// Two stops stay closer, since both are pinned or the line ends.
    Close {
        /// The first of them.
        at: Length,
        /// How far the next is.
        apart: Length,
    },
}

/// Distances that differ by less are equal: a hundredth of a step of the drawing.
const HAIR: Length = Length::from_micrometres(1.0);

/// Gathers changes to stops that are at least `spacing` apart where that can be.
pub(super) fn gather(steps: Vec<Step>, spacing: Length, length: Length) -> (Vec<Stop>, Vec<Crowd>) {
    let (kept, mut crowds) = without_short_swellings(steps, spacing);
    let mut stops: Vec<Stop> = kept.into_iter().map(Stop::of).collect();
    while let Some(index) = first_too_close(&stops, spacing) {
        let other = stops.remove(index + 1);
        stops[index].take_in(other);
    }
    // The tip is a stop too: what would come right behind it is pushed on rather than begun with.
    push_apart(&mut stops, spacing, length);
    let together = stops.iter().filter(|stop| stop.steps.len() > 1);
    crowds.extend(together.map(|stop| Crowd::Together {
        at: stop.at,
        changes: stop.steps.len(),
    }));
    (stops, crowds)
}

/// A change undone within the least distance is not made, nor what undoes it.
fn without_short_swellings(steps: Vec<Step>, spacing: Length) -> (Vec<Step>, Vec<Crowd>) {
    let mut kept: Vec<Step> = Vec::with_capacity(steps.len());
    let mut crowds = Vec::new();
    for step in steps {
        let undoes = |last: &mut Step| {
            last.change.lower == step.change.lower
                && last.change.rising != step.change.rising
                && step.change.at - last.change.at < spacing - HAIR
        };
        match kept.pop_if(undoes) {
            Some(into) => crowds.push(Crowd::LeftOut { into, out_of: step }),
            None => kept.push(step),
        }
    }
    (kept, crowds)
}

/// The first of two stops in the same sense that are too close and may become one.
fn first_too_close(stops: &[Stop], spacing: Length) -> Option<usize> {
    stops.windows(2).position(|pair| {
        let alike = pair[0].is_rising() == pair[1].is_rising();
        let both_pinned = pair[0].is_pinned() && pair[1].is_pinned() && pair[0].at < pair[1].at;
        alike && !both_pinned && pair[1].at - pair[0].at < spacing - HAIR
    })
}

/// Moves stops that are not pinned so that each is at least `spacing` behind the one before, and all lie on the line.
pub(super) fn push_apart(stops: &mut [Stop], spacing: Length, length: Length) {
    let mut least = spacing;
    for stop in stops.iter_mut() {
        if !stop.is_pinned() {
            stop.at = stop.at.max(least);
        }
        least = stop.at + spacing;
    }
    let mut most = length - spacing;
    for stop in stops.iter_mut().rev() {
        if !stop.is_pinned() {
            stop.at = stop.at.min(most);
        }
        most = stop.at - spacing;
    }
    // A line too short for its stops: they keep their order, and are reported as close.
    let mut least = Length::ZERO;
    for stop in stops {
        stop.at = stop.at.max(least).min(length);
        least = stop.at;
    }
}

/// Stops that are still closer than they should be.
pub(super) fn still_close(stops: &[Stop], spacing: Length) -> impl Iterator<Item = Crowd> {
    let close = stops
        .windows(2)
        .filter(move |pair| pair[1].at - pair[0].at < spacing - HAIR);
    close.map(|pair| Crowd::Close {
        at: pair[0].at,
        apart: pair[1].at - pair[0].at,
    })
}
