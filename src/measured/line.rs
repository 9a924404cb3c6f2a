//! A line measured by its owner: readings along it, and what parts of it weigh.

use serde::{Deserialize, Serialize};

use super::found::{Asked, CLOSENESS, FoundTaper, find};
use super::reading::{MOST_READINGS, Reading, Trust};
use super::stretches::Weighed;
use super::weighed::{MadeOf, made_of};
use crate::base::bounded::bounded_list;
use crate::base::rule::{Rule, rule};
use crate::base::units::text::Unit;
use crate::base::units::{Length, Mass};
use crate::braid::taper::Taper;
use crate::design::check::{is_unseen, text};
use crate::design::refusal::{Place, Refusal, admit};
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{NAME_ROOM, NOTES_ROOM};

/// What a measured line is called until it has a name.
pub const UNNAMED: &str = "Unnamed measured line";
/// Most pieces of a line weighed by themselves.
pub const MOST_CUTS: usize = 40;
/// Most rows of a table that wait because they were not understood.
pub const MOST_UNREAD: usize = 500;
/// Most characters kept of such a row.
pub const UNREAD_ROOM: usize = 200;

/// How far a micrometer reading may be off: one standard deviation.
pub const MICROMETER: Rule = rule("micrometer error", Unit::Micrometre, 1.0, 200.0, 1);
/// What that is until the maker says so: half of the hundredth that a hand micrometer shows. Where the readings scatter more, their
/// own scatter counts. Common practice, no source.
pub const USUAL_MICROMETER: f64 = 5.0;
/// By how much a soft line gives way under the jaws, everywhere alike, one standard deviation: our own choice, common practice, no
/// source.
const GIVE: Length = Length::from_micrometres(12.0);
/// What a line, or a part of it, weighs.
pub const WEIGHT: Rule = rule("weight", Unit::Gram, 0.001, 1_000.0, 1_000);
/// A measured line not yet checked. Units stand in the names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasuredDraft {
    /// What the maker calls it.
    pub name: String,
    /// Anything the maker wants to remember.
    pub notes: String,
    /// One standard deviation of a reading, as the maker knows the micrometer; micrometres.
    pub micrometer_um: f64,
    /// How close the taper keeps to the readings, within [`CLOSENESS`].
    pub closeness: i8,
    /// Length of the line, metres; `None` where it ends at the last reading.
    pub length_m: Option<f64>,
    /// The readings.
    #[serde(deserialize_with = "bounded_list::<_, _, MOST_READINGS>")]
    pub readings: Vec<DraftReading>,
    /// What the whole line weighs, grams.
    pub whole_g: Option<f64>,
    /// What its first 30 ft weigh, grams, measured as the standard does.
    pub head_g: Option<f64>,
    /// Pieces of it weighed by themselves.
    #[serde(deserialize_with = "bounded_list::<_, _, MOST_CUTS>")]
    pub cuts: Vec<DraftCut>,
    /// Rows of a table that were not understood, as they were written, until the maker removes them.
    #[serde(deserialize_with = "bounded_list::<_, _, MOST_UNREAD>")]
    pub unread: Vec<DraftUnread>,
}

/// A row of a table that was not understood, not yet checked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftUnread {
    /// Its number in the table, from 1.
    pub row: u32,
    /// What it says.
    pub text: String,
    /// Why it was not understood, and what to do.
    pub why: String,
}

/// A reading not yet checked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftReading {
    /// Distance from the tip, metres.
    pub at_m: f64,
    /// Diameter, millimetres.
    pub diameter_mm: f64,
    /// Whether the taper may be found from it; left out of a file where the search decides.
    #[serde(
        with = "crate::base::choice",
        default,
        skip_serializing_if = "Trust::is_judged"
    )]
    pub trust: Trust,
}

/// A piece weighed by itself, not yet checked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftCut {
    /// Where it begins, metres from the tip.
    pub from_m: f64,
    /// Where it ends.
    pub to_m: f64,
    /// What it weighs, grams.
    pub mass_g: f64,
}

impl Default for MeasuredDraft {
    fn default() -> Self {
        Self {
            name: String::new(),
            notes: String::new(),
            micrometer_um: USUAL_MICROMETER,
            closeness: 0,
            length_m: None,
            readings: Vec::new(),
            whole_g: None,
            head_g: None,
            cuts: Vec::new(),
            unread: Vec::new(),
        }
    }
}

