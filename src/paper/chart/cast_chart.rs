//! What changes along a cast: the speed of the loop, and the mass that still moves.

use super::path::Path;
use super::round_step::{round_figures, round_step};
use crate::base::choice::Choice;
use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::base::units::text::Unit;
use crate::turnover::{Moment, Turnover};

/// Height of a chart, in pixels.
pub const HEIGHT: f64 = 190.0;
/// Room for figures at the left, at the top, at the right and below.
const SIDES: (f64, f64, f64, f64) = (58.0, 34.0, 18.0, 30.0);
/// Figures beside a chart, and below it.
const MOST_FIGURES: (f64, f64) = (4.0, 6.0);

/// What is drawn along a cast.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CastQuantity {
    /// Speed of the loop.
    LoopSpeed,
    /// Mass ahead of the loop: what still moves.
    MassAhead,
}

impl Choice for CastQuantity {
    const ALL: &'static [Self] = &[Self::LoopSpeed, Self::MassAhead];

    fn key(self) -> &'static str {
        match self {
            Self::LoopSpeed => "loop-speed",
            Self::MassAhead => "mass-ahead",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::LoopSpeed => "speed of the loop",
            Self::MassAhead => "mass that still moves",
        }
    }
}

impl CastQuantity {
    const fn unit(self, units: Units) -> Unit {
        match (self, units) {
            (Self::LoopSpeed, _) => units.speed(),
            (Self::MassAhead, Units::Metric) => Unit::Gram,
            (Self::MassAhead, Units::Imperial) => Unit::Grain,
        }
    }

    fn of(self, moment: &Moment, units: Units) -> f64 {
        let (value, unit) = match self {
            Self::LoopSpeed => (moment.speed.metres_per_second() / 2.0, Unit::MetrePerSecond),
            Self::MassAhead => (moment.mass.grams(), Unit::Gram),
        };
        unit.convert(value, self.unit(units)).unwrap_or(value)
    }
}

/// A figure at an axis: where, and what it says.
pub type AxisFigure = (f64, String);

/// A chart of one or two casts, in pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct CastChart {
    /// Width; the height is [`HEIGHT`].
    pub width: f64,
    /// Left and right edge of the curves.
    pub sides: (f64, f64),
    /// Upper and lower edge of the curves.
    pub edges: (f64, f64),
    /// The curve of one's own line.
    pub own: String,
    /// That of the other line; empty where there is none.
    pub other: String,
    /// Where the loop reaches the leader.
    pub leader: f64,
    /// Figures of the values, with their height.
    pub values: Vec<AxisFigure>,
    /// Figures of the length that has turned over, with their distance from the left.
    pub lengths: Vec<AxisFigure>,
    /// What is drawn, with its unit.
    pub caption: String,
    /// What the lengths are, with their unit.
    pub foot: String,
}

/// The chart of a quantity, so wide.
pub fn cast_chart(
    quantity: CastQuantity,
    own: &Turnover,
    other: Option<&Turnover>,
    units: Units,
    width: f64,
) -> CastChart {
    let (left, top, right, below) = SIDES;
    let width = width.max(left + right + 1.0);
    let both = || [Some(own), other].into_iter().flatten();
    let values = both().flat_map(|cast| cast.moments.iter().map(|one| quantity.of(one, units)));
    let highest = values.fold(0.0, f64::max);
    let longest = both()
        .map(|cast| turned_over(cast, &cast.at_fly))
        .fold(Length::ZERO, Length::max);
    let in_unit = |length: Length| {
        Unit::Metre
            .convert(length.metres(), units.position())
            .unwrap_or_default()
    };
    let step = round_step(highest.max(f64::MIN_POSITIVE), MOST_FIGURES.0);
    let ceiling = (highest / step).ceil().max(1.0) * step;
    let (bottom, across) = (HEIGHT - below, width - left - right);
    let y = |value: f64| bottom - (bottom - top) * value / ceiling;
    let whole = in_unit(longest).max(f64::MIN_POSITIVE);
    let x = |length: f64| left + across * length / whole;
    let curve = |cast: &Turnover| {
        let mut path = Path::default();
        for moment in &cast.moments {
            path.to(
                x(in_unit(turned_over(cast, moment))),
                y(quantity.of(moment, units)),
            );
        }
        path.open()
    };
    CastChart {
        width,
        sides: (left, width - right),
        edges: (top, bottom),
        own: curve(own),
        other: other.map(curve).unwrap_or_default(),
        leader: x(in_unit(turned_over(own, &own.at_leader))),
        values: round_figures((0.0, ceiling), step, y),
        lengths: round_figures((0.0, whole), round_step(whole, MOST_FIGURES.1), x),
        caption: format!("{}, {}", quantity.name(), quantity.unit(units).symbol()),
        foot: format!("line turned over, {}", units.position().symbol()),
    }
}

/// Length that has turned over since the loop began to roll.
fn turned_over(cast: &Turnover, moment: &Moment) -> Length {
    cast.start.to_fly - moment.to_fly
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Plan;
    use crate::turnover::{Cast, Surroundings, turn_over};

    fn chart(quantity: CastQuantity, units: Units) -> CastChart {
        let line = Plan::of(&demo()).fly_line().unwrap();
        let cast = turn_over(&line, &Cast::default(), &Surroundings::USUAL);
        cast_chart(quantity, &cast, None, units, 500.0)
    }

    #[test]
    fn curves_stay_between_their_edges() {
        for &quantity in CastQuantity::ALL {
            let chart = chart(quantity, Units::Metric);
            let (top, bottom) = chart.edges;
            for place in chart.own[1..].split('L') {
                let (x, y) = place.split_once(' ').unwrap();
                let (x, y): (f64, f64) = (x.parse().unwrap(), y.parse().unwrap());
                assert!(x >= chart.sides.0 - 0.1 && x <= chart.sides.1 + 0.1, "{x}");
                assert!(y >= top - 0.1 && y <= bottom + 0.1, "{y}");
            }
            assert!(chart.leader > chart.sides.0 && chart.leader < chart.sides.1);
            assert_eq!(chart.other, "");
        }
    }

    /// The usual cast begins with 15 m/s: the loop with 7.5 m/s, or 24.6 ft/s.
    #[test]
    fn figures_are_in_the_units_of_the_reader() {
        let metric = chart(CastQuantity::LoopSpeed, Units::Metric);
        assert_eq!(metric.caption, "speed of the loop, m/s");
        let imperial = chart(CastQuantity::LoopSpeed, Units::Imperial);
        assert_eq!(imperial.foot, "line turned over, ft");
        let last = |chart: &CastChart| -> f64 { chart.values.last().unwrap().1.parse().unwrap() };
        assert!(last(&imperial) > 2.5 * last(&metric));
    }
}
