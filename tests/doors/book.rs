//! Numbers of the bench book that cannot be: each is complained of in words that say what to do, and kept.

use taperwright::base::units::Angle;
use taperwright::braid::takeoff::Train;
use taperwright::design::settings::Setting;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::check::swatch::sound;
use taperwright::keep::book::swatch::{Swatch, SwatchField};

use crate::designs::{parsed, usual};
use crate::says;

fn workshop() -> Workshop {
    Workshop::new("Heron Weir, lot A".to_owned(), &usual())
}

/// A swatch as the usual workshop would make it: sixteen threads of twelve ends, 21 denier, laid at 45°.
///
/// Analytic: 192 ends of 21/9 mg/m, 2 % of crimp, over cos 45° make 0.6463 g/m; at 1.34 g/cm³ and 55 % fibre that is
/// 1.0567 mm thick. A thread of 28 mg/m, 70 % fibre, lies 0.1591 mm thick where it is 1.5 times as wide, so that the path
/// is 0.7384 mm thick and its lay π times that.
fn usual_swatch() -> Swatch {
    Swatch {
        name: "22 teeth".to_owned(),
        threads: Some(16.0),
        ends: Some(12.0),
        driver: Some(29.0),
        driven: Some(40.0),
        length_m: Some(0.232),
        circuits: Some(100.0),
        crossings: Some(345.0),
        crossings_over_m: Some(0.1),
        mass_g: Some(0.15),
        diameter_mm: Some(1.057),
        angle_deg: Some(45.0),
        ..Swatch::default()
    }
}

/// Spoils the usual swatch and looks for just one complaint, about these numbers and in these words. What is complained of
/// is left out of the sound swatch, all else is in it, and the swatch itself stays as it is.
#[track_caller]
fn complains(spoil: impl FnOnce(&mut Swatch), fields: &[SwatchField], things: &[&str]) {
    let mut swatch = usual_swatch();
    spoil(&mut swatch);
    let found = workshop().complaints_of_swatch(&swatch);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].fields, fields);
    says(&found[0].why.to_string(), things);
    let sound = sound(&swatch, &workshop().limits());
    for field in SwatchField::ALL {
        let wanted = (!fields.contains(&field))
            .then(|| swatch.get(field))
            .flatten();
        assert_eq!(sound.get(field), wanted, "{}", field.name());
    }
}

#[test]
fn the_usual_swatch_is_sound() {
    let swatch = usual_swatch();
    assert_eq!(workshop().complaints_of_swatch(&swatch), []);
    assert_eq!(sound(&swatch, &workshop().limits()), swatch);
    assert_eq!(workshop().complaints_of_swatch(&Swatch::default()), []);
}

#[test]
fn numbers_that_are_none() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let found = workshop().complaints_of_swatch(&Swatch {
            angle_deg: Some(value),
            ..usual_swatch()
        });
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].fields, [SwatchField::Angle]);
        says(
            &found[0].why.to_string(),
            &["not a number", "Type it again"],
        );
    }
}

#[test]
fn numbers_of_nothing_or_less() {
    for (value, word) in [(0.0, "0 "), (-0.15, "-0.15 ")] {
        complains(
            |swatch| swatch.mass_g = Some(value),
            &[SwatchField::Mass],
            &[word, "more than 0", "clear the field"],
        );
    }
}

#[test]
fn counts_that_cannot_be() {
    let rest = [
        SwatchField::Circuits,
        SwatchField::Crossings,
        SwatchField::Mass,
        SwatchField::Diameter,
        SwatchField::Angle,
    ];
    let rows: [(SwatchField, f64, &[&str]); 5] = [
        (SwatchField::Threads, 15.5, &["15.5", "whole number"]),
        (SwatchField::Threads, 65.0, &["65", "3 to 64"]),
        (SwatchField::Ends, 501.0, &["501", "1 to 500"]),
        (SwatchField::Driver, 7.0, &["7", "8 to 200"]),
        (SwatchField::Driven, 20.25, &["20.25", "whole number"]),
    ];
    for (field, value, things) in rows {
        let mut swatch = usual_swatch();
        swatch.set(field, Some(value));
        let found = workshop().complaints_of_swatch(&swatch);
        assert_eq!(found[0].fields, [field]);
        says(&found[0].why.to_string(), things);
        // Nothing measured can be used without it, and that is said of each.
        assert_eq!(found.len(), 1 + rest.len());
        for (complaint, measured) in found[1..].iter().zip(rest) {
            assert_eq!(complaint.fields, [measured]);
            says(&complaint.why.to_string(), &[field.name(), "Fill that in"]);
        }
    }
}

