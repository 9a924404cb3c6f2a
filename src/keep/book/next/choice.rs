//! The one thing to do next.

use super::measure::NextMeasure;
use super::waiting::{newest, waits_bare, waits_finished, waits_oiled};
use super::worths::Worths;
use crate::braid::weight::Verdict;
use crate::keep::book::estimate::Estimate;
use crate::keep::book::workshop::Workshop;
use crate::plan::prediction::{Prediction, chance_percent};

/// What to do next in a workshop whose book teaches this, for a line for which measurements are worth so much. Where nothing is
/// known of that line's class, a first swatch, and then lines.
pub fn next_measure(
    workshop: &Workshop,
    estimate: &Estimate,
    worths: Option<&Worths>,
) -> NextMeasure {
    let question = || {
        let doubt = estimate.doubts.first()?;
        Some(NextMeasure::Answer(doubt.source))
    };
    let best = || Some(worths?.worths.first()?.measure);
    let is_first = estimate.swatches == 0 && estimate.lines == 0 && workshop.swatches.is_empty();
    waiting(workshop, worths)
        .or_else(question)
        .or_else(best)
        .unwrap_or(if is_first {
            NextMeasure::Swatch
        } else {
            NextMeasure::Line
        })
}

/// What waits to be weighed, and first what cannot be made up for: an oiled line only where that is worth something.
fn waiting(workshop: &Workshop, worths: Option<&Worths>) -> Option<NextMeasure> {
    let is_worth = |measure: &NextMeasure| {
        let listed = |worths: &Worths| worths.worths.iter().any(|it| it.measure == *measure);
        worths.is_none_or(listed)
    };
    let bare = newest(workshop, waits_bare).map(|(index, _)| NextMeasure::Bare(index));
    let oiled = || {
        let (index, record) = newest(workshop, |record| waits_oiled(record).is_some())?;
        Some(NextMeasure::Oiled(index, waits_oiled(record)?))
    };
    let finished =
        || newest(workshop, waits_finished).map(|(index, _)| NextMeasure::Finished(index));
    bare.or_else(|| oiled().filter(is_worth)).or_else(finished)
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
    use crate::keep::book::record::{LineField, LineRecord, Measures};
    use crate::keep::book::swatch::{Swatch, SwatchField};
    use crate::plan::Plan;
    use crate::plan::days::{Day, Diary};
    use crate::plan::run::Run;

    fn book() -> Workshop {
        Workshop::new("home".to_owned(), &demo())
    }

    fn next(book: &Workshop) -> NextMeasure {
        let (design, estimate) = (demo(), Estimate::of(book));
        let plan = Plan::of(&design);
        let worths = Worths::of(book, &estimate, (&design, &plan));
        next_measure(book, &estimate, worths.as_ref())
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

    /// A swatch that is only written down teaches nothing yet. One that came out as believed leaves little to others.
    #[test]
    fn an_empty_book_asks_for_a_swatch_until_one_is_measured() {
        let mut book = book();
        assert_eq!(next(&book), NextMeasure::Swatch);
        book.swatches.push(of_belly());
        assert_eq!(next(&book), NextMeasure::Swatch);
        book.swatches[0].set(SwatchField::Angle, Some(45.0));
        assert_eq!(next(&book), NextMeasure::Rest(0));
    }

    /// Where nothing can be said of the class, a swatch is first and a line next.
    #[test]
    fn without_a_class_the_plain_rules_are_left() {
        let mut book = book();
        let next = |book: &Workshop| next_measure(book, &Estimate::of(book), None);
        assert_eq!(next(&book), NextMeasure::Swatch);
        book.swatches.push(Swatch::default());
        assert_eq!(next(&book), NextMeasure::Line);
    }

    /// An earlier line that was never weighed takes minutes and shows more than anything else.
    #[test]
    fn an_earlier_line_is_weighed_first() {
        let mut book = book();
        book.records.push(record());
        assert_eq!(next(&book), NextMeasure::Finished(0));
        // One that is in progress, of a drawing on the shelf, is not finished.
        book.records[0].line = Some(1);
        assert_eq!(next(&book), NextMeasure::Swatch);
    }

    /// From when a coat is dry until the next is put on, the line can be weighed with it, and never later.
    #[test]
    fn an_oiled_line_is_weighed_before_the_next_coat() {
        let recipe = demo().draft().recipe.clone();
        let place = |is_it: fn(StepKind) -> bool| {
            let mut kinds = recipe.iter().map(|step| step.kind);
            kinds.position(is_it).expect("the demo has one")
        };
        let dried = place(|kind| kind == StepKind::Daylight) + 1;
        let varnished = place(StepKind::is_varnish) + 1;
        let mut book = book();
        for (done, wanted) in [
            (dried - 1, false),
            (dried, true),
            (varnished - 1, true),
            (varnished, false),
        ] {
            book.records = vec![ticked(done)];
            let is_asked = next(&book) == NextMeasure::Oiled(0, 0);
            assert_eq!(is_asked, wanted, "{done} steps done");
        }
        book.records = vec![ticked(dried)];
        book.records[0].coats = vec![Measures::default()];
        book.records[0].coats[0].set(LineField::Mass, Some(20.0));
        assert_ne!(next(&book), NextMeasure::Oiled(0, 0));
    }

    fn of_belly() -> Swatch {
        Swatch::of_belly(&demo(), &Plan::of(&demo()))
    }

    /// A line of which so many steps of the dressing are done.
    fn ticked(steps: usize) -> LineRecord {
        let mut diary = Diary::new(Day::new(2026, 11, 1).expect("a day"));
        (0..steps).for_each(|index| diary.tick(index, Some(diary.start)));
        LineRecord {
            diary: Some(diary),
            ..record()
        }
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
