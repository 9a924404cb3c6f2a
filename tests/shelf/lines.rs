//! Lines: kept, found, and never written over.

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::edit::sketch::Sketch;
use taperwright::keep::share::file;
use taperwright::keep::shelf::{
    EntryStatus, Id, LINE_KEY, Lookup, OPEN_KEY, Shelf, StoreError, Unkept,
};

use crate::fussy::{Fault, Fussy, TAB, keep, keep_on, kept, line, list, named, names, shelf};

fn is(found: &Lookup<Design>, number: u32, design: &Design) -> bool {
    matches!(found, Lookup::Kept(kept) if kept.seen.number() == number && kept.work == *design)
}

fn unkept(why: StoreError) -> Unkept {
    Unkept { what: "line", why }
}

/// Texts no version of this page can read.
fn unreadable_texts() -> [String; 3] {
    let written = file::write(&demo());
    [
        "not a design".to_owned(),
        String::new(),
        written[..written.len() / 2].to_owned(),
    ]
}

#[test]
fn what_is_kept_reads_back() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    assert_eq!(shelf.to_open::<Design>(), Lookup::Nothing);
    let first = keep(&mut shelf, 1, &named("first"));
    keep(&mut shelf, 2, &named("second"));
    assert!(is(&shelf.to_open(), 2, &named("second")));
    let again = keep_on(&mut shelf, &first, &named("first, again"));
    assert_eq!((again.seen.number(), again.seen.id()), (1, Id(1)));
    assert!(is(&shelf.look(1), 1, &named("first, again")));
    assert!(is(&shelf.look(2), 2, &named("second")));
    let all = ["first, again", "second"].map(|name| Some(name.to_owned()));
    let numbered: Vec<_> = (1..).zip(all).collect();
    assert_eq!(names::<Design>(&shelf), numbered);
    assert_eq!(shelf.open(1), Ok(()));
    assert!(is(&shelf.to_open(), 1, &named("first, again")));
    assert_eq!(shelf.look::<Design>(3), Lookup::Nothing);
    let revisions: Vec<_> = list::<Design>(&shelf)
        .iter()
        .map(|entry| entry.revision)
        .collect();
    assert_eq!(revisions, [2, 1]);
}

/// The state before the newest stays as long as the newest does; what is older than both goes.
#[test]
fn two_states_are_kept_and_no_more() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let mut kept = keep(&mut shelf, 1, &named("0"));
    for turn in 1..6 {
        kept = keep_on(&mut shelf, &kept, &named(&turn.to_string()));
        assert_eq!(store.texts.borrow().len(), 2, "{turn}");
    }
    // Keeping the same again writes nothing.
    let texts = store.texts.borrow().clone();
    assert_eq!(keep_on(&mut shelf, &kept, &named("5")), kept);
    assert_eq!(*store.texts.borrow(), texts);
    // The newest lost, the one before is found.
    let newest = texts.keys().max().expect("there are two").clone();
    store
        .texts
        .borrow_mut()
        .insert(newest.clone(), "gone".to_owned());
    assert!(is(&shelf.look(1), 1, &named("4")));
    let strange = shelf.strange::<Design>().expect("the store can be read");
    assert_eq!(
        (strange.len(), &strange[0].key, strange[0].text.as_str()),
        (1, &newest, "gone")
    );
}

/// Every way of altering one character is found out, wherever it stands.
#[test]
fn an_altered_state_is_never_taken_for_a_sound_one() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let kept = keep(&mut shelf, 1, &named("before"));
    keep_on(&mut shelf, &kept, &named("after"));
    let (key, text) = store
        .texts
        .borrow()
        .last_key_value()
        .map(|(k, t)| (k.clone(), t.clone()))
        .expect("two");
    for at in (0..text.len()).step_by(7) {
        let mut altered = text.clone().into_bytes();
        altered[at] = if altered[at] == b'5' { b'6' } else { b'5' };
        let altered = String::from_utf8(altered).expect("the text is plain");
        store.texts.borrow_mut().insert(key.clone(), altered);
        let found = shelf.look::<Design>(1);
        assert!(
            is(&found, 1, &named("before")) || matches!(found, Lookup::Newer { .. }),
            "{at}"
        );
        store
            .texts
            .borrow_mut()
            .insert(key.clone(), text[..at].to_owned());
        assert!(is(&shelf.look(1), 1, &named("before")), "cut at {at}");
    }
}

