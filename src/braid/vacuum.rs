//! Air drawn from a jar: what a pressure means for the oil that goes in.

use crate::base::units::{Length, Pressure};

/// Air pressure at sea level in the standard atmosphere. Source: ISO 2533, Standard Atmosphere.
pub const STANDARD_AIR: Pressure = Pressure::from_millibars(1013.25);
/// Lapse of temperature with height over temperature at sea level, 6.5 K/km over 288.15 K, per metre. Same source.
const LAPSE: f64 = 0.0065 / 288.15;
/// g M / (R · lapse) of the standard atmosphere. Same source.
const EXPONENT: f64 = 5.255_88;

/// The share of the voids that liquid can fill when air of pressure `air` is let back onto a jar drawn down to the
/// absolute pressure `left`: 1 − p/p₀, after Boyle's law, since the air left in a void shrinks to that share of it. None
/// where nothing is drawn.
pub fn fill_bound(left: Pressure, air: Pressure) -> f64 {
    (1.0 - left / air).clamp(0.0, 1.0)
}

/// The absolute pressure of what a gauge shows. A gauge shows the difference to the air around it, with or without the
/// minus of a vacuum, so −900 mbar and 900 mbar of vacuum both leave 113 of 1013.
pub fn absolute(gauge: Pressure, air: Pressure) -> Pressure {
    air - gauge.abs()
}

/// The height above the sea at which the standard atmosphere has a pressure. Source: ISO 2533.
pub fn height_of(air: Pressure) -> Length {
    Length::from_metres((1.0 - (air / STANDARD_AIR).powf(EXPONENT.recip())) / LAPSE)
}

/// Air pressure at a height above the sea, −1,000 to 11,000 m, in the standard atmosphere. Source: ISO 2533; the weather
/// moves it by some 3 % either way.
pub fn air_at(height: Length) -> Pressure {
    let height = height.metres().clamp(-1_000.0, 11_000.0);
    STANDARD_AIR * (1.0 - LAPSE * height).powf(EXPONENT)
}
