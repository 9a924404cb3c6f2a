//! A second copy of every kept state, in the browser's database.
//!
//! Browsers write local storage to the disk only now and then: killed, or out of power, Chromium loses up to a minute of it. A
//! transaction of strict durability is on the disk before it is called complete. So every state goes both ways, and before the
//! page opens what local storage has lost is brought back.
//!
//! Only states are copied, whose text never changes under their key: so a copy is either missing or right, and one that comes
//! back too late is an older state that nothing needs. Where there is no database, or it does not answer, the page goes on
//! without.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use js_sys::{Array, Function, Object, Reflect};
use leptos::prelude::{set_timeout, window};
use wasm_bindgen::prelude::*;
use web_sys::{IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction};

use super::storage::local;
use crate::shelf::is_state;

/// The database, and the one table in it: from keys to texts.
const DATABASE: &str = "taperwright";
const TEXTS: &str = "states";
/// So long the page waits for the database before it opens without. Our own choice: it mostly answers within 20 ms.
const PATIENCE: Duration = Duration::from_millis(1_500);

thread_local! {
    static OPEN: RefCell<Option<IdbDatabase>> = const { RefCell::new(None) };
}

/// What is to be done with the texts.
enum Wish {
    Put(String, String),
    Remove(String),
}

/// Brings back what local storage has lost, then goes on; also where that cannot be.
pub(crate) fn restore(then: impl FnOnce() + 'static) {
    let then = Rc::new(Cell::new(Some(then)));
    let go_on = move || {
        if let Some(then) = then.take() {
            then();
        }
    };
    set_timeout(go_on.clone(), PATIENCE);
    open(move |database| match database {
        Some(database) => bring_back(&database, go_on),
        None => go_on(),
    });
}

/// Copies a text just kept under a key.
pub(crate) fn put(key: &str, text: &str) {
    if is_state(key) {
        wish(Wish::Put(key.to_owned(), text.to_owned()));
    }
}

/// Lets the copy of a text go that was let go.
pub(crate) fn remove(key: &str) {
    if is_state(key) {
        wish(Wish::Remove(key.to_owned()));
    }
}

/// Does what is wished; once more where the connection turns out to be lost, as when a tablet had put the page to sleep.
fn wish(wish: Wish) {
    let open_now = OPEN.with_borrow(Clone::clone);
    if open_now.is_some_and(|database| grant(&database, &wish).is_ok()) {
        return;
    }
    open(move |database| {
        // What the database refuses stands in local storage: this is only the copy.
        let _ = database.map(|database| grant(&database, &wish));
    });
}

fn grant(database: &IdbDatabase, wish: &Wish) -> Result<(), JsValue> {
    let texts = texts(&transaction(database, "readwrite")?)?;
    match wish {
        Wish::Put(key, text) => texts.put_with_key(&text.into(), &key.into())?,
        Wish::Remove(key) => texts.delete(&key.into())?,
    };
    Ok(())
}

/// A transaction that is on the disk once it is complete. The binding knows no durability yet.
fn transaction(database: &IdbDatabase, mode: &str) -> Result<IdbTransaction, JsValue> {
    let options = Object::new();
    Reflect::set(&options, &"durability".into(), &"strict".into())?;
    let begin: Function = Reflect::get(database, &"transaction".into())?.dyn_into()?;
    let begun = begin.call3(database, &TEXTS.into(), &mode.into(), &options)?;
    begun.dyn_into()
}

fn texts(transaction: &IdbTransaction) -> Result<IdbObjectStore, JsValue> {
    transaction.object_store(TEXTS)
}

/// Opens the database, making it where there is none; nothing where the browser will not.
fn open(then: impl FnOnce(Option<IdbDatabase>) + 'static) {
    let Some(request) = asked() else {
        return then(None);
    };
    let making = request.clone();
    request.set_onupgradeneeded(Some(&once(move || {
        if let Some(database) = result::<IdbDatabase>(&making) {
            // Refused only where it is there.
            let _ = database.create_object_store(TEXTS);
        }
    })));
    let opened = request.clone();
    answered(&request, move || {
        let database = result::<IdbDatabase>(&opened);
        OPEN.set(database.clone());
        then(database);
    });
}

fn asked() -> Option<IdbOpenDbRequest> {
    let factory = window().indexed_db().ok().flatten()?;
    factory.open_with_u32(DATABASE, 1).ok()
}

/// Puts every text into local storage that is not there, then goes on. Mostly none is missing, and only keys are read.
fn bring_back(database: &IdbDatabase, then: impl FnOnce() + 'static) {
    let listed = || {
        let texts = texts(&transaction(database, "readonly")?)?;
        Ok::<_, JsValue>((texts.get_all_keys()?, texts))
    };
    let Ok((keys, texts)) = listed() else {
        return then();
    };
    answered(&keys.clone(), move || {
        let asked: Vec<(String, IdbRequest)> = missing(&keys)
            .into_iter()
            .filter_map(|key| Some((key.clone(), texts.get(&key.into()).ok()?)))
            .collect();
        let Some((_, last)) = asked.last().cloned() else {
            return then();
        };
        // Requests of one transaction are answered in their order: with the last, all are.
        answered(&last, move || {
            for (key, text) in &asked {
                put_back(key, text);
            }
            then();
        });
    });
}

/// The keys of states that the database has and local storage has not.
fn missing(keys: &IdbRequest) -> Vec<String> {
    let (Some(keys), Ok(storage)) = (result::<Array>(keys), local()) else {
        return Vec::new();
    };
    let is_missing = |key: &String| is_state(key) && storage.get_item(key) == Ok(None);
    let keys = keys.iter().filter_map(|key| key.as_string());
    keys.filter(is_missing).collect()
}

fn put_back(key: &str, text: &IdbRequest) {
    let text = text.result().ok().and_then(|text| text.as_string());
    if let (Some(text), Ok(storage)) = (text, local()) {
        // Without room it stays where it is.
        let _ = storage.set_item(key, &text);
    }
}

/// Calls when a request is answered, be it with an error.
fn answered(request: &IdbRequest, then: impl FnOnce() + 'static) {
    let call = once(then);
    request.set_onsuccess(Some(&call));
    request.set_onerror(Some(&call));
}

fn result<T: JsCast>(request: &IdbRequest) -> Option<T> {
    request.result().ok()?.dyn_into().ok()
}

fn once(call: impl FnOnce() + 'static) -> Function {
    Closure::once_into_js(call).unchecked_into()
}
