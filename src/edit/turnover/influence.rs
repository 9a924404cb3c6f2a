//! What each control point does to how the line turns over.

use super::drawn::{DrawnCasts, whole_head};
use crate::base::units::{Length, Mass};
use crate::braid::taper::{Point, Taper};
use crate::braid::weight::Head;
use crate::design::Design;
use crate::turnover::{Cast, Surroundings};

/// Most control points a drawing may have for this: each takes up to four casts. Our own choice: more than anybody draws by hand.
pub const MOST_POINTS: usize = 40;

/// A size is changed by this share of it. Our own choice: so little that a change twice as large changes twice as much, and far more
/// than rounding.
const SIZE_STEP: f64 = 0.005;
/// A place is changed by at most so many metres, for the same reason,
const PLACE_STEP: f64 = 0.05;
/// and by at most this share of the way to the next point.
const PLACE_SHARE: f64 = 0.25;

/// What a control point does when it is moved alone: its neighbours stay, also those of a level stretch. What several points do that
/// move together is the sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Influence {
    /// By its size, for each millimetre of diameter.
    pub size: Change,
    /// By its place, for each metre away from the tip. The last point takes the end of the line along. `None` for the first, which
    /// stays at the tip.
    pub place: Option<Change>,
}

/// What changes with each unit by which a point is moved.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Change {
    /// Share of the energy that reaches the leader ([`crate::turnover::Turnover::energy_left`]). Exactly 0 where nothing that is cast
    /// changes. Where the line ends just at the end of what is cast, the mean of moving its end either way.
    pub energy_left: f64,
    /// Mass of the first 30 ft; `None` where the line is too short for a class. As a size changes, the stretch that is weighed is held
    /// where it is: a level tip that bends is not left out any more, and that is a step.
    pub head: Option<Mass>,
}

impl Change {
    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            energy_left: self.energy_left + other.energy_left,
            head: self.head.zip(other.head).map(|(one, other)| one + other),
        }
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self {
            energy_left: self.energy_left * factor,
            head: self.head.map(|head| head * factor),
        }
    }
}

/// What each control point of a design does in a cast, from the tip: to the line exactly as drawn, since the threads of the braided one
/// come in steps. Empty where there are more than [`MOST_POINTS`].
pub fn influences(design: &Design, cast: &Cast, air: &Surroundings) -> Vec<Influence> {
    let casts = DrawnCasts::of(design, cast, air);
    influences_of(&casts, &design.taper())
}

/// The same of a drawing between the steps of a design.
pub(super) fn influences_of(casts: &DrawnCasts<'_>, taper: &Taper) -> Vec<Influence> {
    let points = taper.points();
    if points.len() > MOST_POINTS {
        return Vec::new();
    }
    let drawing = Drawing {
        casts,
        points,
        head: whole_head(taper),
    };
    let influence = |index| Influence {
        size: drawing.by_size(index),
        place: (index > 0).then(|| drawing.by_place(index)),
    };
    (0..points.len()).map(influence).collect()
}

struct Drawing<'a> {
    casts: &'a DrawnCasts<'a>,
    points: &'a [Point],
    /// The stretch that is weighed, where there is one.
    head: Option<Head>,
}

