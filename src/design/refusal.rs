//! Why a design was refused, said about the input: which value, and what would be allowed.

use core::fmt;

use super::settings::{DIAMETER, POSITION, Rule, Setting};
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
    /// The braid would hold more fibre in its section than its threads do in theirs.
    BraidDenserThanThread {
        /// Fibre in the braid's section, percent.
        braid: f64,
        /// Fibre in the thread's section, percent.
        thread: f64,
    },
    /// There is no room for a point between this one and the next.
    NoRoomBehind(usize),
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
            Self::BraidDenserThanThread { .. } => Place::Setting(Setting::FibreFraction),
            Self::NoSuchTrack { .. } => Place::Pattern,
            Self::MoreThreadsThanCarriers { .. } => Place::Setting(Setting::FewestThreads),
            Self::GearCount(_) => Place::Gears,
            Self::PointCount(_) => Place::Taper,
            Self::TipNotAtZero { .. } => Place::Point(0),
            Self::PointsTooClose { index, .. } | Self::NoRoomBehind(index) => Place::Point(index),
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
            Self::BraidDenserThanThread { braid, thread } => write!(
                out,
                "The braid cannot hold more fibre in its section, {braid} %, than its threads do in theirs, {thread} %."
            ),
            Self::NoRoomBehind(index) => write!(
                out,
                "Points {} and {} are too near each other for one between them: points lie at least {} mm apart.",
                index + 1,
                index + 2,
                LEAST_SPACING * 1e3
            ),
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

/// A value with its unit; what is typed in either system is said in both.
fn with_unit(rule: &Rule, value: f64) -> String {
    let written = number_as_typed(value, rule.unit);
    let other = match rule {
        rule if *rule == DIAMETER => Unit::Thousandth,
        rule if *rule == POSITION => Unit::Foot,
        _ => return written,
    };
    let converted = rule.unit.convert(value, other).unwrap_or(value);
    format!("{written} ({})", number_as_typed(converted, other))
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
