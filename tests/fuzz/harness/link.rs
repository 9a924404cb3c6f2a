//! Any fragment: read as a line, or refused in words.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use taperwright::keep::share::link::{
    LinkError, Linked, MEASURED_PREFIX, PREFIX, fragment_in, read,
};
use taperwright::keep::share::measured_file;

/// The first byte says what the rest is: text as it is, or, so that a checksum does not keep everything out, a payload of
/// version 3 to 5 that is sealed here, or one of a measured line.
pub(crate) fn run(bytes: &[u8]) {
    let fragment = fragment(bytes);
    match read(&fragment) {
        None => {}
        Some(Ok(Linked::Line(design))) => {
            super::holds(&design);
            super::may_be_planned(&design, bytes);
        }
        // What was read once is read again, to the same line.
        Some(Ok(Linked::Measured(line))) => {
            assert_eq!(measured_file::read(&measured_file::write(&line)), Ok(*line));
        }
        Some(Err(error)) => {
            super::is_a_sentence(&error.to_string());
            assert!(!matches!(error, LinkError::TooLong(_)));
        }
    }
    if let Some(found) = fragment_in(&format!("See #{fragment} and tell me")) {
        let _ = read(found);
    }
}

/// The fragment of an input.
pub(crate) fn fragment(bytes: &[u8]) -> String {
    match bytes.split_first() {
        Some((&version @ 3..=5, payload)) => sealed(PREFIX, version, payload),
        Some((6, payload)) => sealed(MEASURED_PREFIX, 5, payload),
        Some((_, text)) => String::from_utf8_lossy(text).into_owned(),
        None => String::new(),
    }
}

/// A link true to its payload: the checksum of version 4 covers version and length too.
fn sealed(prefix: &str, version: u8, payload: &[u8]) -> String {
    let length = u16::try_from(payload.len()).unwrap_or(u16::MAX);
    let head = [&[version][..], &length.to_le_bytes()].concat();
    let covered = if version > 3 { &head[..] } else { &[] };
    let sum = crc32fast::hash(&[covered, payload].concat());
    let whole = [&head[..], &sum.to_le_bytes(), payload].concat();
    format!("{prefix}{}z", URL_SAFE_NO_PAD.encode(whole))
}
