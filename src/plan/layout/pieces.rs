//! From stops and wheels to the pieces of a line.

use super::ground::Ground;
use super::places::Layout;
use super::stops::Stop;

use crate::base::units::Length;
use crate::braid::stretch::{Piece, SteadyState};
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Change;

/// Something that changes what is braided from a place on.
#[derive(Clone, Copy)]
pub(super) enum LineChange {
    Level(usize),
    Fit(Wheels),
    /// So much yarn more lies in the core, in standard threads; less where negative.
    Bury(f64),
}

/// What is done along a line. Each kind is listed by itself: made stop by stop, each list is in order, and a line of thousands
/// of changes need not be sorted.
#[derive(Default)]
pub(super) struct LineChanges {
    /// Where tails end.
    ends: Vec<(Length, LineChange)>,
    /// Changes of level, and where tails begin.
    levels: Vec<(Length, LineChange)>,
    fits: Vec<(Length, LineChange)>,
}

impl LineChanges {
    /// With room for so many stops.
    fn for_stops(count: usize) -> Self {
        Self {
            ends: Vec::with_capacity(count),
            levels: Vec::with_capacity(2 * count),
            fits: Vec::with_capacity(count),
        }
    }

    /// Wheels are fitted.
    pub(super) fn fit(&mut self, at: Length, wheels: Wheels) {
        self.fits.push((at, LineChange::Fit(wheels)));
    }

    pub(super) fn clear(&mut self) {
        for list in [&mut self.ends, &mut self.levels, &mut self.fits] {
            list.clear();
        }
    }

    fn len(&self) -> usize {
        self.ends.len() + self.levels.len() + self.fits.len()
    }

    /// All of it in order of length. At one place tails end before others begin.
    fn in_order(&mut self) -> impl Iterator<Item = (Length, LineChange)> {
        let mut lists = [&mut self.ends, &mut self.levels, &mut self.fits].map(|list| {
            if !list.is_sorted_by(|a, b| a.0 <= b.0) {
                list.sort_by(|a, b| a.0.metres().total_cmp(&b.0.metres()));
            }
            list.as_slice()
        });
        core::iter::from_fn(move || {
            let left = lists.iter_mut().filter(|list| !list.is_empty());
            let first = left.reduce(|a, b| if b[0].0 < a[0].0 { b } else { a })?;
            let (next, rest) = first.split_first()?;
            *first = rest;
            Some(*next)
        })
    }
}

/// Lists that are filled again for every line tried, so that memory is asked for once.
#[derive(Default)]
pub(super) struct Scratch {
    pub(super) line_changes: LineChanges,
    pub(super) pieces: Vec<Piece>,
}

impl Scratch {
    /// With room for a line of so many stops.
    pub(super) fn for_stops(count: usize) -> Self {
        Self {
            line_changes: LineChanges::for_stops(count),
            pieces: Vec::with_capacity(4 * count + 1),
        }
    }
}

impl Ground {
    /// The steady state of a level with these wheels.
    pub(super) fn steady_state(&self, level: usize, wheels: Wheels) -> SteadyState {
        let piece = self.piece((Length::ZERO, Length::ZERO), level, wheels, 0.0);
        *self.steady_states.borrow_mut().of(&self.process, &piece)
    }

    /// The pieces of a layout, tip first, without gap.
    pub fn pieces(&self, layout: &Layout) -> Vec<Piece> {
        self.pieces_of(
            layout.first,
            &layout.stops,
            &layout.wheels,
            &layout.wheels_at,
        )
    }

    pub(super) fn pieces_of(
        &self,
        first: usize,
        stops: &[Stop],
        wheels: &[Wheels],
        wheels_at: &[Length],
    ) -> Vec<Piece> {
        let mut line_changes = LineChanges::for_stops(stops.len());
        self.line_changes(&mut line_changes, stops, wheels, wheels_at);
        let mut pieces = Vec::with_capacity(line_changes.len() + 1);
        self.sweep((first, wheels[0]), &mut line_changes, &mut pieces);
        pieces
    }

    /// Adds what is done at these stops, and when wheels are fitted.
    pub(super) fn line_changes(
        &self,
        line_changes: &mut LineChanges,
        stops: &[Stop],
        wheels: &[Wheels],
        wheels_at: &[Length],
    ) {
        for (index, stop) in stops.iter().enumerate() {
            for step in &stop.steps {
                self.change(line_changes, stop.at, &step.change);
            }
            if wheels[index] != wheels[index + 1] {
                line_changes.fit(wheels_at[index], wheels[index + 1]);
            }
        }
    }

    /// A change of one carrier, and the tail it leaves.
    pub(super) fn change(&self, line_changes: &mut LineChanges, at: Length, change: &Change) {
        let LineChanges { levels, ends, .. } = line_changes;
        levels.push((at, LineChange::Level(change.after())));
        let size = self.buried_by(change);
        if size > 0.0 && self.tail > Length::ZERO {
            levels.push((at, LineChange::Bury(size)));
            ends.push((at + self.tail, LineChange::Bury(-size)));
        }
    }

    /// Yarn of the thread a change leaves behind in the core, in standard threads.
    fn buried_by(&self, change: &Change) -> f64 {
        let (before, after) = (self.levels[change.before()], self.levels[change.after()]);
        match (change.rising, before.heavy == after.heavy) {
            (true, true) => 0.0,
            (false, true) | (true, false) => 1.0,
            (false, false) => self.supply.heavier_by(),
        }
    }

    /// Makes of `pieces` those of a line that begins with a level and wheels, when this is done along it.
    pub(super) fn sweep(
        &self,
        (level, wheels): (usize, Wheels),
        line_changes: &mut LineChanges,
        pieces: &mut Vec<Piece>,
    ) {
        pieces.clear();
        let (mut level, mut wheels) = (level, wheels);
        let (mut from, mut buried, mut tails) = (Length::ZERO, 0.0, 0_u32);
        let end = self.taper.length();
        let mut close = |from: &mut Length, to: Length, level, wheels, buried: f64| {
            if *from < to {
                pieces.push(self.piece((*from, to), level, wheels, buried));
                *from = to;
            }
        };
        for (at, line_change) in line_changes.in_order() {
            close(&mut from, at.min(end), level, wheels, buried);
            match line_change {
                LineChange::Level(after) => level = after,
                LineChange::Fit(after) => wheels = after,
                LineChange::Bury(size) => {
                    tails = if size > 0.0 { tails + 1 } else { tails - 1 };
                    // Counted, so that nothing of a rounding stays when the last tail has ended.
                    buried = if tails == 0 { 0.0 } else { buried + size };
                }
            }
        }
        close(&mut from, end, level, wheels, buried);
    }

    pub(super) fn piece(
        &self,
        (from, to): (Length, Length),
        level: usize,
        wheels: Wheels,
        buried: f64,
    ) -> Piece {
        Piece {
            from,
            to,
            level,
            load: self.loads[level].burying(buried),
            wheels,
            lay: self.take_off.lay(wheels),
        }
    }
}
