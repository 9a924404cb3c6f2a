//! Writing quantities as a maker reads them.

use super::{Angle, Force, Length, METRES_PER_INCH, Mass, Speed, Volume};
use crate::base::choice::Choice;
use crate::base::units::text::Unit;

/// Narrow space between number and unit, which never breaks the line.
const THIN: char = '\u{202f}';

/// The system in which lengths and sizes are shown and typed. A preference of the reader, not of the design.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Metres and millimetres.
    #[default]
    Metric,
    /// Feet, and thousandths of an inch.
    Imperial,
}

impl Choice for Units {
    const ALL: &'static [Self] = &[Self::Metric, Self::Imperial];

    fn key(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Metric => "m, mm",
            Self::Imperial => "ft, thou",
        }
    }
}

impl Units {
    /// Unit of positions along the line.
    pub const fn position(self) -> Unit {
        match self {
            Self::Metric => Unit::Metre,
            Self::Imperial => Unit::Foot,
        }
    }

    /// Unit of diameters.
    pub const fn diameter(self) -> Unit {
        match self {
            Self::Metric => Unit::Millimetre,
            Self::Imperial => Unit::Thousandth,
        }
    }

    /// Unit of speeds.
    pub const fn speed(self) -> Unit {
        match self {
            Self::Metric => Unit::MetrePerSecond,
            Self::Imperial => Unit::FootPerSecond,
        }
    }

    /// A position or length along the line, as fine as a hand can mark it: `2.591 m`, `8′ 6 1/8″`.
    pub fn show_position(self, length: Length) -> String {
        match self {
            Self::Metric => number(length.metres(), 3, Unit::Metre),
            Self::Imperial => feet_and_inches(length),
        }
    }

    /// A diameter, its own unit first, as fine as a micrometer in the hand reads it: `1.08 mm · 42.5 thou`.
    pub fn show_diameter(self, diameter: Length) -> String {
        let (mm, thou) = (millimetres(diameter), thousandths(diameter));
        match self {
            Self::Metric => format!("{mm} · {thou}"),
            Self::Imperial => format!("{thou} · {mm}"),
        }
    }

    /// A length of yarn or thread, to so many decimals of a metre: or a foot: `37.1 m`, `121.7 ft`.
    pub fn show_yarn(self, length: Length, decimals: usize) -> String {
        match self {
            Self::Metric => number(length.metres(), decimals, Unit::Metre),
            Self::Imperial => number(length.feet(), decimals, Unit::Foot),
        }
    }

    /// A length of some millimetres or inches, without zeros that say nothing: `50 mm`, `2 in`.
    pub fn show_short(self, length: Length) -> String {
        match self {
            Self::Metric => format!("{}{THIN}mm", trimmed(length.millimetres(), 1)),
            Self::Imperial => format!("{}{THIN}in", trimmed(length.feet() * 12.0, 2)),
        }
    }

    /// A force: `187 N`, `42 lbf`.
    pub fn show_force(self, force: Force) -> String {
        match self {
            Self::Metric => format!("{:.0}{THIN}N", force.newtons()),
            Self::Imperial => format!("{:.0}{THIN}lbf", force.pounds()),
        }
    }

    /// A speed: `15.2 m/s`, `49.9 ft/s`.
    pub fn show_speed(self, speed: Speed) -> String {
        let unit = self.speed();
        let value = Unit::MetrePerSecond.convert(speed.metres_per_second(), unit);
        number(value.unwrap_or_default(), 1, unit)
    }

    /// Crossings along one rib: `34.5 per cm`, `87.6 per in`.
    pub fn show_crossings(self, per_metre: f64) -> String {
        format!(
            "{} {}",
            self.show_crossings_number(per_metre),
            self.show_crossings_unit()
        )
    }

    /// The number of [`Self::show_crossings`].
    pub fn show_crossings_number(self, per_metre: f64) -> String {
        match self {
            Self::Metric => format!("{:.1}", per_metre / 100.0),
            Self::Imperial => format!("{:.1}", per_metre * METRES_PER_INCH),
        }
    }

    /// What [`Self::show_crossings`] counts by.
    pub const fn show_crossings_unit(self) -> &'static str {
        match self {
            Self::Metric => "per cm",
            Self::Imperial => "per in",
        }
    }

    /// A diameter in one unit only, for tight places.
    pub fn show_diameter_short(self, diameter: Length) -> String {
        match self {
            Self::Metric => millimetres(diameter),
            Self::Imperial => thousandths(diameter),
        }
    }
}

fn millimetres(diameter: Length) -> String {
    number(diameter.millimetres(), 2, Unit::Millimetre)
}

fn thousandths(diameter: Length) -> String {
    number(to_half(diameter.thousandths()), 1, Unit::Thousandth)
}

/// The nearest half.
fn to_half(value: f64) -> f64 {
    (value * 2.0).round() / 2.0
}

/// Whole feet, whole inches and eighths of an inch of a length.
pub fn in_feet(length: Length) -> (f64, f64, f64) {
    let eighths = (length.feet() * 96.0).round();
    let feet = (eighths / 96.0).trunc();
    let inches = ((eighths - feet * 96.0) / 8.0).trunc();
    (feet, inches, eighths - feet * 96.0 - inches * 8.0)
}

