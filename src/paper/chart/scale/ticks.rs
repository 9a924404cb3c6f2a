//! Figures on the axes, at round numbers.

use plotters::coord::ranged1d::{BoldPoints, Ranged};
use plotters::coord::types::RangedCoordf64;

use super::map::{LEFT, Scale};
use crate::base::units::Length;
use crate::base::units::show::trimmed;

/// Height of one line of figures, in pixels.
const LINE_HEIGHT: f64 = 17.0;
/// Room one figure takes along the axis of length, in pixels; on a narrow chart.
const FIGURE: f64 = 62.0;
const FIGURE_IF_NARROW: f64 = 30.0;
/// Room one figure takes along the axis of diameters, in pixels.
const DIAMETER: f64 = 25.0;
/// Pixels one character of a figure takes at most.
const CHARACTER: f64 = 8.4;
/// Pixels between two figures at least.
const APART: f64 = 6.0;

/// A figure on an axis: where, in pixels, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Pixels along the axis.
    pub at: f64,
    /// The figure.
    pub label: String,
}

impl Scale {
    /// Figures along the axis of length, on either side of every break; the last one with the unit. None runs into its neighbour.
    pub fn length_ticks(&self) -> Vec<Tick> {
        let mut values: Vec<f64> = Vec::new();
        let step = self.length_step();
        for (from, to) in self.drawn_pieces() {
            let (from, to) = (self.convert_length(from), self.convert_length(to));
            // A hair more, so that a figure at an end is there however its numbers round.
            let mut count = (from / step - 1e-9).ceil();
            while count * step <= to + step * 1e-9 {
                // A count of −0 would be written with its sign.
                values.push(count * step + 0.0);
                count += 1.0;
            }
        }
        let unit = self.units.position().symbol();
        let mut ticks: Vec<Tick> = Vec::new();
        let mut free = f64::NEG_INFINITY;
        let last = values.len().saturating_sub(1);
        for (index, &value) in values.iter().enumerate() {
            let figure = trimmed(value, 3);
            let label = if index == last {
                format!("{figure} {unit}")
            } else {
                figure
            };
            let at = self.x_of(self.length_of(value));
            let half = label.chars().count() as f64 * CHARACTER / 2.0;
            if index == last {
                // The unit is needed more than the figure before.
                while ticks
                    .last()
                    .is_some_and(|tick| half_end(tick) + APART > at - half)
                {
                    ticks.pop();
                }
            } else if at - half < free {
                continue;
            }
            free = at + half + APART;
            ticks.push(Tick { at, label });
        }
        ticks
    }

    /// The step between figures of length, in the unit of the axis: the one plotters takes for the paper shown.
    fn length_step(&self) -> f64 {
        let room = if self.is_narrow() {
            FIGURE_IF_NARROW
        } else {
            FIGURE
        };
        let shown = self.convert_length(self.length);
        let points = key_points(0.0, shown, count_of(self.band_width() / room));
        match points[..] {
            [first, second, ..] => second - first,
            _ => shown,
        }
    }

    /// The drawn pieces of the line in sight, on either side of every break.
    fn drawn_pieces(&self) -> Vec<(Length, Length)> {
        let (left, right) = (self.at_of(LEFT), self.at_of(self.right()));
        let mut begin = left;
        let mut pieces = Vec::new();
        for fold in self.folds.iter() {
            if fold.to > left && fold.from < right {
                pieces.push((begin, fold.from));
                begin = fold.to;
            }
        }
        pieces.push((begin, right));
        pieces.retain(|(from, to)| from <= to);
        pieces
    }

    /// A length from the unit of the axis.
    fn length_of(&self, value: f64) -> Length {
        Length::from_metres(value / self.convert_length(Length::from_metres(1.0)))
    }

    /// Figures of the profile, upper half: diameters.
    pub fn diameter_ticks(&self) -> Vec<Tick> {
        let (low, high) = (
            self.convert_diameter(self.core),
            self.convert_diameter(self.diameter),
        );
        let band = self.profile();
        let count = count_of((band.height / 2.0 - self.half_cut()) / DIAMETER);
        let one = self.convert_diameter(Length::from_metres(1.0));
        key_points(low, high, count)
            .into_iter()
            .filter(|&value| value > low + (high - low) * 0.04)
            .map(|value| Tick {
                at: band.middle() - self.half_thickness(Length::from_metres(value / one)),
                label: trimmed(value, 2),
            })
            .collect()
    }

    /// Figures of the staircase on a card: none, half and all carriers.
    pub fn thread_ticks(&self) -> Vec<Tick> {
        [0.0, self.threads / 2.0, self.threads]
            .into_iter()
            .map(|threads| Tick {
                at: self.y_of_threads(threads),
                label: trimmed(threads, 0),
            })
            .collect()
    }

    /// Figures of the angle strip: the target, and both ends of the tolerance where there is room.
    pub fn angle_ticks(&self) -> Vec<Tick> {
        let all = [
            self.target,
            self.target + self.tolerance,
            self.target - self.tolerance,
        ];
        let apart = self.y_of_angle(self.target) - self.y_of_angle(self.target + self.tolerance);
        let shown = if apart < LINE_HEIGHT {
            &all[..1]
        } else {
            &all[..]
        };
        shown
            .iter()
            .map(|&angle| Tick {
                at: self.y_of_angle(angle),
                label: format!("{}°", trimmed(angle.degrees(), 1)),
            })
            .collect()
    }
}

/// Where a figure ends.
fn half_end(tick: &Tick) -> f64 {
    tick.at + tick.label.chars().count() as f64 * CHARACTER / 2.0
}

/// Bounded to what a screen holds.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn count_of(share: f64) -> usize {
    share.clamp(2.0, 40.0) as usize
}

/// Round numbers in a range, at most `most`: those at which plotters draws its grids.
fn key_points(low: f64, high: f64, most: usize) -> Vec<f64> {
    RangedCoordf64::from(low..high).key_points(BoldPoints(most))
}
