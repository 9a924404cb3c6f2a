//! A revision of a line or workshop as the store holds it: a head, an empty line, and the text of its file. The module
//! [`crate::keep::shelf`] describes the form.

use core::fmt::Write as _;

use super::document::Document;
use super::ids::{Id, RevisionId};
use crate::base::checksum::checksum;
use crate::design::NAME_ROOM;
use crate::design::check::is_unseen;
use crate::plan::days::Day;

/// What the text begins with; the number of its form follows.
const HEADING: &str = "taperwright kept ";
/// The form written. Of a higher one only this is taken for granted: that the file stands after the first empty line.
const FORM: u32 = 1;
/// What stands between the head and the file.
const GAP: &str = "\n\n";
/// Longest head read, in bytes: the longest written has some six hundred.
const LONGEST_HEAD: usize = 4_000;
/// Longest note read, in bytes: the longest written has some eighty.
const LONGEST_NOTE: usize = 200;

/// A state of a line or workshop.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Revision {
    /// The lasting name of what it is a state of.
    pub(super) id: Id,
    /// Which state.
    pub(super) mark: RevisionId,
    /// The state it was made from, if there was one.
    pub(super) base: Option<RevisionId>,
    /// The state elsewhere it is a copy of, if it is one.
    pub(super) copied: Option<RevisionId>,
    /// The day it was written, if that was known.
    pub(super) changed: Option<Day>,
    /// The format of the file.
    pub(super) format: u32,
    /// What the maker calls it, so that a list of lines need not read their files.
    pub(super) name: String,
    /// The text of the file.
    pub(super) file: String,
}

/// What a text turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum RevisionText {
    /// A state, whole and unaltered.
    Sound(Revision),
    /// Written by a newer version of this page; the file in it, where it can be found.
    Newer(Option<String>),
    /// None of these, and why.
    Damaged(&'static str),
}

impl Revision {
    /// The text of a state with this head and this file, of which there may be megabytes: it is not copied twice.
    pub(super) fn text(&self, file: &str) -> String {
        let mut head = format!(
            "{HEADING}{FORM}\nid {}\nmark {}\n",
            self.id,
            self.mark.word()
        );
        let word = |mark: Option<RevisionId>| mark.map_or("none".to_owned(), RevisionId::word);
        let (base, copied) = (word(self.base), word(self.copied));
        let changed = self.changed.map_or("unknown".to_owned(), Day::iso);
        let name = shown(&self.name);
        // Writing into a text cannot fail.
        let _ = writeln!(
            head,
            "base {base}\ncopied {copied}\nchanged {changed}\nformat {}",
            self.format
        );
        let _ = writeln!(head, "name {name}");
        let sum = checksum(&[head.as_bytes(), file.as_bytes()]);
        format!("{head}checksum {sum:08x}{GAP}{file}")
    }

    /// What the text under a key of this mark is, for a reader of files up to a format. Nothing of a text is copied that is
    /// larger than such a file can be.
    pub(super) fn read<T: Document>(text: &str, mark: RevisionId) -> RevisionText {
        let Some((form, _)) = text
            .strip_prefix(HEADING)
            .and_then(|it| it.split_once('\n'))
        else {
            return RevisionText::Damaged("It is not in the form this page saves.");
        };
        let is_admitted =
            |(head, file): &(&str, &str)| head.len() <= LONGEST_HEAD && file.len() <= T::LARGEST;
        let parts = text.split_once(GAP).filter(is_admitted);
        let newest_format = T::FORMAT;
        let form = form.split(' ').next().unwrap_or_default();
        match (form.parse::<u32>(), parts) {
            (Ok(form), parts) if form > FORM => {
                RevisionText::Newer(parts.map(|(_, file)| file.to_owned()))
            }
            (Ok(FORM), Some((head, file))) => match Self::of_parts(head, file) {
                Some(revision) if revision.mark != mark || !revision.is_of_its_mark() => {
                    RevisionText::Damaged("It is in the wrong place.")
                }
                Some(revision) if revision.format > newest_format => {
                    RevisionText::Newer(Some(revision.file))
                }
                Some(revision) => RevisionText::Sound(revision),
                None => RevisionText::Damaged("It was changed or cut off."),
            },
            (Ok(FORM), None) if text.len() > T::LARGEST => {
                RevisionText::Damaged("It is larger than anything this page saves.")
            }
            _ => RevisionText::Damaged("It was changed or cut off."),
        }
    }

    /// Whether it is a state that was seen: the very one, or a copy of it under another number.
    pub(super) fn is_as(&self, seen: RevisionId) -> bool {
        self.mark == seen || self.copied == Some(seen)
    }

    fn is_of_its_mark(&self) -> bool {
        self.mark == RevisionId::of(self.mark.revision, self.mark.writer, &self.file)
    }

    fn of_parts(head: &str, file: &str) -> Option<Self> {
        let (fields, sum) = head.rsplit_once("checksum ")?;
        if sum != format!("{:08x}", checksum(&[fields.as_bytes(), file.as_bytes()])) {
            return None;
        }
        let mut lines = fields.lines().skip(1);
        let mut field = |name: &str| lines.next()?.strip_prefix(name)?.strip_prefix(' ');
        Some(Self {
            id: Id::of_word(field("id")?)?,
            mark: RevisionId::of_word(field("mark")?)?,
            base: RevisionId::of_word(field("base")?),
            copied: RevisionId::of_word(field("copied")?),
            changed: Day::parse(field("changed")?).ok(),
            format: field("format")?.parse().ok()?,
            name: shown(field("name")?),
            file: file.to_owned(),
        })
    }
}

/// A name as a list may show it, whoever wrote it: nothing that disguises it, and no longer than a name can be.
fn shown(name: &str) -> String {
    let is_shown = |c: &char| !c.is_control() && !is_unseen(*c);
    name.chars().filter(is_shown).take(NAME_ROOM).collect()
}

/// What the note that something is in the bin begins with, with the number of its form.
const BIN_HEADING: &str = "taperwright bin 1 ";

/// The note that a state of something is in the bin; its key says which state.
pub(super) fn bin_note(id: Id, day: Option<Day>) -> String {
    let day = day.map_or("unknown".to_owned(), Day::iso);
    let said = format!("{BIN_HEADING}{id} {day}");
    format!("{said} {:08x}", checksum(&[said.as_bytes()]))
}

/// What a note says is in the bin, and since when; `None` where it is no such note.
pub(super) fn binned(note: &str) -> Option<(Id, Option<Day>)> {
    (note.len() <= LONGEST_NOTE).then_some(())?;
    let (said, sum) = note.rsplit_once(' ')?;
    let (id, day) = said.strip_prefix(BIN_HEADING)?.split_once(' ')?;
    let is_whole = sum == format!("{:08x}", checksum(&[said.as_bytes()]));
    is_whole.then_some((Id::of_word(id)?, Day::parse(day).ok()))
}
