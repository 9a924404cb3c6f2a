//! Moving stops so that each section keeps the mass it is drawn with.

use super::ground::Ground;
use super::pieces::Scratch;
use super::places::Layout;
use super::stops::{self, HAIR, Step, Stop, ends, levels};
use super::worth::Worthless;
use crate::base::units::{Length, LinearDensity, Mass};
use crate::braid::stretch::BraidedLine;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Change;

/// Most rounds of balancing wheels that stand beside their stops. A round leaves only what its moves changed of tails and
/// ramps, some hundredths of what it found.
const ROUNDS: usize = 3;
/// Where the mass per length changes by less than this share of what the threads changed would weigh at the target angle, no place
/// of a stop is better than another.
const LEAST_JUMP: f64 = 0.25;

impl Ground {
    /// Moves every stop that is not pinned so that the mass around it is that of the drawing.
    ///
    /// # Errors
    /// The stops that are not worth their work where this brings them. They then lie anywhere.
    pub(super) fn keep_mass(
        &self,
        first: usize,
        stops: &mut [Stop],
        wheels: &[Wheels],
        pinned_intervals: &[Option<usize>],
        scratch: &mut Scratch,
    ) -> Result<(), Vec<Worthless>> {
        let check = |stops: &[Stop]| self.check_worth(first, stops, pinned_intervals);
        self.move_to_real_levels(first, stops, wheels);
        check(stops)?;
        stops::push_apart(stops, self.spacing, self.taper.length());
        self.move_by_excess(first, stops, wheels, scratch);
        check(stops)?;
        stops::push_apart(stops, self.spacing, self.taper.length());
        Ok(())
    }

    /// To where the drawing passes half-way between the levels as the wheels of either side really make them.
    fn move_to_real_levels(&self, first: usize, stops: &mut [Stop], wheels: &[Wheels]) {
        let levels: Vec<usize> = levels(first, stops).collect();
        let as_made = |(&level, &wheels): (&usize, &Wheels)| self.yarn_as_made(level, wheels);
        let real: Vec<f64> = levels.iter().zip(wheels).map(as_made).collect();
        for (index, stop) in stops
            .iter_mut()
            .enumerate()
            .filter(|(_, stop)| !stop.is_pinned())
        {
            let (before, after) = (real[index], real[index + 1]);
            let by = 0.5 * (before + after)
                - 0.5 * (self.loads[levels[index]].yarn + self.loads[levels[index + 1]].yarn);
            stop.at = self.mean_place(stop, by);
        }
    }

    /// The mean of the places where the drawing passes the boundaries of a stop's changes, moved by some yarn.
    fn mean_place(&self, stop: &Stop, by: f64) -> Length {
        let place = |step: &Step| {
            let boundary = self.staircase.boundary(step.change.lower) + by;
            let diameter = self.staircase.diameter(boundary);
            let Change { rising, at, .. } = step.change;
            self.taper.place_within_run(diameter, rising, at)
        };
        stop.steps.iter().map(place).sum::<Length>() / stop.steps.len() as f64
    }

    /// By the yarn that tails, and an angle not yet steady, put after each stop beyond its own level's.
    fn move_by_excess(
        &self,
        first: usize,
        stops: &mut [Stop],
        wheels: &[Wheels],
        scratch: &mut Scratch,
    ) {
        let wheels_at: Vec<Length> = stops.iter().map(|stop| stop.at).collect();
        let line = self.braid_in(scratch, (first, stops), (wheels, &wheels_at));
        let levels: Vec<usize> = levels(first, stops).collect();
        let steady: Vec<_> = levels
            .iter()
            .zip(wheels)
            .map(|(&level, &wheels)| self.steady_state(level, wheels).braid.linear_density)
            .collect();
        let ends = ends(stops, self.taper.length());
        for (index, stop) in stops
            .iter_mut()
            .enumerate()
            .filter(|(_, stop)| !stop.is_pinned())
        {
            let (from, to) = (ends[index + 1], ends[index + 2]);
            let excess = line.bare_mass(from, to) - (to - from) * steady[index + 1];
            let jump = steady[index + 1] - steady[index];
            let by = Length::from_metres(excess.kilograms() / jump.kilograms_per_metre());
            let (room_before, room_behind) = (from - ends[index], to - from);
            if jump.abs() < self.least_jump(levels[index], levels[index + 1]) {
                continue;
            }
            // Never more than half-way to a neighbour, nor farther than tail and ramp reach.
            let reach = self.reach(&line, from);
            let by = by.max(room_before * -0.5).max(reach * -1.0);
            stop.at += by.min(room_behind * 0.5).min(reach);
        }
    }

