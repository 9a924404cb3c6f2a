//! How a measured line changes: an edit is applied to a copy of its draft, which is parsed again.

use super::line::{DraftCut, DraftReading, DraftUnread, MeasuredLine};
use super::reading::Trust;
use crate::base::units::Length;
use crate::design::NAME_ROOM;
use crate::design::refusal::Refusal;

/// One decision about a measured line. Places in lists are those of its draft.
#[derive(Clone, Debug, PartialEq)]
pub enum MeasuredEdit {
    /// Name it.
    Name(String),
    /// Write notes.
    Notes(String),
    /// Set one standard deviation of a reading, micrometres.
    Micrometer(f64),
    /// Set how close the taper keeps to the readings.
    Closeness(i8),
    /// Set its length, metres; `None` where it ends at the last reading.
    Length(Option<f64>),
    /// Add a reading.
    Add(DraftReading),
    /// Put another reading in the place of one.
    Change(usize, DraftReading),
    /// Remove a reading.
    Remove(usize),
    /// Say whether a reading is used.
    Trust(usize, Trust),
    /// Set what the whole line weighs, grams.
    Whole(Option<f64>),
    /// Set what its first 30 ft weigh, grams.
    Head(Option<f64>),
    /// Add a piece that was weighed.
    AddCut(DraftCut),
    /// Put another weighed piece in the place of one.
    ChangeCut(usize, DraftCut),
    /// Remove a weighed piece.
    RemoveCut(usize),
    /// Add the readings of a table, and its rows that were not understood.
    Table {
        /// What the table calls the line; taken where the line has no name yet and it fits.
        name: Option<String>,
        /// What was understood.
        readings: Vec<DraftReading>,
        /// What was not.
        unread: Vec<DraftUnread>,
    },
    /// Remove the rows that were not understood.
    ForgetUnread,
}

impl MeasuredEdit {
    /// The line after this edit; the line given is left as it was.
    ///
    /// # Errors
    /// [`Refusal`] when the outcome would not be a measured line.
    pub fn apply(self, line: &MeasuredLine) -> Result<MeasuredLine, Refusal> {
        let mut draft = line.draft().clone();
        match self {
            Self::Name(name) => draft.name = name,
            Self::Notes(notes) => draft.notes = notes,
            Self::Micrometer(error) => draft.micrometer_um = error,
            Self::Closeness(closeness) => draft.closeness = closeness,
            Self::Length(length) => draft.length_m = length,
            Self::Add(reading) => draft.readings.push(reading),
            Self::Change(index, reading) => {
                if let Some(old) = draft.readings.get_mut(index) {
                    *old = reading;
                }
            }
            Self::Remove(index) => {
                if index < draft.readings.len() {
                    draft.readings.remove(index);
                }
            }
            Self::Trust(index, trust) => {
                if let Some(reading) = draft.readings.get_mut(index) {
                    reading.trust = trust;
                }
            }
            Self::Whole(grams) => draft.whole_g = grams,
            Self::Head(grams) => draft.head_g = grams,
            Self::AddCut(cut) => draft.cuts.push(cut),
            Self::ChangeCut(index, cut) => {
                if let Some(old) = draft.cuts.get_mut(index) {
                    *old = cut;
                }
            }
            Self::RemoveCut(index) => {
                if index < draft.cuts.len() {
                    draft.cuts.remove(index);
                }
            }
            Self::Table {
                name,
                readings,
                unread,
            } => {
                let name = name.filter(|_| draft.name.is_empty()).unwrap_or_default();
                if draft.name.is_empty() && name.chars().count() <= NAME_ROOM {
                    draft.name = name;
                }
                draft.readings.extend(readings);
                draft.unread.extend(unread);
            }
            Self::ForgetUnread => draft.unread.clear(),
        }
        MeasuredLine::parse(draft)
    }
}

/// The place where the next reading is taken, with so many readings at each place: the last one again until it has them, then as
/// far on as the last two are apart; `step` where there is but one. The tip where there is none.
pub fn next_place(line: &MeasuredLine, each: usize, step: Length) -> Length {
    let mut places = line.draft().readings.iter().rev().map(|one| one.at_m);
    let Some(last) = places.next() else {
        return Length::ZERO;
    };
    let there = 1 + places.clone().take_while(|at| *at == last).count();
    if there < each {
        return Length::from_metres(last);
    }
    let before = places.find(|at| *at < last);
    let on = before.map_or(step.metres(), |before| last - before);
    Length::from_metres(last + on)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(places: &[f64]) -> MeasuredLine {
        let add = |line: MeasuredLine, at_m: &f64| {
            let reading = DraftReading {
                at_m: *at_m,
                diameter_mm: 0.9,
                trust: Trust::Judged,
            };
            let added = MeasuredEdit::Add(reading).apply(&line);
            added.expect("it is sound")
        };
        places.iter().fold(MeasuredLine::new(), add)
    }

    #[test]
    fn the_next_place_goes_on_as_the_last_did() {
        let step = Length::from_metres(0.5);
        let next = |places: &[f64], each| next_place(&line(places), each, step).metres();
        assert_eq!(next(&[], 1), 0.0);
        assert_eq!(next(&[0.0], 1), 0.5);
        assert_eq!(next(&[0.0], 2), 0.0);
        assert_eq!(next(&[0.0, 0.0], 2), 0.5);
        assert_eq!(next(&[0.0, 0.25], 1), 0.5);
        assert_eq!(next(&[0.0, 0.0, 1.0], 1), 2.0);
        // A place measured later in between changes nothing at the end.
        assert_eq!(next(&[0.0, 1.0, 0.5], 1), 1.5);
    }

    #[test]
    fn an_edit_of_what_is_not_there_changes_nothing() {
        let before = line(&[0.0, 1.0]);
        for edit in [
            MeasuredEdit::Remove(2),
            MeasuredEdit::Trust(9, Trust::Used),
            MeasuredEdit::RemoveCut(0),
        ] {
            assert_eq!(edit.apply(&before), Ok(before.clone()));
        }
    }
}
