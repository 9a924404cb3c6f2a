//! Moves that do most for the energy at the leader and keep the mass of the head, from what each does alone.
//!
//! Sought is the greatest gain less the square of the change in the drawing, over a reach `τ`: `s Σ g x − Σ w x² / (2 τ)`. Here `x` are
//! the moves within their limits, `g` is what each does to the energy, `w` its extent, and `s` the direction wanted; and the head has the
//! mass asked for. By Lagrange's multiplier `λ` for what each does to the head, `h`, that is `x = τ (s g + λ h) / w`, held within its
//! limits. Without limits it is the gradient, made orthogonal to that of the head.
//!
//! The change is that of the drawn curve, not of the single numbers: so neighbouring points move alike, however many there are.

use super::drawn::DrawnCasts;
use super::handles::{Handle, Moves};
use crate::base::units::{Length, Mass};
use crate::braid::taper::Point;

/// How often the bracket of the multiplier is doubled, and then halved. It stays within 16 times its usual size: a head that asks for
/// more, since most moves are at their limits, is not worth what it would cost.
const DOUBLINGS: u32 = 4;
const HALVINGS: u32 = 24;

/// A drawing and what may be moved on it.
pub(super) struct Balance<'a> {
    pub(super) casts: &'a DrawnCasts<'a>,
    pub(super) points: Vec<Point>,
    pub(super) handles: Vec<Handle>,
    /// 1 for more energy left, −1 for less.
    pub(super) sign: f64,
}

