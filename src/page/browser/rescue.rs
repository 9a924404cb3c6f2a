//! What survives a crash of the program. `boot.js` shows that it crashed, saves everything stored here as one file, and holds
//! the work that is stored nowhere. This module gives it, in time, what it needs for that.
//!
//! A panic is reported by its hook. An error of the browser that runs through the program leaves it half-way without a panic;
//! `boot.js` recognises it by our own files in its stack. (An error from a script of another origin has no stack and cannot be
//! told from errors that are not ours.) From then on the document has the attribute `data-broken`, nothing is stored any more,
//! and no event reaches the program. The file of everything is made by plain JavaScript from the stored texts, because it must
//! also come out where WebAssembly does not run.

use std::panic;
use std::sync::atomic::{AtomicBool, Ordering};

use js_sys::Reflect;
use leptos::prelude::document;
use wasm_bindgen::JsValue;
use web_sys::{Element, Event};

use crate::keep::shelf::{Document, Id};

/// Event: the program has crashed.
const BROKE: &str = "taperwright-broke";
/// Event: some work is stored nowhere, or no longer so.
const UNKEPT: &str = "taperwright-unkept";
/// Event: asks for everything as one file.
const EXPORT: &str = "taperwright-export";
/// The attribute that says that the program has crashed.
const MARK: &str = "data-broken";

static BROKEN: AtomicBool = AtomicBool::new(false);

/// Reports every panic from now on.
pub(crate) fn watch() {
    panic::set_hook(Box::new(|panic| {
        BROKEN.store(true, Ordering::Relaxed);
        console_error_panic_hook::hook(panic);
        send(BROKE, &[("said", panic.to_string().into())]);
    }));
}

/// Whether the program has crashed: then what it holds cannot be trusted, and nothing of it is stored any more. An error that
/// runs through it without a panic is noticed by `boot.js` alone.
pub(crate) fn is_broken() -> bool {
    BROKEN.load(Ordering::Relaxed) || root().is_some_and(|root| root.has_attribute(MARK))
}

/// Hands work that is stored nowhere to `boot.js`, where it survives a crash. The browser then asks before the page is left.
pub(crate) fn hold<T: Document>(id: Id, work: &T) {
    let name = if work.name().is_empty() {
        T::UNNAMED
    } else {
        work.name()
    };
    let texts = [
        ("kind", T::WORD.into()),
        ("id", id.to_string().into()),
        ("name", name.into()),
        ("file", work.write().into()),
    ];
    send(UNKEPT, &texts);
}

/// Document of this kind is stored, or need not be.
pub(crate) fn let_go<T: Document>() {
    send(UNKEPT, &[("kind", T::WORD.into())]);
}

/// Saves everything as one file, work handed over by [`hold`] too; whether the browser took it.
pub(crate) fn export() -> bool {
    let saved = send(EXPORT, &[]).and_then(|event| Reflect::get(&event, &"saved".into()).ok());
    saved.is_some_and(|saved| saved.is_truthy())
}

/// Sends an event with values to the document, and returns it. Where that fails nobody is left to report it to.
fn send(what: &str, values: &[(&str, JsValue)]) -> Option<Event> {
    let event = Event::new(what).ok()?;
    for (name, value) in values {
        Reflect::set(&event, &(*name).into(), value).ok()?;
    }
    root()?.dispatch_event(&event).ok()?;
    Some(event)
}

fn root() -> Option<Element> {
    document().document_element()
}
