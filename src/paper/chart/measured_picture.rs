//! The readings of a measured line, the taper found in them, and by how much each reading is off it.

use super::path::Path;
use super::paths::places;
use super::round_step::round_step;
use crate::base::units::Length;
use crate::base::units::show::{Units, trimmed};
use crate::measured::{FoundTaper, Reading};
use crate::plan::Plan;

/// Height of the picture, in pixels.
pub const HEIGHT: f64 = 380.0;
/// Room for what is written at the left, below, at the right and above.
const LEFT: f64 = 62.0;
const BELOW: f64 = 44.0;
const RIGHT: f64 = 22.0;
const ABOVE: f64 = 26.0;
/// Height of the strip of residuals, and room between it and the sizes.
const STRIP: f64 = 80.0;
const BETWEEN: f64 = 30.0;
/// Room above and below the sizes, as a share of their range.
const AROUND: f64 = 0.12;
/// The sizes shown reach over at least this, so that a level line does not look rough.
const LEAST_RANGE: f64 = 0.1e-3;
/// Spreads of a reading that its bar reaches either way.
const BAR: f64 = 2.0;
/// Spreads that the strip of residuals reaches either way; what is farther off is drawn at its edge.
const STRIP_REACH: f64 = 4.0;
/// Room of a figure along the axis of length, and along that of sizes.
const FIGURES: (f64, f64) = (70.0, 42.0);
/// Half the width of a cross of a reading left out.
const CROSS: f64 = 4.5;

/// The picture: path data and places, in pixels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MeasuredPicture {
    /// Width; the height is [`HEIGHT`].
    pub width: f64,
    /// Readings used: each a stroke of no length, to be drawn with round ends.
    pub used: String,
    /// Two spreads either side of each of them.
    pub bars: String,
    /// Readings left out, as crosses.
    pub left_out: String,
    /// The taper found.
    pub taper: String,
    /// Its points.
    pub points: Vec<(f64, f64)>,
    /// Another line to compare with.
    pub other: String,
    /// How far readings used are off, in the strip.
    pub residuals: String,
    /// The same of those left out.
    pub left_out_residuals: String,
    /// Upper edge, middle and lower edge of one spread in the strip; `None` without a taper.
    pub strip: Option<[f64; 3]>,
    /// Foot of the words above the strip.
    pub strip_caption: f64,
    /// Left and right edge of all of it.
    pub sides: (f64, f64),
    /// Foot of the sizes.
    pub foot: f64,
    /// Figures along the line: from the left, and what they say.
    pub places: Vec<(f64, String)>,
    /// Foot of those figures.
    pub place_foot: f64,
    /// Figures of sizes: from the top, and what they say.
    pub sizes: Vec<(f64, String)>,
}

/// What is drawn of a line.
#[derive(Clone, Copy, Debug)]
pub struct Drawn<'a> {
    /// The readings, in the order of what was found.
    pub readings: &'a [Reading],
    /// The taper found in them.
    pub found: Option<&'a FoundTaper>,
    /// Another line to compare with: places and diameters, in order from the tip; may be empty.
    pub other: &'a [(Length, Length)],
}

