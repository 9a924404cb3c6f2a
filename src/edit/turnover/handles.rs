//! What may be moved to reshape a line, each with what it does: sizes and places of control points. The points of a level stretch have
//! their size together, and two ends that are alike stay so.

use super::drawn::DrawnCasts;
use super::influence::{Change, Influence, influences_of};
use crate::base::units::{Length, Mass};
use crate::braid::taper::{Point, Taper};
use crate::design::Design;
use crate::design::refusal::LEAST_SPACING;
use crate::edit::ends_are_alike;

/// How much thinner or thicker a place may become, as a share of its size. Our own choice: more makes another line of it.
pub const MOST_RESIZED: f64 = 0.15;
/// How far a point may be moved along the line, metres. Our own choice, for the same reason.
pub const MOST_SHIFTED: f64 = 0.5;
/// A point may be moved by this share of the way to its neighbour, so that at least half of the way is left between two that are moved
/// towards each other. Our own choice.
pub const MOST_OF_THE_WAY: f64 = 0.25;

/// What is moved.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Moves {
    /// Sizes, by millimetres.
    Size {
        /// The points that have their size together.
        points: Vec<usize>,
        /// Whether they end level stretches, so that they have whole threads.
        is_level: bool,
    },
    /// A place, by metres away from the tip.
    Place {
        /// The point.
        index: usize,
        /// Its counterpart at the other end, which moves by as much towards the tip.
        counterpart: Option<usize>,
    },
}

/// Something to move.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Handle {
    /// What is moved.
    pub(super) moves: Moves,
    /// What that does, for each unit.
    pub(super) does: Change,
    /// How much of the drawing changes with each unit, squared: the square of the change in diameter, summed along the line, mm² m.
    pub(super) extent: f64,
    /// The least and the greatest move.
    pub(super) limits: (f64, f64),
}

/// All there is to move on a design that changes the cast or the head.
pub(super) fn handles(design: &Design, casts: &DrawnCasts<'_>, reach: Length) -> Vec<Handle> {
    let taper = design.taper();
    let influences = influences_of(casts, &taper);
    if influences.is_empty() {
        return Vec::new();
    }
    let drawing = Drawing {
        taper: &taper,
        points: taper.points(),
        influences: &influences,
        reach,
        is_mirrored: ends_are_alike(design),
    };
    let groups = drawing.groups().into_iter();
    let sizes = groups.map(|group| drawing.by_size(group));
    let places = (1..taper.points().len() - 1).filter_map(|index| drawing.by_place(index));
    sizes.chain(places).filter(Handle::matters).collect()
}

impl Handle {
    /// What it does to the head, grains for each unit.
    pub(super) fn grains(&self) -> f64 {
        self.does.head.map_or(0.0, Mass::grains)
    }

    fn matters(&self) -> bool {
        self.extent > 0.0 && (self.does.energy_left != 0.0 || self.grains() != 0.0)
    }
}

struct Drawing<'a> {
    taper: &'a Taper,
    points: &'a [Point],
    influences: &'a [Influence],
    /// How much of the line, from the tip, is looked at.
    reach: Length,
    /// Whether both ends are alike.
    is_mirrored: bool,
}

