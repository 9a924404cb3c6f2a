//! The door all others lead to: [`Design::parse`].

use taperwright::base::rule::Misfit;
use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::Build;
use taperwright::braid::track::{Direction, Pattern};
use taperwright::design::pin::DraftPin;
use taperwright::design::refusal::{Place, Refusal};
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft, NAME_ROOM, NOTES_ROOM};

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
            let words = [setting.rule().name, "needs a number"];
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
        let words = [setting.rule().name, "whole number", "20.5"];
        refused(
            |draft| draft.settings.set(setting, 20.5),
            Place::Setting(setting),
            &words,
        );
    }
    assert_eq!(
        tried, 7,
        "ends of both threads, horn gears, fewest and most threads, partner teeth and those of a pair are whole"
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
        &["smaller number first", "23 den", "21 den"],
    );
}

/// Analytic: neighbours in a ring turn opposite ways, so their number is even; H gears of S slots have H·S/2 places.
#[test]
fn rings_that_do_not_exist() {
    for (horn_gears, pattern) in [
        (7.0, Pattern::Regular),
        (15.0, Pattern::Diamond),
        (2.0, Pattern::Diamond),
        (64.0, Pattern::Hercules),
    ] {
        let spoil = |draft: &mut Draft| {
            draft.pattern = pattern;
            draft.settings.set(Setting::HornGears, horn_gears);
        };
        let (number, slots) = (
            format!("{horn_gears} horn gears"),
            format!("{} slots", pattern.slots()),
        );
        refused(
            spoil,
            Place::Pattern,
            &[&number, &slots, "even", "4 to 128"],
        );
    }
}

#[test]
fn carriers_that_cannot_be_mounted() {
    let rows: [(&[u32], &[u32], &[&str]); 5] = [
        (&[0, 2, 8], &[], &["no clockwise place 9", "8 each way"]),
        (&[], &[0, 70], &["place 71", "8 each way"]),
        (&[], &[u32::MAX, 1], &["place 4294967296", "8 each way"]),
        (&[3], &[], &["at least two carriers each way"]),
        (&[0, 1, 2], &[], &["balanced", "7 at most"]),
    ];
    for (clockwise, counter_clockwise, words) in rows {
        let mount = |draft: &mut Draft| {
            draft.mounted.clockwise = clockwise.to_vec();
            draft.mounted.counter_clockwise = counter_clockwise.to_vec();
            draft.settings.set(Setting::MostThreads, 8.0);
        };
        let mut draft = usual().draft().clone();
        mount(&mut draft);
        let refusal = Design::parse(draft).expect_err("such a machine was let in");
        says(&refusal.to_string(), words);
    }
    let crowded = |draft: &mut Draft| draft.settings.set(Setting::HornGears, 34.0);
    refused(crowded, Place::Pattern, &["64 carriers", "fewer places"]);
}

#[test]
fn threads_that_do_not_fit_the_machine() {
    for setting in [Setting::FewestThreads, Setting::MostThreads] {
        let spoil = |draft: &mut Draft| draft.settings.set(setting, 17.0);
        refused(spoil, Place::Setting(setting), &["17 threads", "has 16"]);
    }
    let spoil = |draft: &mut Draft| draft.settings.set(Setting::MostThreads, 7.0);
    let place = Place::Setting(Setting::MostThreads);
    refused(spoil, place, &["fewest threads, 8", "most, 7"]);
    for build in [Build::HeavierThreads, Build::Both] {
        let spoil = |draft: &mut Draft| {
            draft.build = build;
            draft.settings.set(Setting::HeavierEnds, 12.0);
        };
        let place = Place::Setting(Setting::HeavierEnds);
        refused(spoil, place, &["more ends", "12 are not more than 12"]);
    }
}

#[test]
fn trains_without_a_pair() {
    let fixed = |draft: &mut Draft| {
        draft.train = Train::FixedCentres;
        draft.settings.set(Setting::PairSum, 61.0);
    };
    refused(fixed, Place::Gears, &["61 teeth together", "twice"]);
    let alone = |draft: &mut Draft| {
        draft.train = Train::FreePair;
        draft.gears = vec![20.0];
    };
    refused(alone, Place::Gears, &["two gears"]);
    let mut twice = usual().draft().clone();
    twice.train = Train::FreePair;
    twice.gears = vec![20.0, 20.0];
    assert!(Design::parse(twice).is_ok(), "one owned twice is a pair");
}

#[test]
fn bobbins_without_room() {
    let spoil = |draft: &mut Draft| draft.settings.set(Setting::BobbinBarrel, 25.0);
    let place = Place::Setting(Setting::BobbinFull);
    refused(spoil, place, &["25 mm full", "barrel of 25 mm"]);
}

#[test]
fn pins_of_nonsense() {
    let place = |at_m| DraftPin::Place {
        threads: 8,
        heavy: 0,
        rising: true,
        at_m,
    };
    for at in [-1.0, 101.0] {
        let spoil = |draft: &mut Draft| draft.pins = vec![place(1.0), place(at)];
        refused(spoil, Place::Pin(1), &[&at.to_string(), "0 to 100"]);
    }
    let spoil = |draft: &mut Draft| draft.pins = vec![place(f64::NAN)];
    refused(spoil, Place::Pin(0), &["needs a number"]);
    let spoil = |draft: &mut Draft| draft.pins = vec![place(1.0); 101];
    refused(spoil, Place::Pin(101), &["101", "100"]);
    let absurd = DraftPin::Carrier {
        threads: u32::MAX,
        direction: Direction::Clockwise,
        number: 0,
    };
    let spoil = |draft: &mut Draft| draft.pins = vec![absurd];
    refused(spoil, Place::Pin(0), &["Pin 1", "64"]);
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
            &["teeth of a change gear", "needs a number"],
        );
    }
}

#[test]
fn drawings_of_too_few_or_too_many_points() {
    refused(
        |draft| draft.points.clear(),
        Place::Taper,
        &["2 to 1000", "has 0"],
    );
    refused(
        |draft| draft.points.truncate(1),
        Place::Taper,
        &["2 to 1000", "has 1"],
    );
    let many = |draft: &mut Draft| {
        draft.points = (0..1001).map(|k| point(f64::from(k) * 0.05, 1.0)).collect();
    };
    refused(many, Place::Taper, &["2 to 1000", "has 1001"]);
    let most: Vec<_> = (0..1000).map(|k| (f64::from(k) * 0.1, 1.0)).collect();
    assert_eq!(design(&[], &most).draft().points.len(), 1000);
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
                "Point 3 is at 2.5908 m",
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
            &["distance from the tip", "needs a number"],
        );
        refused(
            |draft| draft.points[4].diameter_mm = value,
            Place::Point(4),
            &["finished diameter", "needs a number"],
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
        matches!(
            first,
            Err(Refusal::Misfit {
                misfit: Misfit::OutOfRange { .. },
                ..
            })
        ),
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
