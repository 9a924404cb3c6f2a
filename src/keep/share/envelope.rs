//! What every file has in common: JSON of a limited size, with a word that says what it is and the number of its format.

use serde::Deserialize;

use super::said::said;
use super::shape::Shape;

/// A kind of file.
pub(crate) struct FileKind {
    /// The word by which it is known.
    pub(crate) format: &'static str,
    /// The oldest format read: those before it were never released.
    pub(crate) oldest: u32,
    /// The format written; a higher number comes from a newer Taperwright.
    pub(crate) version: u32,
    /// Most bytes read.
    pub(crate) largest: usize,
    /// What it is like at most; looked at before anything is taken apart.
    pub(crate) shape: Shape,
}

/// Why a text is no file of a kind.
pub(crate) enum Unopened {
    /// More bytes than such a file can have.
    TooLarge,
    /// Nested deeper, in more pieces, or with longer texts than such a file ever has.
    Misshapen,
    /// Its end is missing.
    CutOff,
    /// Something else.
    Other,
    /// Written by a version that was never released.
    Unreleased(u32),
    /// Written by a newer version of this program.
    Newer(u32),
}

#[derive(Deserialize)]
struct Envelope {
    format: String,
    version: u32,
}

impl FileKind {
    /// Whether a text is a file of this kind, in a format that is read.
    ///
    /// # Errors
    /// [`Unopened`] says why it is not.
    pub(crate) fn admits(&self, text: &str) -> Result<(), Unopened> {
        let text = without_mark(text);
        if text.len() > self.largest {
            return Err(Unopened::TooLarge);
        }
        if !self.shape.admits(text) {
            return Err(Unopened::Misshapen);
        }
        let envelope = Envelope::of(text)?;
        if envelope.format != self.format || envelope.version == 0 {
            return Err(Unopened::Other);
        }
        match envelope.version {
            newer if newer > self.version => Err(Unopened::Newer(newer)),
            old if old < self.oldest => Err(Unopened::Unreleased(old)),
            _ => Ok(()),
        }
    }
}

impl Envelope {
    fn of(text: &str) -> Result<Self, Unopened> {
        serde_json::from_str(text).map_err(|error| {
            // A number may end after its point or within its power of ten, which its reader takes for a wrong letter.
            let ends_early = error.is_eof() || text.ends_with(['.', 'e', 'E', '+', '-']);
            if ends_early && text.trim_start().starts_with('{') {
                Unopened::CutOff
            } else {
                Unopened::Other
            }
        })
    }
}

/// What is said of a file that was looked at and not taken apart.
pub(crate) const MISSHAPEN: &str =
    "it has more pieces, or longer ones, than any that was written here";
/// What is said of a file whose end is missing.
pub(crate) const CUT_OFF: &str =
    "The file was cut off: its end is missing. Look for another copy of it.";

/// A text without the mark of byte order that some programs put at the beginning of every file.
pub(crate) fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// The word by which a file of this shape is known.
///
/// # Errors
/// [`Unopened`] where the text is no file of ours, or not all of one.
pub(crate) fn format_of(text: &str, shape: &Shape) -> Result<String, Unopened> {
    let text = without_mark(text);
    if !shape.admits(text) {
        return Err(Unopened::Misshapen);
    }
    Envelope::of(text).map(|envelope| envelope.format)
}

/// The contents of a text; else what is wrong with them.
pub(crate) fn contents<'a, C: Deserialize<'a>>(text: &'a str) -> Result<C, String> {
    serde_json::from_str(without_mark(text)).map_err(|error| said(&error))
}

/// Most characters of a title that go into a file's name: file systems hold 255 bytes of it, and a character takes up to four.
const MOST_STEM: usize = 48;
/// What no file can be called on Windows, whatever stands after a dot. Source: Microsoft Learn, "Naming Files, Paths, and
/// Namespaces", section "Naming Conventions" (from memory).
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];
/// These too, with a digit or a raised 1, 2 or 3 after them. Source: the same.
const PORTS: [&str; 2] = ["com", "lpt"];

/// The beginning of a file's name, made from a title: letters, digits and dashes only, or the stand-in where none is left. The
/// stand-in goes before a name that is not free on some system.
pub(crate) fn stem(title: &str, stand_in: &str) -> String {
    let dashed: String = title
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<&str> = dashed.split('-').filter(|word| !word.is_empty()).collect();
    let whole = words.join("-").to_lowercase();
    let stem: String = whole.chars().take(MOST_STEM).collect();
    match stem.trim_end_matches('-') {
        "" => stand_in.to_owned(),
        taken if is_taken(taken) => format!("{stand_in}-{taken}"),
        free => free.to_owned(),
    }
}

fn is_taken(stem: &str) -> bool {
    let is_number = |rest: &str| {
        matches!(rest.chars().next(), Some('0'..='9' | '¹' | '²' | '³'))
            && rest.chars().count() == 1
    };
    let is_port = |port: &&str| stem.strip_prefix(*port).is_some_and(is_number);
    DEVICES.contains(&stem) || PORTS.iter().any(is_port)
}
