//! The size of one end as a yarn's label writes it: `20/22`, or one number once it was measured.

use crate::base::units::show::trimmed;
use crate::base::units::text::{Unit, Unread, read as read_number};

/// Between the two numbers of a label. A minus before the first number is none of these.
const BETWEEN: [char; 4] = ['/', '-', '–', '—'];

/// Reads the finest and the heaviest end, in denier; one number stands for both.
///
/// # Errors
/// [`Unread`] where one of them is no number.
pub fn read(text: &str) -> Result<(f64, f64), Unread> {
    let text = text.trim();
    let between = text
        .char_indices()
        .skip(1)
        .find(|(_, letter)| BETWEEN.contains(letter));
    let denier = |end: &str| read_number(end, Unit::Denier);
    let Some((at, letter)) = between else {
        let size = denier(text)?;
        return Ok((size, size));
    };
    Ok((
        denier(&text[..at])?,
        denier(&text[at + letter.len_utf8()..])?,
    ))
}

/// Writes the finest and the heaviest end the same way, one number where they are alike.
pub fn show(low: f64, high: f64) -> String {
    let [low, high] = [low, high].map(|end| trimmed(end, 4));
    if low == high {
        low
    } else {
        format!("{low}/{high}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_shown_reads_back() {
        for (low, high) in [(20.0, 22.0), (21.55, 21.55), (9.0, 11.5)] {
            assert_eq!(read(&show(low, high)), Ok((low, high)));
        }
        assert_eq!(show(20.0, 22.0), "20/22");
    }

    #[test]
    fn a_label_is_read_however_its_two_numbers_are_parted() {
        for text in ["20/22", "20-22", "20–22", "20 — 22", " 20 / 22 "] {
            assert_eq!(read(text), Ok((20.0, 22.0)), "{text}");
        }
        assert_eq!(read("21"), Ok((21.0, 21.0)));
        // A minus is no hyphen.
        assert_eq!(read("-5"), Ok((-5.0, -5.0)));
        for text in ["", "20-", "20/22/24", "x-22"] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
