//! A whole design in the fragment of a link.
//!
//! Base64url of: version byte, length and CRC-32 of the payload (little-endian, 2 and 4 bytes), payload; then the
//! letter `z`, so that no mail program strips a dash at the end and a link cut short is known as such. The
//! payload is postcard of `Wire`: every number a whole count of its step. See DEVELOPERS.md.

use core::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::Deserialize;

use super::wire::{self, Wire};
use super::{first, second};
use crate::base::checksum::checksum;
use crate::design::refusal::Refusal;
use crate::design::{Design, Draft};

/// What a design's fragment begins with.
pub const PREFIX: &str = "line=";
/// The letter every link ends with.
const END: char = 'z';
/// The format written.
const VERSION: u8 = 3;
/// Bytes before the payload: version, length, checksum.
const HEADER: usize = 7;
/// Longest fragment, in characters: what messengers pass on whole.
pub const LONGEST: usize = 1_800;
/// Longest code read, in characters, where it came by no messenger: that of a design with the longest texts, most points,
/// pins and gears is a third of it.
pub(crate) const LONGEST_CODE: usize = 60_000;
/// Most of a text that is looked through for a link, in bytes: far more than any message has.
const MOST_MESSAGE: usize = 1_000_000;

/// Why a link gave no design, or a design no link.
#[derive(Clone, Debug, PartialEq)]
pub enum LinkError {
    /// The design makes a link of more characters than are sent whole.
    TooLong(usize),
    /// The link is longer than any made here.
    Overlong,
    /// The end is missing.
    CutOff,
    /// There is a character in it that no link has.
    WrongCharacter,
    /// Characters were changed on the way.
    Altered,
    /// True to its checksum, and yet nothing that was ever made here: lists too long, choices there are none of, more behind
    /// the design than belongs there.
    MadeUp,
    /// Made by a newer version of this program.
    Newer(u8),
    /// Readable, but not a design that could be braided.
    Refused(Refusal),
}

impl fmt::Display for LinkError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(characters) => write!(
                out,
                "This design makes a link of {characters} characters; messengers carry {LONGEST}. Send the design file instead."
            ),
            Self::Overlong => write!(
                out,
                "The link is longer than any Taperwright makes, and is not opened. Ask for the design file."
            ),
            Self::CutOff => write!(
                out,
                "The link was cut off on its way; its end is missing. Ask for it again, or for the design file."
            ),
            Self::WrongCharacter => write!(
                out,
                "There is a character in the link that no link of Taperwright has. Ask for it again, or for the design file."
            ),
            Self::MadeUp => write!(
                out,
                "The link is whole, but no Taperwright makes such a one; it is not opened. Ask for the design file."
            ),
            Self::Altered => write!(
                out,
                "The link was altered on its way and cannot be trusted. Ask for it again, or for the design file."
            ),
            Self::Newer(version) => write!(
                out,
                "The link is of format {version}; this page reads up to {VERSION}. Reload the page to get its newest version."
            ),
            Self::Refused(refusal) => write!(out, "The link's design cannot be used. {refusal}"),
        }
    }
}

/// The fragment of a design, without the `#`.
///
/// # Errors
/// [`LinkError::TooLong`] when it would not survive being sent.
pub fn encode(design: &Design) -> Result<String, LinkError> {
    let fragment = format!("{PREFIX}{}", pack(design)?);
    if fragment.len() > LONGEST {
        Err(LinkError::TooLong(fragment.len()))
    } else {
        Ok(fragment)
    }
}

/// What a fragment carries of a design behind its prefix, however long.
///
/// # Errors
/// [`LinkError::TooLong`] when the design has more bytes than the form can count.
pub(crate) fn pack(design: &Design) -> Result<String, LinkError> {
    let payload =
        postcard::to_allocvec(&Wire::of(design.draft())).expect("counts and text always serialise");
    let length = u16::try_from(payload.len()).map_err(|_| LinkError::TooLong(payload.len()))?;
    let mut bytes = vec![VERSION];
    bytes.extend(length.to_le_bytes());
    bytes.extend(checksum(&[&payload]).to_le_bytes());
    bytes.extend(payload);
    Ok(format!("{}{END}", URL_SAFE_NO_PAD.encode(bytes)))
}

