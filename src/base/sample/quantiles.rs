//! Limits of Student's t and of chi-squared, from their closed forms for whole degrees of freedom, searched by halving.
//!
//! Source of the forms: Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, 26.7.3 and 26.7.4 for t, 26.4.4 and 26.4.5
//! for chi-squared (from memory; `tests/tables/sample.rs` holds the figures against a library).

use core::f64::consts::{FRAC_1_SQRT_2, FRAC_2_PI, FRAC_PI_2, PI};

/// Most degrees of freedom: far beyond any book, and few enough that no power of `e` here leaves the numbers of a machine.
pub(super) const MOST_DEGREES: u32 = 900;
/// Halvings of an interval: enough for all digits of a number.
const HALVINGS: u32 = 80;

/// The `t` that so large a share of all |t| stays within, at so many degrees of freedom, from 1 to 900.
pub fn student(degrees: u32, within: f64) -> f64 {
    let degrees = degrees.clamp(1, MOST_DEGREES);
    let angle = halved((0.0, FRAC_PI_2), |angle| {
        share_within(degrees, angle) < within
    });
    angle.tan() * f64::from(degrees).sqrt()
}

/// The share of all |t| up to `√ν tan θ`.
fn share_within(degrees: u32, angle: f64) -> f64 {
    let (sine, cosine) = angle.sin_cos();
    let is_odd = degrees % 2 == 1;
    let mut power = if is_odd { cosine } else { 1.0 };
    let mut sum = 0.0;
    let mut at = u32::from(is_odd);
    while at + 2 <= degrees {
        sum += power;
        power *= f64::from(at + 1) / f64::from(at + 2) * cosine * cosine;
        at += 2;
    }
    if is_odd {
        FRAC_2_PI * (angle + sine * sum)
    } else {
        sine * sum
    }
}

/// The chi-squared that so large a share of all stays below, at so many degrees of freedom, from 1 to 900.
pub fn chi_squared(degrees: u32, below: f64) -> f64 {
    let degrees = degrees.clamp(1, MOST_DEGREES);
    let count = f64::from(degrees);
    // Ten of its own spreads above its mean, and some more where there are few degrees.
    let high = count + 10.0 * (2.0 * count).sqrt() + 30.0;
    halved((0.0, high), |value| {
        1.0 - share_above(degrees, value) < below
    })
}

/// The share of all chi-squared above a value.
fn share_above(degrees: u32, value: f64) -> f64 {
    let is_odd = degrees % 2 == 1;
    let root = value.sqrt();
    let density = (-0.5 * value).exp();
    let (first, mut term, mut at) = if is_odd {
        let tail = libm::erfc(root * FRAC_1_SQRT_2);
        (tail, (2.0 / PI).sqrt() * density * root, 1)
    } else {
        (0.0, density, 0)
    };
    let mut sum = first;
    while at + 2 <= degrees {
        sum += term;
        at += 2;
        term *= value / f64::from(at);
    }
    sum
}

/// Where something stops to hold that holds at the beginning of an interval and not at its end.
fn halved((mut low, mut high): (f64, f64), holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}
