//! How even a line is along its length, as it was read from a photo.

use super::path::Path;
use super::round_step::{round_figures, round_step};
use crate::base::units::show::Units;
use crate::base::units::{Angle, Length};
use crate::photo::{Estimate, PhotoReading, PhotoWindow};

/// Height of the chart, in pixels.
pub const HEIGHT: f64 = 300.0;
/// Room for figures at the left, and at the right.
const SIDES: (f64, f64) = (62.0, 16.0);
/// Upper and lower edge of the angles, and of the diameters.
const STRIPS: [(f64, f64); 2] = [(30.0, 130.0), (172.0, 262.0)];
/// The foot of a caption above its strip, and of the numbers below all.
const CAPTION: f64 = -12.0;
const NUMBERS: f64 = HEIGHT - 12.0;
/// The least range shown: degrees, and a share of the mean diameter. A level line must not look rough.
const LEAST_RANGES: (f64, f64) = (3.0, 0.1);
/// Standard deviations that a bar reaches either way.
const BAR: f64 = 1.0;
/// Figures beside a strip.
const MOST_FIGURES: f64 = 3.0;
/// Half the width of a cross.
const CROSS: f64 = 6.0;
/// Room of a number below.
const NUMBER_ROOM: f64 = 26.0;

/// Angle or diameter along the line, in pixels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strip {
    /// Windows without a doubt: each a stroke of no length, to be drawn with round ends.
    pub dots: String,
    /// Windows with a doubt, as crosses.
    pub crosses: String,
    /// One standard deviation either way.
    pub bars: String,
    /// Height of the mean.
    pub mean: f64,
    /// Figures: from the top, and what they say.
    pub figures: Vec<(f64, String)>,
    /// Foot of its caption.
    pub caption: f64,
}

/// How even the line is: angles above, diameters below.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EvennessChart {
    /// Width; the height is [`HEIGHT`].
    pub width: f64,
    /// Left and right edge of the strips.
    pub sides: (f64, f64),
    /// Angles in degrees.
    pub angles: Strip,
    /// Diameters in the maker's unit, or in percent of their mean.
    pub diameters: Strip,
    /// The unit of the diameters.
    pub unit: &'static str,
    /// Numbers of windows: from the left, and which.
    pub numbers: Vec<(f64, usize)>,
    /// Foot of the numbers.
    pub number_foot: f64,
}

/// What one window shows.
struct Piece {
    value: f64,
    error: f64,
    is_odd: bool,
}

/// How even the line is, so wide; `None` without windows. With the `diameter` in metres diameters are lengths.
pub fn evenness_chart(
    reading: &PhotoReading,
    diameter: Option<Estimate>,
    units: Units,
    width: f64,
) -> Option<EvennessChart> {
    let windows = &reading.windows;
    let pixels = reading.diameter.value;
    if windows.is_empty() || pixels.is_nan() || pixels <= 0.0 {
        return None;
    }
    let metres = diameter.map(|it| it.value).filter(|it| *it > 0.0);
    let (whole, unit) = match (metres.map(Length::from_metres), units) {
        (None, _) => (100.0, "%"),
        (Some(size), Units::Metric) => (size.millimetres(), units.diameter().symbol()),
        (Some(size), Units::Imperial) => (size.thousandths(), units.diameter().symbol()),
    };
    let angle = |window: &PhotoWindow| {
        window.angle.map(|angle| Piece {
            value: in_degrees(angle.value),
            error: in_degrees(angle.error),
            is_odd: window.doubt.is_some(),
        })
    };
    let size = |window: &PhotoWindow| {
        Some(Piece {
            value: window.diameter / pixels * whole,
            error: 0.0,
            is_odd: window.doubt.is_some(),
        })
    };
    let width = width.max(SIDES.0 + SIDES.1 + 1.0);
    let axis = Axis {
        count: windows.len(),
        width,
    };
    let (least_angle, least_share) = LEAST_RANGES;
    let [angles, sizes] = STRIPS;
    Some(EvennessChart {
        width,
        sides: (SIDES.0, width - SIDES.1),
        angles: strip(
            windows.iter().map(angle),
            (in_degrees(reading.angle.value), least_angle),
            angles,
            &axis,
        ),
        diameters: strip(
            windows.iter().map(size),
            (whole, least_share * whole),
            sizes,
            &axis,
        ),
        unit,
        numbers: axis.numbers(),
        number_foot: NUMBERS,
    })
}

fn in_degrees(radians: f64) -> f64 {
    Angle::from_radians(radians).degrees()
}

/// Windows side by side.
struct Axis {
    count: usize,
    width: f64,
}

impl Axis {
    fn x(&self, index: usize) -> f64 {
        let room = (self.width - SIDES.0 - SIDES.1) / self.count as f64;
        SIDES.0 + (index as f64 + 0.5) * room
    }

    /// As many numbers as have room.
    fn numbers(&self) -> Vec<(f64, usize)> {
        let room = (self.width - SIDES.0 - SIDES.1) / NUMBER_ROOM;
        let step = round_step(self.count as f64, room.max(1.0)).max(1.0);
        let is_shown = |number: &usize| *number as f64 % step == 0.0;
        let shown = (1..=self.count).filter(is_shown);
        shown.map(|number| (self.x(number - 1), number)).collect()
    }
}

