//! Reading what a maker typed: comma or dot, with or without a unit, feet with inches.

mod unread;

use super::{DENIER_PER_TEX, KILOGRAMS_PER_GRAIN, METRES_PER_FOOT, METRES_PER_INCH};

pub use unread::Unread;

/// What kind of quantity a unit measures; only like converts to like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Dimension {
    Length,
    LinearDensity,
    Angle,
    Density,
    Share,
    Number,
    Mass,
    Volume,
    Pressure,
    Temperature,
    Time,
}

/// A unit the trade writes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Metre.
    Metre,
    /// Centimetre.
    Centimetre,
    /// Millimetre.
    Millimetre,
    /// Micrometre.
    Micrometre,
    /// Foot of 0.3048 m.
    Foot,
    /// Inch of 25.4 mm.
    Inch,
    /// Thousandth of an inch.
    Thousandth,
    /// Denier, grams in 9000 m.
    Denier,
    /// Tex, grams in 1000 m.
    Tex,
    /// Degree of arc.
    Degree,
    /// Grams per cubic centimetre.
    GramPerCubicCentimetre,
    /// Hundredth part.
    Percent,
    /// A plain ratio or count.
    One,
    /// Gram.
    Gram,
    /// Grain of 64.79891 mg.
    Grain,
    /// Millilitre.
    Millilitre,
    /// Litre.
    Litre,
    /// Millibar or hectopascal.
    Millibar,
    /// Kilopascal.
    Kilopascal,
    /// Bar.
    Bar,
    /// Millimetre of mercury.
    MillimetreOfMercury,
    /// Inch of mercury.
    InchOfMercury,
    /// Pound-force on a square inch.
    PoundPerSquareInch,
    /// Degree Celsius.
    Celsius,
    /// Degree Fahrenheit.
    Fahrenheit,
    /// Minute of time.
    Minute,
    /// Hour.
    Hour,
    /// Day of 24 hours.
    Day,
    /// Week.
    Week,
}

/// Every unit with the spellings it is recognised by; the first is the one shown.
const SPELLINGS: [(Unit, &[&str]); 29] = [
    (Unit::Metre, &["m"]),
    (Unit::Centimetre, &["cm"]),
    (Unit::Millimetre, &["mm"]),
    (Unit::Micrometre, &["µm", "μm", "um"]),
    (Unit::Foot, &["ft", "'", "′", "’", "feet", "foot"]),
    (Unit::Inch, &["in", "\"", "″", "”", "''", "inch", "inches"]),
    (Unit::Thousandth, &["thou", "mil"]),
    (Unit::Denier, &["den", "denier"]),
    (Unit::Tex, &["tex"]),
    (Unit::Degree, &["°", "deg", "degrees"]),
    (Unit::GramPerCubicCentimetre, &["g/cm³", "g/cm3"]),
    (Unit::Percent, &["%"]),
    (Unit::One, &[""]),
    (Unit::Gram, &["g", "gram", "grams"]),
    (Unit::Grain, &["gr", "grain", "grains"]),
    (Unit::Millilitre, &["ml", "cc", "cm³", "cm3"]),
    (Unit::Litre, &["l", "litre", "litres"]),
    (Unit::Millibar, &["mbar", "hpa", "millibar"]),
    (Unit::Kilopascal, &["kpa"]),
    (Unit::Bar, &["bar"]),
    (Unit::MillimetreOfMercury, &["mmhg", "mm hg", "torr"]),
    (Unit::InchOfMercury, &["inhg", "in hg", "\"hg"]),
    (Unit::PoundPerSquareInch, &["psi"]),
    (Unit::Celsius, &["°c", "c"]),
    (Unit::Fahrenheit, &["°f", "f"]),
    (Unit::Minute, &["min", "minutes"]),
    (Unit::Hour, &["h", "hours", "hour"]),
    (Unit::Day, &["d", "days", "day"]),
    (Unit::Week, &["weeks", "week", "w"]),
];

/// Millibars in one millimetre of mercury, the conventional one of 133.322 Pa. Source: ISO 80000-4.
const MILLIBARS_PER_MILLIMETRE_OF_MERCURY: f64 = 1.333_22;
/// Millibars in one pound-force on a square inch: 4.448 221 615 N on 645.16 mm².
const MILLIBARS_PER_PSI: f64 =
    super::NEWTONS_PER_POUND_FORCE / (METRES_PER_INCH * METRES_PER_INCH) / 100.0;

