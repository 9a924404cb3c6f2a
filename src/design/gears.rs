//! The list of gears owned, as a maker writes it: `15-30, 32 32 40`.

use crate::base::units::text::{Unread, with_plain_digits};

/// Longest list taken apart; more is nonsense, and refused as such when the design is parsed.
const LONGEST_RANGE: u32 = 1_000;

/// Before the numbers left out of all there are.
const ALL_BUT: [&str; 2] = ["all but", "all except"];
/// What separates numbers, besides blanks: also the commas of other scripts.
const SEPARATORS: [char; 5] = [',', ';', '،', '؛', '、'];
/// All there are.
const ALL: &str = "all";

/// Reads teeth separated by spaces, commas or semicolons; `15-30` stands for every tooth from 15 to 30, `all` for those `owned`,
/// `all but 21 and 23` for the others of them.
///
/// # Errors
/// [`Unread`] with the word that is no tooth count, or the gear left out that is not owned.
pub fn read(text: &str, owned: &[f64]) -> Result<Vec<f64>, Unread> {
    // Gears owned have whole numbers of teeth.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let owned: Vec<u32> = owned.iter().map(|&teeth| teeth as u32).collect();
    let counts = read_counts(text, &owned)?;
    Ok(counts.into_iter().map(f64::from).collect())
}

/// Reads whole numbers the same way, such as the places of a track, of `all` there are.
///
/// # Errors
/// [`Unread`] with the word that is no number, or the number left out that is none of all.
pub fn read_counts(text: &str, all: &[u32]) -> Result<Vec<u32>, Unread> {
    let text = with_plain_digits(text).trim().to_lowercase();
    if text == ALL {
        return Ok(all.to_vec());
    }
    let left_out = ALL_BUT.iter().find_map(|start| text.strip_prefix(start));
    let Some(left_out) = left_out else {
        return listed(&text);
    };
    let left_out = listed(left_out)?;
    if let Some(strange) = left_out.iter().find(|number| !all.contains(number)) {
        return Err(Unread::NotAmong(strange.to_string()));
    }
    let is_left = |number: &&u32| !left_out.contains(number);
    Ok(all.iter().filter(is_left).copied().collect())
}

fn listed(text: &str) -> Result<Vec<u32>, Unread> {
    let text = text.replace('–', "-").replace(" -", "-").replace("- ", "-");
    let words = text
        .split(|c: char| c.is_whitespace() || SEPARATORS.contains(&c))
        .filter(|word| !word.is_empty() && *word != "and");
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
        let read = |text| read(text, &[]);
        assert_eq!(read("15 - 30"), read("15–30"));
        for text in ["15–30", "15, 16", "8, 20–24, 30, 30, 31", "40"] {
            assert_eq!(show(&read(text).unwrap()), text);
        }
    }

    #[test]
    fn digits_and_commas_of_other_scripts_are_read() {
        let read = |text| read(text, &[]);
        for text in ["١٥، ١٦-٢٠", "१५, १६–२०", "１５、１６－２０", "۱۵؛ ۱۶-۲۰"]
        {
            assert_eq!(read(text), read("15, 16-20"), "{text}");
        }
    }

    #[test]
    fn all_but_some_are_those_left_of_what_is_there() {
        let owned = [20.0, 21.0, 22.0, 23.0, 30.0, 30.0];
        let read = |text| read(text, &owned);
        assert_eq!(read(" All "), Ok(owned.to_vec()));
        assert_eq!(read("all but 21"), Ok(vec![20.0, 22.0, 23.0, 30.0, 30.0]));
        for text in ["all but 21 and 23", "all but 21, 23", "All except 21 23"] {
            assert_eq!(read(text), Ok(vec![20.0, 22.0, 30.0, 30.0]), "{text}");
        }
        assert_eq!(read("all but 20–23"), Ok(vec![30.0, 30.0]));
        assert_eq!(read("20 and 22"), Ok(vec![20.0, 22.0]));
        assert_eq!(read("all but 24"), Err(Unread::NotAmong("24".to_owned())));
        assert!(matches!(read("all but"), Ok(all) if all == owned));
        assert_eq!(read("all but x"), Err(Unread::NotTeeth("x".to_owned())));
    }

    #[test]
    fn a_word_that_is_no_gear_is_named() {
        let read = |text| read(text, &[]);
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
