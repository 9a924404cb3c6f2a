//! What every file has in common: JSON of a limited size, with a word that says what it is and the number of its format.

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// A kind of file.
pub(crate) struct Kind {
    /// The word by which it is known.
    pub(crate) format: &'static str,
    /// The format written; a higher number comes from a newer Taperwright.
    pub(crate) version: u32,
    /// Most bytes read.
    pub(crate) largest: usize,
}

/// Why a text is no file of a kind.
pub(crate) enum Unopened {
    /// More bytes than such a file can have.
    TooLarge,
    /// Something else.
    Other,
    /// Written by a newer version of this program.
    Newer(u32),
}

#[derive(Deserialize)]
struct Envelope {
    format: String,
    version: u32,
}

impl Kind {
    /// The number of the format a text of this kind is in, 1 to the one written.
    pub(crate) fn version_of(&self, text: &str) -> Result<u32, Unopened> {
        if text.len() > self.largest {
            return Err(Unopened::TooLarge);
        }
        let envelope: Envelope = serde_json::from_str(text).map_err(|_| Unopened::Other)?;
        if envelope.format != self.format || envelope.version == 0 {
            return Err(Unopened::Other);
        }
        if envelope.version > self.version {
            return Err(Unopened::Newer(envelope.version));
        }
        Ok(envelope.version)
    }
}

/// The word by which a file is known; `None` where the text is no file of ours.
pub(crate) fn format_of(text: &str) -> Option<String> {
    let envelope: Option<Envelope> = serde_json::from_str(text).ok();
    envelope.map(|envelope| envelope.format)
}

/// The contents of a text; else what is wrong with them.
pub(crate) fn contents<C: DeserializeOwned>(text: &str) -> Result<C, String> {
    serde_json::from_str(text).map_err(|error| error.to_string())
}

/// The beginning of a file's name, made from a title: letters, digits and dashes only, or the stand-in where none is left.
pub(crate) fn stem(title: &str, stand_in: &str) -> String {
    let dashed: String = title
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<&str> = dashed.split('-').filter(|word| !word.is_empty()).collect();
    if words.is_empty() {
        stand_in.to_owned()
    } else {
        words.join("-").to_lowercase()
    }
}
