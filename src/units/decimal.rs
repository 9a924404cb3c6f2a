//! Reading a decimal number. The standard library reads every text to the last bit of what a number can be, by ten thousand
//! bytes of powers of five, which the visitor would load. Numbers that people type, and those we write, are short: for them
//! one multiplication or division by an exact power of ten is just as exact.

/// The largest power of ten that a number holds exactly: 10^22 = 2^22 · 5^22, and 5^22 < 2^53.
const EXACT_POWER: i32 = 22;
/// How far the rounding of all steps can lead astray, in last places: sixteen steps at most, half a place each, and a
/// number below the normal ones.
const ASTRAY: u64 = 16;
/// Digits that are read; the count of further ones is. 19 digits fit 64 bits.
const DIGITS: usize = 19;

/// The number that a text writes with digits, a point perhaps, a sign and an exponent perhaps: with up to fifteen digits, or as
/// the standard library writes a number, the nearest one there is; else it may be off by some parts in 2^52. Nothing where the
/// text is no number, or too large a one.
pub fn decimal(text: &str) -> Option<f64> {
    let (number, exponent) = match text.split_once(['e', 'E']) {
        Some((number, exponent)) => (number, exponent.parse::<i16>().ok()?),
        None => (text, 0),
    };
    let unsigned = number.strip_prefix(['+', '-']).unwrap_or(number);
    let (whole, part) = unsigned.split_once('.').unwrap_or((unsigned, ""));
    let is_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + part.len() == 0 || !is_digits(whole) || !is_digits(part) {
        return None;
    }
    let (digits, left_out) = digits(whole, part);
    let behind = i32::try_from(part.len()).ok()?;
    let value = nearest(digits, i32::from(exponent) - behind + left_out);
    let sign = if number.starts_with('-') { -1.0 } else { 1.0 };
    value.is_finite().then_some(sign * value)
}

/// The first digits that count, as one whole number, and how many more there were.
fn digits(whole: &str, part: &str) -> (u64, i32) {
    let all = whole.bytes().chain(part.bytes());
    let mut counting = all.skip_while(|&digit| digit == b'0');
    let read = counting.by_ref().take(DIGITS);
    let digits = read.fold(0, |sum, digit| sum * 10 + u64::from(digit - b'0'));
    (digits, counting.map(|_| 1).sum())
}

/// The number nearest to a whole one times a power of ten.
fn nearest(digits: u64, power: i32) -> f64 {
    let value = scaled(digits as f64, power);
    if digits < 1 << f64::MANTISSA_DIGITS && power.abs() <= EXACT_POWER {
        return value;
    }
    // Every step was rounded; the right one is among the neighbours, and is written with these digits.
    let bits = value.to_bits();
    let mut neighbours = (0..=ASTRAY).flat_map(|step| [bits + step, bits.saturating_sub(step)]);
    let wanted = shortest(digits, power);
    let found = neighbours.find(|&bits| written(f64::from_bits(bits)) == Some(wanted));
    found.map_or(value, f64::from_bits)
}

/// The digits of a number as the standard library writes it, the fewest that tell it from all others.
fn written(value: f64) -> Option<(u64, i32)> {
    let text = format!("{value:e}");
    let (number, exponent) = text.split_once('e')?;
    let behind = i32::try_from(number.len().saturating_sub(2)).ok()?;
    let digits = number.replace('.', "").parse().ok()?;
    Some(shortest(digits, exponent.parse::<i32>().ok()? - behind))
}

/// The same without noughts at the end.
fn shortest(mut digits: u64, mut power: i32) -> (u64, i32) {
    while digits != 0 && digits.is_multiple_of(10) {
        digits /= 10;
        power += 1;
    }
    (digits, power)
}

/// A number times a power of ten, in steps that are exact by themselves.
fn scaled(mut value: f64, mut power: i32) -> f64 {
    while power > 0 && value != 0.0 && value.is_finite() {
        let step = power.min(EXACT_POWER);
        value *= power_of_ten(step);
        power -= step;
    }
    while power < 0 && value != 0.0 {
        let step = (-power).min(EXACT_POWER);
        value /= power_of_ten(step);
        power += step;
    }
    value
}

/// Exact, up to the largest exact one: so is every product on the way.
fn power_of_ten(power: i32) -> f64 {
    (0..power).fold(1.0, |product, _| product * 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_number_is_none() {
        for text in [
            "", ".", "-", "+", "e5", "1e", "1e5.0", "1.2.3", "--1", "1-", " 1", "0x10", "inf",
            "NaN", "1e400", "١",
        ] {
            assert_eq!(decimal(text), None, "{text}");
        }
    }

    #[test]
    fn either_side_of_the_point_may_be_empty() {
        let read = [".5", "5.", "+5", "-0.5", "007", "1e3", "2.5E-1", "0e999"].map(decimal);
        let numbers = [0.5, 5.0, 5.0, -0.5, 7.0, 1000.0, 0.25, 0.0].map(Some);
        assert_eq!(read, numbers);
    }

    proptest! {
        /// Against the standard library, which reads every text as exactly as can be.
        #[test]
        fn short_numbers_are_read_exactly(count in 0_u64..1_000_000_000_000_000, power in -22_i32..=22) {
            for power in [power, power * 10] {
                let text = format!("{count}e{power}");
                prop_assert_eq!(decimal(&text), text.parse().ok(), "{}", text);
            }
        }

        #[test]
        fn numbers_with_a_point_are_read_exactly(whole in 0_u32..10_000_000, part in "[0-9]{0,8}", sign in "[+-]?") {
            let text = format!("{sign}{whole}.{part}");
            prop_assert_eq!(decimal(&text), text.parse().ok());
        }

        /// As the standard library writes and reads them.
        #[test]
        fn what_was_written_is_read_back(number in prop::num::f64::ANY) {
            prop_assume!(number.is_finite());
            for text in [number.to_string(), format!("{number:e}")] {
                prop_assert_eq!(decimal(&text), Some(number), "{}", text);
            }
        }

        #[test]
        fn long_numbers_are_read_nearly(whole in "[1-9][0-9]{10,40}", power in -300_i32..=260) {
            let text = format!("{whole}e{power}");
            let exact: f64 = text.parse().unwrap();
            prop_assert!((decimal(&text).unwrap() / exact - 1.0).abs() <= 16.0 * f64::EPSILON, "{}", text);
        }

        #[test]
        fn any_text_is_read_or_refused(text in "\\PC{0,30}") {
            prop_assert!(decimal(&text).is_none_or(f64::is_finite));
        }
    }
}
