//! Numbers far from what is expected: they wait for the maker, a likely slip is named, and the rest is weighed robustly.

use taperwright::base::units::Mass;
use taperwright::design::parameters::Parameter;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::record::{LineField, LineRecord, LineStage};
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Frozen, Source, Workshop};
use taperwright::plan::Plan;

use crate::designs::usual;
use crate::learning::{Truth, braid, swatch, workshop};
use crate::row::agree;

/// A swatch of which only the lay is known.
fn lay_alone(constant: f64) -> Swatch {
    let length = 20.0;
    Swatch {
        length_m: Some(length),
        circuits: Some(length * 1e3 / (constant * 0.7)),
        mass_g: None,
        diameter_mm: None,
        angle_deg: None,
        ..swatch(28.0)
    }
}

/// The error of such a swatch's constant: 0.05 % of the length, and a quarter of some 8000 circuits.
fn error_of(constant: f64) -> f64 {
    let circuits: f64 = 20_000.0 / (constant * 0.7);
    constant * (0.0005_f64.powi(2) + (0.25 / circuits).powi(2)).sqrt()
}

/// By hand, Huber's rule for one unknown: three lays pull by their distance, a fourth that is 2 % longer, some 30 of its errors,
/// by 1.345 errors and no more: `3 (3.4 − C)/σ² + 1.345/σ₄ + (3.2 − C)/s² = 0`.
#[test]
fn a_lay_far_from_the_others_pulls_like_one_a_little_off() {
    let mut swatches = vec![lay_alone(3.4); 3];
    swatches.push(lay_alone(3.468));
    let estimate = Estimate::of(&workshop(swatches));
    let (precision, prior) = (error_of(3.4).powi(-2), (3.2 * 0.03_f64).powi(-2));
    let pull = 3.0 * 3.4 * precision + 1.345 / error_of(3.468) + 3.2 * prior;
    let learnt = &estimate.learnt[Parameter::Constant as usize];
    agree(learnt.value, pull / (3.0 * precision + prior), 1e-9);
    assert_eq!(estimate.residuals.len(), 4);
}

/// By hand: what was believed is 3.2 mm ± 3 %. A lay that says 4.5 mm is 13.5 spreads off: nothing is learnt from it. Confirmed, it
/// is learnt from like any other, by the weights of its error and of the belief.
#[test]
fn what_is_far_from_belief_waits_for_the_maker() {
    let mut book = workshop(vec![lay_alone(4.5)]);
    let untaught = Estimate::of(&workshop(Vec::new()));
    let estimate = Estimate::of(&book);
    assert_eq!(estimate.learnt, untaught.learnt);
    assert_eq!((estimate.swatches, estimate.residuals.len()), (0, 0));
    let [doubt] = estimate.doubts[..] else {
        panic!("{:?}", estimate.doubts);
    };
    assert_eq!(doubt.source, Source::Swatch(0, SwatchField::Circuits));
    assert!(!doubt.is_used && doubt.slip.is_none(), "{doubt:?}");
    agree(doubt.expected, 3.2 * 0.7, 1e-9);
    // Of the error of the lay as large a share as of the lay expected.
    let spread = (3.2 * 0.03_f64).hypot(error_of(4.5) * 3.2 / 4.5);
    agree(doubt.spread, spread * 0.7, 1e-6);
    agree(doubt.off(), 1.3 / spread, 1e-6);
    book.confirm(doubt.source);
    let estimate = Estimate::of(&book);
    let (prior, measured) = ((3.2 * 0.03_f64).powi(-2), error_of(4.5).powi(-2));
    let mean = (3.2 * prior + 4.5 * measured) / (prior + measured);
    agree(estimate.learnt[0].value, mean, 1e-9);
    assert_eq!(estimate.doubts, []);
    // What is confirmed tells what to expect of the next: no question twice.
    book.swatches.push(lay_alone(4.49));
    let estimate = Estimate::of(&book);
    assert_eq!((&estimate.doubts[..], estimate.swatches), (&[][..], 2));
    // A value corrected is another one, and has to be confirmed again.
    book.set(doubt.source, Some(5_000.0));
    assert!(!book.is_confirmed(doubt.source));
}

