//! Lines as planned and as weighed: a point for each, on the diagonal where the scale agrees with the plan.

use super::round_step::round_step;
use crate::base::units::Mass;

/// Size of the picture, in pixels.
pub const SIZE: (f64, f64) = (340.0, 240.0);
/// Room for what is written at the left, below, at the right and above.
const LEFT: f64 = 52.0;
const BELOW: f64 = 34.0;
const RIGHT: f64 = 14.0;
const ABOVE: f64 = 14.0;
/// Room around the points, as a share of what they take.
const AROUND: f64 = 0.12;
/// The axes show at least this share of the largest weight, so that lines that differ by chance alone do not look far apart.
const LEAST_RANGE: f64 = 0.12;
/// Most steps on an axis.
const MOST_STEPS: f64 = 5.0;

/// A line in the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeighedPoint {
    /// What it was to weigh.
    pub planned: Mass,
    /// What it weighs.
    pub weighed: Mass,
    /// The margin of the plan on either side; 0 where it has none.
    pub margin: Mass,
}

/// A point in the picture, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
    /// Where its margin ends: above and below.
    pub margin: (f64, f64),
}

/// A step of the axes: the same weight on both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Where it stands on the level axis.
    pub x: f64,
    /// Where it stands on the upright one.
    pub y: f64,
    /// The weight, in grains.
    pub grains: f64,
}

/// The picture: both axes in grains, with the same range.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedWeighed {
    /// The lines, in their order.
    pub dots: Vec<Dot>,
    /// Where planned and weighed are the same: from the lower left to the upper right.
    pub diagonal: [(f64, f64); 2],
    /// Steps of the axes.
    pub steps: Vec<Step>,
}

/// The picture of some lines; `None` without any.
pub fn planned_weighed(lines: &[WeighedPoint]) -> Option<PlannedWeighed> {
    let of = |line: &WeighedPoint| {
        let (planned, margin) = (line.planned.grains(), line.margin.grains());
        [planned - margin, planned + margin, line.weighed.grains()]
    };
    let all: Vec<f64> = lines.iter().flat_map(of).collect();
    let low = all.iter().copied().reduce(f64::min)?;
    let high = all.iter().copied().reduce(f64::max)?;
    let range = (high - low).max(LEAST_RANGE * high) * (1.0 + 2.0 * AROUND);
    let from = (f64::midpoint(low, high) - 0.5 * range).max(0.0);
    let to = from + range;
    let x = |grains: f64| LEFT + (grains - from) / range * (SIZE.0 - LEFT - RIGHT);
    let y = |grains: f64| SIZE.1 - BELOW - (grains - from) / range * (SIZE.1 - BELOW - ABOVE);
    let dot = |line: &WeighedPoint| {
        let [low, high, weighed] = of(line);
        Dot {
            x: x(line.planned.grains()),
            y: y(weighed),
            margin: (y(high), y(low)),
        }
    };
    let step = round_step(range, MOST_STEPS);
    let first = (from / step).ceil();
    let steps = (0..=8).map(|count| (first + f64::from(count)) * step);
    Some(PlannedWeighed {
        dots: lines.iter().map(dot).collect(),
        diagonal: [(x(from), y(from)), (x(to), y(to))],
        steps: steps
            .take_while(|grains| *grains <= to)
            .map(|grains| Step {
                x: x(grains),
                y: y(grains),
                grains,
            })
            .collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(planned: f64, weighed: f64) -> WeighedPoint {
        WeighedPoint {
            planned: Mass::from_grains(planned),
            weighed: Mass::from_grains(weighed),
            margin: Mass::from_grains(4.0),
        }
    }

    /// How far a dot stands above the diagonal, in pixels.
    fn above(picture: &PlannedWeighed, dot: Dot) -> f64 {
        let [(x0, y0), (x1, y1)] = picture.diagonal;
        y0 + (dot.x - x0) / (x1 - x0) * (y1 - y0) - dot.y
    }

    #[test]
    fn a_line_that_weighs_what_was_planned_lies_on_the_diagonal() {
        let lines = [line(140.0, 140.0), line(162.0, 158.0), line(162.0, 166.0)];
        let picture = planned_weighed(&lines).expect("there are lines");
        let off = |index: usize| above(&picture, picture.dots[index]);
        assert!(off(0).abs() < 1e-9);
        assert!(off(1) < 0.0 && off(2) > 0.0);
        assert!((off(1) + off(2)).abs() < 1e-9, "4 gr either way are as far");
    }

    #[test]
    fn all_of_it_lies_in_the_picture_and_steps_are_round() {
        for lines in [
            vec![line(140.0, 140.0)],
            vec![line(60.0, 63.0), line(400.0, 380.0)],
        ] {
            let picture = planned_weighed(&lines).expect("there are lines");
            for dot in &picture.dots {
                assert!((0.0..=SIZE.0).contains(&dot.x), "{dot:?}");
                let ends = [dot.y, dot.margin.0, dot.margin.1];
                assert!(ends.iter().all(|y| (0.0..=SIZE.1).contains(y)), "{dot:?}");
            }
            assert!(
                (2..=6).contains(&picture.steps.len()),
                "{:?}",
                picture.steps
            );
            for step in &picture.steps {
                assert!((step.grains - step.grains.round()).abs() < 1e-9);
            }
        }
        assert_eq!(planned_weighed(&[]), None);
    }
}