impl Unit {
    /// How the unit is written behind a number; empty for a plain number.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
            Self::Kilopascal => "kPa",
            Self::MillimetreOfMercury => "mmHg",
            Self::InchOfMercury => "inHg",
            unit => unit.spellings()[0],
        }
    }

    /// Every unit of the same kind, itself among them.
    fn likes(self) -> impl Iterator<Item = Self> {
        let kind = self.measure().0;
        let units = SPELLINGS.iter().map(|(unit, _)| *unit);
        units.filter(move |unit| unit.measure().0 == kind)
    }

    fn spellings(self) -> &'static [&'static str] {
        SPELLINGS
            .iter()
            .find(|(unit, _)| *unit == self)
            .map_or(&[""], |(_, spellings)| spellings)
    }

    fn spelled(word: &str) -> Option<Self> {
        SPELLINGS
            .iter()
            .find(|(_, spellings)| spellings.contains(&word))
            .map(|(unit, _)| *unit)
    }

    /// The kind of quantity, and how many of the smallest unit of that kind in this table make one.
    fn measure(self) -> (Dimension, f64) {
        match self {
            Self::Metre => (Dimension::Length, 1.0),
            Self::Centimetre => (Dimension::Length, 1e-2),
            Self::Millimetre => (Dimension::Length, 1e-3),
            Self::Micrometre => (Dimension::Length, 1e-6),
            Self::Foot => (Dimension::Length, METRES_PER_FOOT),
            Self::Inch => (Dimension::Length, METRES_PER_INCH),
            Self::Thousandth => (Dimension::Length, METRES_PER_INCH / 1e3),
            Self::Denier => (Dimension::LinearDensity, 1.0),
            Self::Tex => (Dimension::LinearDensity, DENIER_PER_TEX),
            Self::Degree => (Dimension::Angle, 1.0),
            Self::GramPerCubicCentimetre => (Dimension::Density, 1.0),
            Self::Percent => (Dimension::Share, 1.0),
            Self::One => (Dimension::Number, 1.0),
            Self::Gram => (Dimension::Mass, 1.0),
            Self::Grain => (Dimension::Mass, KILOGRAMS_PER_GRAIN * 1e3),
            Self::Millilitre => (Dimension::Volume, 1.0),
            Self::Litre => (Dimension::Volume, 1e3),
            Self::Millibar => (Dimension::Pressure, 1.0),
            Self::Kilopascal => (Dimension::Pressure, 10.0),
            Self::Bar => (Dimension::Pressure, 1e3),
            Self::MillimetreOfMercury => (Dimension::Pressure, MILLIBARS_PER_MILLIMETRE_OF_MERCURY),
            Self::InchOfMercury => (
                Dimension::Pressure,
                MILLIBARS_PER_MILLIMETRE_OF_MERCURY * 25.4,
            ),
            Self::PoundPerSquareInch => (Dimension::Pressure, MILLIBARS_PER_PSI),
            Self::Celsius => (Dimension::Temperature, 1.0),
            Self::Fahrenheit => (Dimension::Temperature, 5.0 / 9.0),
            Self::Minute => (Dimension::Time, 1.0 / 60.0),
            Self::Hour => (Dimension::Time, 1.0),
            Self::Day => (Dimension::Time, 24.0),
            Self::Week => (Dimension::Time, 168.0),
        }
    }

    /// The number at which a scale of this unit has the zero of its kind.
    fn origin(self) -> f64 {
        match self {
            Self::Fahrenheit => 32.0,
            _ => 0.0,
        }
    }

    /// A number of these units as a number of `other`; `None` when the two measure different things.
    pub fn convert(self, value: f64, other: Self) -> Option<f64> {
        if self == other {
            return Some(value);
        }
        let ((mine, size), (theirs, unit)) = (self.measure(), other.measure());
        (mine == theirs).then(|| (value - self.origin()) * size / unit + other.origin())
    }
}

/// Reads a number typed into a field that is in unit `field`, and gives it in that unit.
///
/// Accepts a decimal comma or dot, a unit of the same kind behind the number (`1,2 mm`, `.045"`, `10 ft`),
/// and feet with inches (`10' 6"`). Without a unit the field's own is meant.
///
/// # Errors
/// [`Unread`] when the text is empty, no number, or in a unit that measures something else.
///
/// ```
/// use taperwright::base::units::text::{read, Unit};
/// assert_eq!(read("1,2", Unit::Millimetre), Ok(1.2));
/// assert_eq!(read("10' 6\"", Unit::Foot), Ok(10.5));
/// assert!(read("12 den", Unit::Foot).is_err());
/// ```
pub fn read(text: &str, field: Unit) -> Result<f64, Unread> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Unread::Empty);
    }
    match feet_and_inches(text) {
        Some((feet, inches)) => in_field(number(feet)? + number(inches)? / 12.0, Unit::Foot, field),
        None => one_number(text, field),
    }
}

