//! Refusals in words: what is wrong, and what would be allowed.

use core::fmt;

use super::{LEAST_SPACING, MOST_GEARS, MOST_PINS, MOST_POINTS, Refusal};
use crate::base::choice::Choice;
use crate::base::rule::{Misfit, Rule};
use crate::base::units::show::trimmed;
use crate::base::units::text::Unit;
use crate::braid::recipe::MOST_STEPS;
use crate::braid::takeoff::Train;
use crate::braid::track::{MOST_CARRIERS, NoTrack, Pattern};
use crate::design::settings::{DIAMETER, POSITION};

impl fmt::Display for Refusal {
    #[expect(
        clippy::too_many_lines,
        reason = "one sentence for each refusal, none of which is long"
    )]
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Misfit { misfit, .. } => misfit_in_words(misfit, out),
            Self::OutsideRange { what, value, .. } if !value.is_finite() => {
                write!(out, "Type a number for {}.", what.trim_end_matches(','))
            }
            Self::OutsideRange {
                what,
                value,
                range: (low, high),
                unit,
                ..
            } => write!(
                out,
                "{} is not possible. For {what} you can type {} to {}.",
                number_in_both(*value, *unit),
                trimmed(*low, 4),
                number_in_both(*high, *unit)
            ),
            Self::LabelUpsideDown { low, high } => {
                write!(
                    out,
                    "The finest end, {low} den, is heavier than the heaviest, {high} den. Put the smaller number first."
                )
            }
            Self::BraidDenserThanThread { braid, thread } => write!(
                out,
                "The braid cannot be more solid, {braid} %, than its threads are, {thread} %."
            ),
            Self::NoRoomAt { at } => write!(
                out,
                "There is no room for another point at {}. Points must be at least {} mm apart, between tip and end.",
                with_unit(&POSITION, *at),
                LEAST_SPACING * 1e3
            ),
            Self::MiddleStays(index) => write!(
                out,
                "Point {} stays in the middle, because both ends move alike. Let each end move by itself to move this point.",
                index + 1
            ),
            Self::GearCount(0) => {
                write!(
                    out,
                    "The machine needs at least one change gear. List the teeth of those you own."
                )
            }
            Self::GearCount(count) => {
                write!(
                    out,
                    "{count} change gears are too many: there is room for {MOST_GEARS}."
                )
            }
            Self::TooMany {
                what,
                count,
                allowed,
                ..
            } => write!(
                out,
                "{count} {what} are too many: there is room for {allowed}."
            ),
            Self::CutWithoutLength(index) => write!(
                out,
                "Weighed piece {} must end after it begins. Put the smaller distance first.",
                index + 1
            ),
            Self::ShorterThanReadings { length, last } => write!(
                out,
                "The line cannot be {length} m long: its last reading is at {last} m. Correct one of the two."
            ),
            Self::PointCount(count) => write!(
                out,
                "A taper needs 2 to {MOST_POINTS} points; this one has {count}."
            ),
            Self::TipNotAtZero { at } => write!(
                out,
                "The first point must be at the tip, 0 m. It is at {at} m."
            ),
            Self::PointsTooClose {
                index,
                at,
                previous,
            } => write!(
                out,
                "Points {index} and {} must be in order and at least {} mm apart. Point {index} is at {previous} m, point {} at {at} m.",
                index + 1,
                LEAST_SPACING * 1e3,
                index + 1
            ),
            Self::NoSuchTrack {
                horn_gears,
                pattern,
                why,
            } => no_such_track(*horn_gears, *pattern, *why, out),
            Self::MoreThreadsThanCarriers {
                threads, carriers, ..
            } => {
                write!(
                    out,
                    "{threads} threads need {threads} carriers. This machine has {carriers}."
                )
            }
            Self::FewestAboveMost { fewest, most } => write!(
                out,
                "The fewest threads, {fewest}, must not be more than the most, {most}."
            ),
            Self::Lopsided { threads, balanced } => write!(
                out,
                "{threads} threads are too many for these carriers: {balanced} at most can be balanced. Neither \
                 direction may have two threads more than the other."
            ),
            Self::HeavierNotHeavier { light, heavy } => write!(
                out,
                "The heavier thread needs more ends than the standard one: {heavy} are not more than {light}."
            ),
            Self::NoPair { train, sum } => no_pair(*train, *sum, out),
            Self::BobbinWithoutRoom { barrel, full } => write!(
                out,
                "A bobbin {full} mm full has no room on a barrel of {barrel} mm."
            ),
            Self::PinCount(count) => write!(
                out,
                "{count} pins are too many: there is room for {MOST_PINS}. Remove some pins."
            ),
            Self::StepCount(count) => write!(
                out,
                "{count} dressing steps are too many: there is room for {MOST_STEPS}. Remove some steps."
            ),
            Self::AboveAir { mbar, air_mbar, .. } => write!(
                out,
                "{} mbar cannot be left in the jar: the air around it has only {} mbar. If a gauge shows this number, type it into the field for the gauge.",
                trimmed(*mbar, 1),
                trimmed(*air_mbar, 2)
            ),
            Self::BadPin(index) => write!(
                out,
                "Pin {} names more threads than a machine can have carriers, {MOST_CARRIERS}.",
                index + 1
            ),
            Self::TextTooLong {
                characters,
                allowed,
                ..
            } => {
                write!(
                    out,
                    "{characters} characters are too many: there is room for {allowed}."
                )
            }
        }
    }
}

