//! The copy of the page for use without a connection, and newer builds. `offline.js` manages both and reports the state in an
//! attribute of the document; this module reads it.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event};

/// State of the copy.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Offline {
    /// Nothing to report: a later visit, or a browser that keeps no copies.
    #[default]
    Nothing,
    /// A first visit: the copy is being stored.
    Coming,
    /// The copy is complete.
    Ready,
    /// A newer version is stored completely.
    Newer,
    /// The newer version was accepted, here or in another tab.
    Taken,
    /// A newer version did not open here; this is the one before.
    Older,
}

/// The attribute that holds the state.
const STATE: &str = "data-offline";
/// Event: the state has changed.
const CHANGED: &str = "taperwright-offline";
/// Event: asks for the newer version.
const TAKE: &str = "taperwright-take";
/// Where a maker may be in the middle of something: a field that has the keyboard, a value that was not understood, a dialog.
const AT_WORK: &str = "input[type=text]:focus, input[type=date]:focus, textarea:focus, select:focus, \
                       [aria-invalid=true], dialog[open]";

/// The state now.
pub(crate) fn now() -> Offline {
    let state = root().and_then(|root| root.get_attribute(STATE));
    match state.as_deref() {
        Some("coming") => Offline::Coming,
        Some("ready") => Offline::Ready,
        Some("newer") => Offline::Newer,
        Some("taken") => Offline::Taken,
        Some("older") => Offline::Older,
        _ => Offline::Nothing,
    }
}

/// Calls back whenever the state changes, until the component is disposed of.
pub(crate) fn watch(on_change: impl Fn(Offline) + 'static) {
    let Some(root) = root() else {
        return;
    };
    let callback = Closure::<dyn Fn()>::new(move || on_change(now()));
    let listener = callback.as_ref().unchecked_ref();
    // Refused by no element.
    let _ = root.add_event_listener_with_callback(CHANGED, listener);
    // The callback must live as long as the document that calls it.
    let kept = StoredValue::new_local((root, callback));
    on_cleanup(move || {
        kept.try_with_value(|(root, callback)| {
            let listener = callback.as_ref().unchecked_ref();
            root.remove_event_listener_with_callback(CHANGED, listener)
        });
    });
}

/// Accepts the newer version; every tab is then informed.
pub(crate) fn take() {
    if let (Some(root), Ok(event)) = (root(), Event::new(TAKE)) {
        // Its listener prevents nothing.
        let _ = root.dispatch_event(&event);
    }
}

/// Whether the maker is in the middle of something that only the elements of the page show.
pub(crate) fn is_at_work() -> bool {
    let found = document().query_selector(AT_WORK);
    found.is_ok_and(|found| found.is_some())
}

/// Has files that come later asked of the host, not of the browser's cache, which may have one that came damaged. The loader of the
/// second file reads it (`src/host/split.rs`).
pub(crate) fn ask_the_host() {
    // Refused by no element.
    let _ = root().map(|root| root.set_attribute("data-again", "reload"));
}

/// Reloads the page, with the newest version there is.
pub(crate) fn reload() {
    // A browser that refuses keeps running the version it has.
    let _ = window().location().reload();
}

fn root() -> Option<Element> {
    document().document_element()
}
