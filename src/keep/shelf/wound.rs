//! Which bobbins of a line are wound, kept beside it.
//!
//! ```text
//! taperwright wound 2
//! line 0123456789abcdef
//! cw0 14 375 2300mg
//! ccw0 14 375
//! ```
//!
//! The line is named, so that ticks are never taken for those of another line that came to have its number. Each bobbin has its
//! carrier, the ends of its thread, the thread wound on in tenths of a metre and, where it was weighed, the thread's weight in
//! milligrams. Version 1 had no weights; it is read. The text is written over at each tick, as the
//! steps to undo are: it is a note of the maker's, and no line hangs on it. What cannot be read counts as nothing ticked, and
//! stays until something is.

use core::fmt::Write as _;

use super::ids::Id;
use super::prefixes::{LineNumber, WOUND_KEY};
use super::store::{Shelf, Store, StoreError};
use crate::braid::track::Carrier;
use crate::plan::wound::{MOST_TICKS, Wound, WoundBobbin};

/// The first line: what the text is, and the number of its form.
const HEADING: &str = "taperwright wound 2";
/// The same before bobbins were weighed.
const UNWEIGHED: &str = "taperwright wound 1";
/// Longest text read, in bytes: a tick takes fewer than 48.
const LONGEST: usize = 48 * (MOST_TICKS + 2);

impl<S: Store> Shelf<S> {
    /// The bobbins of a kept line that are wound.
    pub fn wound(&self, number: LineNumber, id: Id) -> Wound {
        let text = self.store.get(&wound_key(number)).ok().flatten();
        read(&text.unwrap_or_default(), id).unwrap_or_default()
    }

    /// Keeps which bobbins of a kept line are wound.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses; what was kept before is still there then.
    pub fn keep_wound(
        &mut self,
        number: LineNumber,
        id: Id,
        wound: &Wound,
    ) -> Result<(), StoreError> {
        let key = wound_key(number);
        if wound.is_empty() {
            self.store.remove(&key)
        } else {
            self.store.set(&key, &write(wound, id))
        }
    }
}

/// The key under which it is kept which bobbins of a line are wound.
pub fn wound_key(number: LineNumber) -> String {
    format!("{WOUND_KEY}{number}")
}

fn write(wound: &Wound, id: Id) -> String {
    let mut text = format!("{HEADING}\nline {id}\n");
    for tick in wound.ticks() {
        // Writing to a string cannot fail.
        let _ = write!(text, "{} {} {}", tick.carrier, tick.ends, tick.decimetres);
        if let Some(mg) = tick.weighed_mg {
            let _ = write!(text, " {mg}mg");
        }
        text.push('\n');
    }
    text
}

fn read(text: &str, id: Id) -> Option<Wound> {
    let mut lines = text.lines();
    if text.len() > LONGEST {
        return None;
    }
    let has_weights = match lines.next()? {
        HEADING => true,
        UNWEIGHED => false,
        _ => return None,
    };
    let of = lines.next()?.strip_prefix("line ").and_then(Id::of_word);
    if of != Some(id) {
        return None;
    }
    let ticks: Option<Vec<WoundBobbin>> = lines.map(tick).collect();
    let ticks =
        ticks.filter(|ticks| has_weights || ticks.iter().all(|tick| tick.weighed_mg.is_none()))?;
    Some(Wound::of(ticks))
}

fn tick(line: &str) -> Option<WoundBobbin> {
    let mut words = line.split(' ');
    let tick = WoundBobbin {
        carrier: Carrier::of_key(words.next()?)?,
        ends: words.next()?.parse().ok()?,
        decimetres: words.next()?.parse().ok()?,
        weighed_mg: match words.next() {
            Some(word) => Some(word.strip_suffix("mg")?.parse().ok()?),
            None => None,
        },
    };
    words.next().is_none().then_some(tick)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str =
        "taperwright wound 2\nline 000000000000002a\ncw0 14 375 2300mg\nccw7 18 282\n";

    #[test]
    fn ticks_are_read_as_they_were_written() {
        let wound = read(TEXT, Id(42)).expect("it is a text of ticks");
        let ticks: Vec<_> = wound
            .ticks()
            .iter()
            .map(|tick| {
                let WoundBobbin {
                    ends,
                    decimetres,
                    weighed_mg,
                    ..
                } = *tick;
                (tick.carrier.to_string(), ends, decimetres, weighed_mg)
            })
            .collect();
        let wanted = [
            ("cw0".to_owned(), 14, 375, Some(2300)),
            ("ccw7".to_owned(), 18, 282, None),
        ];
        assert_eq!(ticks, wanted);
        assert_eq!(write(&wound, Id(42)), TEXT);
    }

    #[test]
    fn ticks_from_before_bobbins_were_weighed_are_read() {
        let before = TEXT.replace("wound 2", "wound 1").replace(" 2300mg", "");
        let now = TEXT.replace(" 2300mg", "");
        let wound = read(&before, Id(42)).expect("it is a text of ticks");
        assert_eq!(write(&wound, Id(42)), now);
        let damaged = TEXT.replace("wound 2", "wound 1");
        assert_eq!(read(&damaged, Id(42)), None, "version 1 had no weights");
    }

    #[test]
    fn ticks_of_another_line_are_not_taken() {
        assert_eq!(read(TEXT, Id(43)), None);
    }

    #[test]
    fn a_damaged_text_holds_nothing() {
        for damaged in [
            "",
            &TEXT[1..],
            &TEXT.replace("cw0 14", "cw0"),
            &TEXT.replace("cw0", "cw00"),
            &TEXT.replace("2300mg", "2300mg 1"),
            &TEXT.replace("2300mg", "2300"),
            &TEXT.replace("2300", "-2300"),
            &TEXT.replace("2300", "2.3"),
            &TEXT.replace("2300", ""),
            &TEXT.replace("375", "-375"),
            &TEXT.replace("wound 2", "wound 3"),
            &TEXT.replace("ccw7 18 282\n", &"ccw7 18 282\n".repeat(1000)),
        ] {
            assert_eq!(read(damaged, Id(42)), None, "{damaged}");
        }
    }
}