impl Balance<'_> {
    /// A reach at which the limits decide: with it the moves would, without limits, gain twice as much as all limits together allow.
    /// `None` where nothing can be gained with the mass kept.
    pub(super) fn farthest(&self) -> Option<f64> {
        let heads = self.sum(|it| it.grains() * it.grains() / it.extent);
        let both = self.sum(|it| self.sign * it.does.energy_left * it.grains() / it.extent);
        let pull = if heads > 0.0 { -both / heads } else { 0.0 };
        let gain = |it: &Handle| self.gain(it, pull);
        let at_once = self.sum(|it| gain(it) * gain(it) / it.extent);
        let at_limits = self.sum(|it| gain(it).abs() * it.limits.1.max(-it.limits.0));
        let reach = 2.0 * at_limits / at_once;
        (reach.is_finite() && reach > 0.0).then_some(reach)
    }

    /// The moves within a reach with which the head of the drawing weighs so much, or as nearly as their limits allow. What is held is
    /// moved by that.
    pub(super) fn moves(&self, reach: f64, head: Mass, held: &[Option<f64>]) -> Vec<f64> {
        let at = |pull: f64| self.with_pull(reach, pull, held);
        let way = self.gains_by_lighter(reach, head, held);
        let falls_short = |pull: f64| self.lacks(&at(pull), head) * way > 0.0;
        let (mut near, mut far) = (0.0, way * self.usual_pull());
        for _ in 0..DOUBLINGS {
            if !falls_short(far) {
                break;
            }
            (near, far) = (far, 2.0 * far);
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(near, far);
            if falls_short(middle) {
                near = middle;
            } else {
                far = middle;
            }
        }
        at(far)
    }

    /// 1 where more would be gained if the head might be lighter, −1 where it would be if it might be heavier.
    pub(super) fn gains_by_lighter(&self, reach: f64, head: Mass, held: &[Option<f64>]) -> f64 {
        let lacks = self.lacks(&self.with_pull(reach, 0.0, held), head);
        if lacks < 0.0 { -1.0 } else { 1.0 }
    }

    fn with_pull(&self, reach: f64, pull: f64, held: &[Option<f64>]) -> Vec<f64> {
        let moved = |(it, held): (&Handle, &Option<f64>)| {
            let (low, high) = it.limits;
            let free = || (reach * self.gain(it, pull) / it.extent).max(low).min(high);
            held.unwrap_or_else(free)
        };
        self.handles.iter().zip(held).map(moved).collect()
    }

    /// What a unit of a move is worth where a grain of the head is worth so much.
    fn gain(&self, handle: &Handle, pull: f64) -> f64 {
        self.sign * handle.does.energy_left + pull * handle.grains()
    }

    /// Grains that the head of the drawing with these moves lacks.
    fn lacks(&self, moves: &[f64], head: Mass) -> f64 {
        self.head(moves).map_or(0.0, |own| (head - own).grains())
    }

    /// A pull with which the head counts as much as the energy.
    fn usual_pull(&self) -> f64 {
        let pull = self.sum(|it| it.does.energy_left.abs()) / self.sum(|it| it.grains().abs());
        if pull.is_finite() && pull > 0.0 {
            pull
        } else {
            1.0
        }
    }

    fn sum(&self, of: impl Fn(&Handle) -> f64) -> f64 {
        self.handles.iter().map(of).sum()
    }

    /// How much more energy reaches the leader with these moves, in the direction wanted, by what each does alone.
    pub(super) fn promise(&self, moves: &[f64]) -> f64 {
        let pairs = self.handles.iter().zip(moves);
        pairs.map(|(it, by)| self.gain(it, 0.0) * by).sum()
    }

    /// What the head of the drawing with these moves weighs.
    pub(super) fn head(&self, moves: &[f64]) -> Option<Mass> {
        self.casts.head(self.moved(moves), None)
    }

    /// The drawing with these moves made; those beyond the last named are none.
    pub(super) fn moved(&self, moves: &[f64]) -> Vec<Point> {
        let mut points = self.points.clone();
        for (handle, &by) in self.handles.iter().zip(moves) {
            match &handle.moves {
                Moves::Size {
                    points: resized, ..
                } => {
                    for &index in resized {
                        points[index].diameter += Length::from_millimetres(by);
                    }
                }
                Moves::Place { index, counterpart } => {
                    points[*index].at += Length::from_metres(by);
                    if let Some(other) = *counterpart {
                        points[other].at += Length::from_metres(-by);
                    }
                }
            }
        }
        points
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::edit::turnover::handles::handles;
    use crate::turnover::{Cast, Surroundings};

    /// A reach so small that no limit counts.
    const SMALL: f64 = 1e-3;

    /// The head is as heavy as asked, and the energy changes as wanted: by what the moves do, in sum.
    #[test]
    fn a_small_reach_keeps_the_head_and_changes_the_energy() {
        let (design, cast, air) = (demo(), Cast::default(), Surroundings::USUAL);
        let casts = DrawnCasts::of(&design, &cast, &air);
        let points = design.taper().points().to_vec();
        let all = handles(&design, &casts, Length::from_metres(10.0));
        assert!(all.len() > 3);
        let before = casts.energy_left(points.clone()).unwrap();
        for sign in [1.0, -1.0] {
            let balance = Balance {
                casts: &casts,
                points: points.clone(),
                handles: all.clone(),
                sign,
            };
            let reach = balance.farthest().unwrap() * SMALL;
            let head = balance.head(&[]).unwrap();
            let moves = balance.moves(reach, head, &vec![None; all.len()]);
            let after = balance.head(&moves).unwrap();
            assert!((after / head - 1.0).abs() < 1e-9);
            let energy = casts.energy_left(balance.moved(&moves)).unwrap();
            let gain: f64 = all
                .iter()
                .zip(&moves)
                .map(|(it, by)| it.does.energy_left * by)
                .sum();
            assert!(gain * sign > 0.0);
            assert!(((energy - before) / gain - 1.0).abs() < 0.1, "{gain}");
        }
    }

    /// What is held is moved as said, and the others make up for it within their limits.
    #[test]
    fn others_make_up_for_what_is_held() {
        let (design, cast, air) = (demo(), Cast::default(), Surroundings::USUAL);
        let casts = DrawnCasts::of(&design, &cast, &air);
        let balance = Balance {
            points: design.taper().points().to_vec(),
            handles: handles(&design, &casts, Length::from_metres(10.0)),
            sign: 1.0,
            casts: &casts,
        };
        let head = balance.head(&[]).unwrap();
        let mut held = vec![None; balance.handles.len()];
        held[0] = Some(0.02);
        let moves = balance.moves(balance.farthest().unwrap(), head, &held);
        assert_eq!(moves[0], 0.02);
        assert!((balance.head(&moves).unwrap() / head - 1.0).abs() < 1e-6);
        let limits = balance.handles.iter().map(|it| it.limits);
        assert!(
            moves
                .iter()
                .zip(limits)
                .all(|(by, (low, high))| (low..=high).contains(by))
        );
    }
}
