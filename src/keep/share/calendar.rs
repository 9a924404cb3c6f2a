//! A calendar file: iCalendar, RFC 5545, all-day events only. A step keeps its UID, so a file saved again changes the entries of the
//! first.

use core::fmt::Write as _;

use super::envelope::stem;
use crate::base::choice::Choice as _;
use crate::braid::recipe::{Caution, DraftStep};
use crate::design::Design;
use crate::plan::days::Day;
use crate::plan::days::dates::DatedStep;

/// Octets a line may have, its end left out. Source: RFC 5545, section 3.1.
const LINE: usize = 75;
/// Who wrote the file, in the form of RFC 5545, section 3.7.3.
const PRODUCER: &str = "-//Taperwright//Dressing plan//EN";

/// An entry in the calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalendarEvent {
    /// A name that no other entry in the world has; the same one again is the same entry, changed.
    pub uid: String,
    /// Its first day.
    pub first: Day,
    /// Its last day.
    pub last: Day,
    /// What it is called.
    pub title: String,
    /// All there is to say of it.
    pub text: String,
}

/// The steps of a design's dressing on their days. `line` tells this line from all others, so that saving again changes the
/// entries of the last time.
pub fn of_dressing(design: &Design, dated: &[DatedStep], line: &str) -> Vec<CalendarEvent> {
    let steps = design.draft().recipe.iter().zip(dated).enumerate();
    let entry = |(index, (step, dated)): (usize, (&DraftStep, &DatedStep))| CalendarEvent {
        uid: format!("{line}-{index}@taperwright"),
        first: dated.first,
        last: dated.last,
        title: format!("{}: {}", design.title(), step.kind.name()),
        text: words(step),
    };
    steps.map(entry).collect()
}

/// What to do, when it is ready, and what can hurt.
fn words(step: &DraftStep) -> String {
    let kind = step.kind;
    let mut lines = vec![
        kind.sentence().to_owned(),
        format!("Ready: {}", kind.ready()),
    ];
    lines.extend(
        kind.cautions()
            .iter()
            .map(|caution| caution.words().to_owned()),
    );
    if !kind.cautions().is_empty() {
        lines.push(Caution::DEFERRING.to_owned());
    }
    lines.join("\n")
}

/// A file name made from the line's title: letters, digits and dashes only.
pub fn name(design: &Design) -> String {
    format!("{}.dressing.ics", stem(design.title(), "line"))
}

/// The text of a calendar. `stamp` is the moment of writing in universal time, as `20261125T090000Z`.
pub fn write(entries: &[CalendarEvent], stamp: &str) -> String {
    let mut out = String::new();
    line(&mut out, "BEGIN:VCALENDAR");
    line(&mut out, "VERSION:2.0");
    line(&mut out, &format!("PRODID:{PRODUCER}"));
    line(&mut out, "CALSCALE:GREGORIAN");
    for entry in entries {
        event(&mut out, entry, stamp);
    }
    line(&mut out, "END:VCALENDAR");
    out
}

fn event(out: &mut String, entry: &CalendarEvent, stamp: &str) {
    line(out, "BEGIN:VEVENT");
    line(out, &format!("UID:{}", escaped(&entry.uid)));
    line(out, &format!("DTSTAMP:{}", escaped(stamp)));
    line(out, &format!("DTSTART;VALUE=DATE:{}", entry.first.digits()));
    // The end is the first day that no longer belongs to it. Source: RFC 5545, section 3.6.1.
    let end = entry.last.max(entry.first).plus(1);
    line(out, &format!("DTEND;VALUE=DATE:{}", end.digits()));
    line(out, &format!("SUMMARY:{}", escaped(&entry.title)));
    line(out, &format!("DESCRIPTION:{}", escaped(&entry.text)));
    line(out, "TRANSP:TRANSPARENT");
    line(out, "END:VEVENT");
}

/// A text as a value: RFC 5545, section 3.3.11. Control characters are dropped.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// Writes a line, folded so that none has more octets than allowed and no character is torn.
fn line(out: &mut String, text: &str) {
    let mut room = LINE;
    for c in text.chars() {
        if c.len_utf8() > room {
            out.push_str("\r\n ");
            // The space counts.
            room = LINE - 1;
        }
        room -= c.len_utf8();
        out.push(c);
    }
    let _ = write!(out, "\r\n");
}
