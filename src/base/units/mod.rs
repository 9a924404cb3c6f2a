//! Quantities, and the trade's ways of writing them.
//!
//! Inside, everything is SI: metres, kilograms, seconds, radians. A quantity is a small `Copy` value whose
//! type says what it is; a trade unit appears only in the name of the function that reads or shows it
//! (`from_millimetres`, `grains`). Reading what a maker typed lives in [`text`], writing in [`show`].

mod products;
pub mod show;
pub mod text;

use core::ops::{Add, AddAssign, Div, Mul, Sub};

/// Metres in one international foot, exactly. Source: international yard and pound agreement, 1959.
pub const METRES_PER_FOOT: f64 = 0.3048;
/// Metres in one inch, exactly. Source: international yard and pound agreement, 1959.
pub const METRES_PER_INCH: f64 = 0.0254;
/// Kilograms in one grain, exactly: 1/7000 of the pound of 0.453 592 37 kg (same agreement).
pub const KILOGRAMS_PER_GRAIN: f64 = 64.798_91e-6;
/// Denier per tex, exactly: denier counts grams in 9000 m, tex grams in 1000 m. Source: ISO 1144.
pub const DENIER_PER_TEX: f64 = 9.0;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $base:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            /// The number in the SI base unit.
            pub const fn $base(self) -> f64 {
                self.0
            }

            /// The smaller of the two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// The larger of the two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The distance from zero.
            #[must_use]
            pub fn abs(self) -> Self {
                Self(self.0.abs())
            }

            /// Whether the number is neither infinite nor undefined.
            pub fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        /// A ratio of like quantities is a plain number.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl core::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, Add::add)
            }
        }
    };
}

quantity!(
    /// A length, position or diameter, in metres.
    Length,
    metres
);
quantity!(
    /// An area of cross-section, in square metres.
    Area,
    square_metres
);
quantity!(
    /// A mass, in kilograms.
    Mass,
    kilograms
);
quantity!(
    /// Mass per length of yarn, thread, braid or line, in kilograms per metre.
    LinearDensity,
    kilograms_per_metre
);
quantity!(
    /// Mass per volume, in kilograms per cubic metre.
    Density,
    kilograms_per_cubic_metre
);
quantity!(
    /// A force, in newtons.
    Force,
    newtons
);
quantity!(
    /// A pressure, absolute unless it says otherwise, in pascals.
    Pressure,
    pascals
);
quantity!(
    /// A volume, in cubic metres.
    Volume,
    cubic_metres
);
quantity!(
    /// An angle, in radians.
    Angle,
    radians
);
quantity!(
    /// A speed, in metres per second.
    Speed,
    metres_per_second
);
quantity!(
    /// An energy, in joules.
    Energy,
    joules
);

impl Speed {
    /// From metres per second.
    pub const fn from_metres_per_second(metres_per_second: f64) -> Self {
        Self(metres_per_second)
    }
}

impl Energy {
    /// From joules.
    pub const fn from_joules(joules: f64) -> Self {
        Self(joules)
    }
}

impl Length {
    /// From metres.
    pub const fn from_metres(metres: f64) -> Self {
        Self(metres)
    }

    /// From millimetres.
    pub const fn from_millimetres(millimetres: f64) -> Self {
        Self(millimetres / 1e3)
    }

    /// From micrometres.
    pub const fn from_micrometres(micrometres: f64) -> Self {
        Self(micrometres / 1e6)
    }

    /// From feet.
    pub const fn from_feet(feet: f64) -> Self {
        Self(feet * METRES_PER_FOOT)
    }

    /// From inches.
    pub const fn from_inches(inches: f64) -> Self {
        Self(inches * METRES_PER_INCH)
    }

    /// In millimetres.
    pub const fn millimetres(self) -> f64 {
        self.0 * 1e3
    }

    /// In feet.
    pub const fn feet(self) -> f64 {
        self.0 / METRES_PER_FOOT
    }

