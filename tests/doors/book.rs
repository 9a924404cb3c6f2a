//! Numbers of the bench book that cannot be: each is complained of in words that say what to do, and kept.

use taperwright::base::units::Angle;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::check::swatch::sound;
use taperwright::keep::book::swatch::{Swatch, SwatchField};

use crate::designs::usual;
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
    let sound = sound(&swatch, &workshop().yarn());
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
    assert_eq!(sound(&swatch, &workshop().yarn()), swatch);
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
        &["without the length the crossings were counted over"],
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
    says(&found[1].why.to_string(), &["without the length braided"]);
}

/// Analytic: 192 ends of 20 denier, 232 mm of them laid straight, weigh 0.0990 g; three errors of the scale of 0.01 g less.
#[test]
fn lighter_than_the_yarn() {
    complains(
        |swatch| swatch.mass_g = Some(0.068),
        &[SwatchField::Mass],
        &["0.068 g", "0.099 g laid straight", "Weigh it again"],
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
        says(&found[0].why.to_string(), &[range, "type it once more"]);
    }
}
