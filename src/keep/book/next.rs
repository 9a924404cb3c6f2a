//! What to measure next.
//!
//! First what cannot be made up for: a bare line is weighed before it is oiled, or never. Then what is finished and waits, then a
//! question that holds back what is learnt, then the first swatch. After that every finished line tells more.

use super::estimate::Estimate;
use super::model::Source;
use super::record::LineRecord;
use super::workshop::Workshop;
use crate::braid::weight::Verdict;
use crate::plan::Plan;
use crate::plan::prediction::{Prediction, chance_percent};

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextMeasure {
    /// Weigh the line of this place in the book before it is oiled.
    Bare(usize),
    /// Weigh the line of this place in the book: it is finished.
    Finished(usize),
    /// Answer the question that a number raises.
    Answer(Source),
    /// Braid and measure a swatch: nothing is known but what books and labels say.
    Swatch,
    /// Write down a line that is finished.
    Line,
}

/// What to do next in a workshop whose book teaches this.
pub fn next_measure(workshop: &Workshop, estimate: &Estimate) -> NextMeasure {
    let newest = |is_it: &dyn Fn(&LineRecord) -> bool| {
        let mut records = workshop.records.iter().enumerate().rev();
        records
            .find(|(_, record)| is_it(record))
            .map(|found| found.0)
    };
    let question = || {
        estimate
            .doubts
            .first()
            .map(|doubt| NextMeasure::Answer(doubt.source))
    };
    let is_first = estimate.swatches == 0 && estimate.lines == 0 && workshop.swatches.is_empty();
    newest(&waits_bare)
        .map(NextMeasure::Bare)
        .or_else(|| newest(&waits_finished).map(NextMeasure::Finished))
        .or_else(question)
        .unwrap_or(if is_first {
            NextMeasure::Swatch
        } else {
            NextMeasure::Line
        })
}

/// Whether a line is braided, not yet oiled, and not weighed.
fn waits_bare(record: &LineRecord) -> bool {
    record.bare.is_empty() && !has_later_weight(record) && !is_oiled(record) && is_braided(record)
}

/// Whether a line is finished and its finished weight not written down.
fn waits_finished(record: &LineRecord) -> bool {
    record.finished_on().is_some() && record.finished.is_empty()
}

fn has_later_weight(record: &LineRecord) -> bool {
    !record.finished.is_empty() || record.coats.iter().any(|coat| !coat.is_empty())
}

/// Whether all steps at the machine are done. Of a line that was not followed there, or not to its end, the dressing says so.
fn is_braided(record: &LineRecord) -> bool {
    let diary = record.diary.as_ref();
    if diary.is_some_and(|diary| diary.ticks.iter().any(Option::is_some)) {
        return true;
    }
    let Some((run, design)) = record.run.as_ref().zip(record.design.design().ok()) else {
        return diary.is_some();
    };
    let (done, all) = run.steps_of(&run.adjusted(design, &Plan::of(design)));
    done == all
}

/// Whether a step was done that leaves something on the line.
fn is_oiled(record: &LineRecord) -> bool {
    let Some((diary, design)) = record.diary.as_ref().zip(record.design.design().ok()) else {
        return false;
    };
    let mut steps = design.draft().recipe.iter().enumerate();
    steps.any(|(index, step)| {
        (step.kind.is_oil() || step.kind.is_varnish()) && diary.tick_of(index).is_some()
    })
}

impl NextMeasure {
    /// What to do, in a few words.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Bare(_) => "Next, weigh the bare line",
            Self::Finished(_) => "Next, weigh the finished line",
            Self::Answer(_) => "Next, answer a question",
            Self::Swatch => "Next, braid and measure a swatch",
            Self::Line => "Next, weigh a finished line",
        }
    }

    /// Why, and which.
    pub fn reason(self, workshop: &Workshop) -> String {
        let name = |index: usize| {
            workshop
                .records
                .get(index)
                .map_or("", |it| it.name.as_str())
        };
        match self {
            Self::Bare(index) => format!("{}: once oiled it cannot be weighed bare.", name(index)),
            Self::Finished(index) => {
                format!("{}: the whole line, then its first 30 ft.", name(index))
            }
            Self::Answer(source) => {
                format!("Something stands out: {}.", workshop.place_words(source))
            }
            Self::Swatch => {
                "About 30 cm of the belly’s threads. Until then only standard values are used."
                    .to_owned()
            }
            Self::Line => "Each line weighed shows how well the plan fits your hand.".to_owned(),
        }
    }

    /// What its button says.
    pub const fn button(self) -> &'static str {
        match self {
            Self::Bare(_) | Self::Finished(_) => "Enter the weight",
            Self::Answer(_) => "Show it",
            Self::Swatch => "Enter a swatch",
            Self::Line => "Enter a line",
        }
    }
}

