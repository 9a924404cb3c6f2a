//! What a bench book holds of a machine at work: setting up, clock, checks, notes and thread left.

use serde_json::{Value, json};
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file::{BookError, read, write};
use taperwright::keep::book::machine_notes::{
    LeftOver, MARK_ROOM, MOST_LEFT_OVER, MachineNotes, TENSION_ROOM, WinderTiming,
};
use taperwright::plan::Plan;
use taperwright::plan::run::{CheckKind, MOST_CHECKS, MOST_TIMED, Measured, Run, SetupRow, Timed};

use crate::book_file::{book, of_version, refused};

/// A run in which everything was done once.
fn run() -> Run {
    let design = demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let begun = Run::default().set_up(SetupRow::Gear, true).started(1_000.0);
    let begun = begun
        .step_done(&adjusted, 40.0, false, 61_000.0)
        .started(90_000.0);
    let at = begun.stands_at(&adjusted);
    let checked = begun.checked(
        &adjusted,
        &design,
        at,
        Measured::by_hand(CheckKind::Crossings, 26.0),
    );
    let checked = checked.expect("such a braid can be");
    let corrected = checked.drawn_corrected(&adjusted, at, 1.03);
    corrected.expect("the line is begun").with_pace(Some(41.25))
}

fn notes() -> MachineNotes {
    MachineNotes {
        tension: "blue spring, third notch".to_owned(),
        first_mark: "red tape".to_owned(),
        later_mark: "blue tape".to_owned(),
        winder: WinderTiming {
            thread_m: Some(30.0),
            minutes: Some(6.5),
            ..WinderTiming::default()
        },
        left_over: vec![LeftOver {
            carrier: "cw3".to_owned(),
            ends: 14,
            thread_m: Some(12.5),
        }],
    }
}

/// A book with all of it.
fn full() -> Workshop {
    let mut book = book();
    book.machine_notes = notes();
    "blue spring".clone_into(&mut book.swatches[0].tension);
    book.records[0].run = Some(run());
    book
}

fn spoiled(spoil: impl FnOnce(&mut Value)) -> String {
    let mut tree: Value = serde_json::from_str(&write(&full())).expect("a file is JSON");
    spoil(&mut tree["workshop"]);
    tree.to_string()
}

#[test]
fn all_of_it_reads_back() {
    assert_eq!(read(&write(&full())), Ok(full()));
    assert_eq!(full().admitted(), Ok(full()));
}

/// A file of version 3 has none of it; one that has some is damaged.
#[test]
fn version_3_had_none_of_it() {
    let plain = book();
    assert_eq!(read(&of_version(3, &plain)), Ok(plain));
    let only = |change: fn(&mut Workshop)| {
        let mut some = book();
        change(&mut some);
        refused(
            &of_version(3, &some),
            &["damaged", "no notes of the machine"],
        );
        assert!(read(&write(&some)).is_ok());
    };
    only(|book| book.machine_notes = notes());
    only(|book| "blue".clone_into(&mut book.swatches[0].tension));
    only(|book| book.records[0].run = Some(Run::default().set_up(SetupRow::Push, true)));
    only(|book| book.records[0].run = Some(Run::default().started(5.0)));
    only(|book| {
        let mut checked = run();
        checked.mishaps.clear();
        book.records[0].run = Some(Run {
            checks: checked.checks,
            ..Run::default()
        });
    });
    only(|book| {
        let mut corrected = run();
        corrected.checks.clear();
        book.records[0].run = Some(Run {
            mishaps: corrected.mishaps,
            ..Run::default()
        });
    });
}

#[test]
fn no_more_than_there_is_room_for() {
    let many = |change: fn(&mut Workshop)| {
        let mut book = full();
        change(&mut book);
        let text = write(&book);
        assert!(
            matches!(read(&text), Err(BookError::TooMany { .. })),
            "{text:.80}"
        );
    };
    many(|book| {
        let checks = &mut book.records[0].run.as_mut().expect("a run").checks;
        *checks = vec![checks[0]; MOST_CHECKS + 1];
    });
    many(|book| {
        let timed = Timed {
            circuits: 30.0,
            seconds: 50.0,
            with_stop: false,
        };
        book.records[0].run.as_mut().expect("a run").clock.timed = vec![timed; MOST_TIMED + 1];
    });
    many(|book| book.records[0].run.as_mut().expect("a run").setup = vec![SetupRow::Gear; 11]);
    many(|book| {
        let left = book.machine_notes.left_over[0].clone();
        book.machine_notes.left_over = vec![left; MOST_LEFT_OVER + 1];
    });
    for (path, room) in [
        ("tension", TENSION_ROOM),
        ("first_mark", MARK_ROOM),
        ("later_mark", MARK_ROOM),
    ] {
        let long = spoiled(|book| book["machine_notes"][path] = json!("a".repeat(room + 1)));
        assert!(matches!(read(&long), Err(BookError::Refused(_))), "{path}");
    }
    let long = spoiled(|book| book["swatches"][0]["tension"] = json!("a".repeat(TENSION_ROOM + 1)));
    assert!(matches!(read(&long), Err(BookError::Refused(_))));
}

/// Words and names that are not known are damage, and nothing is read in their place.
#[test]
fn what_is_misspelt_is_damage() {
    type Spoil = fn(&mut Value);
    let spoils: [Spoil; 6] = [
        |book| book["records"][0]["run"]["setup"] = json!(["horse"]),
        |book| book["records"][0]["run"]["clock"]["pace"] = json!(4),
        |book| book["records"][0]["run"]["clock"]["running_since"] = json!("noon"),
        |book| book["records"][0]["run"]["checks"][0]["kind"] = json!("colour"),
        |book| book["machine_notes"]["winder"]["speed"] = json!(1),
        |book| book["machine_notes"]["left_over"][0]["ends"] = json!(-1),
    ];
    for spoil in spoils {
        refused(&spoiled(spoil), &["damaged"]);
    }
    // The same tick twice is one tick.
    let twice = spoiled(|book| book["records"][0]["run"]["setup"] = json!(["gear", "gear"]));
    let read = read(&twice).expect("the rest is sound");
    let run = read.records[0].run.as_ref().expect("a run");
    assert_eq!(run.setup, [SetupRow::Gear]);
}
