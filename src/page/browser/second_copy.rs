//! A second copy of every kept state, in the browser's database.
//!
//! Browsers write local storage to the disk only now and then: killed, or out of power, Chromium loses up to a minute of it. A
//! transaction of strict durability is on the disk before it is called complete. So every state is written to both, and what
//! local storage has lost is restored before the page opens.
//!
//! Only states are copied. Their text never changes under their key, so the two copies cannot contradict each other; where local
//! storage has a text that was altered, the whole one takes its place, and the page says so. Where there is no database, or it does
//! not answer in time, the page opens without it.
//!
//! A deleted state leaves a note in the database (`gone/` before its key), because local storage may lose the deletion. What
//! has to be done then is calculated in [`crate::keep::shelf::Mending`] from the keys alone.

use std::cell::{Cell, RefCell};
use std::time::Duration;

use js_sys::{Array, Function, Object, Reflect};
use leptos::prelude::{set_timeout, window};
use wasm_bindgen::prelude::*;
use web_sys::{IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction};

use super::local_storage::{self, local};
use crate::keep::shelf::{Mending, is_damaged, is_state};

/// The database, and the one table in it: from keys to texts.
const DATABASE: &str = "taperwright";
const TEXTS: &str = "states";
/// Prefix of the key of a note that a state was deleted.
const GONE: &str = "gone/";
/// Property of the window that holds the request to open the database, which `style/boot.js` makes early.
const EARLY_REQUEST: &str = "taperwrightCopy";
/// Property of that request that holds the request for all keys, which `style/boot.js` makes once the database is open.
const KEYS: &str = "keys";
/// How long the page waits for the database before it opens without. Our own choice: it mostly answers within 20 ms.
const PATIENCE: Duration = Duration::from_millis(1_500);

thread_local! {
    static CONNECTION: RefCell<Option<IdbDatabase>> = const { RefCell::new(None) };
    /// Whether the page has opened. From then on local storage belongs to the page: nothing is brought back under it.
    static PAGE_IS_OPEN: Cell<bool> = const { Cell::new(false) };
    /// Whether a damaged text was replaced by its copy when the page opened.
    static IS_HEALED: Cell<bool> = const { Cell::new(false) };
}

/// A change to the texts in the database.
enum Write {
    Put(String, String),
    Remove(String),
    /// Removes the notes that these were deleted.
    Forget(Vec<String>),
}

/// Brings back what local storage has lost, then opens the page. Where the database does not answer in time the page opens
/// without, and an answer that comes later changes nothing: the two copies are compared again at the next opening.
pub(crate) fn restore(open_page: fn()) {
    let go_on = move || {
        if !PAGE_IS_OPEN.replace(true) {
            open_page();
        }
    };
    set_timeout(go_on, PATIENCE);
    open(move |database, keys| match database {
        Some(database) => bring_back(database, keys, go_on),
        None => go_on(),
    });
}

/// Whether a damaged text was replaced by its copy when the page opened.
pub(crate) fn is_healed() -> bool {
    IS_HEALED.get()
}

/// Copies a text just kept under a key.
pub(crate) fn put(key: &str, text: &str) {
    if is_state(key) {
        write(Write::Put(key.to_owned(), text.to_owned()));
    }
}

/// Removes the copy of a text that was removed from local storage.
pub(crate) fn remove(key: &str) {
    if is_state(key) {
        write(Write::Remove(key.to_owned()));
    }
}

/// Writes; where the connection turns out to be lost, as when a tablet had put the page to sleep, over a new one.
fn write(write: Write) {
    let open_now = CONNECTION.with_borrow(Clone::clone);
    if open_now.is_some_and(|database| try_write(&database, &write).is_ok()) {
        return;
    }
    open(move |database, _| {
        // What the database refuses is in local storage: this is only the copy.
        let _ = database.map(|database| try_write(&database, &write));
    });
}

fn try_write(database: &IdbDatabase, write: &Write) -> Result<(), JsValue> {
    let texts = texts(&transaction(database)?)?;
    match write {
        Write::Put(key, text) => {
            texts.put_with_key(&text.into(), &key.into())?;
        }
        Write::Remove(key) => {
            texts.delete(&key.into())?;
            texts.put_with_key(&"".into(), &gone_key(key))?;
        }
        Write::Forget(keys) => {
            for key in keys {
                texts.delete(&gone_key(key))?;
            }
        }
    }
    Ok(())
}

/// The key of the note that a state was deleted.
fn gone_key(key: &str) -> JsValue {
    format!("{GONE}{key}").into()
}

/// A transaction to write in, which is on the disk once it is complete. The binding has no option for durability yet.
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