/// The chance of the likeliest class as things are known now: `The chance of class 5 is 34 % now.` Nothing where no class is
/// the likeliest.
pub fn chance_words(prediction: &Prediction) -> Option<String> {
    let (Verdict::Within(class), chance) = prediction.likeliest() else {
        return None;
    };
    Some(format!(
        "The chance of class {} is {} now.",
        class.number,
        chance_percent(chance)
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::recipe::StepKind;
    use crate::design::demo::demo;
    use crate::keep::book::Frozen;
    use crate::keep::book::record::LineField;
    use crate::keep::book::swatch::{Swatch, SwatchField};
    use crate::plan::days::{Day, Diary};
    use crate::plan::run::Run;

    fn book() -> Workshop {
        Workshop::new("home".to_owned(), &demo())
    }

    fn next(book: &Workshop) -> NextMeasure {
        next_measure(book, &Estimate::of(book))
    }

    fn record() -> LineRecord {
        LineRecord::new("Heron".to_owned(), Frozen::of(&demo()))
    }

    fn dressed(until: Option<StepKind>) -> LineRecord {
        let mut diary = Diary::new(Day::new(2026, 11, 1).expect("a day"));
        for (index, step) in demo().draft().recipe.iter().enumerate() {
            diary.tick(index, Some(diary.start));
            if Some(step.kind) == until {
                break;
            }
        }
        LineRecord {
            diary: Some(diary),
            ..record()
        }
    }

    #[test]
    fn an_empty_book_asks_for_a_swatch_and_one_with_a_swatch_for_a_line() {
        let mut book = book();
        assert_eq!(next(&book), NextMeasure::Swatch);
        book.swatches.push(Swatch::default());
        assert_eq!(next(&book), NextMeasure::Line);
    }

    #[test]
    fn a_line_braided_is_weighed_bare_before_anything_else() {
        let mut book = book();
        let mut braided = record();
        let all = {
            let (design, plan) = (demo(), Plan::of(&demo()));
            Run::default().adjusted(&design, &plan).events.len()
        };
        braided.run = Some(Run {
            done: all - 1,
            ..Run::default()
        });
        book.records.push(braided);
        assert_eq!(next(&book), NextMeasure::Swatch, "it is not braided yet");
        book.records[0].run = Some(Run {
            done: all,
            ..Run::default()
        });
        assert_eq!(next(&book), NextMeasure::Bare(0));
        book.records[0].bare.set(LineField::Mass, Some(15.0));
        assert_ne!(next(&book), NextMeasure::Bare(0));
    }

    #[test]
    fn a_line_once_oiled_is_not_asked_for_bare() {
        let mut book = book();
        book.records.push(dressed(Some(StepKind::Inspect)));
        assert_eq!(next(&book), NextMeasure::Bare(0));
        book.records[0] = dressed(Some(StepKind::OilVacuum));
        assert_eq!(next(&book), NextMeasure::Swatch);
        book.records[0] = dressed(None);
        assert_eq!(next(&book), NextMeasure::Finished(0));
    }

    #[test]
    fn a_question_comes_before_more_measuring() {
        let mut book = book();
        let mut swatch = Swatch::default();
        let plan = Plan::of(&demo());
        let piece = plan.belly.piece;
        for (field, value) in [
            (SwatchField::Threads, f64::from(piece.load.threads)),
            (SwatchField::Ends, 14.0),
            (SwatchField::Driver, f64::from(piece.wheels.driver)),
            (SwatchField::Driven, f64::from(piece.wheels.driven)),
            (SwatchField::Length, 0.3),
            (SwatchField::Mass, 10.0 * 0.3 * piece.load.yarn * 0.04),
        ] {
            swatch.set(field, Some(value));
        }
        book.swatches.push(swatch);
        let estimate = Estimate::of(&book);
        match estimate.doubts.first() {
            Some(doubt) => assert_eq!(next(&book), NextMeasure::Answer(doubt.source)),
            None => panic!("ten times the weight is doubted"),
        }
    }

    #[test]
    fn the_chance_is_that_of_the_prediction() {
        let prediction = Plan::of(&demo()).prediction.expect("it has a head");
        let said = chance_words(&prediction).expect("a class is likeliest");
        let percent = format!("{:.0} %", 100.0 * prediction.likeliest().1);
        assert!(said.contains(&percent), "{said} lacks {percent}");
    }
}
