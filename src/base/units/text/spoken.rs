//! Numbers in English words, as a dictation writes them.
//!
//! A number is a whole number (`one hundred and five`), `point` and digits after it (`zero point nine six`), or `point` and
//! digits alone. A unit may follow it. Only what has one meaning is read: `nine five`, `point ninety five`, `two and a half` and
//! `one metre twenty` are no numbers here. Grammar of English numerals: from memory.

use super::unit::Unit;

/// The digits and what each is called; each word stands at the place of its digit.
pub(super) const DIGITS: [&[&str]; 10] = [
    &["zero", "oh", "nought", "naught"],
    &["one"],
    &["two"],
    &["three"],
    &["four"],
    &["five"],
    &["six"],
    &["seven"],
    &["eight"],
    &["nine"],
];
/// From ten on.
pub(super) const TEENS: [&str; 10] = [
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
/// The tens from twenty on.
pub(super) const TENS: [&str; 8] = [
    "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
];
/// Most words looked at: `nine hundred and ninety nine thousand nine hundred and ninety nine point` and 15 digits have fewer.
const MOST_WORDS: usize = 32;
/// Most bytes looked at.
const MOST_BYTES: usize = 400;

/// The number of some words and the unit after it; `None` where they have no meaning, or more than one.
pub(super) fn read(text: &str) -> Option<(f64, Option<Unit>)> {
    if text.len() > MOST_BYTES {
        return None;
    }
    let lower = text.to_lowercase();
    let is_between = |c: char| c.is_whitespace() || c == '-';
    let words: Vec<&str> = lower
        .split(is_between)
        .filter(|word| !word.is_empty())
        .collect();
    let last = *words.last()?;
    if words.len() > MOST_WORDS {
        return None;
    }
    match Unit::spelled(last) {
        Some(unit) => number(&words[..words.len() - 1]).map(|value| (value, Some(unit))),
        None => number(&words).map(|value| (value, None)),
    }
}

fn number(words: &[&str]) -> Option<f64> {
    let point = words.iter().position(|word| *word == "point");
    let (whole, decimals) = match point {
        Some(at) => (&words[..at], Some(&words[at + 1..])),
        None => (words, None),
    };
    let whole = match (whole, decimals) {
        ([], Some(_)) => 0,
        // “oh” is a digit among others, no number of its own.
        (["oh"], None) => return None,
        (whole, _) => below_million(whole)?,
    };
    let decimals = decimals.map_or(Some("0".to_owned()), digits)?;
    // As the same number in digits is read, to the last bit.
    format!("{whole}.{decimals}").parse().ok()
}

/// Digits one by one; `None` where there are none.
fn digits(words: &[&str]) -> Option<String> {
    let digits = words.iter().map(|word| digit(word));
    let digits: String = digits
        .map(|digit| digit.and_then(|digit| char::from_digit(digit, 10)))
        .collect::<Option<_>>()?;
    (!digits.is_empty()).then_some(digits)
}

fn digit(word: &str) -> Option<u32> {
    let at = DIGITS.iter().position(|names| names.contains(&word))?;
    u32::try_from(at).ok()
}

/// `two thousand five hundred and six`.
fn below_million(words: &[&str]) -> Option<u32> {
    let Some(at) = words.iter().position(|word| *word == "thousand") else {
        return below_thousand(words);
    };
    let thousands = below_thousand(&words[..at]).filter(|count| *count > 0)?;
    let rest = match &words[at + 1..] {
        [] => 0,
        // After “and” there is less than a hundred.
        ["and", rest @ ..] => below_hundred(rest).filter(|rest| *rest > 0)?,
        rest => below_thousand(rest).filter(|rest| *rest > 0)?,
    };
    Some(thousands * 1000 + rest)
}

/// `one hundred and five`, `a hundred`.
fn below_thousand(words: &[&str]) -> Option<u32> {
    let Some(at) = words.iter().position(|word| *word == "hundred") else {
        return below_hundred(words);
    };
    let hundreds = match &words[..at] {
        ["a"] => 1,
        [word] => digit(word).filter(|digit| *digit > 0)?,
        _ => return None,
    };
    let rest = match &words[at + 1..] {
        [] => 0,
        ["and", rest @ ..] | rest => below_hundred(rest).filter(|rest| *rest > 0)?,
    };
    Some(hundreds * 100 + rest)
}

/// `twelve`, `ninety five`.
fn below_hundred(words: &[&str]) -> Option<u32> {
    let place = |names: &[&str], word: &str| names.iter().position(|name| *name == word);
    let tens = |word: &str| {
        let at = place(&TENS, word)?;
        u32::try_from(at).ok().map(|at| at * 10 + 20)
    };
    let teens = |word: &str| {
        let at = place(&TEENS, word)?;
        u32::try_from(at).ok().map(|at| at + 10)
    };
    match words {
        [word] => digit(word).or_else(|| teens(word)).or_else(|| tens(word)),
        [ten, one] => Some(tens(ten)? + digit(one).filter(|digit| *digit > 0)?),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::base::units::text::{Unit, Unread, read};

    #[test]
    fn words_are_read_as_their_digits_are() {
        // Analytic: what the words mean in English.
        for (words, digits) in [
            ("zero point nine six", "0.96"),
            ("nought point nine", "0.9"),
            ("oh point nine five", "0.95"),
            ("Zero point oh nine five", "0.095"),
            ("point eight", ".8"),
            ("one point zero", "1"),
            ("zero", "0"),
            ("twelve", "12"),
            ("ninety-five", "95"),
            ("one hundred and five", "105"),
            ("one hundred five", "105"),
            ("a hundred", "100"),
            ("two thousand five hundred and six", "2506"),
            ("three thousand and six", "3006"),
            ("nine hundred and ninety nine thousand", "999000"),
            ("twenty two point five", "22.5"),
        ] {
            let wanted = read(digits, Unit::Millimetre).expect("digits");
            let heard = read(words, Unit::Millimetre);
            assert_eq!(heard.map(f64::to_bits), Ok(wanted.to_bits()), "{words}");
        }
    }

    #[test]
    fn a_unit_may_follow() {
        for (words, digits) in [
            ("ninety five thou", "95 thou"),
            ("zero point nine six millimetres", "0.96 mm"),
            ("twelve feet", "12 ft"),
            ("One Metre", "1 m"),
            ("forty thousandths", "40 thou"),
        ] {
            let heard = read(words, Unit::Millimetre);
            assert_eq!(heard, read(digits, Unit::Millimetre), "{words}");
            assert!(heard.is_ok(), "{words}");
        }
        assert_eq!(
            read("nine grams", Unit::Metre),
            Err(Unread::WrongUnit {
                typed: Unit::Gram,
                wanted: Unit::Metre
            })
        );
    }

    #[test]
    fn what_has_no_one_meaning_is_no_number() {
        for words in [
            "nine five",
            "one oh five",
            "point ninety five",
            "nineteen twenty",
            "twenty zero",
            "twenty twelve",
            "two and a half",
            "one metre twenty",
            "point",
            "one point",
            "point five point six",
            "hundred",
            "zero hundred",
            "one hundred and",
            "one hundred zero",
            "thousand and one",
            "oh",
            "thou",
            "eins",
            "ninety five elbows",
            "and five",
            "one thousand and two hundred",
            "one thousand two thousand",
        ] {
            assert_eq!(
                read(words, Unit::Millimetre),
                Err(Unread::NotANumber(words.to_owned())),
                "{words}"
            );
        }
        let endless = "one ".repeat(5_000);
        assert!(read(&endless, Unit::One).is_err());
    }

    /// Every whole number below a million, said as in English, is itself.
    #[test]
    fn whole_numbers_are_counted_through() {
        for number in (0..1_100).chain((1_100..1_000_000).step_by(997)) {
            assert_eq!(
                read(&said(number), Unit::One),
                Ok(f64::from(number)),
                "{}",
                said(number)
            );
        }
    }

    fn said(number: u32) -> String {
        let below_twenty = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen";
        let names: Vec<&str> = below_twenty.split(' ').collect();
        let tens = "twenty thirty forty fifty sixty seventy eighty ninety";
        let tens: Vec<&str> = tens.split(' ').collect();
        let and = |rest: u32| match rest {
            0 => String::new(),
            1..100 => format!(" and {}", said(rest)),
            _ => format!(" {}", said(rest)),
        };
        match number {
            0..20 => names[number as usize].to_owned(),
            20..100 => match number % 10 {
                0 => tens[number as usize / 10 - 2].to_owned(),
                one => format!("{}-{}", tens[number as usize / 10 - 2], names[one as usize]),
            },
            100..1000 => format!("{} hundred{}", said(number / 100), and(number % 100)),
            _ => format!("{} thousand{}", said(number / 1000), and(number % 1000)),
        }
    }
}
