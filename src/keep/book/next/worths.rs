//! What each measurement that can be taken now is worth.

use super::measure::NextMeasure;
use super::possible::{Possible, possible};
use super::scene::Scene;
use super::sureness::Sureness;
use super::waiting::waits_finished;
use crate::base::units::show;
use crate::design::Design;
use crate::keep::book::estimate::Estimate;
use crate::keep::book::workshop::Workshop;
use crate::plan::Plan;

/// A measurement that adds less to the chance of the class is not worth naming: half a percent would not be seen. Our own choice.
pub(super) const LEAST_GAIN: f64 = 0.005;

/// The chance that is enough: nine lines of ten come out as they should. Our own choice. Short of it a measurement counts for no more
/// than what is missing; else what takes hours and brings far more would come before the few minutes that are enough.
pub const ENOUGH: f64 = 0.9;

/// A measurement that can be taken now, and what it is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worth {
    /// Which.
    pub measure: NextMeasure,
    /// How long it takes, in minutes.
    pub minutes: f64,
    /// How sure the class is expected to be after it.
    pub after: Sureness,
}

impl Worth {
    /// What it takes and what it brings, in words: `36 min, chance of class 5 from 35 % to 77 %`.
    pub fn facts(&self, now: &Sureness) -> String {
        format!(
            "{}, {}",
            show::minutes(self.minutes),
            now.change_words(&self.after)
        )
    }
}

/// What measurements are worth for the line on the bench.
///
/// That is the next line of its design; or the very line being made by it, as long as that is braided and not finished. Of the
/// latter more can be known than of a next one: weighed after oil, it shows how much heavier than others of the same hand it came
/// out, which stays with it to the end. Weighed bare, it tells of the parameters alone, as any bare line does: only dressed
/// weights scatter from line to line.
#[derive(Clone, Debug, PartialEq)]
pub struct Worths {
    /// How sure the class is now, with all that the book knows.
    pub now: Sureness,
    /// What can be measured, the most useful first.
    pub worths: Vec<Worth>,
}

impl Worths {
    /// Those of a line, for a workshop whose book teaches this; `None` where the line is too short to have a class, or of another
    /// yarn than the workshop's.
    pub fn of(
        workshop: &Workshop,
        estimate: &Estimate,
        (design, plan): (&Design, &Plan),
    ) -> Option<Self> {
        let all = possible(workshop, (design, plan));
        let scene = Scene::of(workshop, estimate, (design, plan), &all)?;
        let now = scene.sureness(&scene.known);
        let worth = |possible: &Possible| {
            let after = scene.sureness(&scene.known.with(&scene.rows(&possible.adds)?));
            let gain = after.chance - now.chance;
            (gain >= LEAST_GAIN).then_some(Worth {
                measure: possible.measure,
                minutes: possible.minutes,
                after,
            })
        };
        let mut worths: Vec<Worth> = all.iter().filter_map(worth).collect();
        let rate = |worth: &Worth| counted(now.chance, worth.after.chance) / worth.minutes;
        worths.sort_by(|one, other| {
            let urgent = |worth: &Worth| urgency(workshop, worth.measure);
            urgent(one)
                .cmp(&urgent(other))
                .then(rate(other).total_cmp(&rate(one)))
                .then(
                    one.after
                        .spread
                        .grains()
                        .total_cmp(&other.after.spread.grains()),
                )
        });
        Some(Self { now, worths })
    }
}

/// What counts of a chance gained.
fn counted(now: f64, after: f64) -> f64 {
    if now < ENOUGH {
        after.min(ENOUGH) - now
    } else {
        after - now
    }
}

/// How sure the class of a line is with what a book teaches; `None` as for [`Worths::of`].
pub(super) fn sureness(
    workshop: &Workshop,
    estimate: &Estimate,
    of: (&Design, &Plan),
) -> Option<Sureness> {
    let scene = Scene::of(workshop, estimate, of, &[])?;
    Some(scene.sureness(&scene.known))
}

