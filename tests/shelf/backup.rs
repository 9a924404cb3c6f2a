//! Everything out as one file, and in again beside what is there.

use serde_json::{Value, json};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::backup::{BackupError, Imported, LARGEST, MOST_PIECES};
use taperwright::keep::shelf::{
    ASIDE_KEY, Document as _, Id, LINE_KEY, Lookup, MOST_SAVES, StoreError,
};
use taperwright::plan::days::Day;

use crate::books::workshop;
use crate::everything::everything;
use crate::fussy::{Fault, Fussy, keep, keep_on, line, list, named, names, other_tab, shelf};

/// A store with something of everything: its texts that cannot be read are four.
fn full() -> Fussy {
    let store = Fussy::with(&[
        (line(3), "half a line"),
        (format!("{LINE_KEY}x"), "not ours"),
        (
            format!("{LINE_KEY}4/1-00000000000000ff-00000000"),
            "taperwright kept 2\n\nnewer",
        ),
        (format!("{ASIDE_KEY}0000000000000001"), "from an older file"),
    ]);
    let mut shelf = shelf(&store);
    keep(&mut shelf, 1, &named("one"));
    let two = keep(&mut shelf, 2, &named("two"));
    keep(&mut shelf, 3, &workshop("lot A"));
    shelf
        .delete::<Design>(&two.seen, None)
        .expect("there is room");
    store
}

fn export(store: &Fussy) -> String {
    everything(&store.texts.borrow())
}

#[test]
fn everything_goes_out_and_comes_in_elsewhere() {
    let store = full();
    let text = export(&store);
    let file: Value = serde_json::from_str(&text).expect("another reader reads it");
    assert_eq!(
        (&file["format"], &file["version"]),
        (&json!("taperwright backup"), &json!(2))
    );
    let texts: Vec<_> = file["unreadable"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|it| &it["text"])
        .collect();
    for strange in [
        "half a line",
        "not ours",
        "taperwright kept 2\n\nnewer",
        "from an older file",
    ] {
        assert!(
            texts.contains(&&json!(strange)),
            "{strange} was left behind"
        );
    }
    let elsewhere = Fussy::with(&[]);
    let mut there = shelf(&elsewhere);
    let all = Imported {
        added: 3,
        unreadable: 4,
        ..Imported::default()
    };
    assert_eq!(there.import(&text), Ok(all));
    let rows: Vec<_> = list::<Design>(&there)
        .iter()
        .map(|it| (it.name.clone(), it.is_binned))
        .collect();
    assert_eq!(
        rows,
        [
            (Some("one".to_owned()), false),
            (Some("two".to_owned()), true)
        ]
    );
    assert_eq!(names::<Workshop>(&there), [(1, Some("lot A".to_owned()))]);
    // The same lasting names, so that the file changes nothing when it comes in again, here or there.
    let before = elsewhere.texts.borrow().clone();
    let again = Imported {
        same: 3,
        in_bin: 1,
        unreadable: 4,
        ..Imported::default()
    };
    assert_eq!(there.import(&text), Ok(again));
    assert_eq!(*elsewhere.texts.borrow(), before);
    assert_eq!(shelf(&store).import(&text), Ok(again));
}

#[test]
fn what_is_here_otherwise_is_kept_beside_it() {
    let store = Fussy::with(&[]);
    let mut here = shelf(&store);
    let one = keep(&mut here, 1, &named("one"));
    let text = export(&store);
    keep_on(&mut here, &one, &named("one, changed"));
    let beside = Imported {
        beside: 1,
        ..Imported::default()
    };
    assert_eq!(here.import(&text), Ok(beside));
    let all = ["one, changed", "one (from a file)"].map(|name| Some(name.to_owned()));
    let numbered: Vec<_> = (1..).zip(all).collect();
    assert_eq!(names::<Design>(&here), numbered);
    assert_eq!(
        here.import(&text),
        Ok(Imported {
            same: 1,
            ..Imported::default()
        })
    );
}

#[test]
fn what_two_tabs_wrote_goes_out_twice() {
    let (store, other) = (Fussy::with(&[]), Fussy::with(&[]));
    let one = keep(&mut shelf(&store), 1, &named("one"));
    other.texts.replace(store.texts.borrow().clone());
    keep_on(&mut shelf(&store), &one, &named("mine"));
    keep_on(&mut other_tab(&other), &one, &named("theirs"));
    store
        .texts
        .borrow_mut()
        .extend(other.texts.borrow().clone());
    let text = export(&store);
    let elsewhere = Fussy::with(&[]);
    let imported = shelf(&elsewhere).import(&text);
    assert_eq!(imported.map(|it| (it.added, it.beside)), Ok((1, 1)));
    let mut names: Vec<_> = names::<Design>(&shelf(&elsewhere))
        .into_iter()
        .filter_map(|it| it.1)
        .collect();
    names.sort();
    // The newer of the two keeps its name; the other comes in beside it.
    let beside = |name: &str| format!("{name} (from a file)");
    assert!(
        names == ["mine".to_owned(), beside("theirs")]
            || names == [beside("mine"), "theirs".to_owned()],
        "{names:?}"
    );
}