#[test]
fn numbers_that_say_nothing_alone() {
    complains(
        |swatch| swatch.crossings_over_m = None,
        &[SwatchField::Crossings],
        &["needs the length the crossings were counted over"],
    );
    let swatch = Swatch {
        length_m: None,
        ..usual_swatch()
    };
    let found = workshop().complaints_of_swatch(&swatch);
    let fields: Vec<_> = found.iter().map(|found| found.fields.clone()).collect();
    assert_eq!(
        fields,
        [vec![SwatchField::Circuits], vec![SwatchField::Mass]]
    );
    says(&found[1].why.to_string(), &["needs the length braided"]);
}

/// Analytic: 192 ends of 20 denier, 232 mm of them laid straight, weigh 0.0990 g; three errors of the scale of 0.01 g less.
#[test]
fn lighter_than_the_yarn() {
    complains(
        |swatch| swatch.mass_g = Some(0.068),
        &[SwatchField::Mass],
        &["0.068 g", "0.099 g laid straight", "Weigh again"],
    );
    let heavier = Swatch {
        mass_g: Some(0.070),
        ..usual_swatch()
    };
    assert_eq!(workshop().complaints_of_swatch(&heavier), []);
}

/// Analytic: the same ends are 0.4267 g/m, and at 1.34 g/cm³ and π/(2√3) of the section 0.669 mm thick.
#[test]
fn thinner_than_the_yarn() {
    let angle = |swatch: &mut Swatch| swatch.angle_deg = None;
    complains(
        |swatch| {
            angle(swatch);
            swatch.diameter_mm = Some(0.62);
        },
        &[SwatchField::Diameter],
        &["0.62 mm", "0.669 mm pressed solid", "without squeezing"],
    );
    let mut thicker = usual_swatch();
    angle(&mut thicker);
    thicker.diameter_mm = Some(0.63);
    assert_eq!(workshop().complaints_of_swatch(&thicker), []);
}

/// Analytic: 345 crossings of sixteen threads in 100 mm are a lay of 2.319 mm; 250 would be one of 3.2 mm.
#[test]
fn circuits_and_crossings_contradict() {
    complains(
        |swatch| swatch.crossings = Some(250.0),
        &[SwatchField::Circuits, SwatchField::Crossings],
        &["2.32 mm", "3.2 mm", "count again"],
    );
}

/// Analytic: with a lay of 2.32 mm and a path of 0.738 mm the angle is 45°; no way to lay threads makes it 60° or 30°.
#[test]
fn angle_lay_and_diameter_contradict() {
    for angle in [30.0, 60.0] {
        complains(
            |swatch| swatch.angle_deg = Some(angle),
            &[SwatchField::Angle],
            &[&format!("{angle}.0°"), "Measure all three again"],
        );
    }
    let almost = Swatch {
        angle_deg: Some(Angle::from_degrees(48.0).degrees()),
        ..usual_swatch()
    };
    assert_eq!(workshop().complaints_of_swatch(&almost), []);
    complains(
        |swatch| swatch.angle_deg = Some(95.0),
        &[SwatchField::Angle],
        &["95", "1 to 89"],
    );
}

/// Slips of the pen and of the unit.
#[test]
fn numbers_no_bench_has() {
    let rows: [(SwatchField, f64, &str); 6] = [
        (SwatchField::Length, 2_320.0, "0.001 to 1000"),
        (SwatchField::Circuits, 1e7, "0.5 to 1000000"),
        (SwatchField::Crossings, 0.01, "0.5 to 1000000"),
        (SwatchField::CrossingsOver, 1e-9, "0.001 to 1000"),
        (SwatchField::Mass, 1e300, "0.001 to 10000"),
        (SwatchField::Diameter, 1_057.0, "0.01 to 100"),
    ];
    for (field, value, range) in rows {
        let mut swatch = usual_swatch();
        swatch.set(field, Some(value));
        let found = workshop().complaints_of_swatch(&swatch);
        assert_eq!(found[0].fields, [field]);
        says(&found[0].why.to_string(), &[range, "type it again"]);
    }
}

