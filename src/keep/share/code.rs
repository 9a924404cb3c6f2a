//! The code of a link: base64url without padding of these bytes, then the letter `z`.
//!
//! | bytes | what |
//! |---|---|
//! | 1 | version, 5 |
//! | 2 | length of the payload, little-endian |
//! | 4 | CRC-32 of version, length and payload, little-endian |
//! | the rest | the payload |
//!
//! The `z` keeps a dash from standing last, where mail programs drop it, and shows that nothing was cut off. Every later
//! version keeps these fields and what the checksum covers. So a version byte changed on the way is known as damage, and only
//! a link that is whole is said to come from a newer version.
//!
//! Version 4 is of designs without an original, and there is nothing else in it. The checksum of version 3 covers the payload
//! alone. Bench books and the steps kept in browsers hold codes of both, so they are read for good. Versions 1 and 2 were never
//! released; their links are refused.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

use crate::base::checksum::checksum;

/// The version written.
pub(super) const VERSION: u8 = 5;
/// The oldest version read, and the last whose checksum covers the payload alone.
pub(super) const OLDEST: u8 = 3;
/// The letter every code ends with.
const END: char = 'z';
/// Bytes of version and length.
const CHECKED: usize = 3;
/// Bytes before the payload: version, length, checksum.
const HEADER: usize = 7;

/// What happened to a code on its way.
pub(super) enum CodeError {
    /// The end is missing.
    CutOff,
    /// There is a character in it that no code has.
    WrongCharacter,
    /// Characters were changed.
    Altered,
}

/// The code of a payload; `None` where it has more bytes than the form can count.
pub(super) fn packed(payload: &[u8]) -> Option<String> {
    let length = u16::try_from(payload.len()).ok()?;
    let mut bytes = vec![VERSION];
    bytes.extend(length.to_le_bytes());
    bytes.extend(sum(&bytes, payload).to_le_bytes());
    bytes.extend(payload);
    Some(format!("{}{END}", URL_SAFE_NO_PAD.encode(bytes)))
}

/// The version and the payload, when length and checksum hold.
pub(super) fn opened(code: &str) -> Result<(u8, Vec<u8>), CodeError> {
    let whole = code.strip_suffix(END);
    let mut bytes = bytes_of(whole.unwrap_or(code))?;
    if bytes.len() < HEADER {
        return Err(CodeError::CutOff);
    }
    let payload = bytes.split_off(HEADER);
    let length = usize::from(u16::from_le_bytes([bytes[1], bytes[2]]));
    let stated = u32::from_le_bytes([bytes[3], bytes[4], bytes[5], bytes[6]]);
    if payload.len() < length || whole.is_none() {
        return Err(CodeError::CutOff);
    }
    let is_sound = payload.len() == length && sum(&bytes[..CHECKED], &payload) == stated;
    if is_sound {
        Ok((bytes[0], payload))
    } else {
        Err(CodeError::Altered)
    }
}

/// The checksum, given version and length, and the payload.
fn sum(checked: &[u8], payload: &[u8]) -> u32 {
    let covers_payload_only = checked.first().is_some_and(|version| *version <= OLDEST);
    checksum(&[if covers_payload_only { &[] } else { checked }, payload])
}

/// Decodes, dropping up to three characters of a torn last group.
fn bytes_of(code: &str) -> Result<Vec<u8>, CodeError> {
    let is_ours = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
    if !code.bytes().all(is_ours) {
        return Err(CodeError::WrongCharacter);
    }
    let whole = code.get(..code.len() - code.len() % 4).unwrap_or("");
    URL_SAFE_NO_PAD
        .decode(code)
        .or_else(|_| URL_SAFE_NO_PAD.decode(whole))
        .map_err(|_| CodeError::Altered)
}