/// A measured line whose numbers are in range and on their steps, its readings in order from the tip.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredLine(MeasuredDraft);

impl MeasuredLine {
    /// Checks a draft, brings every number to its step and the readings in order; of one place they keep the order given.
    ///
    /// # Errors
    /// The first [`Refusal`] found; it names the place, the value and what would be allowed.
    pub fn parse(draft: MeasuredDraft) -> Result<Self, Refusal> {
        let rooms = [
            (
                draft.readings.len(),
                MOST_READINGS,
                "readings",
                Place::Reading as fn(usize) -> Place,
            ),
            (draft.cuts.len(), MOST_CUTS, "weighed pieces", Place::Cut),
            (
                draft.unread.len(),
                MOST_UNREAD,
                "rows that were not understood",
                Place::Unread,
            ),
        ];
        let over = rooms.iter().find(|(count, allowed, ..)| count > allowed);
        if let Some(&(count, allowed, what, place)) = over {
            return Err(Refusal::TooMany {
                place: place(allowed),
                what,
                count,
                allowed,
            });
        }
        let place = Place::Weight;
        let weight =
            |grams: Option<f64>| grams.map(|grams| admit(WEIGHT, grams, place)).transpose();
        let mut readings = (0..)
            .zip(&draft.readings)
            .map(|(index, reading)| reading.admitted(index))
            .collect::<Result<Vec<_>, _>>()?;
        readings.sort_by(|a, b| a.at_m.total_cmp(&b.at_m));
        let cuts = (0..).zip(&draft.cuts);
        let length = |metres| admit(POSITION, metres, Place::Length);
        let length_m = draft.length_m.map(length).transpose()?;
        let last_m = readings.last().map_or(0.0, |last| last.at_m);
        if let Some(metres) = length_m.filter(|metres| *metres < last_m) {
            return Err(Refusal::ShorterThanReadings {
                length: metres,
                last: last_m,
            });
        }
        Ok(Self(MeasuredDraft {
            name: text(&draft.name, Place::Name, NAME_ROOM)?,
            notes: text(&draft.notes, Place::Notes, NOTES_ROOM)?,
            micrometer_um: admit(MICROMETER, draft.micrometer_um, Place::Micrometer)?,
            closeness: draft.closeness.clamp(*CLOSENESS.start(), *CLOSENESS.end()),
            length_m,
            readings,
            whole_g: weight(draft.whole_g)?,
            head_g: weight(draft.head_g)?,
            cuts: cuts
                .map(|(index, cut)| cut.admitted(index))
                .collect::<Result<_, _>>()?,
            unread: draft.unread.iter().map(DraftUnread::held).collect(),
        }))
    }

    /// A line of which nothing is known yet.
    pub fn new() -> Self {
        Self(MeasuredDraft::default())
    }

    /// The line as plain data, to be changed and parsed again, or written out.
    pub fn draft(&self) -> &MeasuredDraft {
        &self.0
    }

    /// Its name, or a stand-in where it has none.
    pub fn title(&self) -> &str {
        if self.0.name.is_empty() {
            UNNAMED
        } else {
            &self.0.name
        }
    }

    /// The readings, in order from the tip.
    pub fn readings(&self) -> Vec<Reading> {
        let readings = self.0.readings.iter();
        readings.map(DraftReading::reading).collect()
    }

    /// One standard deviation of a reading.
    pub fn micrometer(&self) -> Length {
        Length::from_micrometres(self.0.micrometer_um)
    }

    /// By how much all sizes may be off alike: the micrometer, and what gives way under its jaws.
    pub fn size_error(&self) -> Length {
        Length::from_metres(self.micrometer().metres().hypot(GIVE.metres()))
    }

    /// The length of the line, where the maker gave it.
    pub fn length(&self) -> Option<Length> {
        self.0.length_m.map(Length::from_metres)
    }

    /// The taper in its readings; `None` with fewer than two places.
    pub fn found(&self) -> Option<FoundTaper> {
        let asked = Asked {
            error: self.micrometer(),
            length: self.length(),
            closeness: self.0.closeness,
        };
        find(&self.readings(), &asked)
    }