/// One number of the swatch that came out as believed, spoiled: where the number in doubt stands, and what was probably meant.
#[test]
fn a_likely_slip_is_named() {
    use SwatchField::{Circuits, Crossings, Diameter, Length, Mass, Threads};
    let believed = Truth {
        constant: 3.2,
        crimp: 0.02,
        fibre_fraction: 0.55,
        yarn: 1.0,
    };
    let [lay, mass, diameter, angle] = braid(&believed, 28.0);
    let sound = Swatch {
        length_m: Some(0.4),
        circuits: Some(400.0 / lay),
        mass_g: Some(0.4 * mass),
        diameter_mm: Some(diameter),
        angle_deg: Some(angle),
        crossings: Some(16.0 * 200.0 / (2.0 * lay)),
        crossings_over_m: Some(0.2),
        ..swatch(28.0)
    };
    assert_eq!(Estimate::of(&workshop(vec![sound.clone()])).doubts, []);
    let rows: [(SwatchField, f64, SwatchField, &str); 9] = [
        (Circuits, 10.0, Circuits, "ten times"),
        (Circuits, 0.1, Circuits, "a tenth"),
        (Crossings, 2.0, Crossings, "twice the count"),
        (Crossings, 0.5, Crossings, "half the count"),
        (Diameter, 2.0 / 1.1, Diameter, ""),
        (Diameter, 2.54, Diameter, "centimetres"),
        (Threads, 0.5, Threads, "twice as many threads"),
        (Mass, 10.0, Mass, "ten times"),
        (Length, 0.1, Length, "a tenth"),
    ];
    for (field, factor, at, words) in rows {
        let mut spoiled = sound.clone();
        // Circuits and crossings together would be complained of, each for the other's sake.
        match field {
            Circuits | Length | Threads => spoiled.crossings = None,
            Crossings => spoiled.circuits = None,
            _ => {}
        }
        let right = spoiled.get(at);
        spoiled.set(field, spoiled.get(field).map(|value| value * factor));
        let book = workshop(vec![spoiled]);
        let estimate = Estimate::of(&book);
        let doubted = match field {
            Length => Circuits,
            Threads => Mass,
            other => other,
        };
        let doubt = estimate.doubts.iter();
        let doubt = doubt
            .into_iter()
            .find(|doubt| doubt.source == Source::Swatch(0, doubted));
        let doubt = doubt.unwrap_or_else(|| panic!("{field:?} × {factor}: {estimate:?}"));
        let Some(slip) = doubt.slip else {
            assert_eq!(words, "", "{field:?} × {factor}");
            continue;
        };
        assert!(slip.words.contains(words) && !words.is_empty(), "{slip:?}");
        assert_eq!(slip.at, Source::Swatch(0, at));
        agree(slip.value, right.expect("it was measured"), 1e-9);
    }
}

/// The weight of a line typed in grains where grams are asked for.
#[test]
fn grains_for_grams_are_named() {
    let plan = Plan::of(&usual());
    let head = plan.head_mass.expect("the line has a head");
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.finished.head_mass_g = Some(head.grains());
    let book = Workshop {
        records: vec![line],
        ..workshop(Vec::new())
    };
    let estimate = Estimate::of(&book);
    assert_eq!((estimate.lines, estimate.residuals.len()), (0, 0));
    let at = Source::Line(0, LineStage::Finished, LineField::HeadMass);
    let complaints = book.complaints_of_line(&book.records[0]);
    let Some(doubt) = estimate.doubts.first() else {
        panic!("{complaints:?}");
    };
    let slip = doubt.slip.expect("it is 15.43 times as much");
    assert_eq!((doubt.source, slip.at), (at, at));
    assert!(slip.words.contains("grains"), "{slip:?}");
    agree(slip.value, head.grams(), 1e-6);
}

/// The line that was reported: 2,561 gr to 30 ft. It is possible for the scale, far from the plan, and teaches nothing; and no
/// weight beyond the table is called by its nearest class.
#[test]
fn a_line_of_2561_grains_is_asked_about() {
    let mut line = LineRecord::new("heavy".to_owned(), Frozen::of(&usual()));
    line.finished.head_mass_g = Some(Mass::from_grains(2_561.0).grams());
    let mut book = workshop(Vec::new());
    book.records.push(line);
    let estimate = Estimate::of(&book);
    assert_eq!(book.complaints_of_line(&book.records[0]), []);
    assert_eq!(estimate.learnt, Estimate::of(&workshop(Vec::new())).learnt);
    let [doubt] = estimate.doubts[..] else {
        panic!("{:?}", estimate.doubts);
    };
    assert!(doubt.off() > 100.0 && !doubt.is_used, "{doubt:?}");
}
