//! A whole design in the fragment of a link: `#line=`, then the code of the design.
//!
//! A code is base64url without padding of these bytes, then the letter `z`:
//!
//! | bytes | what |
//! |---|---|
//! | 1 | version, 4 |
//! | 2 | length of the payload, little-endian |
//! | 4 | CRC-32 of version, length and payload, little-endian |
//! | the rest | the payload: postcard of `share::payload::Payload` |
//!
//! The `z` keeps a dash from standing last, where mail programs drop it, and shows that nothing was cut off. Every later
//! version keeps these fields and what the checksum covers. So a version byte changed on the way is known as damage, and only
//! a link that is whole is said to come from a newer version.
//!
//! Version 3 differs in one thing: its checksum covers the payload alone. Bench books and the steps kept in browsers hold
//! codes of version 3, so they are read for good. Versions 1 and 2 were never released; their links are refused.
//!
//! The word `line` may be written in capitals and the `=` percent-encoded; what follows the `z` and is no letter of base64url is left
//! out (`share::found`).
//!
//! A link has at most 1,800 characters; a longer design travels as a file. A link opens as a preview and never replaces a kept
//! line.

use core::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

use super::found::found;
use super::payload::Payload;
use crate::base::checksum::checksum;
use crate::design::refusal::Refusal;
use crate::design::{Design, Draft};

pub use super::found::{LONGEST, PREFIX, fragment_in};

/// The letter every link ends with.
const END: char = 'z';
/// The version written.
const VERSION: u8 = 4;
/// The oldest version read, and the last whose checksum covers the payload alone.
const OLDEST: u8 = 3;
/// Bytes of version and length.
const CHECKED: usize = 3;
/// Bytes before the payload: version, length, checksum.
const HEADER: usize = 7;
/// Longest code read, in characters, where it came by no messenger: that of a design with the longest texts, most points,
/// pins and gears is a third of it.
pub(crate) const LONGEST_CODE: usize = 60_000;

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
    /// The checksum holds, but no version makes such a link: lists too long, choices that do not exist, bytes left over.
    MadeUp,
    /// Made by a version that was never released.
    Unreleased(u8),
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
                "The link is longer than any link from Taperwright, so it is not opened. Ask for the design file."
            ),
            Self::CutOff => write!(
                out,
                "The link was cut off: its end is missing. Ask for it again, or for the design file."
            ),
            Self::WrongCharacter => write!(
                out,
                "The link contains a character that no link from Taperwright has. Ask for it again, or for the design file."
            ),
            Self::MadeUp => write!(
                out,
                "The link is complete, but not from Taperwright, so it is not opened. Ask for the design file."
            ),
            Self::Altered => write!(
                out,
                "The link was changed on its way and cannot be used. Ask for it again, or for the design file."
            ),
            Self::Unreleased(version) => write!(
                out,
                "The link has format {version}, from an early version that was never released. This page reads formats {OLDEST} and {VERSION}. Ask for a new link, or for the design file."
            ),
            Self::Newer(version) => write!(
                out,
                "The link has format {version}; this page reads up to {VERSION}. Reload the page to get the newest version."
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

/// The code of a design, however long.
///
/// # Errors
/// [`LinkError::TooLong`] when the design has more bytes than the form can count.
pub(crate) fn pack(design: &Design) -> Result<String, LinkError> {
    let payload = postcard::to_allocvec(&Payload::of(design.draft()))
        .expect("counts and text always serialise");
    let length = u16::try_from(payload.len()).map_err(|_| LinkError::TooLong(payload.len()))?;
    let mut bytes = vec![VERSION];
    bytes.extend(length.to_le_bytes());
    bytes.extend(sum(&bytes, &payload).to_le_bytes());
    bytes.extend(payload);
    Ok(format!("{}{END}", URL_SAFE_NO_PAD.encode(bytes)))
}

/// The checksum of a link, given its version and length, and its payload.
fn sum(checked: &[u8], payload: &[u8]) -> u32 {
    let covers_payload_only = checked.first().is_some_and(|version| *version <= OLDEST);
    checksum(&[if covers_payload_only { &[] } else { checked }, payload])
}

/// The design of a fragment; `None` when the fragment is no design's at all. Its word may be written in capitals, and what
/// stands after a whole code is left out.
///
/// # Errors
/// Inside the option, [`LinkError`] says what happened to the link.
pub fn decode(fragment: &str) -> Option<Result<Design, LinkError>> {
    let found = found(fragment)?;
    if found.is_overlong || found.code.len() + PREFIX.len() > LONGEST {
        return Some(Err(LinkError::Overlong));
    }
    // Where a code ends too early and goes on after a character of no code, that character is what is wrong.
    Some(unpack(&found.code).map_err(|error| match error {
        LinkError::CutOff | LinkError::Altered if found.is_followed => LinkError::WrongCharacter,
        error => error,
    }))
}

/// The design of what [`pack`] made.
///
/// # Errors
/// [`LinkError`] says what happened to it.
pub(crate) fn unpack(code: &str) -> Result<Design, LinkError> {
    if code.len() > LONGEST_CODE {
        return Err(LinkError::Overlong);
    }
    let (version, payload) = opened(code)?;
    match version {
        OLDEST..=VERSION => {
            let draft = draft(&payload).ok_or(LinkError::MadeUp)?;
            Design::parse(draft).map_err(LinkError::Refused)
        }
        // The checksum of version 3 says nothing of the version: one changed on the way shows by its payload.
        1..OLDEST if draft(&payload).is_none() => Err(LinkError::Unreleased(version)),
        0..OLDEST => Err(LinkError::Altered),
        newer => Err(LinkError::Newer(newer)),
    }
}

/// The version and the payload, when length and checksum hold.
fn opened(code: &str) -> Result<(u8, Vec<u8>), LinkError> {
    let whole = code.strip_suffix(END);
    let mut bytes = bytes_of(whole.unwrap_or(code))?;
    if bytes.len() < HEADER {
        return Err(LinkError::CutOff);
    }
    let payload = bytes.split_off(HEADER);
    let length = usize::from(u16::from_le_bytes([bytes[1], bytes[2]]));
    let stated = u32::from_le_bytes([bytes[3], bytes[4], bytes[5], bytes[6]]);
    if payload.len() < length || whole.is_none() {
        return Err(LinkError::CutOff);
    }
    let is_sound = payload.len() == length && sum(&bytes[..CHECKED], &payload) == stated;
    if is_sound {
        Ok((bytes[0], payload))
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

/// The draft in a payload, when nothing is left over.
fn draft(payload: &[u8]) -> Option<Draft> {
    let (payload, rest) = postcard::take_from_bytes::<Payload>(payload).ok()?;
    rest.is_empty().then(|| payload.draft())?
}
