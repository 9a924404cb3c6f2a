//! Numbers as they are typed: a sign, a comma or a dot, thousands grouped or not.

use super::unread::Unread;

/// What separates the thousands besides comma and dot: a space, one that does not break, and narrow ones.
const SPACES: [char; 4] = [' ', '\u{a0}', '\u{2009}', '\u{202f}'];

/// The sign a text begins with, as a factor, and what follows it.
pub(super) fn signed(text: &str) -> (f64, &str) {
    if let Some(rest) = text.strip_prefix(['-', '−']) {
        (-1.0, rest)
    } else {
        (1.0, text.strip_prefix('+').unwrap_or(text))
    }
}

/// Splits a text where its number ends. A space belongs to the number where exactly three digits follow it.
pub(super) fn split(text: &str) -> (&str, &str) {
    let is_digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    let groups = |rest: &str| {
        let mut rest = rest.chars().skip(1);
        (0..3).all(|_| is_digit(rest.next())) && !is_digit(rest.next())
    };
    let mut before = None;
    let end = text.char_indices().find(|&(at, c)| {
        let belongs = matches!(c, '0'..='9' | '.' | ',' | '-' | '+' | '−')
            || SPACES.contains(&c) && is_digit(before) && groups(&text[at..]);
        before = Some(c);
        !belongs
    });
    text.split_at(end.map_or(text.len(), |(at, _)| at))
}

/// The value of digits without a sign.
///
/// A comma and a dot are both decimal marks. Where a number has both, or one of them several times, or spaces, all but the
/// last mark only separate thousands: `1,200.5`, `1.200,5`, `12,000,000`, `1 200`. A dot alone is a decimal mark, as on the
/// page; a comma alone with three digits after it could be either.
///
/// # Errors
/// [`Unread::Ambiguous`] for a number such as `1,200`, and [`Unread::NotANumber`].
pub(super) fn unsigned(digits: &str) -> Result<f64, Unread> {
    let digits = digits.trim();
    let no_number = || Unread::NotANumber(digits.to_owned());
    let (whole, decimals) = halves(digits)?;
    let whole = without_groups(whole).ok_or_else(no_number)?;
    let is_plain = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    if !is_plain(&whole) || !is_plain(decimals) || (whole.is_empty() && decimals.is_empty()) {
        return Err(no_number());
    }
    let value = format!("{whole}.{decimals}").parse::<f64>();
    value
        .ok()
        .filter(|value| value.is_finite())
        .ok_or_else(no_number)
}

/// What stands before the decimal mark and after it.
fn halves(digits: &str) -> Result<(&str, &str), Unread> {
    let count = |mark: char| digits.matches(mark).count();
    let has_spaces = digits.contains(SPACES);
    let at = match (count(','), count('.')) {
        (1, 0) if !has_spaces && could_be_thousands(digits) => {
            return Err(Unread::Ambiguous(digits.to_owned()));
        }
        // One kind several times separates thousands: the number is whole.
        (2.., 0) | (0, 2..) => None,
        _ => digits.rfind([',', '.']),
    };
    Ok(at.map_or((digits, ""), |at| (&digits[..at], &digits[at + 1..])))
}

/// Whether one to three digits, the first not zero, stand before a comma and three after it.
fn could_be_thousands(digits: &str) -> bool {
    digits.split_once(',').is_some_and(|(thousands, rest)| {
        (1..=3).contains(&thousands.len()) && !thousands.starts_with('0') && rest.len() == 3
    })
}

/// The digits of a whole number whose thousands may be separated, always by the same mark; `None` where the groups are not
/// of three digits.
fn without_groups(whole: &str) -> Option<String> {
    let Some(mark) = whole.chars().find(|c| !c.is_ascii_digit()) else {
        return Some(whole.to_owned());
    };
    let is_mark = matches!(mark, ',' | '.') || SPACES.contains(&mark);
    let mut groups = whole.split(mark);
    let first = groups.next()?;
    let fits = is_mark
        && (1..=3).contains(&first.len())
        && whole.split(mark).skip(1).all(|group| group.len() == 3);
    fits.then(|| groups.fold(first.to_owned(), |digits, group| digits + group))
}
