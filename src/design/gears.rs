//! The list of gears owned, as a maker writes it: `15-30, 32 32 40`.

use crate::base::units::text::Unread;

/// Longest list taken apart; more is nonsense, and refused as such when the design is parsed.
const LONGEST_RANGE: u32 = 1_000;

/// Reads teeth separated by spaces, commas or semicolons; `15-30` stands for every tooth from 15 to 30.
///
/// # Errors
/// [`Unread`] with the word that is no tooth count.
pub fn read(text: &str) -> Result<Vec<f64>, Unread> {
    let counts = read_counts(text)?;
    Ok(counts.into_iter().map(f64::from).collect())
}

/// Reads whole numbers the same way, such as the places of a track.
///
/// # Errors
/// [`Unread`] with the word that is no number.
pub fn read_counts(text: &str) -> Result<Vec<u32>, Unread> {
    let text = text.replace('–', "-").replace(" -", "-").replace("- ", "-");
    let words = text
        .split([' ', ',', ';', '\n', '\t'])
        .filter(|word| !word.is_empty());
    words
        .map(range)
        .collect::<Result<Vec<_>, _>>()
        .map(|ranges| ranges.concat())
}

fn range(word: &str) -> Result<Vec<u32>, Unread> {
    let (from, to) = word.split_once('-').unwrap_or((word, word));
    let teeth = |text: &str| {
        text.parse::<u32>()
            .map_err(|_| Unread::NotTeeth(word.to_owned()))
    };
    let (from, to) = (teeth(from)?, teeth(to)?);
    if from > to {
        return Err(Unread::BackwardRange(word.to_owned()));
    }
    if to - from > LONGEST_RANGE {
        return Err(Unread::NotTeeth(word.to_owned()));
    }
    Ok((from..=to).collect())
}

/// Writes teeth in ascending order the same way, runs of three and more as a range.
pub fn show(teeth: &[f64]) -> String {
    let runs = teeth.chunk_by(|a, b| b - a == 1.0);
    let words = runs.map(|run| match run {
        [first, _, .., last] => format!("{first}–{last}"),
        few => few
            .iter()
            .map(f64::to_string)
            .collect::<Vec<_>>()
            .join(", "),
    });
    words.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_shown_reads_back() {
        assert_eq!(read("15 - 30"), read("15–30"));
        for text in ["15–30", "15, 16", "8, 20–24, 30, 30, 31", "40"] {
            assert_eq!(show(&read(text).unwrap()), text);
        }
    }

    #[test]
    fn a_word_that_is_no_gear_is_named() {
        assert_eq!(read("20, x"), Err(Unread::NotTeeth("x".to_owned())));
        assert_eq!(
            read("30-20"),
            Err(Unread::BackwardRange("30-20".to_owned()))
        );
        assert_eq!(
            read("1-4000000000"),
            Err(Unread::NotTeeth("1-4000000000".to_owned()))
        );
    }
}
