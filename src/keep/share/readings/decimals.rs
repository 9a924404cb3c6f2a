//! Which mark stands before the decimals in a table.

use crate::base::units::text::with_plain_digits;

/// A space that groups thousands and nothing else.
const GROUPING: &str = "\u{202f}";

/// The decimal mark of a table. The same in all of it: who writes `0,95` in one cell writes no `1,200` for a thousand in another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Decimals {
    /// A dot; a comma groups thousands.
    Dot,
    /// A comma; a dot groups thousands.
    Comma,
    /// Both are used, so a mark before three digits can mean either.
    Both,
    /// No number decides it: a dot is taken for a decimal mark, as on the page, and a comma before three digits is refused.
    Undecided,
}

impl Decimals {
    /// The decimal mark of a table with these numbers.
    pub(super) fn of<'a>(numbers: impl Iterator<Item = &'a str>) -> Self {
        let (mut dot, mut comma) = (false, false);
        for number in numbers {
            let plain = with_plain_digits(number);
            let is_part = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
            for run in plain.split(|c| !is_part(c)) {
                match decimal_mark(run) {
                    Some('.') => dot = true,
                    Some(_) => comma = true,
                    None => {}
                }
            }
        }
        match (dot, comma) {
            (true, false) => Self::Dot,
            (false, true) => Self::Comma,
            (true, true) => Self::Both,
            (false, false) => Self::Undecided,
        }
    }

    /// A cell with its numbers written so that each has one meaning, or is refused where it has two.
    pub(super) fn plain(self, cell: &str) -> String {
        let plain = with_plain_digits(cell);
        match self {
            Self::Dot => plain.replace(',', GROUPING),
            Self::Comma => plain.replace('.', GROUPING).replace(',', "."),
            Self::Both if is_grouped(&plain, '.') => plain.replace('.', ","),
            Self::Both | Self::Undecided => plain,
        }
    }
}

/// The decimal mark of a number, where it leaves no doubt.
fn decimal_mark(run: &str) -> Option<char> {
    let count = |mark: char| run.matches(mark).count();
    match (count('.'), count(',')) {
        (0, 0) => None,
        (1, 0) => (!is_grouped(run, '.')).then_some('.'),
        (0, 1) => (!is_grouped(run, ',')).then_some(','),
        // Several of one kind group thousands.
        (2.., 0) => Some(','),
        (0, 2..) => Some('.'),
        _ => run.chars().rfind(|c| *c == '.' || *c == ','),
    }
}

/// Whether one mark could stand before thousands: one to three digits before it, the first not zero, and three after it.
fn is_grouped(number: &str, mark: char) -> bool {
    let is_digit = |c: char| c.is_ascii_digit();
    number.split_once(mark).is_some_and(|(before, after)| {
        let before = before.trim_start_matches(['+', '-', '−']);
        let digits = after.chars().take_while(|c| is_digit(*c)).count();
        (1..=3).contains(&before.len())
            && before.chars().all(is_digit)
            && !before.starts_with('0')
            && digits == 3
            && !after[digits..].starts_with(['.', ','])
    })
}

#[cfg(test)]
mod tests {
    use super::Decimals;

    fn of(numbers: &[&str]) -> Decimals {
        Decimals::of(numbers.iter().copied())
    }

    #[test]
    fn one_number_decides_for_all() {
        assert_eq!(of(&["1,200", "0,95"]), Decimals::Comma);
        assert_eq!(of(&["1,200", "0.95"]), Decimals::Dot);
        assert_eq!(of(&["1,200.5"]), Decimals::Dot);
        assert_eq!(of(&["1.200,5"]), Decimals::Comma);
        assert_eq!(of(&["1,200", "1.100", "7"]), Decimals::Undecided);
        assert_eq!(of(&["0,95", "0.95"]), Decimals::Both);
        assert_eq!(of(&["٠٫٩٥"]), Decimals::Dot);
    }

    #[test]
    fn a_cell_is_written_with_one_meaning() {
        assert_eq!(Decimals::Comma.plain("1,200"), "1.200");
        assert_eq!(Decimals::Comma.plain("1.200,5 mm"), "1\u{202f}200.5 mm");
        assert_eq!(Decimals::Dot.plain("1,200"), "1\u{202f}200");
        assert_eq!(Decimals::Both.plain("1.200"), "1,200");
        assert_eq!(Decimals::Both.plain("0.95"), "0.95");
        assert_eq!(Decimals::Undecided.plain("1,200"), "1,200");
    }
}
