//! A whole design in the fragment of a link: `#line=`, then the code of the design. A measured line in the same manner:
//! `#measured=` and its code.
//!
//! The payload of a code (`share::code`) is postcard of `share::payload::Payload`, and since version 5 of the original after it:
//! the measured line of which the design is a copy, if there is one. That of a measured line is postcard of
//! `share::payload::measured::PayloadMeasured`, since version 5.
//!
//! The word may be written in capitals and the `=` percent-encoded; what follows the `z` and is no letter of base64url is left
//! out (`share::found`).
//!
//! A link has at most 1,800 characters; what is longer travels as a file. A link opens as a preview and never replaces a kept
//! line.

use core::fmt;

use super::code::{self, CodeError, OLDEST, VERSION};
use super::found::{FoundCode, found};
use super::payload::measured::PayloadMeasured;
use super::payload::{Payload, PayloadOriginal};
use crate::design::refusal::Refusal;
use crate::design::{Design, Draft};
use crate::measured::{MeasuredDraft, MeasuredLine};

pub use super::found::{LONGEST, MEASURED_PREFIX, PREFIX, fragment_in};

/// The first version with originals and measured lines.
const WITH_ORIGINAL: u8 = 5;
/// Longest code read, in characters, where it came by no messenger: that of a design with the longest texts, most points,
/// pins and gears is a third of it.
pub(crate) const LONGEST_CODE: usize = 60_000;

/// Why a link gave no line, or a line no link.
#[derive(Clone, Debug, PartialEq)]
pub enum LinkError {
    /// The line makes a link of more characters than are sent whole.
    TooLong(usize),
    /// The link is longer than any made here.
    Overlong,
    /// The end is missing.
    CutOff,
    /// There is a character in it that no link has.
    WrongCharacter,
    /// Characters were changed on the way.
    Altered,
    /// The checksum holds, but no version makes such a link: lists too long, choices that do not exist, bytes left over.
    MadeUp,
    /// Made by a version that was never released.
    Unreleased(u8),
    /// Made by a newer version of this program.
    Newer(u8),
    /// Readable, but not a line that there could be.
    Refused(Refusal),
}

impl fmt::Display for LinkError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(characters) => write!(
                out,
                "This line makes a link of {characters} characters; messengers carry {LONGEST}. Send its file instead."
            ),
            Self::Overlong => write!(
                out,
                "The link is longer than any link from Taperwright, so it is not opened. Ask for the file of the line."
            ),
            Self::CutOff => write!(
                out,
                "The link was cut off: its end is missing. Ask for it again, or for the file of the line."
            ),
            Self::WrongCharacter => write!(
                out,
                "The link contains a character that no link from Taperwright has. Ask for it again, or for the file of the line."
            ),
            Self::MadeUp => write!(
                out,
                "The link is complete, but not from Taperwright, so it is not opened. Ask for the file of the line."
            ),
            Self::Altered => write!(
                out,
                "The link was changed on its way and cannot be used. Ask for it again, or for the file of the line."
            ),
            Self::Unreleased(version) => write!(
                out,
                "The link has format {version}, from an early version that was never released. This page reads formats {OLDEST} to {VERSION}. Ask for a new link, or for the file of the line."
            ),
            Self::Newer(version) => write!(
                out,
                "The link has format {version}; this page reads up to {VERSION}. Reload the page to get the newest version."
            ),
            Self::Refused(refusal) => write!(out, "The line in the link cannot be used. {refusal}"),
        }
    }
}

impl From<CodeError> for LinkError {
    fn from(error: CodeError) -> Self {
        match error {
            CodeError::CutOff => Self::CutOff,
            CodeError::WrongCharacter => Self::WrongCharacter,
            CodeError::Altered => Self::Altered,
        }
    }
}

/// What a link carries.
#[derive(Clone, Debug, PartialEq)]
pub enum Linked {
    /// A design.
    Line(Box<Design>),
    /// A measured line.
    Measured(Box<MeasuredLine>),
}

/// The fragment of a design, without the `#`.
///
/// # Errors
/// [`LinkError::TooLong`] when it would not survive being sent.
pub fn encode(design: &Design) -> Result<String, LinkError> {
    fitting(format!("{PREFIX}{}", pack(design)?))
}

/// The fragment of a measured line, without the `#`.
///
/// # Errors
/// [`LinkError::TooLong`] when it would not survive being sent.
pub fn encode_measured(line: &MeasuredLine) -> Result<String, LinkError> {
    let payload = postcard::to_allocvec(&PayloadMeasured::of(line.draft()));
    let code = packed(&payload.expect(SERIALISES))?;
    fitting(format!("{MEASURED_PREFIX}{code}"))
}

fn fitting(fragment: String) -> Result<String, LinkError> {
    if fragment.len() > LONGEST {
        Err(LinkError::TooLong(fragment.len()))
    } else {
        Ok(fragment)
    }
}

