//! What a browser may have kept: states, steps, notes, each as large as all it keeps.

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::share::file;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, Lookup, OPEN_KEY, Shelf, Store, StoreError, Writer};
use taperwright::plan::days::Day;

use crate::{alone, keeps_within};

/// What a browser keeps for a page in all, in letters of one byte. Common practice, no source.
const KEPT: usize = 5_000_000;

/// A store that keeps nothing: so what is taken in does not count as taken up.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Nowhere;

impl Store for Nowhere {
    fn get(&self, _: &str) -> Result<Option<String>, StoreError> {
        Ok(None)
    }

    fn set(&mut self, _: &str, _: &str) -> Result<(), StoreError> {
        Err(StoreError::Full)
    }

    fn remove(&mut self, _: &str) -> Result<(), StoreError> {
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        Ok(Vec::new())
    }
}

pub(crate) fn nowhere() -> Shelf<Nowhere> {
    Shelf::load(Nowhere, Writer(1)).expect("its keys can be listed")
}

/// Everything that is asked of a shelf before the maker does anything.
fn looked_over(shelf: &Shelf<Memory>) {
    let _ = (shelf.list::<Design>(), shelf.list::<Workshop>());
    let _ = (shelf.strange::<Design>(), shelf.strange::<Workshop>());
    let _ = (shelf.to_open::<Design>(), shelf.to_open::<Workshop>());
    let _ = shelf.reminder(Day::parse("2026-11-27").ok());
    let _ = shelf.sketch(1, demo());
}

fn looks(what: &str, entries: Vec<(String, String)>) {
    let shelf = Shelf::load(Memory(entries.into_iter().collect()), Writer(2));
    let shelf = shelf.expect("it can be listed");
    keeps_within(&format!("kept: {what}"), || looked_over(&shelf));
}

/// What may stand under a key, as long as all that is kept.
fn texts() -> Vec<(&'static str, String)> {
    let head = |form: u32| format!("taperwright kept {form}\nid 0123456789abcdef\n\n");
    let filled =
        |head: &str, unit: &str| format!("{head}{}", unit.repeat((KEPT - head.len()) / unit.len()));
    vec![
        ("letters", filled("", "n")),
        ("digits", filled("", "9")),
        ("brackets", filled("", "[")),
        (
            "a head without an end",
            filled("taperwright kept 1\n", "id 0\n"),
        ),
        ("a state", filled(&head(1), "n")),
        ("a state of a newer form", filled(&head(2), "n")),
        (
            "a newer design",
            filled(
                "{\"format\":\"taperwright design\",\"version\":9,\"design\":{\"points\":[",
                "{\"at_m\":0,\"diameter_mm\":1},",
            ),
        ),
        ("steps", filled("taperwright steps 1\n", "=AAAAAAAA\n")),
        ("one step", filled("taperwright steps 1\n=", "A")),
        ("a note of the bin", filled("taperwright bin 1 ", "0 ")),
        ("a note of an export", filled("2026-11-26 ", "9")),
    ]
}

#[test]
fn whatever_is_kept_takes_up_little() {
    alone(|| {
        let mark = "1-0fedcba987654321-d0f2b7c8";
        let keys = [
            "taperwright/line/1".to_owned(),
            format!("taperwright/line/1/{mark}"),
            "taperwright/workshop/1".to_owned(),
            format!("taperwright/workshop/1/{mark}"),
            format!("taperwright/bin/line/1/{mark}"),
            "taperwright/steps/1".to_owned(),
            OPEN_KEY.to_owned(),
            "taperwright/exported".to_owned(),
            "taperwright/unreadable/0".to_owned(),
            "taperwright/line/odd".to_owned(),
        ];
        for (what, text) in texts() {
            for key in &keys {
                looks(
                    &format!("{what} under {key}"),
                    vec![(key.clone(), text.clone())],
                );
            }
        }
    });
}

/// A store full of lines takes up no more than its list and one line at a time.
#[test]
fn a_full_store_takes_up_little() {
    alone(|| {
        let text = file::write_small(&demo());
        let count = KEPT / (text.len() + 20);
        let entries =
            (1..=count).map(|number| (format!("taperwright/line/{number}"), text.clone()));
        looks(&format!("{count} plain lines"), entries.collect());
        let mut shelf = Shelf::load(Memory::default(), Writer(3)).expect("it can be listed");
        for number in 0..KEPT / 2_700 {
            shelf
                .keep_new(Id(number as u64), &demo(), None)
                .expect("memory does not fail");
        }
        keeps_within("kept: states", || looked_over(&shelf));
        assert!(matches!(shelf.to_open::<Design>(), Lookup::Kept(_)));
    });
}
