//! Digits, marks and letters of other scripts, as the ones every reader here knows.

/// The zero of every set of decimal digits but the plain and the full-width ones; the other nine follow it. Source: The Unicode Standard 16.0, general category Nd
/// (`DerivedNumericType`, type Decimal).
const ZEROS: [char; 74] = [
    '\u{660}',
    '\u{6f0}',
    '\u{7c0}',
    '\u{966}',
    '\u{9e6}',
    '\u{a66}',
    '\u{ae6}',
    '\u{b66}',
    '\u{be6}',
    '\u{c66}',
    '\u{ce6}',
    '\u{d66}',
    '\u{de6}',
    '\u{e50}',
    '\u{ed0}',
    '\u{f20}',
    '\u{1040}',
    '\u{1090}',
    '\u{17e0}',
    '\u{1810}',
    '\u{1946}',
    '\u{19d0}',
    '\u{1a80}',
    '\u{1a90}',
    '\u{1b50}',
    '\u{1bb0}',
    '\u{1c40}',
    '\u{1c50}',
    '\u{a620}',
    '\u{a8d0}',
    '\u{a900}',
    '\u{a9d0}',
    '\u{a9f0}',
    '\u{aa50}',
    '\u{abf0}',
    '\u{104a0}',
    '\u{10d30}',
    '\u{10d40}',
    '\u{11066}',
    '\u{110f0}',
    '\u{11136}',
    '\u{111d0}',
    '\u{112f0}',
    '\u{11450}',
    '\u{114d0}',
    '\u{11650}',
    '\u{116c0}',
    '\u{116d0}',
    '\u{116da}',
    '\u{11730}',
    '\u{118e0}',
    '\u{11950}',
    '\u{11bf0}',
    '\u{11c50}',
    '\u{11d50}',
    '\u{11da0}',
    '\u{11f50}',
    '\u{16130}',
    '\u{16a60}',
    '\u{16ac0}',
    '\u{16b50}',
    '\u{16d70}',
    '\u{1ccf0}',
    '\u{1d7ce}',
    '\u{1d7d8}',
    '\u{1d7e2}',
    '\u{1d7ec}',
    '\u{1d7f6}',
    '\u{1e140}',
    '\u{1e2f0}',
    '\u{1e4f0}',
    '\u{1e5f1}',
    '\u{1e950}',
    '\u{1fbf0}',
];

/// Where the full-width forms of the letters from `!` to `~` begin. Source: The Unicode Standard, block Halfwidth and
/// Fullwidth Forms.
const FULL_WIDTH: core::ops::RangeInclusive<char> = '\u{ff01}'..='\u{ff5e}';
/// How far a full-width form stands from its letter. Source: the same.
const FULL_WIDTH_BY: u32 = 0xfee0;

/// A typed text with plain digits, and with plain marks where another script has its own. Marks of direction
/// are left out: keyboards of scripts written from right to left add them. What overrides the direction stays and is refused: it shows
/// another number than it holds.
pub fn with_plain_digits(text: &str) -> String {
    text.chars().filter_map(plain).collect()
}

fn plain(c: char) -> Option<char> {
    if c.is_ascii() {
        return Some(c);
    }
    match c {
        // Its own decimal mark and its own mark between thousands cannot be taken for each other.
        '\u{66b}' => Some('.'),
        '\u{66c}' => Some('\u{202f}'),
        '\u{66a}' => Some('%'),
        '\u{61c}' | '\u{200e}' | '\u{200f}' => None,
        wide if FULL_WIDTH.contains(&wide) => char::from_u32(u32::from(wide) - FULL_WIDTH_BY),
        other => Some(digit(other).unwrap_or(other)),
    }
}

/// The plain digit of a digit; `None` where it is none.
fn digit(c: char) -> Option<char> {
    let zero = ZEROS[..ZEROS.partition_point(|zero| *zero <= c)].last()?;
    char::from_digit(u32::from(c) - u32::from(*zero), 10)
}

#[cfg(test)]
mod tests {
    use super::{ZEROS, with_plain_digits};
    use crate::base::units::text::{Unit, read};

    #[test]
    fn every_set_has_ten_digits_and_is_named_once() {
        assert!(
            ZEROS
                .windows(2)
                .all(|pair| u32::from(pair[1]) - u32::from(pair[0]) >= 10)
        );
        for zero in ZEROS.into_iter().chain(['\u{ff10}']) {
            let digits = (0..10).filter_map(|by| char::from_u32(u32::from(zero) + by));
            let digits: String = digits.collect();
            assert!(digits.chars().all(char::is_numeric), "{digits}");
            assert_eq!(with_plain_digits(&digits), "0123456789", "{digits}");
            // A one before them, so that no digit is lost at the beginning.
            let typed = format!("1{digits}");
            assert_eq!(read(&typed, Unit::One), Ok(10_123_456_789.0), "{typed}");
        }
    }

    #[test]
    fn letters_beside_the_digits_are_no_digits() {
        for zero in ZEROS {
            for by in [-1_i64, 10] {
                let beside = u32::try_from(i64::from(u32::from(zero)) + by).ok();
                let Some(beside) = beside.and_then(char::from_u32) else {
                    continue;
                };
                let is_digit =
                    with_plain_digits(&beside.to_string()).contains(|c: char| c.is_ascii_digit());
                let has_neighbour = ZEROS.iter().any(|zero| {
                    (u32::from(*zero)..u32::from(*zero) + 10).contains(&u32::from(beside))
                });
                assert_eq!(is_digit, has_neighbour, "{beside:?}");
            }
        }
    }

    #[test]
    fn numbers_of_other_scripts_are_read_with_their_marks() {
        let rows = [
            ("١٫٥", 1.5),
            ("۱٫۵", 1.5),
            ("١٬٢٠٠٫٥", 1200.5),
            ("१.५", 1.5),
            ("१,२००.५", 1200.5),
            ("１．５", 1.5),
            ("１，５", 1.5),
            ("－１．５", -1.5),
            ("−٢", -2.0),
            ("\u{61c}-٢\u{200f}", -2.0),
            ("１２ｍｍ", 12.0),
            ("٣ mm", 3.0),
        ];
        for (typed, value) in rows {
            assert_eq!(read(typed, Unit::Millimetre), Ok(value), "{typed}");
        }
        assert_eq!(read("٥٠٪", Unit::Percent), Ok(50.0));
        assert_eq!(
            read("８′ ６ １/８″", Unit::Foot),
            read("8′ 6 1/8″", Unit::Foot)
        );
        // What is no number is named as it was typed.
        let said = read("１．２．３", Unit::Millimetre)
            .unwrap_err()
            .to_string();
        assert!(said.contains("“１．２．３”"), "{said}");
        assert!(read("１，２００", Unit::Denier).is_err());
        // Numbers of Chinese writing and raised ones are no decimal digits.
        assert!(read("三", Unit::One).is_err() && read("²", Unit::One).is_err());
    }
}
