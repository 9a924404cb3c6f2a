//! What is expected of the braid at the machine, what was measured, and what a correction of the gears changes.

use crate::base::units::show::{Units, angle_at_machine, trimmed};
use crate::base::units::text::{Unit, read};
use crate::base::units::{Angle, Length, METRES_PER_INCH};
use crate::plan::run::{
    Check, CheckKind, CheckLevel, CheckRange, Expected, Measured, OtherGear, Regearing,
};

/// Most stretches with another gear, and most changes spared, that are named one by one. Our own choice.
const NAMED: usize = 3;

/// What the braid should look like: `44.5° · 31.2 crossings per cm · 0.82 mm`.
pub fn expected(expected: &Expected, units: Units) -> String {
    let angle = angle_at_machine(Angle::from_degrees(expected.angle.planned));
    let [crossings, diameter] = [CheckKind::Crossings, CheckKind::Diameter]
        .map(|kind| number(kind, expected.of(kind).planned, units));
    let [per, wide] =
        [CheckKind::Crossings, CheckKind::Diameter].map(|kind| check_unit(kind, units));
    format!("{angle} · {crossings} crossings {per} · {diameter}\u{202f}{wide}")
}

/// What a field for a measured value is called.
pub const fn check_name(kind: CheckKind) -> &'static str {
    match kind {
        CheckKind::Angle => "braid angle",
        CheckKind::Crossings => "crossings along one rib",
        CheckKind::Diameter => "diameter before dressing",
    }
}

/// The unit of a measured value.
pub fn check_unit(kind: CheckKind, units: Units) -> &'static str {
    match kind {
        CheckKind::Angle => "°",
        CheckKind::Crossings => units.show_crossings_unit(),
        CheckKind::Diameter => units.diameter().symbol(),
    }
}

/// Reads a measured value, in the unit of its kind.
///
/// # Errors
/// Why it is no such number.
pub fn read_check(kind: CheckKind, text: &str, units: Units) -> Result<f64, String> {
    let field = match kind {
        CheckKind::Angle => Unit::Degree,
        CheckKind::Crossings => Unit::One,
        CheckKind::Diameter => units.diameter(),
    };
    let typed = read(text, field).map_err(|unread| unread.to_string())?;
    Ok(typed / by(kind, units))
}

/// A measured value as it stands in its field.
pub fn check_text(kind: CheckKind, value: f64, units: Units) -> String {
    trimmed(value * by(kind, units), 3)
}

/// A measured value with its unit: `46.0°`, `31.2 per cm`, `0.82 mm`.
pub fn check_value(kind: CheckKind, value: f64, units: Units) -> String {
    with_unit(&number(kind, value, units), kind, units)
}

/// A measured value with its unit, and where it came from a photo with its error: `46.2° ± 0.5° by photo`, `31.2 ± 0.3 per cm by photo`.
pub fn check_measured(measured: Measured, units: Units) -> String {
    let Measured { kind, value, .. } = measured;
    let Some(error) = measured.own_error() else {
        return check_value(kind, value, units);
    };
    let number = number(kind, value, units);
    let error = error_digits(error * by(kind, units));
    let whole = match kind {
        CheckKind::Angle => format!("{number}° ± {error}°"),
        _ => with_unit(&format!("{number} ± {error}"), kind, units),
    };
    format!("{whole} by photo")
}

/// What is said below a number of a photo; `unit` is that of the number, empty for a count: `from a photo, ± 0.5°`.
pub fn from_photo(error: f64, unit: &str) -> String {
    format!("from a photo, ± {}{unit}", error_digits(error))
}

/// An error with as many decimals as leave something of it.
fn error_digits(error: f64) -> String {
    if error >= 0.095 {
        format!("{error:.1}")
    } else if error >= 0.0095 {
        format!("{error:.2}")
    } else {
        format!("{error:.3}")
    }
}

/// The values that are fine: `43.2 to 46.8°`.
pub fn check_range(kind: CheckKind, range: &CheckRange, units: Units) -> String {
    let [low, high] = [range.low(), range.high()].map(|value| number(kind, value, units));
    with_unit(&format!("{low} to {high}"), kind, units)
}

/// What a measured value means, with the range: `46.0°: fine (43.2 to 46.8°)`, `47.5°: drifting. Fine is 43.2 to 46.8°. Measure again soon.`
pub fn check_verdict(check: &Check, units: Units) -> String {
    let value = check_measured(check.measured(), units);
    let range = check_range(check.kind, &check.range(), units);
    let level = check.level();
    let name = level.name();
    match level {
        CheckLevel::Fine => format!("{value}: {name} ({range})"),
        CheckLevel::Drifting => {
            format!("{value}: {name}. Fine is {range}. Measure again soon.")
        }
        CheckLevel::Stop => format!("{value}: {name}. Fine is {range}."),
    }
}

/// A measured value in a list; `at` is its place in the maker's way of writing: `at 2.591 m: angle 46.0°, fine`.
pub fn check_row(check: &Check, at: &str, units: Units) -> String {
    let value = check_measured(check.measured(), units);
    let (name, level) = (check_name(check.kind), check.level().name());
    format!("at {at}: {name} {value}, {level}")
}

