//! Laws of the bench book, tried on random ones.
//!
//! Sources: none needed. That knowledge never shrinks where the model is a straight one, and that the order in which things
//! were written down cannot matter, is analytic.

use proptest::prelude::*;
use taperwright::base::estimate::{Group, Unknown, fit};
use taperwright::design::parameters::COUNT;
use taperwright::keep::book::check::swatch::sound;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::file::{read, write};
use taperwright::keep::book::next::Worths;
use taperwright::keep::book::record::{LineField, LineRecord, LineStage, Measures};
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Frozen, Source, Workshop};
use taperwright::plan::Plan;

use crate::designs::{design, usual};
use crate::lines::cases;
use crate::small_pictures::picture;

/// Anything somebody could have typed, or a program have passed on.
fn number() -> impl Strategy<Value = Option<f64>> {
    prop_oneof![
        2 => Just(None),
        4 => (0.0..100.0_f64).prop_map(Some),
        2 => any::<f64>().prop_filter("not equal to itself", |value| !value.is_nan()).prop_map(Some),
        1 => Just(Some(0.0)),
        1 => Just(Some(f64::INFINITY)),
    ]
}

fn any_swatch() -> impl Strategy<Value = Swatch> {
    let numbers = prop::collection::vec(number(), SwatchField::ALL.len());
    (numbers, number(), number(), any::<bool>()).prop_map(
        |(numbers, angle_error, crossings_error, has_picture)| {
            let mut swatch = Swatch::default();
            for (field, number) in SwatchField::ALL.into_iter().zip(numbers) {
                swatch.set(field, number);
            }
            swatch.angle_error_deg = angle_error;
            swatch.crossings_error = crossings_error;
            swatch.picture = has_picture.then(picture);
            swatch
        },
    )
}

fn any_measures() -> impl Strategy<Value = Measures> {
    prop::collection::vec(number(), 7).prop_map(|numbers| {
        let fields = [
            LineField::Length,
            LineField::Mass,
            LineField::HeadMass,
            LineField::At(0),
            LineField::Diameter(0),
            LineField::At(1),
            LineField::Diameter(1),
        ];
        let mut measures = Measures::default();
        for (field, number) in fields.into_iter().zip(numbers) {
            measures.set(field, number);
        }
        measures
    })
}

fn any_line() -> impl Strategy<Value = LineRecord> {
    let stages = prop::collection::vec(any_measures(), 3);
    stages.prop_map(|mut stages| {
        let mut line = LineRecord::new("a line".to_owned(), Frozen::of(&light()));
        line.finished = stages.pop().unwrap_or_default();
        line.bare = stages.pop().unwrap_or_default();
        line.coats = stages;
        line
    })
}

/// A line quickly laid out.
fn light() -> taperwright::design::Design {
    design(&[], &[(0.0, 1.0), (2.0, 1.06), (11.0, 1.06)])
}

fn any_book() -> impl Strategy<Value = Workshop> {
    let swatches = prop::collection::vec(any_swatch(), 0..4);
    let lines = prop::collection::vec(any_line(), 0..3);
    (swatches, lines).prop_map(|(swatches, records)| Workshop {
        swatches,
        records,
        ..Workshop::new("any".to_owned(), &usual())
    })
}

/// Off by up to a few percent in everything.
const LIKELY: f64 = 0.02;
/// Off by less than anything can be measured.
const CLOSE: f64 = 0.002;

/// A swatch such as is made, off by up to a share in everything.
fn likely_swatch(share: f64) -> impl Strategy<Value = Swatch> {
    let off = move || -share..share;
    (24_u32..=30, off(), off(), off(), off()).prop_map(|(driver, lay, mass, size, angle)| {
        let base = usual().braiding();
        let ratio = f64::from(driver) / 40.0;
        let real = taperwright::base::units::Length::from_millimetres(3.2 * ratio * (1.0 + lay));
        let braid = base.at_lay(16, real);
        Swatch {
            threads: Some(16.0),
            ends: Some(12.0),
            driver: Some(f64::from(driver)),
            driven: Some(40.0),
            length_m: Some(0.5),
            circuits: Some(0.5 / real.metres()),
            mass_g: Some(0.5 * braid.linear_density.grams_per_metre() * (1.0 + mass)),
            diameter_mm: Some(braid.diameter.millimetres() * (1.0 + size)),
            angle_deg: Some(braid.angle.degrees() * (1.0 + angle)),
            ..Swatch::default()
        }
    })
}