/// Feet and inches to an eighth of an inch, as a tape has them.
fn feet_and_inches(length: Length) -> String {
    let (feet, inches, eighths) = in_feet(length);
    match eighths {
        0.0 => format!("{feet}′{THIN}{inches}″"),
        part => format!("{feet}′{THIN}{inches}{THIN}{}″", fraction(part)),
    }
}

/// So many eighths as a fraction in lowest terms.
fn fraction(eighths: f64) -> String {
    let (mut over, mut under) = (eighths, 8.0);
    while over % 2.0 == 0.0 && under > 1.0 {
        (over, under) = (over / 2.0, under / 2.0);
    }
    format!("{over}/{under}")
}

/// A number to so many decimals with its unit after.
pub fn number(value: f64, decimals: usize, unit: Unit) -> String {
    match unit {
        Unit::One => format!("{value:.decimals$}"),
        Unit::Degree => format!("{value:.decimals$}°"),
        unit => format!("{value:.decimals$}{THIN}{}", unit.symbol()),
    }
}

/// A number to at most so many decimals, without zeros that say nothing.
pub fn trimmed(value: f64, decimals: usize) -> String {
    let written = format!("{value:.decimals$}");
    if written.contains('.') {
        written
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        written
    }
}

/// An angle: `44.5°`.
pub fn angle(angle: Angle) -> String {
    number(angle.degrees(), 1, Unit::Degree)
}

/// An angle as it is read at the machine, to half a degree: `44.5°`.
pub fn angle_at_machine(angle: Angle) -> String {
    number(to_half(angle.degrees()), 1, Unit::Degree)
}

/// A number of carrier circuits, as a hand counts them: `112 circuits`.
pub fn circuits(circuits: f64) -> String {
    match circuits.round() {
        0.0 if circuits > 0.0 => "less than 1 circuit".to_owned(),
        1.0 => "1 circuit".to_owned(),
        whole => format!("{whole} circuits"),
    }
}

/// A share as a deviation in percent, with its sign: `+0.4 %`, `0.0 %`, `−1.2 %`.
pub fn deviation(share: f64) -> String {
    let tenths = (share * 1e3).round();
    let sign = match tenths {
        t if t > 0.0 => "+",
        t if t < 0.0 => "\u{2212}",
        _ => "",
    };
    format!("{sign}{:.1} %", tenths.abs() / 10.0)
}

/// A time: `40 s`, `12 min`, `5 h 07 min`.
pub fn minutes(minutes: f64) -> String {
    let seconds = (minutes * 60.0).round();
    if seconds < 60.0 {
        return format!("{seconds}\u{202f}s");
    }
    let whole = minutes.round();
    let hours = (whole / 60.0).trunc();
    if hours > 0.0 {
        format!(
            "{hours}\u{202f}h\u{202f}{:02}\u{202f}min",
            whole - hours * 60.0
        )
    } else {
        format!("{whole}\u{202f}min")
    }
}

/// A time of hours or days, without zeros that say nothing: `30 min`, `12 h`, `7 days`.
pub fn hours(hours: f64) -> String {
    match hours {
        under if under < 1.0 => format!("{:.0} min", under * 60.0),
        day if day < 48.0 => format!("{} h", trimmed(day, 1)),
        days => format!("{} days", trimmed(days / 24.0, 1)),
    }
}

/// A volume: `7.9 ml`.
pub fn millilitres(volume: Volume) -> String {
    number(volume.millilitres(), 1, Unit::Millilitre)
}

/// A share of something: `90 %`.
pub fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

/// A mass in grains: `140.2 gr`.
pub fn grains(mass: Mass) -> String {
    format!("{:.1}{THIN}gr", mass.grains())
}

/// A mass in grams: `9.09 g`.
pub fn grams(mass: Mass) -> String {
    format!("{:.2}{THIN}g", mass.grams())
}

/// A mass in both.
pub fn mass(mass: Mass) -> String {
    format!("{} · {}", grams(mass), grains(mass))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_carry_into_feet() {
        assert_eq!(feet_and_inches(Length::from_inches(11.96)), "1′\u{202f}0″");
        assert_eq!(feet_and_inches(Length::from_feet(8.5)), "8′\u{202f}6″");
    }

    #[test]
    fn inches_are_shown_in_eighths() {
        let shown = |inches| feet_and_inches(Length::from_inches(inches));
        assert_eq!(shown(30.125), "2′\u{202f}6\u{202f}1/8″");
        assert_eq!(shown(30.5), "2′\u{202f}6\u{202f}1/2″");
        assert_eq!(shown(30.74), "2′\u{202f}6\u{202f}3/4″");
        assert_eq!(shown(0.4), "0′\u{202f}0\u{202f}3/8″");
    }

    #[test]
    fn what_a_hand_cannot_do_is_not_shown() {
        assert_eq!(circuits(0.2), "less than 1 circuit");
        assert_eq!(circuits(1.4), "1 circuit");
        assert_eq!(circuits(111.6), "112 circuits");
        assert_eq!(angle_at_machine(Angle::from_degrees(44.3)), "44.5°");
        let size = Length::from_millimetres(1.0764);
        assert_eq!(
            Units::Metric.show_diameter(size),
            "1.08\u{202f}mm · 42.5\u{202f}thou"
        );
    }

    #[test]
    fn zeros_that_say_nothing_are_left_out() {
        assert_eq!(trimmed(1.250, 3), "1.25");
        assert_eq!(trimmed(10.0, 0), "10");
        assert_eq!(trimmed(0.0, 2), "0");
    }
}