fn strip(
    values: impl Iterator<Item = Option<Piece>>,
    (mean, least): (f64, f64),
    (top, foot): (f64, f64),
    axis: &Axis,
) -> Strip {
    let is_number = |it: &Piece| it.value.is_finite() && it.error.is_finite();
    let values: Vec<(usize, Piece)> = values
        .enumerate()
        .filter_map(|(index, value)| Some((index, value.filter(is_number)?)))
        .collect();
    let ends = values.iter().flat_map(|(_, it)| {
        let bar = BAR * it.error;
        [it.value - bar, it.value + bar]
    });
    let (low, high) = ends.fold((mean, mean), |(low, high), end| {
        (low.min(end), high.max(end))
    });
    let more = 0.5 * (least - (high - low)).max(0.0);
    let (low, high) = (low - more, high + more);
    let y = |value: f64| foot - (value - low) / (high - low) * (foot - top);
    let (mut dots, mut crosses, mut bars) = (Path::default(), Path::default(), Path::default());
    for (index, it) in &values {
        let (x, middle) = (axis.x(*index), y(it.value));
        if it.is_odd {
            stroke(
                &mut crosses,
                (x - CROSS, middle - CROSS),
                (x + CROSS, middle + CROSS),
            );
            stroke(
                &mut crosses,
                (x - CROSS, middle + CROSS),
                (x + CROSS, middle - CROSS),
            );
        } else {
            stroke(&mut dots, (x, middle), (x, middle));
        }
        let bar = BAR * it.error;
        if bar > 0.0 {
            stroke(&mut bars, (x, y(it.value - bar)), (x, y(it.value + bar)));
        }
    }
    Strip {
        dots: dots.open(),
        crosses: crosses.open(),
        bars: bars.open(),
        mean: y(mean),
        figures: round_figures((low, high), round_step(high - low, MOST_FIGURES), y),
        caption: top + CAPTION,
    }
}

fn stroke(path: &mut Path, from: (f64, f64), to: (f64, f64)) {
    path.lift();
    path.to(from.0, from.1);
    path.to(to.0, to.1);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::{Line, Point, WindowDoubt};

    fn window(
        at: f64,
        angle: Option<f64>,
        diameter: f64,
        doubt: Option<WindowDoubt>,
    ) -> PhotoWindow {
        PhotoWindow {
            middle: Point::new(at, 400.0),
            length: 100.0,
            diameter,
            angle: angle.map(|angle| Estimate {
                value: angle.to_radians(),
                error: 0.5_f64.to_radians(),
            }),
            directions: angle.map(|angle| [angle.to_radians(), -angle.to_radians()]),
            doubt,
        }
    }

    fn reading() -> PhotoReading {
        PhotoReading {
            edges: [Line::default(); 2],
            angle: Estimate {
                value: 45_f64.to_radians(),
                error: 0.01,
            },
            skew: Estimate::default(),
            spacing: Estimate::default(),
            diameter: Estimate {
                value: 200.0,
                error: 2.0,
            },
            thread: 20.0,
            threads: 16,
            counted: Some(16),
            windows: vec![
                window(100.0, Some(45.0), 200.0, None),
                window(200.0, Some(47.0), 220.0, Some(WindowDoubt::Thicker)),
                window(300.0, None, 200.0, Some(WindowDoubt::Unclear)),
            ],
        }
    }

    #[test]
    fn a_window_without_an_angle_has_a_diameter_only() {
        let chart = evenness_chart(&reading(), None, Units::Metric, 700.0).unwrap();
        assert_eq!(chart.angles.dots.matches('M').count(), 1);
        assert_eq!(chart.angles.bars.matches('M').count(), 2);
        assert_eq!(chart.angles.crosses.matches('M').count(), 2);
        assert_eq!(chart.diameters.dots.matches('M').count(), 1);
        assert_eq!(chart.diameters.crosses.matches('M').count(), 4);
        assert_eq!(chart.unit, "%");
        let numbers: Vec<usize> = chart.numbers.iter().map(|number| number.1).collect();
        assert_eq!(numbers, [1, 2, 3]);
    }

    /// With 1 mm for 200 pixels, 220 pixels are 1.1 mm, and 1.1 mm are 43.3 thou.
    #[test]
    fn diameters_are_lengths_once_there_is_a_scale() {
        let size = Some(Estimate {
            value: 1e-3,
            error: 1e-5,
        });
        let labels = |units| {
            let chart = evenness_chart(&reading(), size, units, 700.0).unwrap();
            let figures = chart.diameters.figures.into_iter();
            (
                chart.unit,
                figures.map(|figure| figure.1).collect::<Vec<_>>(),
            )
        };
        assert_eq!(
            labels(Units::Metric),
            ("mm", vec!["1".into(), "1.05".into(), "1.1".into()])
        );
        assert_eq!(
            labels(Units::Imperial),
            ("thou", vec!["40".into(), "42".into()])
        );
    }

    #[test]
    fn what_cannot_be_drawn_is_left_out() {
        let mut odd = reading();
        odd.windows[0].diameter = f64::NAN;
        let chart = evenness_chart(&odd, None, Units::Metric, 0.0).unwrap();
        assert!(!chart.diameters.dots.contains("NaN"));
        odd.diameter.value = 0.0;
        assert_eq!(evenness_chart(&odd, None, Units::Metric, 700.0), None);
        odd.windows.clear();
        odd.diameter.value = 200.0;
        assert_eq!(evenness_chart(&odd, None, Units::Metric, 700.0), None);
    }

    #[test]
    fn many_windows_have_few_numbers() {
        let mut long = reading();
        long.windows = vec![window(0.0, Some(45.0), 200.0, None); 60];
        let chart = evenness_chart(&long, None, Units::Metric, 400.0).unwrap();
        assert!(chart.numbers.len() <= 13, "{:?}", chart.numbers);
        assert_eq!(chart.numbers[0].1, 5);
    }
}