    /// Moves stops by the mass that wheels fitted beside their stops add or take away.
    ///
    /// The mass between the middles of two intervals is brought back to what it is with all wheels fitted at their stops.
    /// Wheels move with their stop. Stops that are pinned stay, and so does all before the first wheels beside a stop.
    pub(super) fn keep_mass_beside(&self, layout: &mut Layout, scratch: &mut Scratch) {
        let at_stops: Vec<Length> = layout.stops.iter().map(|stop| stop.at).collect();
        if layout.wheels_at == at_stops {
            return;
        }
        let braid_in = |scratch: &mut Scratch, layout: &Layout, wheels_at: &[Length]| {
            let what = (layout.first, layout.stops.as_slice());
            self.braid_in(scratch, what, (&layout.wheels, wheels_at))
        };
        let line = braid_in(scratch, layout, &at_stops);
        let end = |interval: usize| {
            at_stops
                .get(interval)
                .copied()
                .unwrap_or(self.taper.length())
        };
        let middle = |interval: usize| {
            let begin = interval.checked_sub(1).map_or(Length::ZERO, end);
            (begin + end(interval)) / 2.0
        };
        let middles: Vec<Length> = (0..=at_stops.len()).map(middle).collect();
        let to_middles = |masses: &mut Vec<Mass>, line: &BraidedLine| {
            masses.clear();
            masses.extend(middles.iter().map(|&middle| line.bare_mass_to(middle)));
        };
        let around = |masses: &[Mass], stop: usize| masses[stop + 1] - masses[stop];
        let (mut wanted, mut masses) = (Vec::with_capacity(middles.len()), Vec::new());
        to_middles(&mut wanted, &line);
        let mut moves = vec![Length::ZERO; at_stops.len()];
        for _ in 0..ROUNDS {
            let line = braid_in(scratch, layout, &layout.wheels_at);
            to_middles(&mut masses, &line);
            for (stop, by) in moves.iter_mut().enumerate() {
                let reach = self.reach(&line, layout.stops[stop].at);
                let excess = around(&masses, stop) - around(&wanted, stop);
                *by = self
                    .move_by(layout, stop, excess)
                    .max(reach * -1.0)
                    .min(reach);
            }
            if moves.iter().all(|by| *by == Length::ZERO) {
                return;
            }
            for (stop, &by) in moves.iter().enumerate() {
                let at = &mut layout.stops[stop].at;
                let is_beside = layout.wheels_at[stop] != *at;
                *at += by;
                layout.wheels_at[stop] = if is_beside {
                    layout.wheels_at[stop] + by
                } else {
                    *at
                };
            }
        }
    }

    /// How far from a stop tails and a late angle reach.
    fn reach(&self, line: &BraidedLine, stop: Length) -> Length {
        self.tail * 2.0 + line.stretch_at(stop).convergence.lag() * 3.0
    }

    /// The least change of mass per length between two levels that a stop is moved for.
    fn least_jump(&self, before: usize, after: usize) -> LinearDensity {
        self.standard_thread() * (self.threads_between(before, after) * LEAST_JUMP)
    }

    /// The line that begins with a level and has these stops, its wheels fitted at these places.
    fn braid_in(
        &self,
        scratch: &mut Scratch,
        (first, stops): (usize, &[Stop]),
        (wheels, wheels_at): (&[Wheels], &[Length]),
    ) -> BraidedLine {
        let Scratch {
            line_changes,
            pieces,
        } = scratch;
        line_changes.clear();
        self.line_changes(line_changes, stops, wheels, wheels_at);
        self.sweep((first, wheels[0]), line_changes, pieces);
        self.braid_pieces(pieces)
    }

    /// How far a stop and its wheels move to take away some mass: at most half of what there is between the least distance
    /// and its neighbours.
    fn move_by(&self, layout: &Layout, stop: usize, excess: Mass) -> Length {
        let [before, after] = [stop, stop + 1].map(|interval| {
            let level = layout.level(interval);
            self.steady_state(level, layout.wheels[interval])
                .braid
                .linear_density
        });
        let jump = after - before;
        let least_jump = self.least_jump(layout.level(stop), layout.level(stop + 1));
        if layout.stops[stop].is_pinned() || jump.abs() < least_jump {
            return Length::ZERO;
        }
        let by = Length::from_metres(excess.kilograms() / jump.kilograms_per_metre());
        let first = |stop: usize| layout.stops[stop].at.min(layout.wheels_at[stop]);
        let last = |stop: usize| layout.stops[stop].at.max(layout.wheels_at[stop]);
        let from = stop.checked_sub(1).map_or(Length::ZERO, last);
        let to = if stop + 1 < layout.stops.len() {
            first(stop + 1)
        } else {
            self.taper.length()
        };
        let half = |room: Length| (room - self.spacing).max(Length::ZERO) * 0.5;
        let by = by
            .min(half(to - last(stop)))
            .max(half(first(stop) - from) * -1.0);
        if by.abs() < HAIR { Length::ZERO } else { by }
    }
}