impl Drawing<'_> {
    /// The points that have their size together.
    fn groups(&self) -> Vec<Vec<usize>> {
        let last = self.points.len() - 1;
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for index in 0..=last {
            let (from, to) = self.taper.level_run(index);
            let mut group: Vec<usize> = (from..=to).collect();
            if self.is_mirrored {
                group.extend(last - to..=last - from);
            }
            group.sort_unstable();
            group.dedup();
            group.retain(|one| !groups.iter().any(|earlier| earlier.contains(one)));
            if !group.is_empty() {
                groups.push(group);
            }
        }
        groups
    }

    fn by_size(&self, group: Vec<usize>) -> Handle {
        let size = self.points[group[0]].diameter.millimetres();
        let (from, to) = self.taper.level_run(group[0]);
        let moved = |index: usize| f64::from(u8::from(group.contains(&index)));
        let square = |index: usize| {
            let (a, b) = (moved(index), moved(index + 1));
            self.length(index) * (a * a + a * b + b * b) / 3.0
        };
        let does = group.iter().map(|&index| self.influences[index].size);
        Handle {
            does: does.reduce(Change::and).unwrap_or_default(),
            extent: (0..self.points.len() - 1).map(square).sum(),
            limits: (-size * MOST_RESIZED, size * MOST_RESIZED),
            moves: Moves::Size {
                is_level: to > from,
                points: group,
            },
        }
    }

    /// `None` for the counterpart of an earlier one, which moves along with that, and for the middle, which stays.
    fn by_place(&self, index: usize) -> Option<Handle> {
        let counterpart = self.is_mirrored.then(|| self.points.len() - 1 - index);
        if counterpart.is_some_and(|other| other <= index) {
            return None;
        }
        let own = self.influences[index].place?;
        let opposite = counterpart.and_then(|other| self.influences[other].place);
        let both = [index].into_iter().chain(counterpart);
        Some(Handle {
            does: opposite.map_or(own, |other| own.and(other.times(-1.0))),
            extent: both.map(|index| self.extent_of_place(index)).sum(),
            limits: (-self.room(index - 1), self.room(index)),
            moves: Moves::Place { index, counterpart },
        })
    }

    /// A point that moves takes both its slopes along: each makes the drawing thinner or thicker by its steepness.
    fn extent_of_place(&self, index: usize) -> f64 {
        let square = |stretch: usize| {
            let slope = self.slope(stretch);
            slope * slope * self.length(stretch) / 3.0
        };
        square(index - 1) + square(index)
    }

    /// How much of the stretch after a point is looked at, metres.
    fn length(&self, index: usize) -> f64 {
        let [a, b] = [index, index + 1].map(|it| self.points[it].at.min(self.reach));
        (b - a).metres()
    }

    /// Millimetres of diameter in each metre of the stretch after a point.
    fn slope(&self, index: usize) -> f64 {
        let (a, b) = (self.points[index], self.points[index + 1]);
        (b.diameter - a.diameter).millimetres() / (b.at - a.at).metres()
    }

    /// How much of the stretch after a point either of its ends may take.
    fn room(&self, index: usize) -> f64 {
        let stretch = (self.points[index + 1].at - self.points[index].at).metres();
        let free = (stretch - LEAST_SPACING) / 2.0;
        MOST_SHIFTED
            .min(stretch * MOST_OF_THE_WAY)
            .min(free)
            .max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::edit::{Edit, MoveOptions};
    use crate::turnover::{Cast, Surroundings};

    fn of(design: &Design) -> Vec<Handle> {
        let (cast, air) = (Cast::default(), Surroundings::USUAL);
        let casts = DrawnCasts::of(design, &cast, &air);
        handles(design, &casts, Length::from_feet(30.5))
    }

    /// Tip and belly of the demo are level and its ends alike: each edit of a point takes the same points along.
    #[test]
    fn points_move_together_as_they_do_in_an_edit() {
        let design = demo();
        let moves: Vec<Moves> = of(&design).into_iter().map(|it| it.moves).collect();
        let resized = |points: &[usize]| Moves::Size {
            points: points.to_vec(),
            is_level: true,
        };
        let placed = |index| Moves::Place {
            index,
            counterpart: Some(5 - index),
        };
        assert_eq!(
            moves,
            [
                resized(&[0, 1, 4, 5]),
                resized(&[2, 3]),
                placed(1),
                placed(2)
            ]
        );
        for (index, taken) in [(1, vec![0, 1, 4, 5]), (2, vec![2, 3])] {
            let mut point = design.draft().points[index];
            point.diameter_mm += 0.01;
            let options = MoveOptions::default();
            let edit = Edit::Place {
                index,
                point,
                options,
            };
            let after = edit.apply(&design).unwrap();
            let pairs = after.draft().points.iter().zip(&design.draft().points);
            let changed = pairs.enumerate().filter(|(_, (a, b))| a != b);
            assert_eq!(changed.map(|(index, _)| index).collect::<Vec<_>>(), taken);
        }
    }

    /// Two neighbours that are moved towards each other as far as they may still have their least distance, and half of the way.
    #[test]
    fn neighbours_keep_their_distance() {
        for gap in [0.01, 0.012, 0.02, 0.5, 9.0] {
            let mut draft = design_draft(gap);
            draft.name = format!("{gap}");
            let design = Design::parse(draft).unwrap();
            let room = |at: usize, upwards: bool| {
                let is_of =
                    |it: &&Handle| matches!(it.moves, Moves::Place { index, .. } if index == at);
                let all = of(&design);
                let limits = all.iter().find(is_of).unwrap().limits;
                if upwards { limits.1 } else { -limits.0 }
            };
            let left = gap - room(1, true) - room(2, false);
            assert!(left > LEAST_SPACING - 1e-9, "{left}");
            assert!(left > gap * (1.0 - 2.0 * MOST_OF_THE_WAY) - 1e-9, "{left}");
        }
    }

    fn design_draft(gap: f64) -> crate::design::Draft {
        let mut draft = demo().draft().clone();
        let places = [(0.0, 0.8), (0.4, 0.85), (0.4 + gap, 1.0), (20.0, 1.1)];
        let point = |(at_m, diameter_mm)| crate::design::DraftPoint { at_m, diameter_mm };
        draft.points = places.map(point).to_vec();
        draft
    }
}
