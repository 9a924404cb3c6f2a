//! The example book follows from its scenario: a workshop that does not exist, whose truth and whose errors of measuring stand here.
//! All are our own choice. The lines are braided with that truth by the ordinary road from a design to a line, and weighed by the
//! ordinary calculation of a dressed line; only the errors are added, and the digits of the instruments taken.

use taperwright::base::units::{Density, Length};
use taperwright::braid::dressing::Dressing;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::parameters::Parameters;
use taperwright::design::settings::Setting;
use taperwright::keep::book::accuracy::Accuracy;
use taperwright::keep::book::errors;
use taperwright::keep::book::example::{self, Example};
use taperwright::keep::book::record::{LineField, LineStage};
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Source, Workshop, file};
use taperwright::plan::prediction::prior;

use crate::learning::Planned;

/// What is true in the invented workshop, in the order and the units of the parameters: its machine takes off 1.8 % more than
/// believed, its yarn is 1.2 % lighter than its label, its oil fills a little less of the voids.
const TRUTH: Parameters = Parameters([3.31, 2.4, 55.5, 98.8, 88.0, 104.0, 99.0]);

/// The errors of both swatches, in standard deviations of their instruments.
const SWATCH_ERRORS: [[(SwatchField, f64); 5]; 2] = [
    [
        (SwatchField::Length, 0.3),
        (SwatchField::Circuits, -0.6),
        (SwatchField::Mass, 0.5),
        (SwatchField::Diameter, 0.7),
        (SwatchField::Angle, -0.4),
    ],
    [
        (SwatchField::Length, -0.5),
        (SwatchField::Circuits, 0.4),
        (SwatchField::Mass, -0.8),
        (SwatchField::Diameter, -0.2),
        (SwatchField::Angle, 0.9),
    ],
];

/// By how much each dressed line weighs more than others of that hand, in spreads of that.
const SCATTER: [f64; 3] = [0.8, -1.1, 0.4];

/// The errors of each line's weights, in standard deviations of the scale: the whole line bare, the whole finished, its head.
const SCALE_ERRORS: [[f64; 3]; 3] = [[0.4, -0.7, 0.2], [-0.9, 0.5, -0.3], [0.1, 0.6, -0.8]];

/// A number as an instrument with this error shows it, in steps of `step`.
fn read(truth: f64, error: f64, step: f64) -> f64 {
    ((truth + error) / step).round() * step
}

/// What is true of a braid like that swatch, its length apart.
fn of_swatch(truth: &Design, swatch: &Swatch, field: SwatchField, errors: f64) -> f64 {
    let long = Length::from_metres(example::SWATCH_METRES);
    let number = |field| swatch.get(field).expect("it is set up");
    let lay = Length::from_millimetres(truth.setting(Setting::MachineConstant))
        * (number(SwatchField::Driver) / number(SwatchField::Driven));
    assert_eq!(
        number(SwatchField::Ends),
        truth.setting(Setting::EndsPerThread)
    );
    // A swatch has few threads.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let braid = truth
        .braiding()
        .at_lay(number(SwatchField::Threads) as u32, lay);
    let (value, error, step) = match field {
        SwatchField::Length => (long.metres(), errors::of_length(long).metres(), 0.001),
        SwatchField::Circuits => (long / lay, errors::CIRCUITS, 0.25),
        SwatchField::Mass => {
            let mass = long * braid.linear_density;
            (mass.grams(), errors::of_mass(mass).grams(), 0.01)
        }
        SwatchField::Diameter => {
            let diameter = braid.diameter.millimetres();
            (diameter, errors::DIAMETER.millimetres(), 0.01)
        }
        SwatchField::Angle => (braid.angle.degrees(), errors::ANGLE.degrees(), 0.5),
        other => panic!("{other:?} is not measured"),
    };
    read(value, errors * error, step)
}

#[track_caller]
fn is_written(book: &Workshop, at: Source, wanted: f64) {
    let written = book.get(at).unwrap_or_default();
    assert!(
        (written - wanted).abs() < 1e-9,
        "{}: {written} is written, {wanted:.4} follows",
        book.place_words(at)
    );
}