/// The picture of a line, so wide; `None` without a reading.
pub fn measured_picture(drawn: Drawn<'_>, units: Units, width: f64) -> Option<MeasuredPicture> {
    let axes = Axes::of(drawn, width)?;
    let Drawn {
        readings,
        found,
        other,
    } = drawn;
    let strip = found.map(|_| [1.0, 0.0, -1.0].map(residual));
    let mut picture = MeasuredPicture {
        width,
        sides: (LEFT, width - RIGHT),
        foot: axes.foot,
        place_foot: HEIGHT - BELOW + 22.0,
        strip_caption: HEIGHT - BELOW - STRIP - 4.0,
        strip,
        places: axes.places(units),
        sizes: axes.sizes(units),
        ..MeasuredPicture::default()
    };
    let (mut used, mut bars, mut left_out) = (Path::default(), Path::default(), Path::default());
    let (mut residuals, mut far) = (Path::default(), Path::default());
    for (index, reading) in readings.iter().enumerate() {
        let (x, y) = (axes.x(reading.at), axes.y(reading.diameter));
        let is_out = found.is_some_and(|found| found.left_out.get(index) == Some(&true));
        if is_out {
            cross(&mut left_out, (x, y));
        } else {
            dot(&mut used, (x, y));
            if let Some(found) = found {
                let half = axes.height_of(found.scatter * BAR);
                stroke(&mut bars, (x, y - half), (x, y + half));
            }
        }
        let off = found.and_then(|found| {
            let off = *found.residuals.get(index)?;
            Some(off / found.scatter)
        });
        if let Some(off) = off {
            let y = residual(off);
            if is_out {
                cross(&mut far, (x, y));
            } else {
                stroke(&mut residuals, (x, residual(0.0)), (x, y));
            }
        }
    }
    (picture.used, picture.bars, picture.left_out) = (used.open(), bars.open(), left_out.open());
    (picture.residuals, picture.left_out_residuals) = (residuals.open(), far.open());
    if let Some(found) = found {
        picture.points = found
            .points
            .iter()
            .map(|point| (axes.x(point.at), axes.y(point.diameter)))
            .collect();
        picture.taper = polyline(&picture.points);
    }
    let other: Vec<(f64, f64)> = other
        .iter()
        .map(|&(at, diameter)| (axes.x(at), axes.y(diameter)))
        .collect();
    picture.other = polyline(&other);
    Some(picture)
}

/// The finished sizes of a planned line along its length, as another line to compare with.
pub fn finished_sizes(plan: &Plan) -> Vec<(Length, Length)> {
    let size = |(stretch, at)| {
        let station = plan.line.station_in(stretch, at);
        (at, station.dressed.diameter)
    };
    places(&plan.line).map(size).collect()
}

/// Where a residual of so many spreads stands.
fn residual(spreads: f64) -> f64 {
    let held = spreads.clamp(-STRIP_REACH, STRIP_REACH);
    let middle = HEIGHT - BELOW - 0.5 * STRIP;
    middle - held / STRIP_REACH * 0.5 * STRIP
}

fn polyline(points: &[(f64, f64)]) -> String {
    let mut path = Path::default();
    for &(x, y) in points {
        path.to(x, y);
    }
    path.open()
}

fn dot(path: &mut Path, at: (f64, f64)) {
    stroke(path, at, at);
}

fn stroke(path: &mut Path, from: (f64, f64), to: (f64, f64)) {
    path.lift();
    path.to(from.0, from.1);
    path.to(to.0, to.1);
}

fn cross(path: &mut Path, (x, y): (f64, f64)) {
    stroke(path, (x - CROSS, y - CROSS), (x + CROSS, y + CROSS));
    stroke(path, (x - CROSS, y + CROSS), (x + CROSS, y - CROSS));
}

/// From places and sizes to pixels.
struct Axes {
    width: f64,
    /// Foot of the sizes.
    foot: f64,
    length: f64,
    /// Least and greatest size shown, metres.
    range: (f64, f64),
}

impl Axes {
    fn of(drawn: Drawn<'_>, width: f64) -> Option<Self> {
        let (readings, others) = (drawn.readings, drawn.other);
        let ends = readings.iter().map(|one| one.at);
        let found = drawn.found.and_then(|found| found.points.last());
        let ends = ends.chain(found.map(|last| last.at));
        let ends = ends.chain(others.last().map(|last| last.0));
        let length = ends.map(Length::metres).reduce(f64::max)?;
        let sizes = readings.iter().map(|one| one.diameter.metres());
        let points = drawn.found.map_or(&[][..], |found| &found.points);
        let sizes: Vec<f64> = sizes
            .chain(points.iter().map(|point| point.diameter.metres()))
            .chain(others.iter().map(|other| other.1.metres()))
            .collect();
        let low = sizes.iter().copied().reduce(f64::min)?;
        let high = sizes.iter().copied().reduce(f64::max)?;
        let range = (high - low).max(LEAST_RANGE) * (1.0 + 2.0 * AROUND);
        let middle = f64::midpoint(low, high);
        let strip = if drawn.found.is_some() {
            STRIP + BETWEEN
        } else {
            0.0
        };
        Some(Self {
            width: width.max(LEFT + RIGHT + 1.0),
            foot: HEIGHT - BELOW - strip,
            length: length.max(1e-3),
            range: (middle - 0.5 * range, middle + 0.5 * range),
        })
    }

