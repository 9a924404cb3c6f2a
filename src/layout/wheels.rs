//! When wheels are changed: with the threads, or a little earlier or later.
//!
//! The machine follows late. Where a change of wheels does not come with every change of threads, the angle drifts one way
//! over some treads and is brought back at once; fitting the wheels early or late centres that ramp on the target. It is a
//! stop of its own, so it is done only where it brings the angle nearer by more than it costs.

use super::{Ground, Layout};
use crate::convergence::Convergence;
use crate::stretch::Piece;
use crate::units::Length;

/// Distances tried on either side of a stop, in lags; none is less than the least distance between stops.
const TRIED: [f64; 6] = [0.5, -0.5, 1.0, -1.0, 2.0, -2.0];
/// A stop of its own must save this share of the price of a change.
const WORTH: f64 = 0.25;

/// Places every change of wheels, one after another from the tip.
pub(super) fn centre_ramps(ground: &Ground, layout: &mut Layout) {
    let mut start = None;
    let mut from = Length::ZERO;
    for index in 0..layout.stops.len() {
        let stop = layout.stops[index].at;
        let next = layout.stops.get(index + 1).map(|stop| stop.at);
        let to = next.unwrap_or_else(|| ground.taper.length());
        if layout.wheels[index] != layout.wheels[index + 1] {
            let around = Around { index, from, to };
            layout.wheels_at[index] = around.best_place(ground, layout, start);
        }
        // Wheels fitted late stay behind the stop: the next tread begins where they have been fitted.
        let until = layout.wheels_at[index].max(stop);
        let pieces = between(ground, layout, index, (from, until));
        start = ground.making.try_out(&pieces, start).0;
        from = until;
    }
}

/// A stop and the stretch whose angle hangs on where its wheels are fitted.
struct Around {
    index: usize,
    from: Length,
    to: Length,
}

impl Around {
    fn best_place(&self, ground: &Ground, layout: &Layout, start: Option<Length>) -> Length {
        let stop = layout.stops[self.index].at;
        let error = |at: Length| {
            let mut tried = layout.clone_around(self.index);
            tried.wheels_at[0] = at;
            let pieces = between_one(ground, &tried, (self.from, self.to));
            ground.making.try_out(&pieces, start).1
        };
        // A tread with pinned wheels has them all along: others go on no earlier, and come off no later.
        let is_pinned = |tread: usize| layout.pinned_treads[tread].is_some();
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
        let beside = |lags: f64| (lag * lags.abs()).max(ground.spacing) * lags.signum();
        let places = TRIED.map(|lags| stop + beside(lags));
        let together = error(stop);
        let worth = together - WORTH * ground.price.metres();
        let possible = places
            .into_iter()
            .filter(|&at| before <= at && at <= behind);
        let better = possible
            .map(|at| (error(at), at))
            .filter(|tried| tried.0 < worth);
        better
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or(stop, |(_, at)| at)
    }
}

impl Ground {
    /// How fast the angle comes to rest on a tread.
    fn lag(&self, layout: &Layout, tread: usize) -> Length {
        let level = match tread.checked_sub(1) {
            Some(stop) => layout.stops[stop].after(),
            None => layout.first,
        };
        let (load, lay) = (self.loads[level], self.take_off.lay(layout.wheels[tread]));
        let rest = self.making.braiding.at_lay(load, lay);
        Convergence::new(&self.making.braiding, load, &rest, self.making.guide, None).lag()
    }
}

impl Layout {
    /// Only the stop of this index, with the treads on either side.
    fn clone_around(&self, index: usize) -> Self {
        Self {
            first: self.stops[index].steps[0].change.before(),
            stops: vec![self.stops[index].clone()],
            wheels: self.wheels[index..=index + 1].to_vec(),
            one_throughout: self.one_throughout,
            wheels_at: vec![self.wheels_at[index]],
            pinned_treads: Vec::new(),
            crowds: Vec::new(),
            dropped_pins: Vec::new(),
        }
    }
}

fn between(ground: &Ground, layout: &Layout, index: usize, ends: (Length, Length)) -> Vec<Piece> {
    between_one(ground, &layout.clone_around(index), ends)
}

/// The pieces of a layout of one stop, cut to a stretch.
fn between_one(ground: &Ground, layout: &Layout, (from, to): (Length, Length)) -> Vec<Piece> {
    let cut = |piece: Piece| {
        let (from, to) = (piece.from.max(from), piece.to.min(to));
        (from < to).then_some(Piece { from, to, ..piece })
    };
    ground.pieces(layout).into_iter().filter_map(cut).collect()
}
