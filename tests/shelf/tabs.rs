//! Two tabs, and a tab of a newer or an older version beside this one.

use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::{
    Document, EntryStatus, Kept, LINE_KEY, Lookup, News, Parted, STEPS_KEY, Shelf, WORKSHOP_KEY,
    Writer, concerns,
};

use crate::books::workshop;
use crate::fussy::{Fussy, keep, keep_on, list, named, other_tab, shelf};

fn look(shelf: &Shelf<Fussy>, number: u32) -> Kept<Design> {
    match shelf.look(number) {
        Lookup::Kept(kept) => *kept,
        found => panic!("{found:?}"),
    }
}

fn name(shelf: &Shelf<Fussy>, number: u32) -> String {
    look(shelf, number).work.draft().name.clone()
}

#[test]
fn a_clean_tab_follows_and_a_dirty_one_keeps_both() {
    let store = Fussy::with(&[]);
    let (mut here, mut there) = (shelf(&store), other_tab(&store));
    let mine = keep(&mut here, 1, &named("one"));
    assert_eq!(here.news::<Design>(&mine.seen), Ok(News::Same));
    let theirs = look(&there, 1);
    let theirs = keep_on(&mut there, &theirs, &named("theirs"));
    // Clean: follows.
    assert_eq!(
        here.news(&mine.seen),
        Ok(News::Changed(Box::new(theirs.clone())))
    );
    // Dirty: both are kept, and the copy says why.
    let keeping = here
        .keep(&mine.seen, &named("mine"), None)
        .expect("there is room");
    assert_eq!(keeping.parted, Some(Parted::Elsewhere));
    assert_eq!(
        (name(&here, 1), name(&here, 2)),
        (
            "theirs".into(),
            "mine (copy: another tab changed it)".into()
        )
    );
    assert_ne!(keeping.kept.seen.id(), theirs.seen.id());
    // From then on each goes its way.
    keep_on(&mut here, &keeping.kept, &named("mine, again"));
    keep_on(&mut there, &theirs, &named("theirs, again"));
    assert_eq!(
        (name(&here, 1), name(&here, 2)),
        ("theirs, again".into(), "mine, again".into())
    );
    let words = Parted::Elsewhere.words::<Workshop>();
    assert!(words.contains("workshop") && words.contains("Nothing is lost"));
}

#[test]
fn a_copy_has_a_name_there_is_room_for() {
    let store = Fussy::with(&[]);
    let (mut here, mut there) = (shelf(&store), other_tab(&store));
    let long = "n".repeat(80);
    let mine = keep(&mut here, 1, &workshop(&long));
    let Lookup::Kept(theirs) = there.look::<Workshop>(1) else {
        panic!("it is kept")
    };
    keep_on(&mut there, &theirs, &workshop("theirs"));
    let mut changed = workshop(&long);
    changed.notes = "changed".to_owned();
    let keeping = here
        .keep(&mine.seen, &changed, None)
        .expect("there is room");
    let name = keeping.kept.work.name;
    assert!(
        name.chars().count() <= 80 && name.starts_with("nnn") && name.ends_with("changed it)"),
        "{name}"
    );
}

/// The window that is left without a way to compare and write in one go: both look, both write. Both states are there,
/// whoever asks; the one that lost its place becomes a line of its own, and its tab stays with it.
#[test]
fn two_tabs_that_write_at_the_same_moment_both_find_out() {
    let store = Fussy::with(&[]);
    let (mut here, mut there) = (shelf(&store), other_tab(&store));
    let seen = keep(&mut here, 1, &named("one"));
    // Here looked before there wrote: a store as it was, onto which both write.
    let before = Fussy::with(&[]);
    before.texts.replace(store.texts.borrow().clone());
    let theirs = keep_on(&mut there, &seen, &named("theirs"));
    let mine = keep_on(&mut shelf(&before), &seen, &named("mine"));
    let mut written = before.texts.borrow().clone();
    written.retain(|key, _| !store.texts.borrow().contains_key(key));
    assert_eq!(written.len(), 1, "each writes a key of its own");
    store.texts.borrow_mut().extend(written);

    assert!(list::<Design>(&here)[0].is_tangled);
    let settled = there.settle::<Design>(1).expect("there is room");
    assert_eq!(
        (
            settled.len(),
            settled[0].from,
            settled[0].to,
            settled[0].name.as_str()
        ),
        (1, 1, 2, "mine")
    );
    assert_eq!(here.settle::<Design>(1), Ok(vec![]), "once is enough");
    assert!(list::<Design>(&here).iter().all(|entry| !entry.is_tangled));
    assert_eq!(
        (name(&here, 1), name(&here, 2)),
        (
            "theirs".into(),
            "mine (copy: another tab changed it)".into()
        )
    );
    // The one tab is where it was, the other goes with what it wrote.
    assert_eq!(there.news::<Design>(&theirs.seen), Ok(News::Same));
    assert!(
        matches!(here.news::<Design>(&mine.seen), Ok(News::Moved(kept)) if kept.seen.number() == 2)
    );
    // One that did not listen, and keeps on: its copy is followed, not made again.
    let keeping = here
        .keep(&mine.seen, &named("mine, later"), None)
        .expect("there is room");
    assert_eq!(keeping.kept.seen.number(), 2);
    assert_eq!(list::<Design>(&here).len(), 2);
}

