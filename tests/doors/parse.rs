//! The door all others lead to: [`Design::parse`].

use taperwright::choice::Choice as _;
use taperwright::design::refusal::{Place, Refusal};
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft, NAME_ROOM, NOTES_ROOM};
use taperwright::track::Pattern;

use crate::designs::{design, parsed, point, usual};
use crate::{outside_every_range, says};

/// The usual design with something done to it, which must be refused: where, and in what words.
#[track_caller]
fn refused(spoil: impl FnOnce(&mut Draft), place: Place, things: &[&str]) {
    let mut draft = usual().draft().clone();
    spoil(&mut draft);
    let refusal = Design::parse(draft).expect_err("bad input was let in");
    says(&refusal.to_string(), things);
    assert_eq!(refusal.place(), place, "{refusal}");
}

const NO_NUMBERS: [f64; 3] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY];

#[test]
fn settings_that_are_no_number() {
    for setting in Setting::ALL {
        for value in NO_NUMBERS {
            let words = [setting.rule().name, "must be a number"];
            refused(
                |draft| draft.settings.set(setting, value),
                Place::Setting(setting),
                &words,
            );
        }
    }
}

#[test]
fn settings_outside_their_range() {
    for (setting, value, words) in outside_every_range() {
        let words = words.each_ref().map(String::as_str);
        refused(
            |draft| draft.settings.set(setting, value),
            Place::Setting(setting),
            &words,
        );
    }
}

#[test]
fn nothing_of_what_must_be_something() {
    let sizes = Setting::ALL
        .into_iter()
        .filter(|setting| setting.rule().low > 0.0);
    for setting in sizes {
        let low = setting.rule().low.to_string();
        refused(
            |draft| draft.settings.set(setting, 0.0),
            Place::Setting(setting),
            &["0", &low],
        );
    }
}

#[test]
fn broken_whole_numbers() {
    let mut tried = 0;
    for setting in Setting::ALL
        .into_iter()
        .filter(|setting| setting.rule().steps == 1)
    {
        tried += 1;
        let words = [setting.rule().name, "whole number", "12.5"];
        refused(
            |draft| draft.settings.set(setting, 12.5),
            Place::Setting(setting),
            &words,
        );
    }
    assert_eq!(
        tried, 4,
        "ends, carriers, fewest threads and partner teeth are whole"
    );
    refused(
        |draft| draft.gears[2] = 20.5,
        Place::Gears,
        &["change gear", "whole number", "20.5"],
    );
}

#[test]
fn a_label_upside_down() {
    let spoil = |draft: &mut Draft| {
        draft.settings.set(Setting::LabelLow, 23.0);
        draft.settings.set(Setting::LabelHigh, 21.0);
    };
    refused(
        spoil,
        Place::Setting(Setting::LabelHigh),
        &["upside down", "23 den", "21 den"],
    );
}

#[test]
fn tracks_that_do_not_exist() {
    for (carriers, pattern, slots, range) in [
        (15.0, Pattern::Diamond, "2", "from 4 to 64"),
        (14.0, Pattern::Regular, "4", "from 4 to 64"),
        (16.0, Pattern::Hercules, "6", "from 6 to 60"),
    ] {
        let spoil = |draft: &mut Draft| {
            draft.pattern = pattern;
            draft.settings.set(Setting::Carriers, carriers);
        };
        let (number, multiple) = (carriers.to_string(), format!("multiple of {slots}"));
        refused(
            spoil,
            Place::Pattern,
            &[&number, pattern.name(), &multiple, range],
        );
    }
}

#[test]
fn more_threads_than_carriers() {
    let spoil = |draft: &mut Draft| draft.settings.set(Setting::FewestThreads, 17.0);
    refused(
        spoil,
        Place::Setting(Setting::FewestThreads),
        &["17 threads", "has 16"],
    );
}

#[test]
fn gears_too_few_too_many_too_odd() {
    refused(
        |draft| draft.gears.clear(),
        Place::Gears,
        &["at least one change gear"],
    );
    refused(
        |draft| draft.gears = vec![20.0; 61],
        Place::Gears,
        &["61", "60"],
    );
    for teeth in [7.0, 201.0, 0.0, -20.0] {
        refused(
            |draft| draft.gears[0] = teeth,
            Place::Gears,
            &[&teeth.to_string(), "teeth", "8 to 200"],
        );
    }
    for teeth in NO_NUMBERS {
        refused(
            |draft| draft.gears[0] = teeth,
            Place::Gears,
            &["teeth of a change gear", "must be a number"],
        );
    }
}

#[test]
fn drawings_of_too_few_or_too_many_points() {
    refused(
        |draft| draft.points.clear(),
        Place::Taper,
        &["2 to 200", "has 0"],
    );
    refused(
        |draft| draft.points.truncate(1),
        Place::Taper,
        &["2 to 200", "has 1"],
    );
    let many = |draft: &mut Draft| {
        draft.points = (0..201).map(|k| point(f64::from(k) * 0.1, 1.0)).collect();
    };
    refused(many, Place::Taper, &["2 to 200", "has 201"]);
    let most: Vec<_> = (0..200).map(|k| (f64::from(k) * 0.1, 1.0)).collect();
    assert_eq!(design(&[], &most).draft().points.len(), 200);
}

