//! Numbers as they are said in English: `nought point nine six six`, `two thousand five hundred and six`. What is said is read again
//! by [`super::read`].

use super::spoken::{DIGITS, TEENS, TENS};

/// The name of 0 among those of its digit: as it is said before a point.
const NOUGHT: usize = 2;
/// From here on numbers are said digit by digit, as no maker counts so far.
const MILLION: u64 = 1_000_000;

/// A number to so many decimals, without zeros at the end that say nothing. What is no number is said to be unknown.
///
/// ```
/// use taperwright::base::units::text::said;
/// assert_eq!(said(0.966, 3), "nought point nine six six");
/// assert_eq!(said(22.0, 0), "twenty-two");
/// assert_eq!(said(2506.5, 2), "two thousand five hundred and six point five");
/// ```
pub fn said(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "unknown".to_owned();
    }
    let written = format!("{:.decimals$}", value.abs());
    let (whole, part) = written.split_once('.').unwrap_or((&written, ""));
    let mut words = whole.parse().map_or_else(|_| digits(whole), counted);
    let part = part.trim_end_matches('0');
    if !part.is_empty() {
        words = format!("{words} point {}", digits(part));
    }
    let is_zero = whole.bytes().all(|digit| digit == b'0') && part.is_empty();
    if value < 0.0 && !is_zero {
        words = format!("minus {words}");
    }
    words
}

/// A whole number.
fn counted(number: u64) -> String {
    match number {
        MILLION.. => digits(&number.to_string()),
        1000.. => and_rest(
            format!("{} thousand", counted(number / 1000)),
            number % 1000,
        ),
        100.. => and_rest(format!("{} hundred", counted(number / 100)), number % 100),
        20.. => {
            let tens = TENS[place(number / 10 - 2)];
            match number % 10 {
                0 => tens.to_owned(),
                one => format!("{tens}-{}", digit(one)),
            }
        }
        10.. => TEENS[place(number - 10)].to_owned(),
        _ => digit(number).to_owned(),
    }
}

fn and_rest(words: String, rest: u64) -> String {
    match rest {
        0 => words,
        1..100 => format!("{words} and {}", counted(rest)),
        _ => format!("{words} {}", counted(rest)),
    }
}

fn digits(text: &str) -> String {
    let digits = text.bytes().map(|byte| digit(u64::from(byte - b'0')));
    digits.collect::<Vec<_>>().join(" ")
}

fn digit(digit: u64) -> &'static str {
    let names = DIGITS[place(digit)];
    names.get(NOUGHT).unwrap_or(&names[0])
}

/// A number below ten as a place in a list.
fn place(number: u64) -> usize {
    usize::try_from(number % 10).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::said;
    use crate::base::units::text::{Unit, read};

    #[test]
    fn what_is_said_is_read_as_the_same_number() {
        let whole = (0..1_100_u32).chain((1_100..1_000_000).step_by(997));
        for number in whole.map(f64::from) {
            let words = said(number, 0);
            assert_eq!(read(&words, Unit::One), Ok(number), "{words}");
        }
        for thousandths in (1..30_000_u32).step_by(7) {
            let number: f64 = format!("{}.{:03}", thousandths / 1000, thousandths % 1000)
                .parse()
                .expect("a number");
            let words = said(number, 3);
            assert_eq!(read(&words, Unit::Metre), Ok(number), "{words}");
        }
    }

    #[test]
    fn numbers_are_said_as_in_english() {
        // Analytic: what the numbers are called.
        for (value, decimals, words) in [
            (0.0, 2, "nought"),
            (-0.001, 2, "nought"),
            (0.05, 2, "nought point nought five"),
            (-1.5, 1, "minus one point five"),
            (25.146, 3, "twenty-five point one four six"),
            (101.0, 0, "one hundred and one"),
            (12_000.0, 0, "twelve thousand"),
            (1_234_567.0, 0, "one two three four five six seven"),
            (f64::NAN, 0, "unknown"),
        ] {
            assert_eq!(said(value, decimals), words);
        }
    }
}
