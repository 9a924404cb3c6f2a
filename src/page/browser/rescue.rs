//! What outlasts a program that breaks: `boot.js` says so, writes the file of everything, and holds what is kept nowhere. Here
//! the program gives it, in time, what it must know.

use std::panic;
use std::sync::atomic::{AtomicBool, Ordering};

use js_sys::Reflect;
use leptos::prelude::document;
use wasm_bindgen::JsValue;
use web_sys::{Element, Event};

use crate::keep::shelf::{Id, Work};

/// Happens when the program has broken.
const BROKE: &str = "taperwright-broke";
/// Happens when something is kept nowhere, or is so no more.
const UNKEPT: &str = "taperwright-unkept";
/// Asks for everything as one file.
const EXPORT: &str = "taperwright-export";
/// The attribute that says that the program has broken.
const MARK: &str = "data-broken";

static BROKEN: AtomicBool = AtomicBool::new(false);

/// From now on a panic is told.
pub(crate) fn watch() {
    panic::set_hook(Box::new(|panic| {
        BROKEN.store(true, Ordering::Relaxed);
        console_error_panic_hook::hook(panic);
        tell(BROKE, &[("said", panic.to_string().into())]);
    }));
}

/// Whether the program has broken: then what it holds is not to be trusted, and nothing of it is written any more. An error
/// that runs through it without a panic is noticed by `boot.js` alone.
pub(crate) fn is_broken() -> bool {
    BROKEN.load(Ordering::Relaxed) || root().is_some_and(|root| root.has_attribute(MARK))
}

/// Lays work aside that is kept nowhere, so that it outlasts the program, and the browser asks before the page is left.
pub(crate) fn hold<T: Work>(id: Id, work: &T) {
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
    tell(UNKEPT, &texts);
}

/// Work of this kind is kept, or is not to be.
pub(crate) fn let_go<T: Work>() {
    tell(UNKEPT, &[("kind", T::WORD.into())]);
}

/// Hands everything to the browser as one file, what was laid aside too; whether it took it.
pub(crate) fn export() -> bool {
    let saved = tell(EXPORT, &[]).and_then(|event| Reflect::get(&event, &"saved".into()).ok());
    saved.is_some_and(|saved| saved.is_truthy())
}

/// Tells the document something, and gives what became of it. What cannot be told is lost: there is nobody else to tell.
fn tell(what: &str, told: &[(&str, JsValue)]) -> Option<Event> {
    let event = Event::new(what).ok()?;
    for (name, value) in told {
        Reflect::set(&event, &(*name).into(), value).ok()?;
    }
    root()?.dispatch_event(&event).ok()?;
    Some(event)
}

fn root() -> Option<Element> {
    document().document_element()
}