fn likely_line(share: f64) -> impl Strategy<Value = LineRecord> {
    let off = move || -share..share;
    (off(), off(), off()).prop_map(|(bare, oiled, finished)| {
        let plan = Plan::of(&light());
        let mut line = LineRecord::new("a line".to_owned(), Frozen::of(&light()));
        line.bare.mass_g = Some(plan.bare_mass.grams() * (1.0 + bare));
        let between = 0.3 * plan.bare_mass.grams() + 0.7 * plan.total_mass.grams();
        if let Some(coat) = line.measures_mut(LineStage::Coat(0)) {
            coat.mass_g = Some(between * (1.0 + oiled));
        }
        line.finished.head_mass_g = plan.head_mass.map(|mass| mass.grams() * (1.0 + finished));
        line
    })
}

fn likely_book(share: f64) -> impl Strategy<Value = Workshop> {
    let swatches = prop::collection::vec(likely_swatch(share), 1..4);
    let lines = prop::collection::vec(likely_line(share), 1..3);
    (swatches, lines).prop_map(|(swatches, records)| Workshop {
        swatches,
        records,
        ..Workshop::new("likely".to_owned(), &usual())
    })
}

proptest! {
    #![proptest_config(cases(64))]

    /// Nothing written down is ever lost, whatever it is, but own errors that cannot be; and whatever it is, there is an answer.
    #[test]
    fn any_book_reads_back_and_teaches_something_finite(book in any_book()) {
        let again = read(&write(&book));
        prop_assert_eq!(again.clone(), book.clone().admitted());
        let again = again.expect("it fits a book");
        for (read, written) in again.swatches.iter().zip(&book.swatches) {
            prop_assert!(SwatchField::ALL.into_iter().all(|field| read.get(field) == written.get(field)));
            for field in [SwatchField::Angle, SwatchField::Crossings] {
                // Twelve digits of it are kept.
                let [read, written] = [read, written].map(|swatch| swatch.own_error(field));
                let share = read.zip(written).map(|(read, written)| (read / written - 1.0).abs());
                prop_assert!(read.is_some() == written.is_some() && share.is_none_or(|off| off < 1e-11));
            }
            prop_assert_eq!(&read.picture, &written.picture);
        }
        prop_assert_eq!(&again.records, &book.records);
        let estimate = Estimate::of(&book);
        for learnt in &estimate.learnt {
            prop_assert!(learnt.value.is_finite() && learnt.spread.is_finite());
            prop_assert!(learnt.spread > 0.0 && learnt.spread <= learnt.prior_spread * 1.000_001);
            let rule = learnt.parameter.setting().rule();
            prop_assert!((rule.low..=rule.high).contains(&learnt.value));
        }
        // A design can always be planned with it.
        prop_assert!(usual().with_parameters(&estimate.parameters()).is_ok());
        prop_assert!(estimate.learned().spreads.iter().all(|spread| *spread < 1000.0));
    }

    /// Whatever is written down, what can be measured next narrows the spread, and a chance is one.
    #[test]
    fn measurements_of_any_book_narrow(book in any_book(), other in likely_book(LIKELY)) {
        let plan = Plan::of(&light());
        for book in [book, other] {
            let worths = Worths::of(&book, &Estimate::of(&book), (&light(), &plan));
            let Worths { now, worths } = worths.expect("the line has a class");
            prop_assert!(now.spread.grains() > 0.0 && now.spread.grains() < now.class.target);
            for worth in worths {
                let chance = worth.after.chance;
                prop_assert!(now.chance < chance && chance <= 1.0, "{:?}", worth);
                prop_assert!(worth.after.spread < now.spread && worth.minutes > 0.0, "{:?}", worth);
            }
        }
    }

    /// What is complained of is left out, and nothing that is left is complained of.
    #[test]
    fn what_is_left_is_sound(swatch in any_swatch(), line in any_line()) {
        let book = Workshop::new(String::new(), &usual());
        let left = sound(&swatch, &book.limits());
        prop_assert_eq!(book.complaints_of_swatch(&left), vec![]);
        let left = taperwright::keep::book::check::line::sound(&line, &usual());
        prop_assert_eq!(book.complaints_of_line(&left), vec![]);
    }

    /// What waits for the maker's word teaches nothing: the book without it teaches the same. Once all is confirmed, nothing
    /// waits, and everything sound is learnt from.
    #[test]
    fn what_waits_teaches_nothing(book in likely_book(LIKELY), page in 0_usize..3, field in 0_usize..11, factor in 0.05..20.0_f64) {
        let mut spoiled = book.clone();
        let at = Source::Swatch(page % book.swatches.len(), SwatchField::ALL[field]);
        spoiled.set(at, spoiled.get(at).map(|value| value * factor));
        let estimate = Estimate::of(&spoiled);
        let far: Vec<Source> = estimate.doubts.iter().filter(|doubt| !doubt.is_used).map(|doubt| doubt.source).collect();
        let mut without = spoiled.clone();
        for source in &far {
            without.set(*source, None);
        }
        // A number that was complained of for the sake of one far off is used again without it.
        let complaints = |book: &Workshop| book.swatches.iter().map(|swatch| book.complaints_of_swatch(swatch)).collect::<Vec<_>>();
        prop_assume!(complaints(&without) == complaints(&spoiled));
        let told = Estimate::of(&without);
        prop_assert_eq!(&estimate.learnt, &told.learnt);
        prop_assert_eq!(&estimate.covariance, &told.covariance);
        for source in &far {
            prop_assert!(estimate.residuals.iter().all(|residual| residual.source != *source));
            spoiled.confirm(*source);
        }
        let after = Estimate::of(&spoiled);
        for source in &far {
            prop_assert!(after.residuals.iter().any(|residual| residual.source == *source));
            prop_assert!(after.doubts.iter().all(|doubt| doubt.source != *source));
        }
    }

    /// The same things written down in another order teach the same.
    #[test]
    fn order_does_not_matter(book in likely_book(LIKELY)) {
        let mut turned = book.clone();
        turned.swatches.reverse();
        turned.records.reverse();
        let (one, other) = (Estimate::of(&book), Estimate::of(&turned));
        for (one, other) in one.learnt.iter().zip(&other.learnt) {
            prop_assert!((one.value - other.value).abs() < 1e-5 * one.spread, "{one:?} {other:?}");
            prop_assert!((one.spread / other.spread - 1.0).abs() < 1e-5, "{one:?} {other:?}");
            prop_assert_eq!(&one.told_by, &other.told_by);
        }
        prop_assert_eq!(one.residuals.len(), other.residuals.len());
    }

    /// In a straight model no further number widens what is known of any unknown.
    #[test]
    fn knowledge_never_shrinks(
        rows in prop::collection::vec((prop::array::uniform3(-3.0..3.0_f64), -5.0..5.0_f64, 0.01..3.0_f64, 0.0..1.0_f64), 1..8),
    ) {
        let free = |spread| Unknown { mean: 0.0, spread, low: f64::MIN, high: f64::MAX };
        let unknowns = [free(1.0), free(0.3), free(5.0)];
        let spreads = |count: usize| {
            let mut group = Group::default();
            for (_, measured, error, shared) in &rows[..count] {
                group.push(*measured, *error, *shared);
            }
            let expected = |at: &[f64]| {
                let row = |row: &([f64; 3], f64, f64, f64)| row.0.iter().zip(at).map(|(a, b)| a * b).sum();
                rows[..count].iter().map(row).collect()
            };
            let found = fit(&unknowns, &[group], expected);
            [0, 1, 2].map(|index| found.covariance[(index, index)].sqrt())
        };
        for count in 1..=rows.len() {
            let (before, after) = (spreads(count - 1), spreads(count));
            for (before, after) in before.into_iter().zip(after) {
                prop_assert!(after <= before * (1.0 + 1e-6), "{before} became {after}");
            }
        }
    }

    /// In a real book, which is nearly straight, another swatch or line that agrees with it never widens a spread by more than a
    /// little.
    #[test]
    fn another_page_hardly_ever_teaches_less(book in likely_book(CLOSE), swatch in likely_swatch(CLOSE), line in likely_line(CLOSE)) {
        let before = Estimate::of(&book);
        let mut more = book.clone();
        more.swatches.push(swatch);
        let with_swatch = Estimate::of(&more);
        more.records.push(line);
        let with_both = Estimate::of(&more);
        for index in 0..COUNT {
            let spread = |estimate: &Estimate| estimate.learnt[index].spread;
            prop_assert!(spread(&with_swatch) <= 1.02 * spread(&before), "{:?}", before.learnt[index]);
            prop_assert!(spread(&with_both) <= 1.02 * spread(&with_swatch), "{:?}", before.learnt[index]);
        }
    }
}
