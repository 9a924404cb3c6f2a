//! Numbers of finished lines that cannot be.

use taperwright::design::settings::Setting;
use taperwright::keep::book::check::line::{LinePlace, sound};
use taperwright::keep::book::record::LineField::{At, Diameter, HeadMass, Mass};
use taperwright::keep::book::record::{LineRecord, LineStage, Measures};
use taperwright::keep::book::{Frozen, Workshop};
use taperwright::plan::Plan;

use crate::designs::{design, usual};
use crate::says;

/// A line of the usual design that came out as planned. Oiled it weighs what lies between.
fn usual_line() -> LineRecord {
    let plan = Plan::of(&usual());
    let head = |mass: Option<taperwright::base::units::Mass>| {
        mass.map(taperwright::base::units::Mass::grams)
    };
    let (bare, finished) = (plan.bare_mass.grams(), plan.total_mass.grams());
    let stage = |mass, head| {
        let mut measures = Measures {
            length_m: Some(plan.length.metres()),
            mass_g: Some(mass),
            head_mass_g: head,
            ..Measures::default()
        };
        measures.set(At(0), Some(0.0));
        measures.set(Diameter(0), Some(0.8));
        measures.set(At(1), Some(12.0));
        measures.set(Diameter(1), Some(1.07));
        measures
    };
    LineRecord {
        bare: stage(bare, head(plan.head_bare_mass)),
        coats: vec![stage(0.5 * (bare + finished), None)],
        finished: stage(finished, head(plan.head_mass)),
        ..LineRecord::new("a line".to_owned(), Frozen::of(&usual()))
    }
}

fn workshop() -> Workshop {
    Workshop::new("Heron Weir, lot A".to_owned(), &usual())
}

fn number(line: &LineRecord, (stage, field): LinePlace) -> Option<f64> {
    line.measures(stage)
        .and_then(|measures| measures.get(field))
}

/// Spoils the usual line and looks for just one complaint, about these numbers and in these words. What is complained of is
/// left out of the sound line, all else is in it.
#[track_caller]
fn complains(spoil: impl FnOnce(&mut LineRecord), fields: &[LinePlace], things: &[&str]) {
    let mut line = usual_line();
    spoil(&mut line);
    let found = workshop().complaints_of_line(&line);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].fields, fields);
    says(&found[0].why.to_string(), things);
    let sound = sound(&line, &usual());
    for (stage, measures) in line.stages() {
        for field in measures.fields() {
            let place = (stage, field);
            let wanted = (!fields.contains(&place))
                .then(|| number(&line, place))
                .flatten();
            assert_eq!(number(&sound, place), wanted, "{place:?}");
        }
    }
}

#[test]
fn the_usual_line_is_sound() {
    assert_eq!(workshop().complaints_of_line(&usual_line()), []);
    assert_eq!(sound(&usual_line(), &usual()), usual_line());
    let empty = LineRecord::new(String::new(), Frozen::of(&usual()));
    assert_eq!(workshop().complaints_of_line(&empty), []);
}

#[test]
fn numbers_that_are_none_or_nothing() {
    let rows: [(f64, &str); 4] = [
        (f64::NAN, "not a number"),
        (f64::INFINITY, "not a number"),
        (0.0, "more than 0"),
        (-9.5, "-9.5"),
    ];
    for (value, word) in rows {
        complains(
            |line| line.finished.head_mass_g = Some(value),
            &[(LineStage::Finished, HeadMass)],
            &[word],
        );
    }
    complains(
        |line| line.bare.set(At(1), Some(-1.0)),
        &[(LineStage::Bare, At(1)), (LineStage::Bare, Diameter(1))],
        &["-1"],
    );
}

/// A diameter whose place is struck out says nothing; one at the very tip does.
#[test]
fn diameters_need_a_place_on_the_line() {
    complains(
        |line| line.finished.set(At(1), None),
        &[(LineStage::Finished, Diameter(1))],
        &["needs the place of the diameter"],
    );
    complains(
        |line| line.finished.set(At(1), Some(26.0)),
        &[
            (LineStage::Finished, At(1)),
            (LineStage::Finished, Diameter(1)),
        ],
        &["26 m", "beyond the end", "25.146 m"],
    );
    // What counts is how long the line came out.
    let mut longer = usual_line();
    longer.finished.length_m = Some(26.1);
    longer.finished.set(At(1), Some(26.0));
    assert_eq!(workshop().complaints_of_line(&longer), []);
}

#[test]
fn a_head_is_no_heavier_than_the_whole() {
    complains(
        |line| line.finished.head_mass_g = Some(140.0),
        &[(LineStage::Finished, HeadMass), (LineStage::Finished, Mass)],
        &["140 g", "heavier than the whole", "grains"],
    );
}

/// Analytic: 30 ft are 9.144 m, from 6 in on; a line of 9 m lacks 0.296 m.
#[test]
fn a_short_line_has_no_head() {
    complains(
        |line| {
            for stage in [LineStage::Bare, LineStage::Coat(0), LineStage::Finished] {
                let measures = line.measures_mut(stage).expect("the stage is there");
                measures.length_m = Some(9.0);
                measures.mass_g = None;
                measures.set(At(1), Some(5.0));
            }
            line.bare.head_mass_g = None;
        },
        &[(LineStage::Finished, HeadMass)],
        &["0.296 m", "too short", "whole line instead"],
    );
}

