//! When wheels are changed: with the threads, or a little earlier or later.
//!
//! The machine follows late. Where a change of wheels does not come with every change of threads, the angle drifts one way
//! over some intervals and is brought back at once; fitting the wheels early or late centres that ramp on the target. It is a
//! stop of its own, so it is done only where it brings the angle nearer by more than it costs.

use super::ground::Ground;
use super::pieces::Scratch;
use super::places::Layout;
use crate::base::units::Length;

/// Distances tried on either side of a stop, in lags; none is less than the least distance between stops.
const TRIED: [f64; 3] = [0.5, 1.0, 2.0];
/// A stop of its own must save this share of the price of a change.
const WORTH: f64 = 0.25;

/// Places every change of wheels, one after another from the tip.
pub(super) fn centre_ramps(ground: &Ground, layout: &mut Layout, scratch: &mut Scratch) {
    let mut start = None;
    let mut from = Length::ZERO;
    for index in 0..layout.stops.len() {
        let stop = layout.stops[index].at;
        let next = layout.stops.get(index + 1).map(|stop| stop.at);
        let to = next.unwrap_or_else(|| ground.taper.length());
        if layout.wheels[index] != layout.wheels[index + 1] {
            let around = Around { index, from, to };
            layout.wheels_at[index] = around.best_place(ground, layout, start, scratch);
        }
        // Wheels fitted late stay after the stop: the next interval begins where they have been fitted.
        let until = layout.wheels_at[index].max(stop);
        let at = layout.wheels_at[index];
        ground.pieces_around(layout, (index, at), (from, until), scratch);
        let mut steady_states = ground.steady_states.borrow_mut();
        start = ground
            .process
            .follow(&scratch.pieces, start, &mut steady_states);
        from = until;
    }
}

/// A stop and the stretch whose angle depends on where its wheels are fitted.
struct Around {
    index: usize,
    from: Length,
    to: Length,
}

impl Around {
    fn best_place(
        &self,
        ground: &Ground,
        layout: &Layout,
        start: Option<Length>,
        scratch: &mut Scratch,
    ) -> Length {
        let stop = layout.stops[self.index].at;
        let mut error = |at: Length, most: f64| {
            ground.pieces_around(layout, (self.index, at), (self.from, self.to), scratch);
            let mut steady_states = ground.steady_states.borrow_mut();
            ground
                .process
                .error(&scratch.pieces, start, most, &mut steady_states)
        };
        let at_stop = error(stop, f64::INFINITY);
        let mut best = (at_stop - WORTH * ground.price.metres(), stop);
        // An error is never less than none: nothing can save what it costs.
        if best.0 <= 0.0 {
            return stop;
        }
        // A interval with pinned wheels has them all along: others go on no earlier, and come off no later.
        let is_pinned = |interval: usize| layout.pinned_intervals[interval].is_some();
        let before = if is_pinned(self.index) {
            stop
        } else {
            self.from + ground.spacing
        };
        let behind = if is_pinned(self.index + 1) {
            stop
        } else {
            self.to - ground.spacing
        };
        let lag = ground.lag(layout, self.index + 1);
        for side in [1.0, -1.0] {
            // The error falls towards one place and rises beyond it: where it has risen, going farther gains nothing.
            let mut nearer = (at_stop, stop);
            for lags in TRIED {
                let at = stop + (lag * lags).max(ground.spacing) * side;
                if at == nearer.1 {
                    continue;
                }
                if at < before || behind < at {
                    break;
                }
                let tried = error(at, nearer.0);
                if tried >= nearer.0 {
                    break;
                }
                nearer = (tried, at);
                if tried < best.0 {
                    best = (tried, at);
                }
            }
        }
        best.1
    }
}

impl Ground {
    /// How fast the angle settles on a interval.
    fn lag(&self, layout: &Layout, interval: usize) -> Length {
        self.steady_state(layout.level(interval), layout.wheels[interval])
            .way
            .lag()
    }

    /// The pieces of a layout that had only the stop of this index, its wheels fitted at a place, cut to a stretch.
    fn pieces_around(
        &self,
        layout: &Layout,
        (index, wheels_at): (usize, Length),
        (from, to): (Length, Length),
        scratch: &mut Scratch,
    ) {
        let stops = &layout.stops[index..=index];
        let wheels = &layout.wheels[index..=index + 1];
        let Scratch {
            line_changes,
            pieces,
        } = scratch;
        line_changes.clear();
        self.line_changes(line_changes, stops, wheels, &[wheels_at]);
        let start = (stops[0].steps[0].change.before(), wheels[0]);
        self.sweep(start, line_changes, pieces);
        for piece in pieces.iter_mut() {
            (piece.from, piece.to) = (piece.from.max(from), piece.to.min(to));
        }
        pieces.retain(|piece| piece.from < piece.to);
    }
}