/// What was unreadable where the file was written may not be here: a page of a newer version, or a mended one.
#[test]
fn a_text_that_can_be_read_here_becomes_a_line() {
    let store = Fussy::with(&[]);
    keep(&mut shelf(&store), 9, &named("one"));
    let (key, text) = store
        .texts
        .borrow()
        .first_key_value()
        .map(|(k, t)| (k.clone(), t.clone()))
        .expect("one");
    let aside = json!([{"key": key, "text": text}]);
    let file = json!({"format": "taperwright backup", "version": 1, "lines": [], "workshops": [], "unreadable": aside});
    let elsewhere = Fussy::with(&[]);
    let mut there = shelf(&elsewhere);
    assert_eq!(there.import(&file.to_string()).map(|it| it.added), Ok(1));
    assert!(matches!(there.look::<Design>(1), Lookup::Kept(kept) if kept.seen.id() == Id(9)));
}

#[test]
fn a_file_never_names_the_key_it_is_written_under() {
    let aside = json!([{"key": "taperwright/open", "text": "9"}, {"key": "somebody/else", "text": "mine now"}]);
    let file = json!({"format": "taperwright backup", "version": 1, "lines": [], "workshops": [], "unreadable": aside});
    let store = Fussy::with(&[("somebody/else".to_owned(), "theirs")]);
    assert_eq!(
        shelf(&store)
            .import(&file.to_string())
            .map(|it| it.unreadable),
        Ok(2)
    );
    assert_eq!(store.text("somebody/else").as_deref(), Some("theirs"));
    assert_eq!(store.text("taperwright/open"), None);
    assert_eq!(store.texts.borrow().len(), 3);
}

#[test]
fn a_file_that_is_none_changes_nothing() {
    let text = export(&full());
    let deep = format!("{}{}", "[".repeat(1_000_000), "]".repeat(1_000_000));
    let many = format!("[{}{{}}]", "{},".repeat(MOST_PIECES + 5));
    let rows = [
        (String::new(), BackupError::NotABackup),
        ("null".to_owned(), BackupError::NotABackup),
        (
            taperwright::keep::share::file::write(&demo()),
            BackupError::NotABackup,
        ),
        (text[..40].to_owned(), BackupError::CutOff),
        (
            text.replacen("\"version\":2", "\"version\":3", 1),
            BackupError::Newer(3),
        ),
        (
            text[..text.find("\"binned\"").expect("a piece")].to_owned(),
            BackupError::CutOff,
        ),
        (
            text.replace("\"file\"", "\"fill\"")
                .replace("\"text\"", "\"test\""),
            BackupError::Damaged,
        ),
        (deep, BackupError::Damaged),
        ("[".repeat(9), BackupError::Damaged),
        (many, BackupError::Damaged),
        (" ".repeat(LARGEST + 1), BackupError::TooLarge),
    ];
    let store = full();
    let before = store.texts.borrow().clone();
    for (text, error) in rows {
        assert!(!error.to_string().is_empty());
        assert_eq!(
            shelf(&store).import(&text),
            Err(error),
            "{}",
            &text[..text.len().min(60)]
        );
        assert_eq!(*store.texts.borrow(), before);
    }
}

/// A file cut off anywhere, or with any character altered, never panics, and never costs what is here.
#[test]
fn a_damaged_file_takes_nothing_away() {
    let text = export(&full());
    let store = Fussy::with(&[]);
    keep(&mut shelf(&store), 1, &named("mine"));
    let mine = store.texts.borrow().clone();
    for at in (0..text.len()).step_by(41) {
        let mut altered = text.clone().into_bytes();
        altered[at] = b'~';
        for damaged in [
            text[..at].to_owned(),
            String::from_utf8_lossy(&altered).into_owned(),
        ] {
            let _ = shelf(&store).import(&damaged);
            for (key, text) in &mine {
                assert_eq!(store.text(key).as_ref(), Some(text), "{at}");
            }
            store.texts.replace(mine.clone());
        }
    }
}

