//! A link as it arrives: what mail programs, messengers and pens make of its beginning, and what they put after its end.
//!
//! A code has letters of base64url only, and its own end and checksum. So whatever else follows a whole code belongs to the
//! text around it: a full stop, a bracket, a quote, a blank, a character that cannot be seen, also percent-encoded.

use std::borrow::Cow;

use crate::design::check::is_unseen;

/// What a design's fragment begins with.
pub const PREFIX: &str = "line=";
/// What a measured line's fragment begins with.
pub const MEASURED_PREFIX: &str = "measured=";
/// Longest fragment, in characters: what messengers pass on whole.
pub const LONGEST: usize = 1_800;
/// Most of a text that is looked through for a link, in bytes: far more than any message has.
const MOST_MESSAGE: usize = 1_000_000;
/// Most of a fragment that is looked at, in bytes: the longest with every character percent-encoded, and what may follow.
const MOST_FRAGMENT: usize = 4 * LONGEST;
/// Before every fragment, as it is and percent-encoded (RFC 3986, section 2.1).
const HASHES: [&str; 2] = ["#", "%23"];
/// After the word of a fragment, the same.
const EQUALS: [&str; 3] = ["=", "%3d", "%3D"];

/// What the fragment of a link holds.
pub(super) struct FoundCode {
    /// The letters up to the first that no code has.
    pub(super) code: String,
    /// Whether letters or digits stand in the rest: then it is more than the text around a link.
    pub(super) is_followed: bool,
    /// Whether it is longer than any fragment that is looked at.
    pub(super) is_overlong: bool,
}

/// The code in a fragment; `None` when the fragment does not begin with this word.
pub(super) fn found(fragment: &str, prefix: &str) -> Option<FoundCode> {
    let fragment = fragment.trim_start_matches('#');
    let looked = head(fragment, MOST_FRAGMENT);
    let text = decoded(looked);
    let word = text.get(..prefix.len())?;
    if !word.eq_ignore_ascii_case(prefix) {
        return None;
    }
    let rest = &text[prefix.len()..];
    let (code, after) = rest.split_at(rest.find(|c| !is_of_code(c)).unwrap_or(rest.len()));
    Some(FoundCode {
        // The last letter is neither of these: they end a text in italics or a row of dashes.
        code: code.trim_end_matches(['-', '_']).to_owned(),
        is_followed: after.contains(char::is_alphanumeric),
        is_overlong: looked.len() < fragment.len(),
    })
}

/// The first fragment of a line, designed or measured, in a text, without its `#`: in a whole address, or in a message with one in it. `None`
/// where there is none, or none before the millionth byte.
pub fn fragment_in(text: &str) -> Option<&str> {
    let text = head(text, MOST_MESSAGE);
    let mut places = text.match_indices(['#', '%']).map(|(at, _)| &text[at..]);
    places.find_map(fragment_at)
}

fn fragment_at(text: &str) -> Option<&str> {
    let text = HASHES.iter().find_map(|hash| text.strip_prefix(hash))?;
    let after_word = |prefix: &str| {
        let word = prefix.trim_end_matches('=');
        let is_word = text.get(..word.len())?.eq_ignore_ascii_case(word);
        let after = is_word.then(|| &text[word.len()..])?;
        EQUALS.iter().find_map(|sign| after.strip_prefix(sign))
    };
    let code = after_word(PREFIX).or_else(|| after_word(MEASURED_PREFIX))?;
    let ends = |c: char| c.is_whitespace() || matches!(c, '"' | '<' | '>' | '#') || is_unseen(c);
    let code_end = code.find(ends).unwrap_or(code.len());
    // What a sentence or a bracket around it ends with.
    let kept = code[..code_end].trim_end_matches(|c: char| !c.is_alphanumeric());
    Some(&text[..text.len() - code.len() + kept.len()])
}

fn is_of_code(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '-' | '_')
}

/// The beginning of a text, of so many bytes or a few fewer.
fn head(text: &str, most: usize) -> &str {
    let mut end = text.len().min(most);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    &text[..end]
}

/// A text with its percent-encoded bytes as they were; what gives no text becomes the sign for an unknown character.
fn decoded(text: &str) -> Cow<'_, str> {
    if !text.contains('%') {
        return Cow::Borrowed(text);
    }
    let (bytes, mut at) = (text.as_bytes(), 0);
    let mut plain = Vec::with_capacity(bytes.len());
    while let Some(&byte) = bytes.get(at) {
        let hex = text.get(at + 1..at + 3).filter(|_| byte == b'%');
        let hex = hex.filter(|hex| hex.bytes().all(|digit| digit.is_ascii_hexdigit()));
        let encoded = hex.and_then(|hex| u8::from_str_radix(hex, 16).ok());
        at += if encoded.is_some() { 3 } else { 1 };
        plain.push(encoded.unwrap_or(byte));
    }
    Cow::Owned(String::from_utf8_lossy(&plain).into_owned())
}

#[cfg(test)]
mod tests {
    use super::{decoded, fragment_in};

    #[test]
    fn percent_signs_that_encode_nothing_stay() {
        for (text, plain) in [
            ("a%3Db", "a=b"),
            ("%e2%80%8b", "\u{200b}"),
            ("100%", "100%"),
            ("%3", "%3"),
            ("%+1", "%+1"),
            ("%é", "%é"),
            ("%ff", "\u{fffd}"),
        ] {
            assert_eq!(decoded(text), plain);
        }
    }

    #[test]
    fn only_a_word_of_its_own_begins_a_fragment() {
        assert_eq!(fragment_in("100% #1 #LINE%3Dabcz."), Some("LINE%3Dabcz"));
        assert_eq!(fragment_in("%23line=abcz"), Some("line=abcz"));
        for none in ["#line", "#lines=", "%line=", "#liné=", "é#"] {
            assert_eq!(fragment_in(none), None, "{none}");
        }
    }
}