impl Drawing<'_> {
    fn by_size(&self, index: usize) -> Change {
        let step = self.points[index].diameter.millimetres() * SIZE_STEP;
        let resized = |by: f64| {
            let mut points = self.points.to_vec();
            points[index].diameter += Length::from_millimetres(by);
            points
        };
        let head = self.head;
        self.change(step, resized, head, self.is_cast(index))
    }

    fn by_place(&self, index: usize) -> Change {
        let shifted = |by: f64| {
            let mut points = self.points.to_vec();
            points[index].at += Length::from_metres(by);
            points
        };
        let changes = self.is_cast(index) && !self.is_level_around(index);
        self.change(self.place_step(index), shifted, None, changes)
    }

    /// Central differences. The mass is that within a head, or each time within that of the drawing.
    fn change(
        &self,
        step: f64,
        moved: impl Fn(f64) -> Vec<Point>,
        head: Option<Head>,
        changes_cast: bool,
    ) -> Change {
        let energy = |by: f64| self.casts.energy_left(moved(by));
        let mass = |by: f64| self.casts.head(moved(by), head);
        let energies = changes_cast.then(|| energy(step).zip(energy(-step)));
        let masses = self.head.and_then(|_| mass(step).zip(mass(-step)));
        Change {
            energy_left: energies
                .flatten()
                .map_or(0.0, |(more, less)| (more - less) / (2.0 * step)),
            head: masses.map(|(more, less)| (more - less) / (2.0 * step)),
        }
    }

    fn place_step(&self, index: usize) -> f64 {
        let gap = |after: usize| {
            let pair = after.checked_sub(1).map(|it| self.points[it].at);
            let ends = pair.zip(self.points.get(after).map(|point| point.at));
            ends.map_or(f64::INFINITY, |(a, b)| (b - a).metres())
        };
        let room = gap(index).min(gap(index + 1));
        PLACE_STEP.min(room * PLACE_SHARE)
    }

    /// Whether a point shapes anything that is cast: the line before it, from its neighbour on, is of its making.
    fn is_cast(&self, index: usize) -> bool {
        let before = index.checked_sub(1);
        before.is_none_or(|before| self.casts.holds(self.points[before].at))
    }

    /// Whether a point stands between two others of its own size, so that it shapes nothing by its place.
    fn is_level_around(&self, index: usize) -> bool {
        let size = |index: usize| self.points.get(index).map(|point| point.diameter);
        let own = size(index);
        index > 0 && size(index - 1) == own && size(index + 1) == own
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::design::settings::Setting;
    use crate::design::{Draft, DraftPoint};
    use crate::edit::{Along, Edit, LevelStretch, LineEnds, MoveOptions};
    use crate::plan::{AsDrawn, drawn_head};
    use crate::turnover::turn_over;

    fn of(design: &Design) -> Vec<Influence> {
        influences(design, &Cast::default(), &Surroundings::USUAL)
    }

    fn energy_left(design: &Design) -> f64 {
        let line = AsDrawn::of(design).fly_line(&design.taper()).unwrap();
        turn_over(&line, &Cast::default(), &Surroundings::USUAL).energy_left()
    }

    /// The point by itself, as a maker would move it.
    fn moved(design: &Design, index: usize, size: f64, place: f64) -> Design {
        let now = design.draft().points[index];
        let point = DraftPoint {
            at_m: now.at_m + place,
            diameter_mm: now.diameter_mm + size,
        };
        let options = MoveOptions {
            level: LevelStretch::Bends,
            ends: LineEnds::Apart,
            along: Along::Alone,
        };
        let edit = Edit::Place {
            index,
            point,
            options,
        };
        edit.apply(design).unwrap()
    }

    #[track_caller]
    fn agree(found: f64, expected: f64, least: f64) {
        let off = (found - expected).abs();
        assert!(off < 0.02 * expected.abs() + least, "{found} {expected}");
    }

    fn with_points(points: &[(f64, f64)]) -> Design {
        let point = |&(at_m, diameter_mm): &(f64, f64)| DraftPoint { at_m, diameter_mm };
        let points = points.iter().map(point).collect();
        let draft = demo().draft().clone();
        Design::parse(Draft { points, ..draft }).unwrap()
    }

    /// Brute force: each point moved by real edits, both ways, by more than the derivatives are taken with.
    #[test]
    fn the_energy_changes_as_real_edits_change_it() {
        for design in [
            demo(),
            with_points(&[(0.0, 0.8), (4.0, 0.95), (8.0, 1.2), (12.0, 1.0)]),
        ] {
            for (index, influence) in of(&design).into_iter().enumerate() {
                let half = |size: f64, place: f64| energy_left(&moved(&design, index, size, place));
                let by_size = (half(0.02, 0.0) - half(-0.02, 0.0)) / 0.04;
                agree(influence.size.energy_left, by_size, 1e-5);
                if let Some(change) = influence.place {
                    let by_place = (half(0.0, 0.1) - half(0.0, -0.1)) / 0.2;
                    agree(change.energy_left, by_place, 1e-5);
                }
            }
        }
    }

    /// The same of the head. No level tip here: where one bends, it is weighed from its beginning, and that is a step.
    #[test]
    fn the_head_changes_as_real_edits_change_it() {
        let design = with_points(&[(0.0, 0.8), (4.0, 0.95), (8.0, 1.2), (12.0, 1.0)]);
        for (index, influence) in of(&design).into_iter().enumerate() {
            let head = |size, place| {
                drawn_head(&moved(&design, index, size, place))
                    .unwrap()
                    .grains()
            };
            let by_size = (head(0.02, 0.0) - head(-0.02, 0.0)) / 0.04;
            agree(influence.size.head.unwrap().grains(), by_size, 1e-3);
            if let Some(change) = influence.place {
                let by_place = (head(0.0, 0.1) - head(0.0, -0.1)) / 0.2;
                agree(change.head.unwrap().grains(), by_place, 1e-3);
            }
        }
    }

    /// Without a film a line weighs as the square of its size, everywhere. So by Euler's theorem each size times what it does to the
    /// head is, in all, twice the head.
    #[test]
    fn the_head_is_of_the_second_degree_in_all_sizes() {
        let mut draft = demo().draft().clone();
        draft.settings.set(Setting::Film, 0.0);
        let design = Design::parse(draft).unwrap();
        let does = of(&design).into_iter().map(|it| it.size.head.unwrap());
        let points = design.draft().points.iter();
        let sum: Mass = does
            .zip(points)
            .map(|(does, point)| does * point.diameter_mm)
            .sum();
        let head = drawn_head(&design).unwrap();
        assert!((sum / head - 2.0).abs() < 1e-9, "{}", sum / head);
    }

    /// A drawing is the sum of a hat for each point. A further point on the curve takes from each of its neighbours so much of their
    /// hats as is near to them, and nothing from others.
    #[test]
    fn a_point_on_the_curve_shares_with_its_neighbours() {
        let design = demo();
        let add = Edit::Add {
            at_m: 1.1684,
            ends: LineEnds::Apart,
        };
        let before = of(&design);
        let after = of(&add.apply(&design).unwrap());
        let share = (1.1684 - 0.1524) / (3.2004 - 0.1524);
        let size = |of: &[Influence], index: usize| of[index].size.energy_left;
        let new = size(&after, 2);
        agree(size(&after, 0), size(&before, 0), 1e-5);
        agree(
            size(&after, 1) + new * (1.0 - share),
            size(&before, 1),
            1e-4,
        );
        agree(size(&after, 3) + new * share, size(&before, 2), 1e-4);
    }

    #[test]
    fn a_point_beyond_what_is_cast_and_weighed_does_nothing() {
        let influences = of(&demo());
        for influence in &influences[4..] {
            for change in [influence.size, influence.place.unwrap()] {
                assert_eq!(change.energy_left, 0.0);
                assert_eq!(change.head, Some(Mass::ZERO));
            }
        }
        assert!(influences[3].size.energy_left > 0.0);
        assert_eq!(influences[0].place, None);
    }

    /// Where less line is cast, fewer points count; the class does not depend on it.
    #[test]
    fn a_short_cast_leaves_the_belly_out() {
        let cast = Cast::default()
            .with(crate::turnover::CastNumber::Outside, 4.0)
            .unwrap();
        let design = with_points(&[(0.0, 0.8), (4.0, 0.95), (8.0, 1.2), (12.0, 1.0)]);
        let influences = influences(&design, &cast, &Surroundings::USUAL);
        assert!(influences[1].size.energy_left != 0.0);
        assert_eq!(influences[2].size.energy_left, 0.0);
        assert!(influences[2].size.head > Some(Mass::ZERO));
    }

    /// In a vacuum all energy reaches the leader, whatever the line.
    #[test]
    fn without_air_no_point_does_anything_to_the_energy() {
        let cast = Cast::default();
        for influence in influences(&demo(), &cast, &Surroundings::NONE) {
            assert!(influence.size.energy_left.abs() < 1e-9);
            assert!(
                influence
                    .place
                    .is_none_or(|place| place.energy_left.abs() < 1e-9)
            );
        }
    }

    /// The end of a line that is cast whole makes it longer.
    #[test]
    fn the_end_counts_where_it_is_cast() {
        let short = with_points(&[(0.0, 0.8), (3.0, 1.0), (7.0, 1.0)]);
        let end = of(&short)[2];
        assert!(end.place.unwrap().energy_left.abs() > 1e-4);
        assert_eq!(end.size.head, None);
        let longer = |by: f64| energy_left(&moved(&short, 2, 0.0, by));
        let by_place = (longer(0.1) - longer(-0.1)) / 0.2;
        agree(end.place.unwrap().energy_left, by_place, 1e-5);
    }

    #[test]
    fn too_many_points_have_none() {
        let points: Vec<(f64, f64)> = (0..=MOST_POINTS).map(|it| (it as f64 * 0.5, 1.0)).collect();
        assert_eq!(of(&with_points(&points)), Vec::new());
        assert_eq!(
            of(&with_points(
                &points[1..]
                    .iter()
                    .map(|&(at, size)| (at - 0.5, size))
                    .collect::<Vec<_>>()
            ))
            .len(),
            MOST_POINTS
        );
    }
}
