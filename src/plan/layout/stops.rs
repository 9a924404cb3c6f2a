//! Stops: the places where the machine stands still for a change of threads.

use crate::base::units::Length;
use crate::braid::threads::Change;

/// A change of one carrier on its way to a stop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// The change; its place is where the drawing asks for it, or where the maker pinned it. Of one that is left out since
    /// the braid would take it back too soon, it is where it would have been made.
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

    /// The same with one change more; the place is the mean of all, or that of what is pinned.
    fn with(mut self, step: Step) -> Self {
        let count = self.steps.len() as f64;
        self.at = match (self.is_pinned(), step.pinned.is_some()) {
            (true, _) => self.at,
            (false, true) => step.change.at,
            (false, false) => (self.at * count + step.change.at) / (count + 1.0),
        };
        self.steps.push(step);
        self
    }
}

/// Changes that would come closer than the maker can work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Crowding {
    /// So many changes are made at one stop.
    Together {
        /// Where.
        at: Length,
        /// How many.
        changes: usize,
    },
    /// A swelling or a waist is left out, or what would be changed close to the tip or the end: it is shorter than the least
    /// distance, or puts less right than its stops are worth.
    LeftOut {
        /// The change into it, which is not made.
        into: Step,
        /// The change out of it, which is not made either. None close to the tip or the end.
        out_of: Option<Step>,
    },
    /// Two stops, the tip and the end among them, stay closer, since both are pinned or the line ends.
    Close {
        /// The first of them.
        at: Length,
        /// How far the next is.
        apart: Length,
    },
}

/// Distances that differ by less are equal: a hundredth of a step of the drawing.
pub(super) const HAIR: Length = Length::from_micrometres(1.0);

/// Gathers changes to stops that are at least `spacing` apart where that can be, and tells what was left out.
///
/// Changes in one sense that all lie within the least distance are made at one stop, at the mean of their places; stops
/// that are then still too close are pushed apart. So no change moves farther than it must.
pub(super) fn gather(
    steps: Vec<Step>,
    spacing: Length,
    length: Length,
) -> (Vec<Stop>, Vec<Crowding>) {
    let (kept, left_out) = without_short_swellings(steps, spacing);
    let mut stops: Vec<Stop> = Vec::with_capacity(kept.len());
    // Where the first change of the last stop lies: those within the least distance of it join in.
    let mut begins = Length::ZERO;
    for step in kept {
        let joins = |last: &mut Stop| {
            let both_pinned = last.is_pinned() && step.pinned.is_some() && last.at < step.change.at;
            last.is_rising() == step.change.rising
                && step.change.at - begins < spacing - HAIR
                && !both_pinned
        };
        if let Some(last) = stops.pop_if(joins) {
            stops.push(last.with(step));
        } else {
            begins = step.change.at;
            stops.push(Stop::of(step));
        }
    }
    let mut left_out = left_out;
    make_room(&mut stops, &mut left_out, (spacing, length));
    push_apart(&mut stops, spacing, length);
    (stops, left_out)
}

/// Where a line is too short for its stops, the nearest neighbours become one, or, where one undoes the other, both lose
/// what they undo. One stop is left at most where there is hardly room for any.
fn make_room(
    stops: &mut Vec<Stop>,
    left_out: &mut Vec<Crowding>,
    (spacing, length): (Length, Length),
) {
    let needs = |count: usize| spacing * (count as f64 + 1.0);
    while stops.len() > 1 && needs(stops.len()) > length + HAIR {
        let apart = |index: &usize| (stops[index + 1].at - stops[*index].at).metres();
        let pairs = (0..stops.len() - 1)
            .filter(|&index| !(stops[index].is_pinned() && stops[index + 1].is_pinned()));
        let Some(first) = pairs.min_by(|a, b| apart(a).total_cmp(&apart(b))) else {
            return;
        };
        if stops[first].is_rising() == stops[first + 1].is_rising() {
            let (joined, second) = (stops.remove(first), stops.remove(first));
            stops.insert(first, second.steps.into_iter().fold(joined, Stop::with));
        } else {
            let undone = stops[first].steps.len().min(stops[first + 1].steps.len());
            undo(stops, left_out, first, undone);
            stops.retain(|stop| !stop.steps.is_empty());
        }
    }
    if let [only] = stops.as_mut_slice()
        && needs(1) > length
        && !only.is_pinned()
    {
        only.at = length / 2.0;
    }
}

/// Takes some changes out of a stop and the next, which undoes it, innermost first. What is left of either stays, though it be
/// nothing: after many pairs are undone, the empty stops are removed once.
pub(super) fn undo(stops: &mut [Stop], left_out: &mut Vec<Crowding>, first: usize, count: usize) {
    for _ in 0..count {
        let into = stops[first].steps.pop();
        let out_of = stops[first + 1].steps.drain(..1).next();
        let pair = into.zip(out_of);
        left_out.extend(pair.map(|(into, out_of)| Crowding::LeftOut {
            into,
            out_of: Some(out_of),
        }));
    }
}

/// The stops at which more than one change is made.
pub(super) fn together(stops: &[Stop]) -> impl Iterator<Item = Crowding> {
    let several = stops.iter().filter(|stop| stop.steps.len() > 1);
    several.map(|stop| Crowding::Together {
        at: stop.at,
        changes: stop.steps.len(),
    })
}

/// A change undone within the least distance is not made, nor what undoes it.
fn without_short_swellings(steps: Vec<Step>, spacing: Length) -> (Vec<Step>, Vec<Crowding>) {
    let mut kept: Vec<Step> = Vec::with_capacity(steps.len());
    let mut crowdings = Vec::new();
    for step in steps {
        let undoes = |last: &mut Step| {
            last.change.lower == step.change.lower
                && last.change.rising != step.change.rising
                && step.change.at - last.change.at < spacing - HAIR
        };
        match kept.pop_if(undoes) {
            Some(into) => crowdings.push(Crowding::LeftOut {
                into,
                out_of: Some(step),
            }),
            None => kept.push(step),
        }
    }
    (kept, crowdings)
}

/// Moves stops that are not pinned so that each is at least `spacing` after the one before, and all lie on the line.
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
    // No room for all, since some are pinned: they keep their order, none on the tip or the end, and are reported as close.
    let mut least = HAIR;
    for stop in stops {
        stop.at = stop.at.max(least).min(length - HAIR);
        least = stop.at;
    }
}

/// Stops that are still closer than they should be, to each other or to the tip or the end of the line.
pub(super) fn still_close(
    stops: &[Stop],
    spacing: Length,
    length: Length,
) -> impl Iterator<Item = Crowding> {
    let starts = [Length::ZERO]
        .into_iter()
        .chain(stops.iter().map(|stop| stop.at));
    let ends = stops.iter().map(|stop| stop.at).chain([length]);
    // Of a line without stops nothing is close, however short it is.
    let pairs = starts.zip(ends).filter(|_| !stops.is_empty());
    let close = pairs.filter(move |&(at, next)| next - at < spacing - HAIR);
    close.map(|(at, next)| Crowding::Close {
        at,
        apart: next - at,
    })
}

/// The tip, every stop, and the end of the line.
pub(super) fn ends(stops: &[Stop], length: Length) -> Vec<Length> {
    let stops = stops.iter().map(|stop| stop.at);
    core::iter::once(Length::ZERO)
        .chain(stops)
        .chain([length])
        .collect()
}

/// The level of every interval.
pub(super) fn levels(first: usize, stops: &[Stop]) -> impl Iterator<Item = usize> {
    core::iter::once(first).chain(stops.iter().map(Stop::after))
}