    /// In thousandths of an inch, the trade's measure of diameter.
    pub const fn thousandths(self) -> f64 {
        self.0 / METRES_PER_INCH * 1e3
    }

    /// Area of a circle of this diameter.
    pub const fn circle(self) -> Area {
        Area(core::f64::consts::FRAC_PI_4 * self.0 * self.0)
    }
}

impl Area {
    /// From square metres.
    pub const fn from_square_metres(square_metres: f64) -> Self {
        Self(square_metres)
    }

    /// Diameter of the circle that has this area.
    pub fn diameter(self) -> Length {
        Length((self.0 / core::f64::consts::FRAC_PI_4).sqrt())
    }
}

impl Mass {
    /// From kilograms.
    pub const fn from_kilograms(kilograms: f64) -> Self {
        Self(kilograms)
    }

    /// From grams.
    pub const fn from_grams(grams: f64) -> Self {
        Self(grams / 1e3)
    }

    /// From grains.
    pub const fn from_grains(grains: f64) -> Self {
        Self(grains * KILOGRAMS_PER_GRAIN)
    }

    /// In grams.
    pub const fn grams(self) -> f64 {
        self.0 * 1e3
    }

    /// In grains, the unit of line classes.
    pub const fn grains(self) -> f64 {
        self.0 / KILOGRAMS_PER_GRAIN
    }
}

impl LinearDensity {
    /// From kilograms per metre.
    pub const fn from_kilograms_per_metre(kilograms_per_metre: f64) -> Self {
        Self(kilograms_per_metre)
    }

    /// From tex, grams in 1000 m (ISO 1144).
    pub const fn from_tex(tex: f64) -> Self {
        Self(tex / 1e6)
    }

    /// From denier, grams in 9000 m.
    pub const fn from_denier(denier: f64) -> Self {
        Self::from_tex(denier / DENIER_PER_TEX)
    }

    /// In tex.
    pub const fn tex(self) -> f64 {
        self.0 * 1e6
    }

    /// In grams per metre.
    pub const fn grams_per_metre(self) -> f64 {
        self.0 * 1e3
    }
}

impl Density {
    /// From grams per cubic centimetre.
    pub const fn from_grams_per_cubic_centimetre(value: f64) -> Self {
        Self(value * 1e3)
    }

    /// In grams per cubic centimetre.
    pub const fn grams_per_cubic_centimetre(self) -> f64 {
        self.0 / 1e3
    }
}

impl Pressure {
    /// From millibars, which are hectopascals.
    pub const fn from_millibars(millibars: f64) -> Self {
        Self(millibars * 100.0)
    }

    /// In millibars.
    pub const fn millibars(self) -> f64 {
        self.0 / 100.0
    }
}

impl Volume {
    /// From millilitres, which are cubic centimetres.
    pub const fn from_millilitres(millilitres: f64) -> Self {
        Self(millilitres / 1e6)
    }

    /// In millilitres.
    pub const fn millilitres(self) -> f64 {
        self.0 * 1e6
    }
}

/// Standard gravity, metres per second in each second, exactly. Source: ISO 80000-3.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Newtons in one pound-force: the pound of 0.453 592 37 kg, exactly, times the standard gravity.
pub const NEWTONS_PER_POUND_FORCE: f64 = 0.453_592_37 * STANDARD_GRAVITY;

impl Force {
    /// From newtons.
    pub const fn from_newtons(newtons: f64) -> Self {
        Self(newtons)
    }

    /// In pounds of force.
    pub const fn pounds(self) -> f64 {
        self.0 / NEWTONS_PER_POUND_FORCE
    }
}

impl Angle {
    /// From degrees.
    pub const fn from_degrees(degrees: f64) -> Self {
        Self(degrees.to_radians())
    }

    /// From radians.
    pub const fn from_radians(radians: f64) -> Self {
        Self(radians)
    }

    /// In degrees.
    pub const fn degrees(self) -> f64 {
        self.0.to_degrees()
    }
}