#[test]
fn the_swatches_follow_from_the_scenario() {
    let book = example::book();
    let truth = demo().with_parameters(&TRUTH).expect("it is in range");
    assert_eq!(book.swatches.len(), SWATCH_ERRORS.len());
    for (index, (swatch, errors)) in book.swatches.iter().zip(SWATCH_ERRORS).enumerate() {
        for (field, errors) in errors {
            let wanted = of_swatch(&truth, swatch, field, errors);
            is_written(&book, Source::Swatch(index, field), wanted);
        }
    }
}

#[test]
fn the_lines_follow_from_the_scenario() {
    let book = example::book();
    assert_eq!(book.records.len(), SCATTER.len());
    let lines = book.records.iter().zip(SCATTER.iter().zip(SCALE_ERRORS));
    for (index, (record, (scatter, errors))) in lines.enumerate() {
        let design = record.design.design().expect("it can be read");
        let planned = Planned::of(design.clone());
        let (_, line) = planned.made(&TRUTH);
        let (from, to) = (planned.head.from, planned.head.to);
        let dressed = 1.0 + prior::SCATTER * scatter;
        let bare = line.mass_with(&Dressing::BARE, Density::ZERO, Length::ZERO, line.length());
        let whole = line.mass(Length::ZERO, line.length()) * dressed;
        let head = line.mass(from, to) * dressed;
        let weights = [
            (bare, LineStage::Bare, LineField::Mass),
            (whole, LineStage::Finished, LineField::Mass),
            (head, LineStage::Finished, LineField::HeadMass),
        ];
        for ((mass, stage, field), errors) in weights.into_iter().zip(errors) {
            let error = errors * errors::of_mass(mass).grams();
            let wanted = read(mass.grams(), error, 0.01);
            is_written(&book, Source::Line(index, stage, field), wanted);
        }
    }
}

/// A book like any other: nothing in it is impossible or doubted, and it could be written to a file.
#[test]
fn the_example_is_a_sound_book() {
    let Example { book, estimate, .. } = Example::of(&demo()).expect("the demo has a class");
    assert_eq!(estimate.doubts, []);
    assert_eq!((estimate.swatches, estimate.lines), (2, 3));
    for swatch in &book.swatches {
        assert_eq!(book.complaints_of_swatch(swatch), []);
    }
    for record in &book.records {
        assert_eq!(book.complaints_of_line(record), []);
    }
    assert_eq!(file::read(&file::write(&book)).expect("it is a book"), book);
}

/// What is learnt is the truth of the scenario to within three of the spreads stated, and every part of the book made the class
/// surer. The range of the head gets narrower, and what is true of it is within.
#[test]
fn the_example_teaches_what_is_true_of_its_workshop() {
    let example = Example::of(&demo()).expect("the demo has a class");
    for (learnt, truth) in example.estimate.learnt.iter().zip(TRUTH.0) {
        let off = (learnt.value - truth) / learnt.spread;
        println!(
            "{}: {} ± {}, true {truth}",
            learnt.parameter.name(),
            learnt.value,
            learnt.spread
        );
        assert!(off.abs() < 3.0, "{}: off by {off}", learnt.parameter.name());
    }
    println!("{}\n{}", example.without.words(), example.with.words());
    for (entry, brought) in &example.brought {
        println!("{entry}: {}", brought.words());
        assert!(brought.after.spread < brought.before.spread, "{entry}");
    }
    assert_eq!(example.brought.len(), 5, "two swatches and three lines");
    let pairs = example.brought.windows(2);
    for pair in pairs {
        assert_eq!(pair[0].1.after, pair[1].1.before, "{}", pair[1].0);
    }
    let accuracy = Accuracy::of(&example.lines).expect("lines are weighed");
    println!("{}", accuracy.bias_words("The invented"));
    println!("{:?} {:?}", accuracy.spread_words(), accuracy.held_words());
    assert!(example.with.spread < example.without.spread);
    let (taught, _) = example
        .estimate
        .taught(&demo(), "")
        .expect("it can be planned");
    let planned = Planned::of(taught);
    let made = planned
        .made(&TRUTH)
        .1
        .mass(planned.head.from, planned.head.to);
    let off = (made - example.with.mass).abs();
    assert!(off < example.with.margin(), "{} gr off", off.grains());
}