/// Why a payload always has its bytes.
const SERIALISES: &str = "counts and text always serialise";

/// The code of a design, however long.
///
/// # Errors
/// [`LinkError::TooLong`] when the design has more bytes than the form can count.
pub(crate) fn pack(design: &Design) -> Result<String, LinkError> {
    let draft = design.draft();
    let original = draft.original.as_ref().map(PayloadOriginal::of);
    let mut payload = postcard::to_allocvec(&Payload::of(draft)).expect(SERIALISES);
    payload.extend(postcard::to_allocvec(&original).expect(SERIALISES));
    packed(&payload)
}

fn packed(payload: &[u8]) -> Result<String, LinkError> {
    code::packed(payload).ok_or(LinkError::TooLong(payload.len()))
}

/// What a fragment carries; `None` when the fragment is that of no link. Its word may be written in capitals, and what stands
/// after a whole code is left out.
///
/// # Errors
/// Inside the option, [`LinkError`] says what happened to the link.
pub fn read(fragment: &str) -> Option<Result<Linked, LinkError>> {
    if let Some(found) = found(fragment, PREFIX) {
        let read = decoded(&found, PREFIX, unpack);
        return Some(read.map(|design| Linked::Line(Box::new(design))));
    }
    let found = found(fragment, MEASURED_PREFIX)?;
    let read = decoded(&found, MEASURED_PREFIX, unpack_measured);
    Some(read.map(|line| Linked::Measured(Box::new(line))))
}

/// Whether a fragment begins with the word of a kind of link, whatever comes after it.
pub fn begins_with(fragment: &str, prefix: &str) -> bool {
    found(fragment, prefix).is_some()
}

/// The design of a fragment; `None` when the fragment is no design's at all.
///
/// # Errors
/// Inside the option, [`LinkError`] says what happened to the link.
pub fn decode(fragment: &str) -> Option<Result<Design, LinkError>> {
    let found = found(fragment, PREFIX)?;
    Some(decoded(&found, PREFIX, unpack))
}

fn decoded<T>(
    found: &FoundCode,
    prefix: &str,
    unpack: impl FnOnce(&str) -> Result<T, LinkError>,
) -> Result<T, LinkError> {
    if found.is_overlong || found.code.len() + prefix.len() > LONGEST {
        return Err(LinkError::Overlong);
    }
    // Where a code ends too early and goes on after a character of no code, that character is what is wrong.
    unpack(&found.code).map_err(|error| match error {
        LinkError::CutOff | LinkError::Altered if found.is_followed => LinkError::WrongCharacter,
        error => error,
    })
}

/// The design of what [`pack`] made.
///
/// # Errors
/// [`LinkError`] says what happened to it.
pub(crate) fn unpack(code: &str) -> Result<Design, LinkError> {
    if code.len() > LONGEST_CODE {
        return Err(LinkError::Overlong);
    }
    let (version, payload) = code::opened(code)?;
    match version {
        OLDEST..=VERSION => {
            let draft = draft(&payload, version).ok_or(LinkError::MadeUp)?;
            Design::parse(draft).map_err(LinkError::Refused)
        }
        // The checksum of version 3 says nothing of the version: one changed on the way shows by its payload.
        1..OLDEST if draft(&payload, version).is_none() => Err(LinkError::Unreleased(version)),
        0..OLDEST => Err(LinkError::Altered),
        newer => Err(LinkError::Newer(newer)),
    }
}

fn unpack_measured(code: &str) -> Result<MeasuredLine, LinkError> {
    let (version, payload) = code::opened(code)?;
    match version {
        WITH_ORIGINAL..=VERSION => {
            let draft = measured_draft(&payload).ok_or(LinkError::MadeUp)?;
            MeasuredLine::parse(draft).map_err(LinkError::Refused)
        }
        0..WITH_ORIGINAL => Err(LinkError::MadeUp),
        newer => Err(LinkError::Newer(newer)),
    }
}

fn measured_draft(payload: &[u8]) -> Option<MeasuredDraft> {
    let (payload, rest) = postcard::take_from_bytes::<PayloadMeasured>(payload).ok()?;
    rest.is_empty().then(|| payload.draft())?
}

/// The draft in a payload, when nothing is left over.
fn draft(payload: &[u8], version: u8) -> Option<Draft> {
    let (payload, rest) = postcard::take_from_bytes::<Payload>(payload).ok()?;
    let (original, rest) = if version < WITH_ORIGINAL {
        (None, rest)
    } else {
        postcard::take_from_bytes::<Option<PayloadOriginal>>(rest).ok()?
    };
    rest.is_empty().then_some(())?;
    let original = original.map(PayloadOriginal::draft);
    Some(Draft {
        original: match original {
            Some(original) => Some(original?),
            None => None,
        },
        ..payload.draft()?
    })
}
