//! Lines of the book as planned and as weighed, and the days that tell lines of one name apart.

use super::check;
use super::doubt::Doubt;
use super::frozen::Frozen;
use super::model::Source;
use super::record::{LineField, LineRecord, LineStage};
use super::workshop::Workshop;
use crate::base::units::Mass;
use crate::plan::Plan;
use crate::plan::days::Day;
use crate::plan::prediction::Prediction;

/// A finished line beside its plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeighedLine {
    /// Its place among the lines of the book.
    pub index: usize,
    /// What it was to weigh: the first 30 ft where those were weighed, else the whole line.
    pub planned: Mass,
    /// What the same weighs.
    pub weighed: Mass,
    /// The margin that 95 of 100 such lines keep on either side of the plan; nothing for a whole line.
    pub margin: Mass,
}

impl WeighedLine {
    /// How much heavier than planned, as a share.
    pub fn off(&self) -> f64 {
        self.weighed / self.planned - 1.0
    }
}

/// What a line of the book was to weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedWeight {
    design: Frozen,
    /// The first 30 ft with the margin around them; nothing where the line is shorter.
    head: Option<(Mass, Mass)>,
    whole: Mass,
}

/// What each line was to weigh that has a finished weight. A line planned `before` is not planned again.
pub fn planned_weights(
    workshop: &Workshop,
    before: &[Option<PlannedWeight>],
) -> Vec<Option<PlannedWeight>> {
    let records = workshop.records.iter().enumerate();
    let of = |(index, record): (usize, &LineRecord)| {
        if record.finished.is_empty() {
            return None;
        }
        let known = before.get(index).and_then(Option::as_ref);
        known
            .filter(|known| known.design == record.design)
            .cloned()
            .or_else(|| planned_weight(&record.design))
    };
    records.map(of).collect()
}

fn planned_weight(design: &Frozen) -> Option<PlannedWeight> {
    let plan = Plan::of(design.design().ok()?);
    let margin = plan
        .prediction
        .as_ref()
        .map_or(Mass::ZERO, Prediction::margin);
    Some(PlannedWeight {
        design: design.clone(),
        head: plan.head_mass.map(|head| (head, margin)),
        whole: plan.total_mass,
    })
}

/// The lines that were weighed finished, in the order of the book. Numbers that cannot be, or wait for an answer, are left out.
pub fn weighed_lines(
    workshop: &Workshop,
    doubts: &[Doubt],
    planned: &[Option<PlannedWeight>],
) -> Vec<WeighedLine> {
    let lines = planned.iter().enumerate();
    lines
        .filter_map(|(index, planned)| weighed_line(workshop, doubts, index, planned.as_ref()?))
        .collect()
}

fn weighed_line(
    workshop: &Workshop,
    doubts: &[Doubt],
    index: usize,
    planned: &PlannedWeight,
) -> Option<WeighedLine> {
    let sound = check::line::sound(workshop.records.get(index)?, &workshop.base);
    let weighed = |field| {
        let place = Source::Line(index, LineStage::Finished, field);
        let is_open = doubts.iter().any(|doubt| doubt.source == place);
        let grams = sound.finished.get(field).filter(|_| !is_open)?;
        (grams > 0.0).then(|| Mass::from_grams(grams))
    };
    let line = |(planned, margin), weighed| WeighedLine {
        index,
        planned,
        weighed,
        margin,
    };
    let head = planned.head.zip(weighed(LineField::HeadMass));
    let whole = || weighed(LineField::Mass).map(|weighed| ((planned.whole, Mass::ZERO), weighed));
    head.or_else(whole)
        .map(|(planned, weighed)| line(planned, weighed))
}

impl LineRecord {
    /// The day that tells it from others: `finished 12 Oct 2026`, `dressing begun 3 Sep 2026`; without days how far it is.
    pub fn when(&self) -> String {
        let on = |what: &str, day: Day| format!("{what} {}", day.with_year());
        if let Some(day) = self.finished_on() {
            on("finished", day)
        } else if let Some(diary) = &self.diary {
            on("dressing begun", diary.start)
        } else if self.run.is_some() {
            "being braided".to_owned()
        } else {
            "no day noted".to_owned()
        }
    }
}

impl Workshop {
    /// What tells a line of the book from others: its day, and where another of its name has the same, its place among those.
    pub fn when(&self, index: usize) -> String {
        let Some(record) = self.records.get(index) else {
            return String::new();
        };
        let when = record.when();
        let is_alike = |other: &&LineRecord| other.name == record.name && other.when() == when;
        let before = self.records[..index].iter().filter(is_alike).count();
        let alike = self.records.iter().filter(is_alike).count();
        if alike > 1 {
            format!("{when}, no. {}", before + 1)
        } else {
            when
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::design::demo::demo;
    use crate::plan::days::Diary;

    fn book(heads: &[Option<f64>]) -> Workshop {
        let mut book = Workshop::new("home".to_owned(), &demo());
        for head in heads {
            let mut record = LineRecord::new("Heron".to_owned(), Frozen::of(&demo()));
            record.finished.set(LineField::HeadMass, *head);
            book.records.push(record);
        }
        book
    }

    fn weighed(book: &Workshop) -> Vec<WeighedLine> {
        weighed_lines(book, &[], &planned_weights(book, &[]))
    }

    fn planned() -> f64 {
        Plan::of(&demo()).head_mass.expect("it has a head").grams()
    }

    #[test]
    fn only_lines_weighed_stand_beside_their_plan() {
        let book = book(&[None, Some(1.01 * planned()), Some(0.0)]);
        let lines = weighed(&book);
        assert_eq!(lines.len(), 1, "{lines:?}");
        assert_eq!(lines[0].index, 1);
        assert!((lines[0].off() - 0.01).abs() < 1e-9);
        assert!(lines[0].margin > Mass::ZERO);
    }

    #[test]
    fn a_line_planned_before_is_known_again_and_one_of_another_design_is_planned() {
        let book = book(&[Some(planned()), None, Some(planned())]);
        let first = planned_weights(&book, &[]);
        assert_eq!(
            first.iter().map(Option::is_some).collect::<Vec<_>>(),
            [true, false, true]
        );
        assert_eq!(planned_weights(&book, &first), first);
        // What was known of another design is not taken for this one's.
        let mut draft = demo().draft().clone();
        draft.recipe.clear();
        let bare = Design::parse(draft).expect("a line may be left undressed");
        let mut other = book.clone();
        other.records[0].design = Frozen::of(&bare);
        let again = planned_weights(&other, &first);
        assert_ne!(again[0], first[0]);
        assert_eq!(again, planned_weights(&other, &[]));
    }

    #[test]
    fn lines_of_one_name_are_told_apart() {
        let mut book = book(&[None, None, None]);
        book.records[1].diary = Day::new(2026, 9, 3).map(Diary::new);
        let when: Vec<String> = (0..3).map(|index| book.when(index)).collect();
        assert_eq!(
            when,
            [
                "no day noted, no. 1",
                "dressing begun 3\u{a0}Sep 2026",
                "no day noted, no. 2"
            ]
        );
    }
}