/// What cannot be made up for comes first, then what is finished and waits, then all else.
fn urgency(workshop: &Workshop, measure: NextMeasure) -> u8 {
    match measure {
        measure if measure.is_now_or_never() => 0,
        NextMeasure::Finished(index) => {
            let record = workshop.records.get(index);
            1 + u8::from(!record.is_some_and(waits_finished))
        }
        _ => 2,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::braid::recipe::StepKind;
    use crate::design::DraftPoint;
    use crate::design::demo::demo;
    use crate::keep::book::Frozen;
    use crate::keep::book::next::measure::SwatchPart;
    use crate::keep::book::record::LineRecord;
    use crate::plan::days::{Day, Diary};
    use crate::plan::prediction::Prediction;

    fn book() -> Workshop {
        Workshop::new("home".to_owned(), &demo())
    }

    fn worths(book: &Workshop, design: &Design) -> Option<Worths> {
        let plan = Plan::of(design);
        Worths::of(book, &Estimate::of(book), (design, &plan))
    }

    fn spread(worths: &Worths, measure: NextMeasure) -> Option<f64> {
        let mut all = worths.worths.iter();
        let worth = all.find(|worth| worth.measure == measure)?;
        Some(worth.after.spread.grains())
    }

    /// With nothing measured, what is known is what the plan itself says, to the difference of its slopes.
    #[test]
    fn now_is_what_the_plan_predicts() {
        let now = worths(&book(), &demo()).expect("it has a class").now;
        let Prediction { mass, spread, .. } = Plan::of(&demo()).prediction.expect("it has a head");
        let share = spread / mass;
        let found = now.spread.grains() / now.class.target;
        assert!((found - share).abs() < 0.01 * share, "{found}, {share}");
    }

    #[test]
    fn the_most_useful_comes_first_and_what_is_worth_nothing_is_left_out() {
        let all = worths(&book(), &demo()).expect("it has a class");
        let now = all.now.chance;
        let rate = |worth: &Worth| counted(now, worth.after.chance) / worth.minutes;
        let mut pairs = all.worths.windows(2);
        assert!(
            pairs.all(|pair| rate(&pair[0]) >= rate(&pair[1])),
            "{all:?}"
        );
        assert!(
            all.worths
                .iter()
                .all(|worth| worth.after.chance >= now + LEAST_GAIN)
        );
        let spread = |measure| spread(&all, measure).expect("it is worth something");
        let parts = SwatchPart::ALL.map(NextMeasure::SwatchPart);
        assert!(
            parts
                .into_iter()
                .all(|part| spread(part) > spread(NextMeasure::Swatch))
        );
        assert!(spread(NextMeasure::Line) < spread(NextMeasure::Swatch));
    }

    /// Beyond what is enough a gain does not count, until enough is reached.
    #[test]
    fn more_than_enough_does_not_count() {
        for (now, after, wanted) in [(0.5, 0.8, 0.3), (0.5, 0.99, 0.4), (0.9, 0.95, 0.05)] {
            let found = counted(now, after);
            assert!((found - wanted).abs() < 1e-12, "{now} to {after}: {found}");
        }
    }

    /// What waits before a coat is first, however little it is worth.
    #[test]
    fn what_cannot_be_made_up_for_comes_first() {
        assert_eq!(urgency(&book(), NextMeasure::Bare(0)), 0);
        assert_eq!(urgency(&book(), NextMeasure::Oiled(0, 0)), 0);
        assert_eq!(urgency(&book(), NextMeasure::Swatch), 2);
        let mut book = book();
        book.records
            .push(LineRecord::new("a".to_owned(), Frozen::of(&demo())));
        assert_eq!(
            urgency(&book, NextMeasure::Finished(0)),
            2,
            "it does not wait"
        );
    }

    /// A book with a line of this design, of which so many steps of the dressing are done.
    fn dressed(design: &Design, steps: usize) -> Workshop {
        let mut record = LineRecord::new("made".to_owned(), Frozen::of(design));
        let mut diary = Diary::new(Day::new(2026, 11, 1).expect("a day"));
        for index in 0..steps {
            diary.tick(index, Some(diary.start));
        }
        record.diary = Some(diary);
        let mut book = book();
        book.records.push(record);
        book
    }

    /// Weighed after oil, the line on the bench shows its own scatter, which another line has not. Weighed bare, both show the same.
    #[test]
    fn a_line_being_made_is_known_better_by_its_own_weight() {
        let mut draft = demo().draft().clone();
        draft.points[2].diameter_mm += 0.002;
        let other = Design::parse(draft).expect("a line a little thicker");
        let recipe = demo().draft().recipe.clone();
        let mut steps = recipe.iter();
        let dry = steps.position(|step| step.kind == StepKind::Daylight);
        let dry = dry.expect("the demo has one") + 1;
        for (done, measure) in [(dry, NextMeasure::Oiled(0, 0)), (1, NextMeasure::Bare(0))] {
            let after = |of: &Design| {
                let all = worths(&dressed(of, done), &demo()).expect("it has a class");
                let first = all.worths[0];
                assert_eq!(first.measure, measure);
                let is_line = |worth: &Worth| worth.measure == NextMeasure::Line;
                let has_line = all.worths.iter().any(is_line);
                assert_eq!(has_line, *of != demo(), "none is made while this one is");
                first.after.spread.grains()
            };
            let (own, another) = (after(&demo()), after(&other));
            if done == dry {
                assert!(own < 0.9 * another, "{own}, {another}");
            } else {
                assert!((own - another).abs() < 0.01 * another, "{own}, {another}");
            }
        }
    }

    #[test]
    fn a_line_too_short_or_of_another_yarn_has_no_worths() {
        let mut short = demo().draft().clone();
        short.points = vec![
            DraftPoint {
                at_m: 0.0,
                diameter_mm: 1.0,
            },
            DraftPoint {
                at_m: 5.0,
                diameter_mm: 1.0,
            },
        ];
        let short = Design::parse(short).expect("it may be short");
        assert_eq!(worths(&book(), &short), None);
        let mut other = demo().draft().clone();
        other.fibre = crate::braid::yarn::Fibre::Nylon;
        let other = Design::parse(other).expect("it may be nylon");
        assert_eq!(worths(&book(), &other), None);
    }
}