#[test]
fn an_unreadable_line_is_shown_and_never_overwritten() {
    for text in unreadable_texts() {
        let store = Fussy::with(&[(line(1), &text), (OPEN_KEY.to_owned(), "1")]);
        let mut shelf = shelf(&store);
        match shelf.to_open::<Design>() {
            Lookup::Unreadable {
                number,
                text: shown,
                why,
            } => {
                assert_eq!((number, &shown), (1, &text));
                assert!(!why.is_empty());
            }
            found => panic!("{text} was taken for {found:?}"),
        }
        let entry = &list::<Design>(&shelf)[0];
        assert_eq!((entry.seen, entry.status), (None, EntryStatus::Unreadable));
        assert_eq!(keep(&mut shelf, 1, &demo()).seen.number(), 2);
        assert_eq!(store.text(&line(1)).as_ref(), Some(&text));
        // Taken away by the maker only, and only as it was seen.
        let strange = shelf
            .strange::<Design>()
            .expect("the store can be read")
            .remove(0);
        store
            .texts
            .borrow_mut()
            .insert(line(1), "changed".to_owned());
        shelf.discard(&strange).expect("nothing is wrong");
        assert_eq!(store.text(&line(1)), Some("changed".to_owned()));
        store.texts.borrow_mut().insert(line(1), text.clone());
        shelf.discard(&strange).expect("nothing is wrong");
        assert_eq!(store.text(&line(1)), None);
    }
}

#[test]
fn a_store_that_cannot_be_listed_gives_no_shelf() {
    let (key, older) = kept(1, &named("older"));
    let store = Fussy::with(&[(key.clone(), &older)]);
    for fault in [Fault::Unlistable, Fault::Absent] {
        store.fault.set(fault);
        assert_eq!(
            Shelf::load(store.clone(), TAB).err(),
            Some(StoreError::Absent)
        );
        assert_eq!(store.text(&key).as_ref(), Some(&older));
    }
}

#[test]
fn storage_that_goes_away_is_said_and_nothing_panics() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let kept = keep(&mut shelf, 1, &demo());
    let texts = store.texts.borrow().clone();
    for fault in [Fault::Absent, Fault::Unlistable, Fault::Unreadable] {
        store.fault.set(fault);
        assert_eq!(
            shelf.keep_new(Id(2), &demo(), None),
            Err(unkept(StoreError::Absent)),
            "{fault:?}"
        );
        assert_eq!(
            shelf.keep(&kept.seen, &named("b"), None),
            Err(unkept(StoreError::Absent)),
            "{fault:?}"
        );
        assert_eq!(
            shelf.look::<Design>(1),
            Lookup::NoStorage(StoreError::Absent)
        );
        assert_eq!(
            shelf.to_open::<Design>(),
            Lookup::NoStorage(StoreError::Absent)
        );
        assert!(shelf.list::<Design>().is_err());
        assert_eq!(*store.texts.borrow(), texts);
    }
    let said = unkept(StoreError::Absent).to_string();
    assert!(said.contains("not let the page save") && said.contains("Save the line as a file"));
}

#[test]
fn a_full_store_says_so_and_keeps_the_older_text() {
    let (key, older) = kept(1, &named("older"));
    let store = Fussy::with(&[(key, &older), (OPEN_KEY.to_owned(), "1")]);
    store.fault.set(Fault::Full);
    let mut shelf = shelf(&store);
    let Lookup::Kept(kept) = shelf.look::<Design>(1) else {
        panic!("there is a line");
    };
    let full = unkept(StoreError::Full);
    assert_eq!(shelf.keep(&kept.seen, &named("newer"), None), Err(full));
    assert_eq!(shelf.keep_new(Id(2), &named("newer"), None), Err(full));
    assert!(
        full.to_string().contains("full") && full.to_string().contains("Save the line as a file")
    );
    assert_eq!(store.texts.borrow().len(), 2);
    assert!(is(&shelf.to_open(), 1, &named("older")));
}