#[test]
fn points_out_of_order_or_too_close() {
    // Equal, before, and a tenth of a millimetre too close.
    for at in ["2.5908", "1.5", "2.6007"] {
        let spoil = |draft: &mut Draft| draft.points[3].at_m = at.parse().expect("a number");
        refused(
            spoil,
            Place::Point(3),
            &[
                "Points 3 and 4",
                &format!("point 4 at {at} m"),
                "at least 10 mm apart",
                "point 3 is at 2.5908 m",
            ],
        );
    }
    let mut close = usual().draft().clone();
    close.points[3].at_m = 2.6008;
    assert!(Design::parse(close).is_ok(), "10 mm are allowed");
    refused(
        |draft| draft.points[0].at_m = 0.1,
        Place::Point(0),
        &["at the tip, 0 m", "0.1 m"],
    );
}

#[test]
fn points_outside_their_range() {
    for at in [-0.5, 100.1, 1e6] {
        refused(
            |draft| draft.points[5].at_m = at,
            Place::Point(5),
            &[&at.to_string(), "distance from the tip", "0 to 100"],
        );
    }
    for size in [0.0, -1.0, 0.0999, 10.1] {
        refused(
            |draft| draft.points[2].diameter_mm = size,
            Place::Point(2),
            &[&size.to_string(), "finished diameter", "0.1 to 10"],
        );
    }
    for value in NO_NUMBERS {
        refused(
            |draft| draft.points[4].at_m = value,
            Place::Point(4),
            &["distance from the tip", "must be a number"],
        );
        refused(
            |draft| draft.points[4].diameter_mm = value,
            Place::Point(4),
            &["finished diameter", "must be a number"],
        );
    }
}

#[test]
fn texts_longer_than_their_room() {
    refused(
        |draft| draft.name = "ä".repeat(NAME_ROOM + 1),
        Place::Name,
        &["81 characters", "room for 80"],
    );
    refused(
        |draft| draft.notes = "ä".repeat(NOTES_ROOM + 1),
        Place::Notes,
        &["401 characters", "room for 400"],
    );
    let mut full = usual().draft().clone();
    full.name = "ä".repeat(NAME_ROOM);
    full.notes = "ä".repeat(NOTES_ROOM);
    assert!(Design::parse(full).is_ok(), "room is counted in characters");
}

/// Control characters and those that turn the direction of writing could make a name look like another. The list of
/// the latter: property `Bidi_Control` of the Unicode Character Database, from memory.
#[test]
fn disguises_are_taken_off_a_name() {
    let turning = "\u{061c}\u{200e}\u{200f}\u{202a}\u{202b}\u{202c}\u{202d}\u{202e}\u{2066}\u{2067}\u{2068}\u{2069}";
    let control: String = ('\0'..='\u{1f}').chain('\u{7f}'..='\u{9f}').collect();
    let mut draft = usual().draft().clone();
    for disguise in turning.chars().chain(control.chars()) {
        draft.name = format!(" {disguise}Heron{disguise} Weir {disguise}");
        assert_eq!(
            parsed(draft.clone()).draft().name,
            "Heron Weir",
            "{disguise:?}"
        );
    }
    draft.name = "Ḥérön 魚 🎣".to_owned();
    draft.notes = format!("{turning}first line\nsecond\r line\0");
    let design = parsed(draft);
    assert_eq!(design.draft().name, "Ḥérön 魚 🎣");
    assert_eq!(design.draft().notes, "first line\nsecond line");
    assert_eq!(design.title(), "Ḥérön 魚 🎣");
}

#[test]
fn a_name_of_nothing_visible_is_no_name() {
    let mut draft = usual().draft().clone();
    draft.name = " \u{202e}\n ".to_owned();
    assert_eq!(parsed(draft).title(), "Unnamed line");
}

/// Of several faults one is told, and it is one that is there.
#[test]
fn several_faults_are_told_one_at_a_time() {
    let mut draft = usual().draft().clone();
    draft.settings.set(Setting::TargetAngle, 90.0);
    draft.gears.clear();
    let first = Design::parse(draft.clone());
    assert!(
        matches!(first, Err(Refusal::OutOfRange { .. })),
        "{first:?}"
    );
    draft.settings.set(Setting::TargetAngle, 45.0);
    assert_eq!(Design::parse(draft), Err(Refusal::GearCount(0)));
}

#[test]
fn a_braid_denser_than_its_threads() {
    let spoil = |draft: &mut Draft| {
        draft.settings.set(Setting::FibreFraction, 75.0);
        draft.settings.set(Setting::ThreadPacking, 70.0);
    };
    let place = Place::Setting(Setting::FibreFraction);
    refused(spoil, place, &["75 %", "70 %", "threads"]);
}
