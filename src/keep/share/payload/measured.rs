//! A measured line in the payload of a link. A reading takes three or four bytes: the distance from the one before, and by how
//! much its diameter differs.

use serde::{Deserialize, Serialize};

use super::choices::{choice_at, place_of};
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{NAME_ROOM, NOTES_ROOM};
use crate::measured::{
    DraftCut, DraftReading, DraftUnread, MICROMETER, MOST_CUTS, MOST_READINGS, MOST_UNREAD,
    MeasuredDraft, Trust, WEIGHT,
};

/// The fields of a measured line, each number as a count of its step.
#[derive(Serialize, Deserialize)]
pub(in crate::keep::share) struct PayloadMeasured {
    name: String,
    notes: String,
    micrometer: u32,
    closeness: i8,
    length: Option<u32>,
    /// Distance from the reading before, and its diameter less that of the one before.
    readings: Vec<(u32, i32)>,
    /// Places in that list, and the trust, where the search does not decide.
    trusts: Vec<(u32, u8)>,
    whole: Option<u32>,
    head: Option<u32>,
    /// Begin, end and weight.
    cuts: Vec<(u32, u32, u32)>,
    /// Row, what it says, why it was not understood.
    unread: Vec<(u32, String, String)>,
}

impl PayloadMeasured {
    pub(in crate::keep::share) fn of(draft: &MeasuredDraft) -> Self {
        let mut before = (0_u32, 0_u32);
        let step = |reading: &DraftReading| {
            let now = (
                POSITION.quanta(reading.at_m),
                DIAMETER.quanta(reading.diameter_mm),
            );
            // A diameter is at most 100,000 steps.
            let step = (
                now.0 - before.0,
                now.1.cast_signed() - before.1.cast_signed(),
            );
            before = now;
            step
        };
        let weight = |grams: Option<f64>| grams.map(|grams| WEIGHT.quanta(grams));
        let cut = |cut: &DraftCut| {
            (
                POSITION.quanta(cut.from_m),
                POSITION.quanta(cut.to_m),
                WEIGHT.quanta(cut.mass_g),
            )
        };
        let unread = |unread: &DraftUnread| (unread.row, unread.text.clone(), unread.why.clone());
        let trusts = (0..).zip(&draft.readings);
        let trusts = trusts.filter(|(_, reading)| reading.trust != Trust::Judged);
        Self {
            name: draft.name.clone(),
            notes: draft.notes.clone(),
            micrometer: MICROMETER.quanta(draft.micrometer_um),
            closeness: draft.closeness,
            length: draft.length_m.map(|metres| POSITION.quanta(metres)),
            readings: draft.readings.iter().map(step).collect(),
            trusts: trusts
                .map(|(index, reading)| (index, place_of(reading.trust)))
                .collect(),
            whole: weight(draft.whole_g),
            head: weight(draft.head_g),
            cuts: draft.cuts.iter().map(cut).collect(),
            unread: draft.unread.iter().map(unread).collect(),
        }
    }

    /// The draft, when every list has a length there can be and every choice exists.
    pub(in crate::keep::share) fn draft(self) -> Option<MeasuredDraft> {
        let fits = self.name.len() <= 4 * NAME_ROOM
            && self.notes.len() <= 4 * NOTES_ROOM
            && self.readings.len() <= MOST_READINGS
            && self.cuts.len() <= MOST_CUTS
            && self.unread.len() <= MOST_UNREAD;
        fits.then_some(())?;
        let mut readings = readings_of(&self.readings)?;
        for &(index, trust) in &self.trusts {
            readings.get_mut(index as usize)?.trust = choice_at(trust)?;
        }
        let weight = |count: Option<u32>| count.map(|count| WEIGHT.value(count));
        let cut = |&(from, to, mass): &(u32, u32, u32)| DraftCut {
            from_m: POSITION.value(from),
            to_m: POSITION.value(to),
            mass_g: WEIGHT.value(mass),
        };
        let unread = |(row, text, why)| DraftUnread { row, text, why };
        Some(MeasuredDraft {
            micrometer_um: MICROMETER.value(self.micrometer),
            closeness: self.closeness,
            length_m: self.length.map(|count| POSITION.value(count)),
            readings,
            whole_g: weight(self.whole),
            head_g: weight(self.head),
            cuts: self.cuts.iter().map(cut).collect(),
            unread: self.unread.into_iter().map(unread).collect(),
            name: self.name,
            notes: self.notes,
        })
    }
}

fn readings_of(steps: &[(u32, i32)]) -> Option<Vec<DraftReading>> {
    let (mut at, mut diameter) = (0_u32, 0_u32);
    let reading = |&(along, thicker): &(u32, i32)| {
        at = at.checked_add(along)?;
        diameter = diameter.checked_add_signed(thicker)?;
        Some(DraftReading {
            at_m: POSITION.value(at),
            diameter_mm: DIAMETER.value(diameter),
            trust: Trust::Judged,
        })
    };
    steps.iter().map(reading).collect()
}
