//! A second copy of every kept state, in the browser's database.
//!
//! Browsers write local storage to the disk only now and then: killed, or out of power, Chromium loses up to a minute of it. A
//! transaction of strict durability is on the disk before it is called complete. So every state goes both ways, and before the
//! page opens what local storage has lost is brought back.
//!
//! Only states are copied, whose text never changes under their key: so a copy is either missing or right, and one that comes
//! back too late is an older state that nothing needs. Where there is no database, or it does not answer, the page goes on
//! without.
//!
//! What was let go leaves a note in the database: local storage that lost its last minute has it again. What is to be done
//! then is reckoned in [`crate::keep::shelf::Mending`].

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use js_sys::{Array, Function, Object, Reflect};
use leptos::prelude::{set_timeout, window};
use wasm_bindgen::prelude::*;
use web_sys::{IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction};

use super::storage::{LocalStore, local};
use crate::keep::shelf::{Mending, Store as _, is_state};

/// The database, and the one table in it: from keys to texts.
const DATABASE: &str = "taperwright";
const TEXTS: &str = "states";
/// What stands before the key of a state in a note that it was let go.
const GONE: &str = "gone/";
/// Property of the window that holds the request to open the database, which `style/boot.js` makes early.
const BEGUN: &str = "taperwrightCopy";
/// Property of that request that holds the one for all keys, which the loader makes once the database is open.
const KEYS: &str = "keys";
/// So long the page waits for the database before it opens without. Our own choice: it mostly answers within 20 ms.
const PATIENCE: Duration = Duration::from_millis(1_500);

thread_local! {
    static OPEN: RefCell<Option<IdbDatabase>> = const { RefCell::new(None) };
}

/// What is to be done with the texts.
enum Wish {
    Put(String, String),
    Remove(String),
    /// Forgets that these were let go.
    Forget(Vec<String>),
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
    open(move |database, keys| match database {
        Some(database) => bring_back(database, keys, go_on),
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
    open(move |database, _| {
        // What the database refuses stands in local storage: this is only the copy.
        let _ = database.map(|database| grant(&database, &wish));
    });
}

fn grant(database: &IdbDatabase, wish: &Wish) -> Result<(), JsValue> {
    let texts = texts(&transaction(database)?)?;
    match wish {
        Wish::Put(key, text) => {
            texts.put_with_key(&text.into(), &key.into())?;
        }
        Wish::Remove(key) => {
            texts.delete(&key.into())?;
            texts.put_with_key(&"".into(), &note(key))?;
        }
        Wish::Forget(keys) => {
            for key in keys {
                texts.delete(&note(key))?;
            }
        }
    }
    Ok(())
}

/// The key of the note that a state was let go.
fn note(key: &str) -> JsValue {
    format!("{GONE}{key}").into()
}

/// A transaction to write in, which is on the disk once it is complete. The binding knows no durability yet.
fn transaction(database: &IdbDatabase) -> Result<IdbTransaction, JsValue> {
    let options = Object::new();
    Reflect::set(&options, &"durability".into(), &"strict".into())?;
    let begin: Function = Reflect::get(database, &"transaction".into())?.dyn_into()?;
    let begun = begin.call3(database, &TEXTS.into(), &"readwrite".into(), &options)?;
    begun.dyn_into()
}

fn texts(transaction: &IdbTransaction) -> Result<IdbObjectStore, JsValue> {
    transaction.object_store(TEXTS)
}

fn read(database: &IdbDatabase) -> Result<IdbObjectStore, JsValue> {
    texts(&database.transaction_with_str(TEXTS)?)
}

/// Opens the database, making it where there is none; nothing where the browser will not. With it comes the request for all of
/// its keys, where that was made before.
fn open(then: impl FnOnce(Option<IdbDatabase>, Option<IdbRequest>) + 'static) {
    let Some(request) = begun().or_else(asked) else {
        return then(None, None);
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
        let keys = Reflect::get(&opened, &KEYS.into()).ok();
        then(database, keys.and_then(|keys| keys.dyn_into().ok()));
    });
}

/// The request that the loader made while the program was on its way; there is one, and only the first to ask gets it.
fn begun() -> Option<IdbOpenDbRequest> {
    let request = Reflect::get(&window(), &BEGUN.into()).ok()?;
    Reflect::set(&window(), &BEGUN.into(), &JsValue::UNDEFINED).ok()?;
    request.dyn_into().ok()
}

fn asked() -> Option<IdbOpenDbRequest> {
    let factory = window().indexed_db().ok().flatten()?;
    factory.open_with_u32(DATABASE, 1).ok()
}

/// Makes both copies hold the same, then goes on. Mostly they do, and only keys are read.
fn bring_back(database: IdbDatabase, keys: Option<IdbRequest>, then: impl FnOnce() + 'static) {
    let keys = keys.or_else(|| read(&database).ok()?.get_all_keys().ok());
    let Some(keys) = keys else {
        return then();
    };
    answered(&keys.clone(), move || {
        let Some(mending) = compared(&keys) else {
            return then();
        };
        let is_whole = mending.bring_back.is_empty();
        let texts = if is_whole { None } else { read(&database).ok() };
        let text_of = |key: &String| Some((key.clone(), texts.as_ref()?.get(&key.into()).ok()?));
        let asked: Vec<_> = mending.bring_back.iter().filter_map(text_of).collect();
        let last = asked.last().map(|(_, text)| text.clone());
        let go_on = move || {
            for (key, text) in &asked {
                put_back(key, text);
            }
            mend(mending);
            then();
        };
        // Requests of one transaction are answered in their order: with the last, all are.
        match last {
            Some(last) => answered(&last, go_on),
            None => go_on(),
        }
    });
}

/// What either lacks of the other; nothing where one of them cannot be read.
fn compared(keys: &IdbRequest) -> Option<Mending> {
    let keys = result::<Array>(keys)?;
    let keys = keys.iter().filter_map(|key| key.as_string());
    let (gone, copy): (Vec<String>, Vec<String>) = keys.partition(|key| key.starts_with(GONE));
    let gone: Vec<String> = gone
        .iter()
        .map(|key| key[GONE.len()..].to_owned())
        .collect();
    Some(Mending::of(&LocalStore.keys().ok()?, &copy, &gone))
}

/// The rest of mending, in this order: what is to be let go is so only once what is newer is copied.
fn mend(mending: Mending) {
    let Ok(storage) = local() else { return };
    for key in mending.copy {
        if let Ok(Some(text)) = storage.get_item(&key) {
            wish(Wish::Put(key, text));
        }
    }
    for key in mending.let_go {
        // What stays is an old state beside a newer one: the shelf can live with that.
        let _ = storage.remove_item(&key);
    }
    mending
        .drop
        .into_iter()
        .for_each(|key| wish(Wish::Remove(key)));
    if !mending.forget.is_empty() {
        wish(Wish::Forget(mending.forget));
    }
}

fn put_back(key: &str, text: &IdbRequest) {
    let text = text.result().ok().and_then(|text| text.as_string());
    if let (Some(text), Ok(storage)) = (text, local()) {
        // Without room it stays where it is.
        let _ = storage.set_item(key, &text);
    }
}

/// Calls when a request is answered, be it with an error; at once where it is already.
fn answered(request: &IdbRequest, then: impl FnOnce() + 'static) {
    let state = Reflect::get(request, &"readyState".into());
    if state.is_ok_and(|state| state == "done") {
        return then();
    }
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
