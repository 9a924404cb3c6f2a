//! What is wrong with the contents of a file, in words for the maker. The library that reads files speaks of fields, types and
//! variants; none of that gets out.

use crate::design::check::is_unseen;

/// Most characters of what is said of a damaged file: it names what stands there, and that may be anything.
const MOST_SAID: usize = 120;
/// Most characters of a name in it.
const MOST_OF_NAME: usize = 60;

/// How the library begins what it says of a name, and what is said instead after the name.
const OF_NAMES: [(&str, &str); 4] = [
    ("missing field `", "is missing"),
    ("unknown field `", "is not known to this version"),
    ("duplicate field `", "is there twice"),
    ("unknown variant `", "is not a choice known here"),
];
/// What may follow a name.
const AFTER_NAMES: [&str; 2] = ["`, expected", "`, there are no"];
/// How it begins what it says of a value.
const OF_VALUES: [&str; 4] = [
    "invalid type",
    "invalid value",
    "invalid length",
    "data did not match",
];

/// What an error says: without what could disguise it, and not longer than a sentence.
pub(super) fn said(error: &serde_json::Error) -> String {
    let raw = error.to_string();
    // The place comes last, in words of its own; it is not known everywhere.
    let what = raw
        .rsplit_once(" at line ")
        .map_or(raw.as_str(), |(what, _)| what);
    let what = if error.is_data() {
        short(&in_words(what), MOST_SAID)
    } else {
        "part of it cannot be read".to_owned()
    };
    // A file that was made small is one line: then the place says nothing.
    match error.line() {
        0 | 1 => what,
        line => format!("{what} (line {line})"),
    }
}

fn in_words(raw: &str) -> String {
    let named = OF_NAMES.iter().find_map(|(before, words)| {
        let rest = raw.strip_prefix(before)?;
        let mut ends = AFTER_NAMES.iter().filter_map(|after| rest.find(after));
        let end = ends
            .next()
            .unwrap_or_else(|| rest.trim_end_matches('`').len());
        Some(format!("“{}” {words}", short(&rest[..end], MOST_OF_NAME)))
    });
    if let Some(named) = named {
        return named;
    }
    if OF_VALUES.iter().any(|before| raw.starts_with(before)) {
        return "a value in it is not of the right kind".to_owned();
    }
    // What this program says itself is in plain words.
    raw.trim_end_matches('.').to_owned()
}

fn short(raw: &str, most: usize) -> String {
    let shown = raw.chars().filter(|c| !c.is_control() && !is_unseen(*c));
    let mut short: String = shown.clone().take(most).collect();
    if shown.count() > most {
        short.push('…');
    }
    short
}
