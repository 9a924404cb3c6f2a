//! Reading what a maker typed: comma or dot, with or without a unit, feet with inches.

mod digits;
mod number;
mod said;
mod spoken;
mod unit;
mod unread;

pub use digits::with_plain_digits;
use number::{signed, split, unsigned};
pub use said::said;
pub use unit::Unit;
pub use unread::Unread;

/// Reads a number typed into a field that is in unit `field`, and gives it in that unit.
///
/// Accepts a decimal comma or dot, thousands grouped so that no decimal mark can be meant (`1,200.5`, `12,000,000`, `1 200`),
/// a unit of the same kind after the number (`1,2 mm`, `.045"`, `10 ft`), and feet with inches (`10' 6"`, `8' 6 1/8"`). Without a unit
/// the field's own is meant. A sign applies to all of it: `-10' 6"` is ten and a half feet below nothing. Digits of every script
/// are read ([`with_plain_digits`]), and numbers in English words, as a dictation writes them (`zero point nine six`).
///
/// # Errors
/// [`Unread`] when the text is empty, no number, or in a unit that measures something else; also where a comma could
/// separate thousands as well as decimals (`1,200`).
///
/// ```
/// use taperwright::base::units::text::{read, Unit};
/// assert_eq!(read("1,2", Unit::Millimetre), Ok(1.2));
/// assert_eq!(read("10' 6\"", Unit::Foot), Ok(10.5));
/// assert_eq!(read("ninety five thou", Unit::Thousandth), Ok(95.0));
/// assert!(read("12 den", Unit::Foot).is_err());
/// ```
pub fn read(text: &str, field: Unit) -> Result<f64, Unread> {
    let written = read_as_written(text, field).or_else(|unread| match unread {
        Unread::NotANumber(_) => spoken::read(text).ok_or(unread),
        unread => Err(unread),
    });
    let (value, unit) = written?;
    let typed = unit.unwrap_or(field);
    typed.convert(value, field).ok_or(Unread::WrongUnit {
        typed,
        wanted: field,
    })
}

/// Reads a number in digits as [`read`] does, and gives it in the unit that is written after it; without a unit, `None` stands for
/// it. Feet with inches are feet. Units for `field` are suggested where the one written is not known.
///
/// # Errors
/// As for [`read`], but for a unit that measures something else.
///
/// ```
/// use taperwright::base::units::text::{read_as_written, Unit};
/// assert_eq!(read_as_written("0,95 mm", Unit::Metre), Ok((0.95, Some(Unit::Millimetre))));
/// assert_eq!(read_as_written("0.95", Unit::Metre), Ok((0.95, None)));
/// ```
pub fn read_as_written(text: &str, field: Unit) -> Result<(f64, Option<Unit>), Unread> {
    let typed = text.trim();
    let plain = with_plain_digits(typed);
    let text = plain.trim();
    if text.is_empty() {
        return Err(Unread::Empty);
    }
    let (sign, size) = signed(text);
    let value = match feet_and_inches(size) {
        Some((feet, inches)) => {
            let feet = unsigned(feet)? + with_fraction(inches)? / 12.0;
            Ok((sign * feet, Some(Unit::Foot)))
        }
        None => one_number(sign, size, field),
    };
    // What is no number is named as it was typed.
    value.map_err(|unread| match unread {
        Unread::NotANumber(_) => Unread::NotANumber(typed.to_owned()),
        unread => unread,
    })
}

/// Splits `10' 6"` into its two numbers; a lone `10'` is left to [`one_number`].
fn feet_and_inches(text: &str) -> Option<(&str, &str)> {
    let (feet, rest) = text
        .split_once(['\'', '′', '’'])
        .or_else(|| text.split_once("ft"))
        .or_else(|| text.split_once("feet"))
        .or_else(|| text.split_once("foot"))?;
    let inches = rest
        .trim()
        .trim_end_matches(['"', '″', '”', '\''])
        .trim_end_matches("inches")
        .trim_end_matches("inch")
        .trim_end_matches("in")
        .trim();
    (!inches.is_empty() && inches.starts_with(|c: char| c.is_ascii_digit()))
        .then_some((feet, inches))
}

