//! Document as small as can be, so that hundreds of thousands of histories are quickly lived through.

use taperwright::keep::shelf::{Document, Unread};

/// A slip of paper with a name and some words on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Slip {
    pub(crate) name: String,
    pub(crate) words: String,
}

impl Slip {
    pub(crate) fn of(words: &str) -> Self {
        let (name, words) = ("slip".to_owned(), words.to_owned());
        Self { name, words }
    }
}

fn parts(text: &str) -> Option<(u32, Slip)> {
    let mut lines = text.split('\n');
    let (format, length) = lines.next()?.strip_prefix("slip ")?.split_once(' ')?;
    let (name, words) = (lines.next()?.to_owned(), lines.next()?.to_owned());
    let is_whole = length.parse() == Ok(words.len()) && lines.next().is_none();
    is_whole.then_some((format.parse().ok()?, Slip { name, words }))
}

impl Document for Slip {
    const WORD: &'static str = "slip";
    const PREFIX: &'static str = "taperwright/slip/";
    const BIN: &'static str = "taperwright/bin/slip/";
    const LARGEST: usize = 1_000;
    const FORMAT: u32 = 1;
    const UNNAMED: &'static str = "Unnamed slip";

    fn read(text: &str) -> Result<Self, Unread> {
        match parts(text) {
            Some((1, slip)) => Ok(slip),
            parts => Err(Unread {
                is_newer: parts.is_some(),
                why: "It is no slip.".to_owned(),
            }),
        }
    }

    fn glimpse(text: &str) -> Option<Self> {
        parts(text).map(|(_, slip)| slip)
    }

    fn write(&self) -> String {
        format!("slip 1 {}\n{}\n{}", self.words.len(), self.name, self.words)
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn renamed(&self, name: &str) -> Self {
        let name = name.to_owned();
        Self {
            name,
            ..self.clone()
        }
    }
}