    /// What size and weight say about it, given its taper.
    pub fn made_of(&self, taper: &Taper) -> MadeOf {
        made_of(taper, &self.weighed(), self.size_error())
    }

    /// What was weighed.
    pub fn weighed(&self) -> Weighed {
        let cut = |cut: &DraftCut| {
            let ends = (cut.from_m, cut.to_m);
            (
                Length::from_metres(ends.0),
                Length::from_metres(ends.1),
                Mass::from_grams(cut.mass_g),
            )
        };
        Weighed {
            whole: self.0.whole_g.map(Mass::from_grams),
            head: self.0.head_g.map(Mass::from_grams),
            cuts: self.0.cuts.iter().map(cut).collect(),
        }
    }
}

impl Default for MeasuredLine {
    fn default() -> Self {
        Self::new()
    }
}

impl DraftReading {
    fn admitted(&self, index: usize) -> Result<Self, Refusal> {
        let place = Place::Reading(index);
        Ok(Self {
            at_m: admit(POSITION, self.at_m, place)?,
            diameter_mm: admit(DIAMETER, self.diameter_mm, place)?,
            trust: self.trust,
        })
    }

    fn reading(&self) -> Reading {
        Reading {
            at: Length::from_metres(self.at_m),
            diameter: Length::from_millimetres(self.diameter_mm),
            trust: self.trust,
        }
    }
}

impl DraftCut {
    fn admitted(&self, index: usize) -> Result<Self, Refusal> {
        let place = Place::Cut(index);
        let cut = Self {
            from_m: admit(POSITION, self.from_m, place)?,
            to_m: admit(POSITION, self.to_m, place)?,
            mass_g: admit(WEIGHT, self.mass_g, place)?,
        };
        if cut.from_m < cut.to_m {
            Ok(cut)
        } else {
            Err(Refusal::CutWithoutLength(index))
        }
    }
}

impl DraftUnread {
    /// The row with texts that fit, of letters that are seen.
    fn held(&self) -> Self {
        let held = |words: &str| -> String {
            let seen = words.chars().filter(|c| !c.is_control() && !is_unseen(*c));
            seen.take(UNREAD_ROOM).collect()
        };
        Self {
            row: self.row,
            text: held(&self.text),
            why: held(&self.why),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn draft(readings: &[(f64, f64)]) -> MeasuredDraft {
        let reading = |&(at_m, diameter_mm): &(f64, f64)| DraftReading {
            at_m,
            diameter_mm,
            trust: Trust::Judged,
        };
        MeasuredDraft {
            readings: readings.iter().map(reading).collect(),
            ..MeasuredDraft::default()
        }
    }

    #[test]
    fn readings_are_brought_in_order_and_on_their_steps() {
        let line = MeasuredLine::parse(draft(&[(1.0, 0.9), (0.5, 0.800_04), (1.0, 0.91)]));
        let line = line.expect("it is sound");
        let places = line.draft().readings.iter().map(|one| one.at_m);
        assert_eq!(places.collect::<Vec<_>>(), [0.5, 1.0, 1.0]);
        assert_eq!(line.draft().readings[0].diameter_mm, 0.8);
        assert_eq!(line.draft().readings[2].diameter_mm, 0.91);
        assert_eq!(MeasuredLine::parse(line.draft().clone()), Ok(line));
    }

    #[test]
    fn what_cannot_be_is_refused_about_the_input() {
        let said = |draft| MeasuredLine::parse(draft).unwrap_err();
        assert_eq!(
            said(draft(&[(0.5, 0.8), (1.0, 20.0)])).place(),
            Place::Reading(1)
        );
        let short = MeasuredDraft {
            length_m: Some(0.9),
            ..draft(&[(1.0, 0.9)])
        };
        assert!(matches!(said(short), Refusal::ShorterThanReadings { .. }));
        let cut = DraftCut {
            from_m: 2.0,
            to_m: 2.0,
            mass_g: 1.0,
        };
        let cut = MeasuredDraft {
            cuts: vec![cut],
            ..draft(&[])
        };
        assert_eq!(said(cut), Refusal::CutWithoutLength(0));
    }
}