#[test]
fn a_store_that_does_not_keep_what_it_was_given_is_found_out() {
    for fault in [Fault::Forgetful, Fault::Garbling] {
        let store = Fussy::with(&[]);
        store.fault.set(fault);
        let error = shelf(&store)
            .keep_new(Id(1), &demo(), None)
            .expect_err("nothing was kept");
        assert_eq!(error, unkept(StoreError::NotKept), "{fault:?}");
        assert!(error.to_string().contains("did not save"));
        assert!(store.texts.borrow().is_empty(), "{fault:?}");
    }
}

#[test]
fn a_wrong_note_of_the_open_line_gives_the_newest() {
    let lines = [(1, "a"), (2, "b"), (10, "c")];
    let [a, b, c] = lines.map(|(number, name)| kept(number, &named(name)));
    for note in ["", "abc", "-1", "7", "99999999999999999999", "2.0"] {
        let store = Fussy::with(&[
            (a.0.clone(), &a.1),
            (b.0.clone(), &b.1),
            (c.0.clone(), &c.1),
            (OPEN_KEY.to_owned(), note),
        ]);
        assert!(is(&shelf(&store).to_open(), 10, &named("c")), "{note}");
    }
    let unnoted = Fussy::with(&[(a.0, &a.1), (b.0, &b.1)]);
    assert!(is(&shelf(&unnoted).to_open(), 2, &named("b")));
}

#[test]
fn a_new_line_takes_the_number_after_the_highest() {
    let [two, ten] = [2, 10].map(|number| kept(number, &named("kept")));
    let store = Fussy::with(&[(two.0, &two.1), (ten.0.clone(), &ten.1)]);
    let mut shelf = shelf(&store);
    assert_eq!(keep(&mut shelf, 1, &demo()).seen.number(), 11);
    assert_eq!(keep(&mut shelf, 2, &demo()).seen.number(), 12);
    assert_eq!(store.text(&ten.0), Some(ten.1));
}

#[test]
fn the_highest_number_there_is_leaves_room_below() {
    let [first, last] = [1, u32::MAX].map(|number| kept(number, &named("mine")));
    let store = Fussy::with(&[(first.0, &first.1), (last.0.clone(), &last.1)]);
    assert_eq!(keep(&mut shelf(&store), 1, &demo()).seen.number(), 2);
    assert_eq!(store.text(&last.0), Some(last.1));
}

#[test]
fn keys_of_others_are_left_alone_and_listed_as_strange() {
    let (key, mine) = kept(3, &named("mine"));
    let strays = [
        "7",
        "+9",
        "09",
        "9 ",
        "x",
        "",
        "3/x",
        "3/1-1",
        "3/0-000000000000000a-00000000",
    ];
    let strays = strays.map(|stray| format!("{LINE_KEY}{stray}"));
    let mut texts: Vec<_> = strays.iter().map(|key| (key.clone(), "stray")).collect();
    texts.push((key, &mine));
    texts.push(("another/page".to_owned(), "theirs"));
    let store = Fussy::with(&texts);
    let mut shelf = shelf(&store);
    assert!(is(&shelf.to_open(), 3, &named("mine")));
    assert_eq!(list::<Design>(&shelf).len(), 1);
    assert_eq!(keep(&mut shelf, 1, &demo()).seen.number(), 4);
    assert_eq!(
        shelf.strange::<Design>().map(|all| all.len()),
        Ok(strays.len())
    );
    for (key, text) in texts {
        assert_eq!(store.text(&key).as_deref(), Some(text));
    }
}

/// Nobody's steps make room for a line, nor a line for steps: what has no room is said.
#[test]
fn nothing_is_thrown_away_to_make_room() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let mut sketch = Sketch::new(demo());
    for name in ["a", "b", "c"] {
        sketch.try_out(Edit::Name(name.to_owned())).expect("a name");
        sketch.settle();
    }
    keep(&mut shelf, 1, sketch.settled());
    shelf.keep_steps(1, &sketch).expect("there is room");
    assert_eq!(shelf.sketch(1, sketch.settled().clone()), sketch);
    let texts = store.texts.borrow().clone();
    store.fault.set(Fault::Tight(store.size_with("", "") + 100));
    assert_eq!(
        shelf.keep_new(Id(2), &named("second"), None),
        Err(unkept(StoreError::Full))
    );
    sketch.try_out(Edit::Name("d".to_owned())).expect("a name");
    sketch.settle();
    assert_eq!(shelf.keep_steps(1, &sketch), Err(StoreError::Full));
    assert_eq!(*store.texts.borrow(), texts);
}
