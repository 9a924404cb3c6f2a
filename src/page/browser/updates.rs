//! The page's own copy for use without a connection, and newer builds of it. `offline.js` sees to both, and says how it
//! stands; here the program listens.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event};

/// What there is to say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Offline {
    /// Nothing: a later visit, or a browser that keeps no copies.
    #[default]
    Nothing,
    /// A first visit: the copy is being laid up.
    Coming,
    /// It is there.
    Ready,
    /// A newer version is there, whole.
    Newer,
    /// Somebody took it, here or in another tab.
    Taken,
}

/// The attribute that says how it stands.
const STATE: &str = "data-offline";
/// Happens whenever that changes.
const CHANGED: &str = "taperwright-offline";
/// Asks for the newer version.
const TAKE: &str = "taperwright-take";
/// Where a maker may be in the middle of something: a field that has the keyboard, a value that was not understood, a dialog.
const AT_WORK: &str = "input[type=text]:focus, input[type=date]:focus, textarea:focus, select:focus, \
                       [aria-invalid=true], dialog[open]";

/// How it stands.
pub(crate) fn now() -> Offline {
    let state = root().and_then(|root| root.get_attribute(STATE));
    match state.as_deref() {
        Some("coming") => Offline::Coming,
        Some("ready") => Offline::Ready,
        Some("newer") => Offline::Newer,
        Some("taken") => Offline::Taken,
        _ => Offline::Nothing,
    }
}

/// Calls back whenever it stands otherwise, until the component goes.
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

/// Asks for the newer version; that it is taken is then told to every tab.
pub(crate) fn take() {
    if let (Some(root), Ok(event)) = (root(), Event::new(TAKE)) {
        // Its listener prevents nothing.
        let _ = root.dispatch_event(&event);
    }
}

/// Whether the maker is in the middle of something that only the page's elements know of.
pub(crate) fn is_at_work() -> bool {
    let found = document().query_selector(AT_WORK);
    found.is_ok_and(|found| found.is_some())
}

/// Loads the page anew, with the newest version there is.
pub(crate) fn reload() {
    // A browser that refuses goes on with the version it has.
    let _ = window().location().reload();
}

fn root() -> Option<Element> {
    document().document_element()
}