fn misfit_in_words(misfit: &Misfit, out: &mut fmt::Formatter<'_>) -> fmt::Result {
    match misfit {
        Misfit::NotANumber { rule } => write!(out, "“{}” needs a number.", rule.name),
        Misfit::OutOfRange { rule, value } => out_of_range(rule, *value, out),
        Misfit::NotWhole { rule, value } => {
            write!(out, "“{}” needs a whole number, not {value}.", rule.name)
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
        "{value} is not possible for “{name}”. Type {} to {high}.",
        trimmed(*low, 4)
    )
}

/// A value with its unit; what is typed in either system is said in both.
fn with_unit(rule: &Rule, value: f64) -> String {
    if [DIAMETER, POSITION].contains(rule) {
        number_in_both(value, rule.unit)
    } else {
        number_as_typed(value, rule.unit)
    }
}

/// A length of the line in feet too, and a diameter in thousandths of an inch.
fn number_in_both(value: f64, unit: Unit) -> String {
    let written = number_as_typed(value, unit);
    // No finer than anybody measures.
    let (other, steps) = match unit {
        Unit::Millimetre => (Unit::Thousandth, 10.0),
        Unit::Metre => (Unit::Foot, 100.0),
        _ => return written,
    };
    let Some(converted) = unit.convert(value, other).filter(|it| it.is_finite()) else {
        return written;
    };
    let rounded = (converted * steps).round() / steps;
    format!("{written} ({})", number_as_typed(rounded, other))
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

fn no_pair(train: Train, sum: f64, out: &mut fmt::Formatter<'_>) -> fmt::Result {
    match train {
        Train::FixedCentres => write!(
            out,
            "No two of your gears have {sum} teeth together. List both gears of each pair. List a gear twice if it \
             is paired with an equal one."
        ),
        Train::Driver | Train::Driven | Train::FreePair => {
            write!(
                out,
                "A pair needs two gears. List at least two, or one twice."
            )
        }
    }
}

fn no_such_track(
    horn_gears: f64,
    pattern: Pattern,
    why: NoTrack,
    out: &mut fmt::Formatter<'_>,
) -> fmt::Result {
    let slots = pattern.slots();
    match why {
        NoTrack::NoSuchRing => write!(
            out,
            "There is no ring of {horn_gears} horn gears with {slots} slots. The number of horn gears must be even, \
             because neighbours turn opposite ways. A ring has 4 to 128 places."
        ),
        NoTrack::PlaceOffTrack(direction, place) => write!(
            out,
            "There is no {} place {}: the ring has {} each way.",
            direction.name(),
            u64::from(place) + 1,
            horn_gears * f64::from(slots) / 4.0
        ),
        NoTrack::TooFewMounted => write!(
            out,
            "A braid needs at least two carriers each way. Mount carriers on more places."
        ),
        NoTrack::TooManyMounted => write!(
            out,
            "Plans with more than {MOST_CARRIERS} carriers are not possible here. Mount carriers on fewer places."
        ),
    }
}