/// The usual machine has sixteen carriers, gears of 15 to 30 teeth and a fixed wheel of 40.
#[test]
fn threads_and_gears_the_machine_does_not_have() {
    let rows: [(SwatchField, f64, &[&str]); 4] = [
        (
            SwatchField::Threads,
            20.0,
            &["20 threads", "16 carriers", "Settings"],
        ),
        (
            SwatchField::Driver,
            41.0,
            &["41 teeth", "15–30", "add it under Settings"],
        ),
        (
            SwatchField::Driven,
            42.0,
            &["42 teeth", "has 40", "Settings"],
        ),
        (
            SwatchField::Driver,
            14.0,
            &["14 teeth", "Correct the number"],
        ),
    ];
    for (field, value, things) in rows {
        let mut swatch = usual_swatch();
        swatch.set(field, Some(value));
        let found = workshop().complaints_of_swatch(&swatch);
        assert_eq!(found[0].fields, [field]);
        says(&found[0].why.to_string(), things);
        // Nothing measured is used with threads and gears that cannot be.
        let left = sound(&swatch, &workshop().limits());
        for measured in [SwatchField::Mass, SwatchField::Diameter, SwatchField::Angle] {
            assert_eq!(left.get(measured), None, "{}", measured.name());
        }
    }
}

/// Two wheels of the same teeth need two gears; a pair on fixed centres has always the same teeth together.
#[test]
fn pairs_the_machine_cannot_fit() {
    let with = |train, driver, driven| {
        let mut draft = usual().draft().clone();
        (draft.train, draft.gears) = (train, vec![20.0, 28.0, 28.0, 40.0, 52.0]);
        let workshop = Workshop::new("pairs".to_owned(), &parsed(draft));
        let swatch = Swatch {
            threads: Some(16.0),
            ends: Some(12.0),
            driver: Some(driver),
            driven: Some(driven),
            ..Swatch::default()
        };
        let found = workshop.complaints_of_swatch(&swatch);
        found
            .iter()
            .map(|complaint| complaint.why.to_string())
            .collect::<Vec<String>>()
    };
    assert_eq!(with(Train::FreePair, 28.0, 28.0), Vec::<String>::new());
    assert_eq!(with(Train::FreePair, 20.0, 52.0), Vec::<String>::new());
    says(
        &with(Train::FreePair, 40.0, 40.0)[0],
        &["40 teeth", "one gear", "not two"],
    );
    assert_eq!(with(Train::FixedCentres, 28.0, 52.0), Vec::<String>::new());
    says(
        &with(Train::FixedCentres, 20.0, 52.0)[0],
        &["72 teeth together", "needs 80"],
    );
    says(
        &with(Train::FreePair, 21.0, 52.0)[0],
        &["21 teeth", "20, 28, 28, 40, 52"],
    );
}

/// A machine with more carriers and gears is taken over from a design, and nothing else with it.
#[test]
fn a_machine_is_taken_over() {
    let mut draft = usual().draft().clone();
    draft.gears.push(41.0);
    draft.settings.set(Setting::Crimp, 3.0);
    let other = parsed(draft);
    let swatch = Swatch {
        driver: Some(41.0),
        ..usual_swatch()
    };
    let mut book = workshop();
    assert!(book.limits().yields_to(&swatch, &other));
    assert!(!book.limits().yields_to(&usual_swatch(), &other));
    book.take_machine(&other);
    let found = book.complaints_of_swatch(&swatch);
    assert!(
        found.iter().all(|it| !it.why.is_of_the_machine()),
        "{found:?}"
    );
    assert_eq!(book.base.draft().gears, other.draft().gears);
    assert_eq!(book.base.setting(Setting::Crimp), 2.0);
}

/// Analytic: 192 ends of 22 denier with 21 % crimp, 30 % of the section fibre, are 1.341 mm thick laid straight. Half of the lay
/// that 29 on 40 teeth draw is 1.16 mm: with `r` of 1.341 and `t = π/1.16`, both in millimetres, `d² = ½ (r⁴t² + √(r⁸t⁴ + 4
/// r⁴))` gives 4.885 mm, and 13.27 times as much thread as laid straight: 1.771 g in 235 mm.
#[test]
fn thicker_or_heavier_than_the_yarn_can_make() {
    complains(
        |swatch| swatch.diameter_mm = Some(11.5),
        &[SwatchField::Diameter],
        &["11.5 mm is thicker", "4.885 mm", "Measure again"],
    );
    complains(
        |swatch| swatch.mass_g = Some(2.0),
        &[SwatchField::Mass],
        &["2 g is more", "1.771 g", "in grams"],
    );
    let mut loose = usual_swatch();
    (loose.diameter_mm, loose.mass_g, loose.angle_deg) = (Some(4.8), Some(1.7), None);
    assert_eq!(workshop().complaints_of_swatch(&loose), []);
}
