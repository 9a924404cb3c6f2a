//! The drawn taper: control points, and the target diameter between them.

use crate::base::units::Length;

/// A control point of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Distance from the tip.
    pub at: Length,
    /// Finished (dressed) diameter wanted there.
    pub diameter: Length,
}

/// Control points in order from the tip at 0; the diameter is linear in between.
#[derive(Clone, Debug, PartialEq)]
pub struct Taper {
    points: Vec<Point>,
}

/// Two diameters this close count as level: a tenth of what a maker reads on a micrometer.
pub(crate) const LEVEL_WITHIN: Length = Length::from_micrometres(1.0);
/// A level end at most this long is a rear tip, a longer one a running line. Our own convention.
const LONGEST_REAR_TIP: Length = Length::from_metres(1.0);

/// A part of the line, named from the tip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Level stretch at the very tip.
    LevelTip,
    /// From the tip to the belly.
    FrontTaper,
    /// From the first to the last place of the full diameter.
    Belly,
    /// From the belly to the level end.
    RearTaper,
    /// Short level stretch at the rear.
    RearTip,
    /// Long level stretch at the rear.
    RunningLine,
}

impl Part {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::LevelTip => "tip",
            Self::FrontTaper => "front taper",
            Self::Belly => "belly",
            Self::RearTaper => "rear taper",
            Self::RearTip => "rear tip",
            Self::RunningLine => "running line",
        }
    }
}

/// A part with its place on the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Which part.
    pub part: Part,
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

impl Taper {
    /// A taper of points already in order. `None` for fewer than two, or where the order is broken.
    pub fn new(points: Vec<Point>) -> Option<Self> {
        let ordered = points.windows(2).all(|pair| pair[0].at < pair[1].at);
        (points.len() >= 2 && ordered).then_some(Self { points })
    }

    /// The control points, tip first.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Whole length.
    pub fn length(&self) -> Length {
        self.last().at
    }

    /// Target diameter at a distance from the tip; held at the ends beyond them.
    pub fn diameter_at(&self, at: Length) -> Length {
        let after = self.points.partition_point(|point| point.at <= at);
        match (
            after.checked_sub(1).map(|before| self.points[before]),
            self.points.get(after),
        ) {
            (Some(a), Some(b)) => {
                a.diameter + (b.diameter - a.diameter) * ((at - a.at) / (b.at - a.at))
            }
            (Some(end), None) => end.diameter,
            (None, _) => self.points[0].diameter,
        }
    }

    /// The place at which the drawing passes a diameter within the one slope, up or down, that `near` lies in; held at the ends
    /// of the slope where it does not reach the diameter. `near` itself where it lies in none.
    ///
    /// A slope ends where the drawing is level: a change moved beyond would give the level stretch a count of threads that only
    /// the slope asks for. Never farther: another swelling may pass the same diameter, but what is asked for belongs to this one.
    pub fn place_within_run(&self, diameter: Length, rising: bool, near: Length) -> Length {
        let points = &self.points;
        let signed = |index: usize| {
            let step = points[index + 1].diameter - points[index].diameter;
            if rising { step } else { Length::ZERO - step }
        };
        let here = points.partition_point(|point| point.at <= near);
        let pieces = points.len() - 1;
        let begins = [here.saturating_sub(1), here.saturating_sub(2)];
        let Some(piece) = begins
            .into_iter()
            .find(|&piece| piece < pieces && signed(piece) > Length::ZERO)
        else {
            return near;
        };
        let first = (0..piece)
            .rev()
            .take_while(|&index| signed(index) > Length::ZERO)
            .last()
            .unwrap_or(piece);
        let last = (piece..pieces)
            .take_while(|&index| signed(index) > Length::ZERO)
            .last()
            .unwrap_or(piece);
        let passes = |index: usize| {
            let (a, b) = (points[index], points[index + 1]);
            let share = (diameter - a.diameter) / (b.diameter - a.diameter);
            (0.0..=1.0)
                .contains(&share)
                .then(|| a.at + (b.at - a.at) * share)
        };
        let begins_beyond = if rising {
            diameter < points[first].diameter
        } else {
            diameter > points[first].diameter
        };
        let held = if begins_beyond {
            points[first].at
        } else {
            points[last + 1].at
        };
        (first..=last).find_map(passes).unwrap_or(held)
    }

    /// First and last index of the run of level stretches that point `index` belongs to.
    pub fn level_run(&self, index: usize) -> (usize, usize) {
        let level = |i: usize| is_level(self.points[i], self.points[i + 1]);
        let first = (0..index)
            .rev()
            .take_while(|&i| level(i))
            .last()
            .unwrap_or(index);
        let last = (index..self.points.len() - 1)
            .take_while(|&i| level(i))
            .last()
            .map_or(index, |i| i + 1);
        (first, last)
    }

    /// The largest diameter drawn.
    pub fn thickest(&self) -> Length {
        self.sizes().fold(Length::ZERO, Length::max)
    }

    /// The smallest diameter drawn.
    pub fn thinnest(&self) -> Length {
        self.sizes().fold(self.last().diameter, Length::min)
    }

    fn sizes(&self) -> impl Iterator<Item = Length> {
        self.points.iter().map(|point| point.diameter)
    }

    /// First and last index of the points of the largest diameter.
    pub fn belly(&self) -> (usize, usize) {
        let largest = self.thickest();
        let is_full = |point: &Point| largest - point.diameter <= LEVEL_WITHIN;
        let first = self.points.iter().position(is_full).unwrap_or(0);
        (
            first,
            self.points.iter().rposition(is_full).unwrap_or(first),
        )
    }

    /// The parts of the line in order from the tip. Together they are the whole line, without gap or overlap.
    ///
    /// The belly reaches from the first to the last point of the largest diameter; a level run at either end is
    /// the tip or the rear; what lies between is taper. A line that is level throughout is all belly.
    pub fn sections(&self) -> Vec<Section> {
        let (belly_from, belly_to) = self.belly();
        let tip_to = self.level_run(0).1.min(belly_from);
        let rear_from = self.level_run(self.points.len() - 1).0.max(belly_to);
        let rear_is_short = self.length() - self.points[rear_from].at <= LONGEST_REAR_TIP;
        let rear = if rear_is_short {
            Part::RearTip
        } else {
            Part::RunningLine
        };
        let parts = [
            Part::LevelTip,
            Part::FrontTaper,
            Part::Belly,
            Part::RearTaper,
            rear,
        ];
        let ends = [
            0,
            tip_to,
            belly_from,
            belly_to,
            rear_from,
            self.points.len() - 1,
        ];
        parts
            .into_iter()
            .zip(ends.windows(2))
            .filter(|(_, end)| end[0] < end[1])
            .map(|(part, end)| Section {
                part,
                from: self.points[end[0]].at,
                to: self.points[end[1]].at,
            })
            .collect()
    }

    fn last(&self) -> Point {
        self.points[self.points.len() - 1]
    }
}

fn is_level(a: Point, b: Point) -> bool {
    (a.diameter - b.diameter).abs() <= LEVEL_WITHIN
}
