//! One line kept twice, and deaths: local storage comes back as it was at any moment of the life before, the database as it
//! was at any other. Whatever either of them has is there, whole, and nothing else: no old state turns up as a copy.
//!
//! Each history is told by its seed alone, which a failure prints.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use taperwright::keep::shelf::{
    Document, Id, LINE_KEY, Lookup, Mending, Shelf, Store, StoreError, Writer,
};

use crate::chance::Chance;
use crate::flaky::Texts;
use crate::slip::Slip;

const HISTORIES: u64 = 3_000;
const LIVES: u64 = 6;

/// What happens to the two, in the order in which a page does it.
enum Operation {
    Put(String, String),
    Remove(String),
    /// In local storage only.
    Local(String, Option<String>),
    Copy(String, String),
    Forget(String),
}

/// Local storage in one life, and all that was done.
#[derive(Clone, Default)]
struct Life(Rc<RefCell<(Texts, Vec<Operation>)>>);

impl Life {
    fn do_it(&self, operation: Operation) {
        let (texts, operations) = &mut *self.0.borrow_mut();
        to_store(texts, &operation);
        operations.push(operation);
    }
}

impl Store for Life {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        Ok(self.0.borrow().0.get(key).cloned())
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        self.do_it(Operation::Put(key.to_owned(), text.to_owned()));
        Ok(())
    }

    fn remove(&mut self, key: &str) -> Result<(), StoreError> {
        self.do_it(Operation::Remove(key.to_owned()));
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        Ok(self.0.borrow().0.keys().cloned().collect())
    }
}

/// The database: texts, and notes of what was let go.
#[derive(Clone, Default)]
struct Database {
    texts: Texts,
    gone: BTreeSet<String>,
}

fn to_store(texts: &mut Texts, operation: &Operation) {
    match operation {
        Operation::Put(key, text) | Operation::Local(key, Some(text)) => {
            texts.insert(key.clone(), text.clone());
        }
        Operation::Remove(key) | Operation::Local(key, None) => drop(texts.remove(key)),
        Operation::Copy(..) | Operation::Forget(_) => {}
    }
}

impl Database {
    fn take(&mut self, operation: &Operation) {
        match operation {
            Operation::Put(key, text) | Operation::Copy(key, text) => {
                self.texts.insert(key.clone(), text.clone());
            }
            Operation::Remove(key) => {
                self.texts.remove(key);
                self.gone.insert(key.clone());
            }
            Operation::Forget(key) => drop(self.gone.remove(key)),
            Operation::Local(..) => {}
        }
    }
}

/// The keys as if a slip were a line: mending knows lines and workshops only.
fn as_lines<'a>(keys: impl Iterator<Item = &'a String>) -> Vec<String> {
    keys.map(|key| key.replace(Slip::PREFIX, LINE_KEY))
        .collect()
}

fn as_slips(keys: Vec<String>) -> impl Iterator<Item = String> {
    keys.into_iter()
        .map(|key| key.replace(LINE_KEY, Slip::PREFIX))
}

/// A new life upon what the last one left.
fn born(store: Texts, database: &Database) -> Life {
    let mending = Mending::of(
        &as_lines(store.keys()),
        &as_lines(database.texts.keys()),
        &as_lines(database.gone.iter()),
    );
    let life = Life::default();
    life.0.borrow_mut().0 = store;
    for key in as_slips(mending.bring_back) {
        let text = database.texts[&key].clone();
        life.do_it(Operation::Local(key, Some(text)));
    }
    for key in as_slips(mending.copy) {
        let text = life.get(&key).unwrap().expect("it is said to be there");
        life.do_it(Operation::Copy(key, text));
    }
    as_slips(mending.let_go).for_each(|key| life.do_it(Operation::Local(key, None)));
    for key in as_slips(mending.drop) {
        assert!(
            !life.0.borrow().0.contains_key(&key),
            "it drops what is in use"
        );
        life.do_it(Operation::Remove(key));
    }
    as_slips(mending.forget).for_each(|key| life.do_it(Operation::Forget(key)));
    life
}

/// The highest revision among keys.
fn newest<'a>(keys: impl Iterator<Item = &'a String>) -> u64 {
    let mark = |key: &'a String| key.rsplit('/').next()?.split('-').next()?.parse().ok();
    keys.filter_map(mark).max().unwrap_or(0)
}

#[test]
fn whatever_either_has_is_there_after_every_death() {
    for seed in 0..HISTORIES {
        let mut chance = Chance::of(seed);
        // A whole number not below 0, as it is drawn.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let mut below = |most: usize| (chance.uniform() * (most + 1) as f64) as usize;
        let (mut store, mut database) = (Texts::new(), Database::default());
        for number in 0..LIVES {
            let had = newest(store.keys().chain(database.texts.keys()));
            let life = born(store.clone(), &database);
            let mut shelf = Shelf::load(life.clone(), Writer(number + 1)).expect("it can be read");
            let entries = shelf.list::<Slip>().expect("it can be read");
            let tangled = entries.iter().any(|entry| entry.is_tangled);
            assert!(
                entries.len() <= 1 && !tangled,
                "seed {seed}, life {number}: a copy turned up"
            );
            let mut seen = match shelf.look::<Slip>(1) {
                Lookup::Kept(kept) => Some(kept.seen),
                Lookup::Nothing => None,
                other => panic!("seed {seed}: {other:?}"),
            };
            let has = seen.map_or(0, |seen| seen.mark().revision);
            assert!(has >= had, "seed {seed}, life {number}: {has} of {had}");
            for change in 0..below(12) {
                let slip = Slip::of(&format!("{number} {change}"));
                let kept = match &seen {
                    Some(seen) => shelf.keep(seen, &slip, None).map(|it| it.kept),
                    None => shelf.keep_new(Id(7), &slip, None),
                };
                seen = Some(kept.expect("there is room").seen);
            }
            let operations = &life.0.borrow().1;
            let (flushed, done) = (below(operations.len()), below(operations.len()));
            operations[..flushed]
                .iter()
                .for_each(|operation| to_store(&mut store, operation));
            operations[..done]
                .iter()
                .for_each(|operation| database.take(operation));
        }
    }
}