/// A number that may end in a fraction, as inches are shown: `6 1/8`.
fn with_fraction(text: &str) -> Result<f64, Unread> {
    let Some((before, under)) = text.rsplit_once('/') else {
        return unsigned(text);
    };
    let before = before.trim();
    let (whole, over) = before
        .rsplit_once(char::is_whitespace)
        .unwrap_or(("0", before));
    let share = unsigned(over)? / unsigned(under)?;
    if !share.is_finite() {
        return Err(Unread::NotANumber(text.to_owned()));
    }
    Ok(unsigned(whole)? + share)
}

fn one_number(sign: f64, text: &str, field: Unit) -> Result<(f64, Option<Unit>), Unread> {
    let (digits, word) = split(text);
    let value = sign * unsigned(digits)?;
    match word.trim() {
        "" => Ok((value, None)),
        word => {
            let unit = Unit::spelled(&word.to_lowercase());
            let unit = unit.ok_or_else(|| Unread::unknown(word, field))?;
            Ok((value, Some(unit)))
        }
    }
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
        reads("10 feet 6 inches", Unit::Metre, 3.2004);
        reads("1 foot 6", Unit::Foot, 1.5);
        reads("95 microns", Unit::Millimetre, 0.095);
        reads("2.5 metres", Unit::Centimetre, 250.0);
        reads("8′\u{202f}6\u{202f}1/8″", Unit::Foot, 8.0 + 6.125 / 12.0);
        reads("2' 3/4\"", Unit::Foot, 2.062_5);
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
    fn a_fraction_of_nothing_is_no_number() {
        for text in ["8' 1/0\"", "8' 1/\"", "8' 1/2/3\""] {
            assert!(read(text, Unit::Foot).is_err(), "{text}");
        }
    }

    #[test]
    fn thousands_may_be_grouped_where_no_decimal_mark_can_be_meant() {
        for text in [
            "1,200.5",
            "1.200,5",
            "1 200.5",
            "1\u{202f}200,5",
            "1\u{a0}200.5",
        ] {
            reads(text, Unit::Denier, 1200.5);
        }
        for text in [
            "12,000,000",
            "12.000.000",
            "12 000 000",
            "12\u{2009}000\u{2009}000",
        ] {
            reads(text, Unit::One, 12e6);
        }
        reads("1 200 den", Unit::Tex, 1200.0 / 9.0);
        reads("10 000 mm", Unit::Metre, 10.0);
    }

    #[test]
    fn a_comma_that_could_be_either_is_refused() {
        for text in ["1,200", "12,345 den", "-999,000"] {
            let said = read(text, Unit::Denier).unwrap_err().to_string();
            assert!(said.contains("two numbers"), "{said}");
        }
        assert_eq!(
            read("1,200 den", Unit::Denier).unwrap_err().to_string(),
            "“1,200” can mean two numbers. Write 1200 for the large one, or 1.200 for the small one."
        );
        // Nobody groups thousands so.
        reads("0,125", Unit::Denier, 0.125);
        reads("1,25", Unit::Denier, 1.25);
        reads("1,2500", Unit::Denier, 1.25);
        reads("1234,567", Unit::Denier, 1234.567);
        // The page itself writes a dot before decimals.
        reads("1.200", Unit::Denier, 1.2);
    }

    #[test]
    fn groups_that_are_none_are_named() {
        for text in [
            "1,20,000",
            "1,2.5",
            "12 34",
            "1 2000",
            "1,200,5",
            ",200,000",
            "1,000 000.5",
        ] {
            assert!(read(text, Unit::One).is_err(), "{text}");
        }
    }

    #[test]
    fn a_sign_applies_to_all_of_it() {
        reads("-10' 6\"", Unit::Foot, -10.5);
        reads("−10ft 6in", Unit::Foot, -10.5);
        reads("-0' 6\"", Unit::Foot, -0.5);
        reads("+10' 6\"", Unit::Foot, 10.5);
        reads("−1,200.5", Unit::One, -1200.5);
        for text in ["--5", "+-5", "10' -6\"", "5-", "-"] {
            assert!(read(text, Unit::Foot).is_err(), "{text}");
        }
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