/// Opens the database, and makes it where there is none; `None` where the browser refuses. With it comes the request for all
/// of its keys, where that was made early.
fn open(then: impl FnOnce(Option<IdbDatabase>, Option<IdbRequest>) + 'static) {
    let Some(request) = early_request().or_else(new_request) else {
        return then(None, None);
    };
    let process = request.clone();
    request.set_onupgradeneeded(Some(&once(move || {
        if let Some(database) = result::<IdbDatabase>(&process) {
            // Refused only where it is there.
            let _ = database.create_object_store(TEXTS);
        }
    })));
    let opened = request.clone();
    when_answered(&request, move || {
        let database = result::<IdbDatabase>(&opened);
        if let Some(database) = &database {
            // Another tab may want to delete or upgrade the database, and would wait for this connection. Once it is closed,
            // the next text opens another, or goes without its copy: local storage has it all the same.
            let closing = database.clone();
            database.set_onversionchange(Some(&once(move || closing.close())));
        }
        CONNECTION.set(database.clone());
        let keys = Reflect::get(&opened, &KEYS.into()).ok();
        then(database, keys.and_then(|keys| keys.dyn_into().ok()));
    });
}

/// The request that `style/boot.js` made while the program was loading; only the first caller gets it.
fn early_request() -> Option<IdbOpenDbRequest> {
    let request = Reflect::get(&window(), &EARLY_REQUEST.into()).ok()?;
    Reflect::set(&window(), &EARLY_REQUEST.into(), &JsValue::UNDEFINED).ok()?;
    request.dyn_into().ok()
}

fn new_request() -> Option<IdbOpenDbRequest> {
    let factory = window().indexed_db().ok().flatten()?;
    factory.open_with_u32(DATABASE, 1).ok()
}

/// Makes both copies hold the same, then continues. Mostly they do already, and only keys are read.
fn bring_back(database: IdbDatabase, keys: Option<IdbRequest>, then: impl FnOnce() + 'static) {
    let keys = keys.or_else(|| read(&database).ok()?.get_all_keys().ok());
    let Some(keys) = keys else {
        return then();
    };
    when_answered(&keys.clone(), move || {
        let Some((mending, damaged)) = compared(&keys) else {
            return then();
        };
        let wanted: Vec<&String> = mending.bring_back.iter().chain(&damaged).collect();
        let is_whole = wanted.is_empty();
        let texts = if is_whole { None } else { read(&database).ok() };
        let text_of = |key: &&String| {
            let text = texts.as_ref()?.get(&key.as_str().into()).ok()?;
            Some(((*key).clone(), text))
        };
        let requests: Vec<_> = wanted.iter().filter_map(text_of).collect();
        let last = requests.last().map(|(_, text)| text.clone());
        let go_on = move || {
            if !PAGE_IS_OPEN.get() {
                for (key, text) in &requests {
                    put_back(key, text, damaged.contains(key));
                }
                mend(mending);
            }
            then();
        };
        // Requests of one transaction are answered in their order: with the last, all are.
        match last {
            Some(last) => when_answered(&last, go_on),
            None => go_on(),
        }
    });
}

/// What each copy lacks, and the keys of texts in local storage that were altered and have a copy; `None` where one of them cannot
/// be read.
fn compared(keys: &IdbRequest) -> Option<(Mending, Vec<String>)> {
    let keys = result::<Array>(keys)?;
    let keys = keys.iter().filter_map(|key| key.as_string());
    let (gone, copy): (Vec<String>, Vec<String>) = keys.partition(|key| key.starts_with(GONE));
    let gone: Vec<String> = gone
        .iter()
        .map(|key| key[GONE.len()..].to_owned())
        .collect();
    let own = local_storage::keys().ok()?;
    let storage = local().ok()?;
    let is_altered = |key: &&String| {
        let text = storage.get_item(key).ok().flatten();
        text.is_some_and(|text| is_damaged(key, &text)) && copy.contains(key)
    };
    let damaged = own.iter().filter(is_altered).cloned().collect();
    Some((Mending::of(&own, &copy, &gone), damaged))
}

/// The rest of the repair, in this order: an old state is deleted only once the newer one is copied.
fn mend(mending: Mending) {
    let Ok(storage) = local() else { return };
    for key in mending.copy {
        let text = storage.get_item(&key).ok().flatten();
        if let Some(text) = text.filter(|text| !is_damaged(&key, text)) {
            write(Write::Put(key, text));
        }
    }
    for key in mending.let_go {
        // An old state that stays beside a newer one does no harm.
        let _ = storage.remove_item(&key);
    }
    mending
        .drop
        .into_iter()
        .for_each(|key| write(Write::Remove(key)));
    if !mending.forget.is_empty() {
        write(Write::Forget(mending.forget));
    }
}

/// Puts a text from the database into local storage; in place of a damaged one only where it is whole itself.
fn put_back(key: &str, text: &IdbRequest, is_in_place: bool) {
    let text = text.result().ok().and_then(|text| text.as_string());
    let text = text.filter(|text| !(is_in_place && is_damaged(key, text)));
    if let (Some(text), Ok(storage)) = (text, local()) {
        // Where local storage is full the text stays in the database.
        let is_put = storage.set_item(key, &text).is_ok();
        IS_HEALED.set(IS_HEALED.get() || (is_in_place && is_put));
    }
}

/// Calls back when a request has succeeded or failed; at once where it has already.
fn when_answered(request: &IdbRequest, then: impl FnOnce() + 'static) {
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