/// How the gears of the rest change, in sentences; `shown` writes a place on a line of this length.
pub fn regearing(
    regearing: &Regearing,
    length: Length,
    shown: impl Fn(Length) -> String,
) -> Vec<String> {
    if regearing.others.is_empty() {
        return vec!["No gear you own brings the angle closer: the gears stay.".to_owned()];
    }
    let other = |other: &OtherGear| {
        let from = if other.from == regearing.at {
            "now".to_owned()
        } else {
            format!("from {}", shown(other.from))
        };
        let to = if other.to == length {
            "to the end".to_owned()
        } else {
            format!("until {}", shown(other.to))
        };
        format!(
            "Gear {} instead of {} {from}, {to}.",
            other.wheels, other.instead_of
        )
    };
    let spared = |at: &Length| format!("The gear change at {} is no longer needed.", shown(*at));
    let others = regearing.others.iter().take(NAMED).map(other);
    let mut sentences: Vec<String> = others.collect();
    sentences.extend(more(regearing.others.len(), "stretches with another gear"));
    sentences.extend(regearing.spared.iter().take(NAMED).map(spared));
    sentences.extend(more(
        regearing.spared.len(),
        "gear changes no longer needed",
    ));
    sentences
}

fn more(count: usize, what: &str) -> Option<String> {
    let more = count.saturating_sub(NAMED);
    (more > 0).then(|| format!("And {more} more {what}."))
}

fn number(kind: CheckKind, value: f64, units: Units) -> String {
    let value = value * by(kind, units);
    match (kind, units) {
        (CheckKind::Diameter, Units::Metric) => format!("{value:.2}"),
        _ => format!("{value:.1}"),
    }
}

fn with_unit(number: &str, kind: CheckKind, units: Units) -> String {
    let unit = check_unit(kind, units);
    match kind {
        CheckKind::Angle => format!("{number}{unit}"),
        CheckKind::Crossings => format!("{number} {unit}"),
        CheckKind::Diameter => format!("{number}\u{202f}{unit}"),
    }
}

/// By how much a number in the maker's unit is larger than in that of its kind.
fn by(kind: CheckKind, units: Units) -> f64 {
    match (kind, units) {
        (CheckKind::Crossings, Units::Imperial) => METRES_PER_INCH * 100.0,
        (CheckKind::Diameter, Units::Imperial) => Length::from_millimetres(1.0).thousandths(),
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(kind: CheckKind, value: f64) -> Check {
        Check {
            kind,
            value,
            planned: 45.0,
            fine: 1.8,
            done: 1,
            at_m: 2.591,
            error: None,
        }
    }

    #[test]
    fn a_value_is_shown_with_its_range_and_what_it_means() {
        let words = check_verdict(&check(CheckKind::Angle, 46.0), Units::Metric);
        assert_eq!(words, "46.0°: fine (43.2 to 46.8°)");
        let words = check_row(&check(CheckKind::Angle, 47.5), "2.591 m", Units::Metric);
        assert_eq!(words, "at 2.591 m: braid angle 47.5°, drifting");
        let words = check_verdict(&check(CheckKind::Angle, 52.0), Units::Metric);
        assert!(words.contains("stop"), "{words}");
    }

    /// The error of a photo stands beside its value, with one digit at least. An inch is 2.54 cm, by definition.
    #[test]
    fn a_value_of_a_photo_is_shown_with_its_error() {
        let by_photo = |kind, value, error| Check {
            error: Some(error),
            ..check(kind, value)
        };
        let angle = by_photo(CheckKind::Angle, 46.2, 0.52);
        let words = check_verdict(&angle, Units::Metric);
        assert_eq!(words, "46.2° ± 0.5° by photo: fine (43.2 to 46.8°)");
        let words = check_row(&angle, "8 ft 6 in", Units::Imperial);
        assert_eq!(
            words,
            "at 8 ft 6 in: braid angle 46.2° ± 0.5° by photo, fine"
        );
        let crossings = by_photo(CheckKind::Crossings, 31.0, 0.3).measured();
        let shown = check_measured(crossings, Units::Metric);
        assert_eq!(shown, "31.0 ± 0.3 per cm by photo");
        let shown = check_measured(crossings, Units::Imperial);
        assert_eq!(shown, "78.7 ± 0.8 per in by photo");
        assert_eq!(from_photo(0.094, "°"), "from a photo, ± 0.09°");
        assert_eq!(from_photo(0.0038, ""), "from a photo, ± 0.004");
        // An error that cannot be is not shown, nor one of a micrometer.
        for none in [
            by_photo(CheckKind::Angle, 46.2, -0.5),
            by_photo(CheckKind::Angle, 46.2, f64::NAN),
            by_photo(CheckKind::Diameter, 0.8, 0.01),
        ] {
            let shown = check_measured(none.measured(), Units::Metric);
            assert!(!shown.contains('±') && !shown.contains("photo"), "{shown}");
        }
    }

    /// An inch is 2.54 cm, and a thousandth of it 0.0254 mm, by definition.
    #[test]
    fn values_are_typed_and_shown_in_the_makers_units() {
        let read = |kind, text| read_check(kind, text, Units::Imperial).expect("a number");
        assert!((read(CheckKind::Crossings, "78.74") - 31.0).abs() < 1e-9);
        assert!((read(CheckKind::Diameter, "32") - 0.8128).abs() < 1e-12);
        assert!((read(CheckKind::Diameter, "0.82 mm") - 0.82).abs() < 1e-12);
        assert!((read(CheckKind::Angle, "46°") - 46.0).abs() < 1e-12);
        for kind in CheckKind::ALL {
            for units in [Units::Metric, Units::Imperial] {
                let text = check_text(kind, 31.0, units);
                let again = read_check(kind, &text, units).expect("it reads back");
                assert!((again - 31.0).abs() < 1e-3, "{kind:?} {text}");
                assert!(read_check(kind, "much", units).is_err());
            }
        }
        let shown = check_value(CheckKind::Crossings, 31.0, Units::Imperial);
        assert_eq!(shown, "78.7 per in");
        let shown = check_value(CheckKind::Diameter, 0.8128, Units::Imperial);
        assert_eq!(shown, "32.0\u{202f}thou");
    }
}