/// Analytic: eight threads at the least of twelve ends of 20 denier, 25.146 m of them, weigh 5.364 g.
#[test]
fn lighter_or_thinner_than_the_yarn() {
    let only_bare = |line: &mut LineRecord| {
        line.coats.clear();
        line.finished = Measures::default();
    };
    complains(
        |line| {
            only_bare(line);
            line.bare.head_mass_g = None;
            line.bare.mass_g = Some(5.2);
        },
        &[(LineStage::Bare, Mass)],
        &["5.2 g", "less than the yarn alone"],
    );
    complains(
        |line| {
            only_bare(line);
            line.bare.head_mass_g = Some(2.0);
        },
        &[(LineStage::Bare, HeadMass)],
        &["2 g", "less than the yarn alone"],
    );
    // As for a swatch of sixteen threads, and at the tip of eight: 0.669 mm and that over the root of 2.
    complains(
        |line| line.finished.set(Diameter(1), Some(0.6)),
        &[(LineStage::Finished, Diameter(1))],
        &["0.6 mm", "0.669 mm pressed solid"],
    );
    complains(
        |line| line.finished.set(Diameter(0), Some(0.4)),
        &[(LineStage::Finished, Diameter(0))],
        &["0.4 mm", "0.473 mm pressed solid"],
    );
}

/// A silk rod of 10 mm, 1.34 g/cm³, would weigh 0.96 kg over 9.144 m: no line of sixteen threads weighs 166 g bare or 2.5 kg dressed.
#[test]
fn heavier_or_thicker_than_the_yarn_can_make() {
    for (stage, grams) in [(LineStage::Bare, 165.9), (LineStage::Finished, 2_561.0)] {
        complains(
            |line| {
                for measures in [&mut line.bare, &mut line.coats[0], &mut line.finished] {
                    (measures.mass_g, measures.head_mass_g) = (None, None);
                }
                let measures = line.measures_mut(stage).expect("the stage is there");
                measures.head_mass_g = Some(grams);
            },
            &[(stage, HeadMass)],
            &[
                &format!("{grams} g is more than this can weigh"),
                "in grams",
            ],
        );
    }
    complains(
        |line| line.finished.set(Diameter(1), Some(10.7)),
        &[(LineStage::Finished, Diameter(1))],
        &["10.7 mm is thicker", "with the loosest braid"],
    );
}

#[test]
fn dressing_makes_no_line_lighter() {
    complains(
        |line| line.coats[0].mass_g = line.bare.mass_g.map(|mass| 0.9 * mass),
        &[(LineStage::Bare, Mass), (LineStage::Coat(0), Mass)],
        &["After oil 1", "bare it weighed", "cannot make it lighter"],
    );
    complains(
        |line| line.finished.mass_g = line.coats[0].mass_g.map(|mass| 0.9 * mass),
        &[(LineStage::Coat(0), Mass), (LineStage::Finished, Mass)],
        &["Finished", "after oil 1 it weighed", "Weigh again"],
    );
    complains(
        |line| line.finished.head_mass_g = line.bare.head_mass_g.map(|mass| 0.9 * mass),
        &[(LineStage::Bare, HeadMass), (LineStage::Finished, HeadMass)],
        &["bare it weighed"],
    );
    // A line cut shorter may weigh less.
    let mut shorter = usual_line();
    shorter.finished.length_m = Some(20.0);
    shorter.finished.mass_g = shorter.coats[0].mass_g.map(|mass| 0.9 * mass);
    assert_eq!(workshop().complaints_of_line(&shorter), []);
}

#[test]
fn coats_the_recipe_does_not_have() {
    complains(
        |line| {
            line.coats.push(Measures {
                mass_g: Some(30.0),
                ..Measures::default()
            });
        },
        &[(LineStage::Coat(1), Mass)],
        &["one coat of oil", "Move the numbers"],
    );
}

#[test]
fn lines_of_another_yarn_or_beyond_reading() {
    let other = design(
        &[(Setting::LabelLow, 13.0), (Setting::LabelHigh, 15.0)],
        &[(0.0, 0.8), (20.0, 1.0)],
    );
    let mut line = usual_line();
    line.design = Frozen::of(&other);
    let found = workshop().complaints_of_line(&line);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].fields.len(), 20);
    says(
        &found[0].why.to_string(),
        &["another yarn", "workshop of its own"],
    );

    let text = serde_json::to_string(&usual_line()).expect("a line is JSON");
    let code = serde_json::to_string(&Frozen::of(&usual())).expect("a design has a code");
    for (broken, word) in [
        ("\"AwAAz\"", "damaged"),
        // Version 9, no payload, and the CRC-32 of both.
        ("\"CQAAneKQ8Az\"", "newer Taperwright"),
    ] {
        let line: LineRecord =
            serde_json::from_str(&text.replace(&code, broken)).expect("any code is kept");
        let found = workshop().complaints_of_line(&line);
        says(&found[0].why.to_string(), &[word]);
        // Kept to the letter.
        let again = serde_json::to_string(&line).expect("a line is JSON");
        assert!(again.contains(broken), "{again}");
    }
}