    fn x(&self, at: Length) -> f64 {
        LEFT + at.metres() / self.length * (self.width - LEFT - RIGHT)
    }

    fn y(&self, diameter: Length) -> f64 {
        let (low, high) = self.range;
        self.foot - (diameter.metres() - low) / (high - low) * (self.foot - ABOVE)
    }

    /// Height of a difference of sizes.
    fn height_of(&self, difference: Length) -> f64 {
        let (low, high) = self.range;
        difference.metres() / (high - low) * (self.foot - ABOVE)
    }

    fn places(&self, units: Units) -> Vec<(f64, String)> {
        let one = units.position();
        let unit = Length::from_metres(metres_in(units));
        let shown = self.length / unit.metres();
        let step = round_step(shown, ((self.width - LEFT - RIGHT) / FIGURES.0).max(1.0));
        let counts = (0..).map(|count| f64::from(count) * step);
        let ticks = counts.take_while(|value| *value <= shown * (1.0 + 1e-9));
        let mut ticks: Vec<(f64, String)> = ticks
            .map(|value| (self.x(unit * value), trimmed(value, 3)))
            .collect();
        if let Some((_, label)) = ticks.last_mut() {
            *label = format!("{label} {}", one.symbol());
        }
        ticks
    }

    fn sizes(&self, units: Units) -> Vec<(f64, String)> {
        let unit = match units {
            Units::Metric => 1e-3,
            Units::Imperial => crate::base::units::METRES_PER_INCH / 1e3,
        };
        let (low, high) = (self.range.0 / unit, self.range.1 / unit);
        let step = round_step(high - low, ((self.foot - ABOVE) / FIGURES.1).max(1.0));
        let first = (low / step).ceil();
        let values = (0..20).map(|count| (first + f64::from(count)) * step);
        values
            .take_while(|value| *value <= high)
            .map(|value| {
                let y = self.y(Length::from_metres(value * unit));
                (y, trimmed(value, 3))
            })
            .collect()
    }
}

/// Metres in the unit of places.
fn metres_in(units: Units) -> f64 {
    match units {
        Units::Metric => 1.0,
        Units::Imperial => crate::base::units::METRES_PER_FOOT,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measured::Trust;

    fn readings(places: &[(f64, f64)]) -> Vec<Reading> {
        let reading = |&(metres, mm): &(f64, f64)| Reading {
            at: Length::from_metres(metres),
            diameter: Length::from_millimetres(mm),
            trust: Trust::Judged,
        };
        places.iter().map(reading).collect()
    }

    fn drawn(readings: &[Reading]) -> Drawn<'_> {
        Drawn {
            readings,
            found: None,
            other: &[],
        }
    }

    #[test]
    fn farther_is_to_the_right_and_thicker_is_higher() {
        let readings = readings(&[(0.0, 0.7), (10.0, 1.1)]);
        let axes = Axes::of(drawn(&readings), 800.0).expect("there are readings");
        let at = |index: usize| (axes.x(readings[index].at), axes.y(readings[index].diameter));
        assert!(at(1).0 > at(0).0 && at(1).1 < at(0).1);
        assert!(at(1).0 <= 800.0 - RIGHT && at(1).1 >= ABOVE && at(0).1 <= axes.foot);
    }

    #[test]
    fn figures_are_round_and_within_the_picture() {
        for units in [Units::Metric, Units::Imperial] {
            for places in [
                vec![(0.0, 0.7)],
                vec![(0.0, 0.7), (25.0, 1.1)],
                vec![(0.5, 5.0), (90.0, 0.2)],
            ] {
                let readings = readings(&places);
                let picture = measured_picture(drawn(&readings), units, 360.0);
                let picture = picture.expect("there are readings");
                assert!(!picture.places.is_empty() && !picture.sizes.is_empty());
                for (x, _) in &picture.places {
                    assert!((LEFT..=360.0 - RIGHT + 1e-9).contains(x), "{x}");
                }
                for (y, _) in &picture.sizes {
                    assert!((ABOVE - 1e-9..=picture.foot + 1e-9).contains(y), "{y}");
                }
            }
        }
        assert_eq!(measured_picture(drawn(&[]), Units::Metric, 800.0), None);
    }
}
