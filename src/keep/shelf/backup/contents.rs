//! What a file of everything holds, whole or damaged.

use super::outcome::{BackupError, FORMAT, LARGEST, MOST_PIECES, VERSION};
use super::piece::{BackupFile, JsonText};
use super::salvage::salvaged;
use crate::keep::share::envelope::{FileKind, Unopened, without_mark};
use crate::keep::share::shape::Shape;

const KIND: FileKind = FileKind {
    format: FORMAT,
    oldest: 1,
    version: VERSION,
    largest: LARGEST,
    shape: Shape {
        depth: 8,
        // The file itself and its four lists are five.
        pieces: MOST_PIECES + 5,
        text: 2_000,
        long: &["file", "text", "key"],
    },
};

/// Whether a text is a file of everything, of this version or a newer one, by its word; also where the rest is damaged.
pub fn is_one(text: &str) -> bool {
    let is_sound = matches!(KIND.admits(text), Ok(()) | Err(Unopened::Newer(_)));
    is_sound || after_word(text).is_some()
}

/// The pieces of a file. Of one that is damaged or was cut off these are the whole ones, and what is left of the others.
///
/// # Errors
/// [`BackupError`] says what the file is not.
pub(super) fn contents(text: &str) -> Result<BackupFile<'_>, BackupError> {
    let text = without_mark(text);
    let is_cut_off = match KIND.admits(text) {
        Ok(()) => match whole(text) {
            Some(file) => return Ok(file),
            None => false,
        },
        Err(Unopened::TooLarge) => return Err(BackupError::TooLarge),
        Err(Unopened::Newer(version)) => return Err(BackupError::Newer(version)),
        Err(unopened) => {
            let is_cut_off = matches!(unopened, Unopened::CutOff);
            let Some(rest) = after_word(text) else {
                return Err(match unopened {
                    Unopened::Misshapen => BackupError::Damaged,
                    Unopened::CutOff => BackupError::CutOff,
                    _ => BackupError::NotABackup,
                });
            };
            if let Some(version) = version_in(rest).filter(|version| *version > VERSION) {
                return Err(BackupError::Newer(version));
            }
            is_cut_off
        }
    };
    let is_cut_off = is_cut_off || !text.trim_end().ends_with('}');
    let nothing = if is_cut_off {
        BackupError::CutOff
    } else {
        BackupError::Damaged
    };
    let file = salvaged(text).ok_or(nothing)?;
    Ok(BackupFile { is_cut_off, ..file })
}

/// The pieces of a file of which all is as it should be.
fn whole(text: &str) -> Option<BackupFile<'_>> {
    let file: BackupFile<'_> = serde_json::from_str(text).ok()?;
    let is_sound = file.texts().all(JsonText::is_sound);
    is_sound.then_some(file)
}

/// What stands after the word of the format, where a text begins with it, as every file that was written here does.
fn after_word(text: &str) -> Option<&str> {
    let tokens = ["{", "\"format\"", ":", "\"", FORMAT, "\""];
    let mut rest = without_mark(text);
    for token in tokens {
        rest = rest.trim_start().strip_prefix(token)?;
    }
    Some(rest)
}

/// The number of the format, where it stands at once after the word.
fn version_in(rest: &str) -> Option<u32> {
    let mut rest = rest;
    for token in [",", "\"version\"", ":"] {
        rest = rest.trim_start().strip_prefix(token)?;
    }
    let rest = rest.trim_start();
    let end = rest.find(|c: char| !c.is_ascii_digit())?;
    rest[..end].parse().ok()
}