#[test]
fn a_store_that_has_no_room_says_what_was_left_out() {
    let text = export(&full());
    let store = Fussy::with(&[]);
    store.fault.set(Fault::Tight(4000));
    let imported = shelf(&store)
        .import(&text)
        .expect("it is a file of everything");
    assert!(imported.added > 0 && imported.unkept > 0, "{imported:?}");
    assert_eq!(imported.why, Some(StoreError::Full));
    // With room, the same file brings the rest.
    store.fault.set(Fault::None);
    let rest = shelf(&store)
        .import(&text)
        .expect("it is a file of everything");
    assert_eq!(rest.added + imported.added, 3);
}

#[test]
fn what_the_browser_would_not_keep_can_go_out_too() {
    let item = |id: u64, file: String| json!({"id": Id(id).to_string(), "revision": 1, "changed": null, "binned": false, "file": file});
    let (line, book) = (
        item(1, named("one").write()),
        item(2, workshop("lot A").write()),
    );
    let file = json!({"format": "taperwright backup", "version": 1, "lines": [line], "workshops": [book], "unreadable": []});
    let text = file.to_string();
    let store = Fussy::with(&[]);
    assert_eq!(shelf(&store).import(&text).map(|it| it.added), Ok(2));
    assert_eq!(
        names::<Design>(&shelf(&store)),
        [(1, Some("one".to_owned()))]
    );
}

/// A text that an unreleased version kept under a number alone is no line here either: it stays a text.
#[test]
fn a_text_of_an_unreleased_version_stays_a_text() {
    let line = taperwright::keep::share::file::write(&demo());
    let aside = json!([{"key": format!("{LINE_KEY}7"), "text": line}]);
    let file = json!({"format": "taperwright backup", "version": 1, "lines": [], "workshops": [], "unreadable": aside});
    let store = Fussy::with(&[]);
    let imported = shelf(&store).import(&file.to_string());
    let kept = Imported {
        unreadable: 1,
        ..Imported::default()
    };
    assert_eq!(imported, Ok(kept));
    let texts = store.texts.borrow();
    let (key, text) = texts.first_key_value().expect("it is kept");
    assert!(key.starts_with(ASIDE_KEY) && *text == line, "{key}");
}

/// What came in from a file is in that file; what was changed here before and after is not.
#[test]
fn what_came_from_a_file_is_in_a_file() {
    let text = export(&full());
    let (store, used) = (Fussy::with(&[]), Fussy::with(&[]));
    let mut fresh = shelf(&store);
    fresh.import(&text).expect("it comes in");
    let reminder = fresh.reminder(None).expect("it can be read");
    assert_eq!(reminder.saves, 0, "{reminder}");
    assert!(!reminder.to_string().contains("Never"), "{reminder}");
    keep(&mut fresh, 7, &named("changed here"));
    assert_eq!(fresh.reminder(None).expect("it can be read").saves, 1);
    let mut shelf = shelf(&used);
    keep(&mut shelf, 5, &named("own"));
    shelf.import(&text).expect("it comes in");
    assert_eq!(shelf.reminder(None).expect("it can be read").saves, 1);
    // Again, nothing comes in, and nothing more is in a file.
    shelf.import(&text).expect("it comes in");
    assert_eq!(shelf.reminder(None).expect("it can be read").saves, 1);
}

/// Our own choice, no source: so many changes, or two weeks with any change in them.
#[test]
fn a_reminder_comes_after_changes_or_days() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let day = |day| Day::new(2026, 11, day);
    let is_due = |shelf: &taperwright::keep::shelf::Shelf<Fussy>, on| {
        let reminder = shelf.reminder(day(on)).expect("it can be read");
        reminder.is_due(false)
    };
    let mut kept = keep(&mut shelf, 1, &named("0"));
    for turn in 1..MOST_SAVES - 1 {
        kept = keep_on(&mut shelf, &kept, &named(&turn.to_string()));
    }
    assert!(!is_due(&shelf, 1), "one change less");
    kept = keep_on(&mut shelf, &kept, &named("last"));
    assert!(is_due(&shelf, 1), "so many changes");
    shelf.note_export(day(1)).expect("there is room");
    assert!(!is_due(&shelf, 29), "nothing changed since");
    keep_on(&mut shelf, &kept, &named("one more"));
    assert!(!is_due(&shelf, 14), "thirteen days");
    assert!(is_due(&shelf, 15), "fourteen days");
    let reminder = shelf.reminder(day(15)).expect("it can be read");
    assert_eq!((reminder.saves, reminder.days), (1, Some(14)));
    assert_eq!(reminder.last.and_then(|last| last.day), day(1));
    // A browser that deletes what is saved after a week reminds well before.
    let of_a_week = |on| {
        let reminder = shelf.reminder(day(on)).expect("it can be read");
        reminder.is_due(true)
    };
    assert!(!of_a_week(4), "three days");
    assert!(of_a_week(5), "four days, and two are left");
}
