//! Lines whose taper is known, measured with a micrometer whose error is known. All are invented.

use taperwright::base::units::Length;
use taperwright::measured::{Asked, FoundTaper, Reading, Trust, find};

use crate::chance::Chance;

/// What the maker says of the micrometer: an error of 5 µm. What lines scatter comes on top.
pub(crate) const STATED_MICROMETRES: f64 = 5.0;
/// The share of wrong readings.
pub(crate) const WRONG: f64 = 0.03;

/// A line that was measured.
pub(crate) struct MeasuredLine {
    /// Metres and millimetres.
    pub(crate) points: Vec<(f64, f64)>,
    pub(crate) readings: Vec<Reading>,
    pub(crate) is_wrong: Vec<bool>,
}

/// How a line is measured.
#[derive(Clone, Copy)]
pub(crate) struct Measuring {
    /// One standard deviation of a good reading, in micrometres.
    pub(crate) noise: f64,
    /// Mean distance of readings, in metres; they are a half to one and a half of it apart.
    pub(crate) spacing: f64,
    /// Share of readings off by 0.05 to 0.5 mm.
    pub(crate) wrong: f64,
}

impl MeasuredLine {
    pub(crate) fn of(seed: u64, measuring: Measuring) -> Self {
        let mut chance = Chance::of(seed);
        let points = drawing(&mut chance);
        let length = points[points.len() - 1].0;
        let mut places = vec![0.0];
        loop {
            let next = places[places.len() - 1] + measuring.spacing * chance.between(0.5, 1.5);
            if next > length - 0.5 * measuring.spacing {
                break;
            }
            places.push(next);
        }
        places.push(length);
        let mut readings = Vec::new();
        let mut is_wrong = Vec::new();
        for place in places {
            let error = measuring.noise * 1e-3 * chance.normal();
            let wrong = chance.uniform() < measuring.wrong;
            let side = if chance.uniform() < 0.5 { -1.0 } else { 1.0 };
            let off = side * chance.between(0.05, 0.5);
            let diameter = diameter_at(&points, place) + if wrong { off } else { error };
            readings.push(reading(place, diameter.max(0.05)));
            is_wrong.push(wrong);
        }
        Self {
            points,
            readings,
            is_wrong,
        }
    }

    pub(crate) fn found(&self) -> FoundTaper {
        find(&self.readings, &asked(STATED_MICROMETRES)).expect("many places were measured")
    }
}

impl Chance {
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }
}

pub(crate) fn reading(at_metres: f64, millimetres: f64) -> Reading {
    Reading {
        at: Length::from_metres(at_metres),
        diameter: Length::from_millimetres(millimetres),
        trust: Trust::Judged,
    }
}

pub(crate) fn asked(micrometres: f64) -> Asked {
    Asked {
        error: Length::from_micrometres(micrometres),
        length: None,
        closeness: 0,
    }
}

/// A diameter of a drawing, in its own units.
pub(crate) fn diameter_at(points: &[(f64, f64)], place: f64) -> f64 {
    let after = points.partition_point(|point| point.0 <= place);
    let after = after.clamp(1, points.len() - 1);
    let ((a, from), (b, to)) = (points[after - 1], points[after]);
    from + (to - from) * (place - a) / (b - a)
}

/// A double taper of 6 or 8 points or a weight-forward taper of 5 to 8: slopes of 0.18 to 0.35 mm in a metre; where two follow each
/// other, of 0.10 to 0.14 and 0.35 to 0.45. Flatter ones are possible to draw, but no search could place their ends within 0.1 m.
fn drawing(chance: &mut Chance) -> Vec<(f64, f64)> {
    let tip = chance.between(0.6, 0.8);
    let belly = tip + chance.between(0.35, 0.5);
    let length = chance.between(22.0, 27.0);
    let is_double = chance.uniform() < 0.5;
    let has_tip = is_double || chance.uniform() < 0.7;
    let two_slopes = chance.uniform() < 0.4;
    let mut points = vec![(0.0, tip)];
    let mut at = 0.0;
    if has_tip {
        at += chance.between(0.5, 1.2);
        points.push((at, tip));
    }
    let climb = |points: &mut Vec<(f64, f64)>,
                 at: &mut f64,
                 (from, to): (f64, f64),
                 chance: &mut Chance| {
        let rise: f64 = to - from;
        let flat = chance.between(0.10, 0.14);
        let steep = chance.between(0.35, 0.45);
        if two_slopes {
            let middle = from + rise * chance.between(0.4, 0.6);
            *at += (middle - from).abs() / flat;
            points.push((*at, middle));
            *at += (to - middle).abs() / steep;
        } else {
            *at += rise.abs() / chance.between(0.18, 0.35);
        }
        points.push((*at, to));
    };
    climb(&mut points, &mut at, (tip, belly), chance);
    if is_double {
        let front: Vec<(f64, f64)> = points.clone();
        points.extend(
            front
                .iter()
                .rev()
                .map(|&(place, size)| (length - place, size)),
        );
    } else {
        at += chance.between(5.0, 8.0);
        points.push((at, belly));
        let running = chance.between(0.6, 0.75);
        if two_slopes && has_tip {
            at += (belly - running) / chance.between(0.18, 0.35);
            points.push((at, running));
        } else {
            climb(&mut points, &mut at, (belly, running), chance);
        }
        points.push((length, running));
    }
    points
}

/// Metres and micrometres within which a point counts as found.
pub(crate) const NEAR: (f64, f64) = (0.1, 10.0);

pub(crate) fn is_found(line: &MeasuredLine, found: &FoundTaper) -> bool {
    found.points.len() == line.points.len()
        && line
            .points
            .iter()
            .zip(&found.points)
            .all(|(&(at, size), point)| {
                (point.at.metres() - at).abs() <= NEAR.0
                    && (point.diameter.millimetres() - size).abs() * 1e3 <= NEAR.1
            })
}