/// The design of a fragment; `None` when the fragment is no design's at all.
///
/// # Errors
/// Inside the option, [`LinkError`] says what happened to the link.
pub fn decode(fragment: &str) -> Option<Result<Design, LinkError>> {
    let code = fragment.trim_start_matches('#').strip_prefix(PREFIX)?;
    let is_overlong = code.len() + PREFIX.len() > LONGEST;
    Some(if is_overlong {
        Err(LinkError::Overlong)
    } else {
        unpack(code)
    })
}

/// The first fragment of a design in a text, without its `#`: in a whole address, or in a message with one in it. `None`
/// where there is none, or none before the millionth byte.
pub fn fragment_in(text: &str) -> Option<&str> {
    let mut end = text.len().min(MOST_MESSAGE);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let text = &text[..end];
    let from = text.find(&format!("#{PREFIX}"))? + 1;
    let ends = |c: char| c.is_whitespace() || matches!(c, '"' | '<' | '>' | '#');
    let found = text[from..].split(ends).next()?;
    // What a sentence or a bracket around it ends with.
    Some(found.trim_end_matches(['.', ',', ';', ':', '!', '?', ')', ']', '’', '”']))
}

/// The design of what [`pack`] made.
///
/// # Errors
/// [`LinkError`] says what happened to it.
pub(crate) fn unpack(code: &str) -> Result<Design, LinkError> {
    if code.len() > LONGEST_CODE {
        return Err(LinkError::Overlong);
    }
    payload(code).and_then(|(version, payload)| design(version, &payload))
}

/// The version and the payload, when length and checksum hold.
fn payload(code: &str) -> Result<(u8, Vec<u8>), LinkError> {
    let whole = code.strip_suffix(END);
    let mut bytes = bytes_of(whole.unwrap_or(code))?;
    match bytes.first() {
        Some(&version) if version > VERSION => return Err(LinkError::Newer(version)),
        Some(&version) if version >= 1 && bytes.len() >= HEADER => {}
        Some(1..) | None => return Err(LinkError::CutOff),
        Some(0) => return Err(LinkError::Altered),
    }
    let version = bytes[0];
    let payload = bytes.split_off(HEADER);
    let length = usize::from(u16::from_le_bytes([bytes[1], bytes[2]]));
    let sum = u32::from_le_bytes([bytes[3], bytes[4], bytes[5], bytes[6]]);
    if payload.len() < length || whole.is_none() {
        return Err(LinkError::CutOff);
    }
    let sound = payload.len() == length && checksum(&[&payload]) == sum;
    if sound {
        Ok((version, payload))
    } else {
        Err(LinkError::Altered)
    }
}

/// Decodes, dropping up to three characters of a torn last group.
fn bytes_of(code: &str) -> Result<Vec<u8>, LinkError> {
    let is_ours = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
    if !code.bytes().all(is_ours) {
        return Err(LinkError::WrongCharacter);
    }
    let whole = code.get(..code.len() - code.len() % 4).unwrap_or("");
    URL_SAFE_NO_PAD
        .decode(code)
        .or_else(|_| URL_SAFE_NO_PAD.decode(whole))
        .map_err(|_| LinkError::Altered)
}

fn design(version: u8, payload: &[u8]) -> Result<Design, LinkError> {
    let draft = draft(version, payload).ok_or_else(|| {
        // The checksum is that of the payload alone: a number of the format that was changed on the way shows here.
        let is_of_another = (1..=VERSION).any(|other| draft(other, payload).is_some());
        if is_of_another {
            LinkError::Altered
        } else {
            LinkError::MadeUp
        }
    })?;
    Design::parse(draft).map_err(LinkError::Refused)
}

fn draft(version: u8, payload: &[u8]) -> Option<Draft> {
    match version {
        1 => whole::<first::Wire>(payload).and_then(first::Wire::draft),
        2 => whole::<wire::Line>(payload).and_then(second::draft),
        _ => whole::<Wire>(payload).and_then(Wire::draft),
    }
}

/// What a payload holds, when nothing is left over.
fn whole<'a, W: Deserialize<'a>>(payload: &'a [u8]) -> Option<W> {
    let (wire, rest) = postcard::take_from_bytes::<W>(payload).ok()?;
    rest.is_empty().then_some(wire)
}