/// Splits `10' 6"` into its two numbers; a lone `10'` is left to [`one_number`].
fn feet_and_inches(text: &str) -> Option<(&str, &str)> {
    let (feet, rest) = text
        .split_once(['\'', '′', '’'])
        .or_else(|| text.split_once("ft"))?;
    let inches = rest
        .trim()
        .trim_end_matches(['"', '″', '”', '\''])
        .trim_end_matches("in")
        .trim();
    (!inches.is_empty() && inches.starts_with(|c: char| c.is_ascii_digit()))
        .then_some((feet, inches))
}

fn one_number(text: &str, field: Unit) -> Result<f64, Unread> {
    let end = text
        .find(|c: char| !matches!(c, '0'..='9' | '.' | ',' | '-' | '+' | '−'))
        .unwrap_or(text.len());
    let (digits, word) = text.split_at(end);
    let value = number(digits).map_err(|_| Unread::NotANumber(text.to_owned()))?;
    match word.trim() {
        "" => Ok(value),
        word => {
            let unit =
                Unit::spelled(&word.to_lowercase()).ok_or_else(|| Unread::unknown(word, field))?;
            in_field(value, unit, field)
        }
    }
}

fn in_field(value: f64, typed: Unit, field: Unit) -> Result<f64, Unread> {
    typed.convert(value, field).ok_or(Unread::WrongUnit {
        typed,
        wanted: field,
    })
}

fn number(digits: &str) -> Result<f64, Unread> {
    let plain = digits.trim().replace(',', ".").replace('−', "-");
    plain
        .parse::<f64>()
        .ok()
        .filter(|value| value.is_finite())
        .ok_or_else(|| Unread::NotANumber(digits.trim().to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn reads(text: &str, field: Unit, value: f64) {
        let read = read(text, field).unwrap_or_else(|unread| panic!("{text}: {unread}"));
        assert!((read - value).abs() < 1e-12, "{text} read as {read}");
    }

    #[test]
    fn comma_and_dot_are_both_decimal_marks() {
        reads("1,2", Unit::Millimetre, 1.2);
        reads(" 1.2 mm", Unit::Millimetre, 1.2);
        reads(".5", Unit::Millimetre, 0.5);
    }

    #[test]
    fn units_of_the_same_kind_convert() {
        reads(".045\"", Unit::Millimetre, 1.143);
        reads("45 thou", Unit::Millimetre, 1.143);
        reads("10 ft", Unit::Metre, 3.048);
        reads("10'", Unit::Metre, 3.048);
        reads("10' 6\"", Unit::Metre, 3.2004);
        reads("10ft 6in", Unit::Metre, 3.2004);
        reads("2,5 tex", Unit::Denier, 22.5);
        reads("45°", Unit::Degree, 45.0);
        reads("10 kPa", Unit::Millibar, 100.0);
        reads("760 Torr", Unit::Millibar, 1_013.247_2);
        reads("104 °F", Unit::Celsius, 40.0);
        reads("100 °C", Unit::Fahrenheit, 212.0);
        reads("1,5 weeks", Unit::Hour, 252.0);
        reads("7000 gr", Unit::Gram, 453.592_37);
    }

    #[test]
    fn nonsense_is_named() {
        assert_eq!(read("", Unit::Metre), Err(Unread::Empty));
        assert_eq!(
            read("abc", Unit::Metre),
            Err(Unread::NotANumber("abc".to_owned()))
        );
        assert_eq!(
            read("1.2.3", Unit::Metre),
            Err(Unread::NotANumber("1.2.3".to_owned()))
        );
        assert_eq!(
            read("3 elbows", Unit::Metre),
            Err(Unread::unknown("elbows", Unit::Metre))
        );
        assert_eq!(
            read("inf", Unit::Metre),
            Err(Unread::NotANumber("inf".to_owned()))
        );
        assert_eq!(
            read("3 mm", Unit::Degree),
            Err(Unread::WrongUnit {
                typed: Unit::Millimetre,
                wanted: Unit::Degree
            })
        );
    }

    #[test]
    fn what_is_suggested_is_of_the_fields_kind() {
        let said = |field| read("3 elbows", field).unwrap_err().to_string();
        assert!(said(Unit::Hour).ends_with("Leave it out, or write min, h, d or weeks."));
        assert!(said(Unit::Percent).ends_with("Leave it out, or write %."));
        assert!(said(Unit::One).ends_with("Leave it out."));
    }
}
