//! The units the trade writes, how each is spelled, and how they convert.

use crate::base::units::{
    DENIER_PER_TEX, KILOGRAMS_PER_GRAIN, METRES_PER_FOOT, METRES_PER_INCH, NEWTONS_PER_POUND_FORCE,
};

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
    Speed,
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
    /// Metre per second.
    MetrePerSecond,
    /// Foot per second.
    FootPerSecond,
}

/// Every unit with the spellings it is recognised by; the first is the one shown.
const SPELLINGS: [(Unit, &[&str]); 31] = [
    (Unit::Metre, &["m", "metre", "metres", "meter", "meters"]),
    (
        Unit::Centimetre,
        &[
            "cm",
            "centimetre",
            "centimetres",
            "centimeter",
            "centimeters",
        ],
    ),
    (
        Unit::Millimetre,
        &[
            "mm",
            "millimetre",
            "millimetres",
            "millimeter",
            "millimeters",
        ],
    ),
    (
        Unit::Micrometre,
        &[
            "µm",
            "μm",
            "um",
            "micron",
            "microns",
            "micrometre",
            "micrometres",
        ],
    ),
    (Unit::Foot, &["ft", "'", "′", "’", "feet", "foot"]),
    (Unit::Inch, &["in", "\"", "″", "”", "''", "inch", "inches"]),
    (
        Unit::Thousandth,
        &["thou", "mil", "mils", "thousandth", "thousandths"],
    ),
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
    (Unit::MetrePerSecond, &["m/s"]),
    (Unit::FootPerSecond, &["ft/s"]),
];

/// Millibars in one millimetre of mercury, the conventional one of 133.322 Pa. Source: ISO 80000-4.
const MILLIBARS_PER_MILLIMETRE_OF_MERCURY: f64 = 1.333_22;
/// Millibars in one pound-force on a square inch: 4.448 221 615 N on 645.16 mm².
const MILLIBARS_PER_PSI: f64 =
    NEWTONS_PER_POUND_FORCE / (METRES_PER_INCH * METRES_PER_INCH) / 100.0;

impl Unit {
    /// How the unit is written after a number; empty for a plain number.
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
    pub(super) fn likes(self) -> impl Iterator<Item = Self> {
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

    /// The unit of length that a word spells, in small letters; `None` where it spells none.
    ///
    /// ```
    /// use taperwright::base::units::text::Unit;
    /// assert_eq!(Unit::of_length("metres"), Some(Unit::Metre));
    /// assert_eq!(Unit::of_length("g"), None);
    /// ```
    pub fn of_length(word: &str) -> Option<Self> {
        Self::spelled(word).filter(|unit| unit.is_length())
    }

    /// Whether it measures a length.
    pub fn is_length(self) -> bool {
        self.measure().0 == Dimension::Length
    }

    pub(super) fn spelled(word: &str) -> Option<Self> {
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
            Self::MetrePerSecond => (Dimension::Speed, 1.0),
            Self::FootPerSecond => (Dimension::Speed, METRES_PER_FOOT),
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