#[test]
fn two_new_lines_under_one_number_are_two_lines() {
    let (store, apart) = (Fussy::with(&[]), Fussy::with(&[]));
    let mine = keep(&mut shelf(&store), 7, &named("mine"));
    let theirs = keep(&mut other_tab(&apart), 3, &named("theirs"));
    assert_eq!((mine.seen.number(), theirs.seen.number()), (1, 1));
    store
        .texts
        .borrow_mut()
        .extend(apart.texts.borrow().clone());
    let mut here = shelf(&store);
    here.settle::<Design>(1).expect("there is room");
    // Whose name comes first keeps the number; the other is followed to where it went.
    assert_eq!(
        (name(&here, 1), name(&here, 2)),
        ("theirs".into(), "mine".into())
    );
    assert!(
        matches!(here.news::<Design>(&mine.seen), Ok(News::Moved(kept)) if kept.seen.number() == 2)
    );
    let later = keep_on(&mut here, &mine, &named("mine, later"));
    assert_eq!((later.seen.number(), later.seen.id()), (2, mine.seen.id()));
}

#[test]
fn a_line_another_tab_took_away_comes_back_with_the_next_change() {
    let store = Fussy::with(&[]);
    let (mut here, mut there) = (shelf(&store), other_tab(&store));
    let mine = keep(&mut here, 1, &named("one"));
    assert_eq!(there.delete_for_good::<Design>(&mine.seen), Ok(true));
    assert_eq!(here.news::<Design>(&mine.seen), Ok(News::Gone));
    let keeping = here
        .keep(&mine.seen, &named("mine"), None)
        .expect("there is room");
    assert_eq!(keeping.parted, None);
    assert_eq!(keeping.kept.seen.id(), mine.seen.id());
    assert_eq!(name(&here, 1), "mine");
    // It is newer than what was taken away: a second copy that brings that back does not hide it.
    assert!(keeping.kept.seen.mark() > mine.seen.mark());
}

/// A text of a newer version: of a newer form, or with a file of a newer format.
fn newer_texts(store: &Fussy) -> Vec<(String, bool)> {
    let (_, sound) = store
        .texts
        .borrow()
        .last_key_value()
        .map(|(k, t)| (k.clone(), t.clone()))
        .expect("one");
    let (_, design) = sound.split_once("\n\n").expect("a head and a file");
    let newer = design.replacen("\"version\":4", "\"version\":5", 1);
    let unknown = newer.replacen("\"name\"", "\"colour\":1,\"name\"", 1);
    assert!(newer != design && unknown != newer);
    vec![
        (format!("taperwright kept 2\nwhatever\n\n{design}"), true),
        (format!("taperwright kept 2\nwhatever\n\n{newer}"), true),
        (format!("taperwright kept 2\nwhatever\n\n{unknown}"), false),
        (
            "taperwright kept 2 and all is different".to_owned() + "\n",
            false,
        ),
    ]
}

/// An older version that meets newer data stops writing there, says so, and keeps its own work beside it.
#[test]
fn what_a_newer_version_kept_is_looked_at_and_never_touched() {
    let first = Fussy::with(&[]);
    let seen = keep(&mut shelf(&first), 1, &named("one")).seen;
    let key = format!("{LINE_KEY}1/2-00000000000000ff-00000000");
    for (text, is_shown) in newer_texts(&first) {
        let store = Fussy::with(&[]);
        store.texts.replace(first.texts.borrow().clone());
        store.texts.borrow_mut().insert(key.clone(), text.clone());
        let before = store.texts.borrow().clone();
        let mut here = shelf(&store);
        match here.look::<Design>(1) {
            Lookup::Newer {
                work, text: shown, ..
            } => {
                assert_eq!(
                    (work.map(|work| *work), shown),
                    (is_shown.then(|| named("one")), text.clone())
                );
            }
            found => panic!("{text} was taken for {found:?}"),
        }
        assert_eq!(list::<Design>(&here)[0].status, EntryStatus::Newer);
        assert_eq!(here.news::<Design>(&seen), Ok(News::Newer));
        assert_eq!(here.settle::<Design>(1), Ok(vec![]));
        assert_eq!(here.delete::<Design>(&seen, None), Ok(false));
        assert_eq!(here.delete_for_good::<Design>(&seen), Ok(false));
        let keeping = here
            .keep(&seen, &named("mine"), None)
            .expect("there is room");
        assert_eq!(
            (keeping.parted, keeping.kept.seen.number()),
            (Some(Parted::Newer), 2)
        );
        for (key, text) in before {
            assert_eq!(store.text(&key), Some(text));
        }
    }
}

#[test]
fn what_concerns_the_shelf_is_known_by_its_key() {
    for key in [LINE_KEY, WORKSHOP_KEY, "taperwright/bin/line/1/x"] {
        assert!(concerns(Some(key)), "{key}");
    }
    assert!(concerns(None), "everything was taken away");
    for key in [STEPS_KEY, "taperwright/look", "somebody/else"] {
        assert!(!concerns(Some(key)), "{key}");
    }
}

/// A writer's own state is no news, whatever other tabs are named.
#[test]
fn a_reloaded_tab_is_another_tab() {
    let store = Fussy::with(&[]);
    let kept = keep(&mut shelf(&store), 1, &named("one"));
    let mut reloaded = Shelf::load(store.clone(), Writer(0xc)).expect("the store can be listed");
    let found = look(&reloaded, 1);
    assert_eq!(found.seen, kept.seen);
    keep_on(&mut reloaded, &found, &named("two"));
    assert!(matches!(
        shelf(&store).news::<Design>(&kept.seen),
        Ok(News::Changed(_))
    ));
}

/// Document is called what it is in every kind's own words.
#[test]
fn words_fit_the_work() {
    assert_eq!((Design::WORD, Workshop::WORD), ("line", "workshop"));
}
