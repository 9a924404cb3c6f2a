//! Why a design was refused, said about the input: which value, and what would be allowed.

use core::fmt;

use super::settings::{DIAMETER, Rule, Setting};
use crate::choice::Choice;
use crate::track::{MOST_CARRIERS, Pattern, Track};
use crate::units::show::trimmed;
use crate::units::text::Unit;

/// Where on the page the refused value stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A numbered setting.
    Setting(Setting),
    /// The pattern of the track.
    Pattern,
    /// The list of gears.
    Gears,
    /// The control point of this index.
    Point(usize),
    /// The taper as a whole.
    Taper,
    /// The line's name.
    Name,
    /// The notes.
    Notes,
}

/// What the input did wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// Infinite or undefined.
    NotANumber {
        /// Where.
        place: Place,
        /// Name of the value.
        name: &'static str,
    },
    /// Outside its range.
    OutOfRange {
        /// Where.
        place: Place,
        /// The rule with the allowed range.
        rule: Rule,
        /// The value given.
        value: f64,
    },
    /// Broken where only whole numbers make sense.
    NotWhole {
        /// Where.
        place: Place,
        /// Name of the value.
        name: &'static str,
        /// The value given.
        value: f64,
    },
    /// The finest end on the label is heavier than the heaviest.
    LabelUpsideDown {
        /// Finest end, denier.
        low: f64,
        /// Heaviest end, denier.
        high: f64,
    },
    /// No track has this many carriers with this pattern.
    NoSuchTrack {
        /// Carriers wished for.
        carriers: f64,
        /// Pattern wished for.
        pattern: Pattern,
    },
    /// More threads to start with than the machine has carriers.
    MoreThreadsThanCarriers {
        /// Threads wished for.
        threads: f64,
        /// Carriers there are.
        carriers: f64,
    },
    /// Too few or too many gears.
    GearCount(usize),
    /// Too few or too many control points.
    PointCount(usize),
    /// The first control point is not at the tip.
    TipNotAtZero {
        /// Where it is, metres.
        at: f64,
    },
    /// A control point stands before its predecessor, or too close behind it.
    PointsTooClose {
        /// Index of the point.
        index: usize,
        /// Its position, metres.
        at: f64,
        /// That of its predecessor, metres.
        previous: f64,
    },
    /// A text is longer than there is room for.
    TextTooLong {
        /// Where.
        place: Place,
        /// Characters given.
        characters: usize,
        /// Characters allowed.
        allowed: usize,
    },
}

/// Most change gears in a design.
pub const MOST_GEARS: usize = 60;
/// Most control points in a design.
pub const MOST_POINTS: usize = 200;
/// Least distance between control points, in metres: closer than a maker can place a change.
pub const LEAST_SPACING: f64 = 0.01;

impl Refusal {
    /// Where on the page the refused value stands.
    pub fn place(&self) -> Place {
        match *self {
            Self::NotANumber { place, .. }
            | Self::OutOfRange { place, .. }
            | Self::NotWhole { place, .. }
            | Self::TextTooLong { place, .. } => place,
            Self::LabelUpsideDown { .. } => Place::Setting(Setting::LabelHigh),
            Self::NoSuchTrack { .. } => Place::Pattern,
            Self::MoreThreadsThanCarriers { .. } => Place::Setting(Setting::FewestThreads),
            Self::GearCount(_) => Place::Gears,
            Self::PointCount(_) => Place::Taper,
            Self::TipNotAtZero { .. } => Place::Point(0),
            Self::PointsTooClose { index, .. } => Place::Point(index),
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotANumber { name, .. } => write!(out, "The {name} must be a number."),
            Self::OutOfRange { rule, value, .. } => out_of_range(rule, *value, out),
            Self::NotWhole { name, value, .. } => {
                write!(out, "The {name} must be a whole number; {value} is not.")
            }
            Self::LabelUpsideDown { low, high } => {
                write!(
                    out,
                    "The label reads upside down: its finest end, {low} den, is heavier than its heaviest, {high} den."
                )
            }
            Self::NoSuchTrack { carriers, pattern } => no_such_track(*carriers, *pattern, out),
            Self::MoreThreadsThanCarriers { threads, carriers } => {
                write!(
                    out,
                    "{threads} threads need {threads} carriers; this machine has {carriers}."
                )
            }
            Self::GearCount(0) => {
                write!(
                    out,
                    "The machine needs at least one change gear. List the teeth of those you own."
                )
            }
            Self::GearCount(count) => {
                write!(
                    out,
                    "{count} change gears are more than the {MOST_GEARS} there is room for."
                )
            }
            Self::PointCount(count) => write!(
                out,
                "A taper needs 2 to {MOST_POINTS} points; this has {count}."
            ),
            Self::TipNotAtZero { at } => write!(
                out,
                "The first point must be at the tip, 0 m; it is at {at} m."
            ),
            Self::PointsTooClose {
                index,
                at,
                previous,
            } => write!(
                out,
                "Points {index} and {} must lie in order, at least {} mm apart: point {index} is at {previous} m, point {} at {at} m.",
                index + 1,
                LEAST_SPACING * 1e3,
                index + 1
            ),
            Self::TextTooLong {
                characters,
                allowed,
                ..
            } => {
                write!(
                    out,
                    "{characters} characters are too many; there is room for {allowed}."
                )
            }
        }
    }
}

fn out_of_range(rule: &Rule, value: f64, out: &mut fmt::Formatter<'_>) -> fmt::Result {
    let Rule {
        name, low, high, ..
    } = rule;
    let (value, high) = (with_unit(rule, value), with_unit(rule, *high));
    write!(
        out,
        "{value} is outside what the {name} may be: {} to {high}.",
        trimmed(*low, 4)
    )
}

/// A value with its unit; a diameter in thousandths of an inch as well, since some makers think in those.
fn with_unit(rule: &Rule, value: f64) -> String {
    let thousandths =
        (rule == &DIAMETER).then(|| Unit::Millimetre.convert(value, Unit::Thousandth));
    let written = number_as_typed(value, rule.unit);
    match thousandths.flatten() {
        Some(thou) => format!("{written} ({})", number_as_typed(thou, Unit::Thousandth)),
        None => written,
    }
}

/// To four decimals at most: typed values may carry the noise of a conversion.
fn number_as_typed(value: f64, unit: Unit) -> String {
    let digits = if value.abs() < 1e9 {
        trimmed(value, 4)
    } else {
        format!("{value:e}")
    };
    match unit.symbol() {
        "" => digits,
        "°" => format!("{digits}°"),
        symbol => format!("{digits}\u{202f}{symbol}"),
    }
}

fn no_such_track(carriers: f64, pattern: Pattern, out: &mut fmt::Formatter<'_>) -> fmt::Result {
    let (slots, name) = (pattern.slots(), pattern.name());
    let least = Track::nearest_carriers(0, pattern);
    let most = Track::nearest_carriers(MOST_CARRIERS, pattern);
    write!(
        out,
        "No track has {carriers} carriers in the pattern {name}: it takes a multiple of {slots}, from {least} to {most}. \
         For another count, choose the pattern first."
    )
}
