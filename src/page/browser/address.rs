//! The page's address and the browser's history. The fragment of the address names the place shown, or carries a shared design.

use leptos::prelude::window;
use wasm_bindgen::JsValue;

use crate::base::choice::Choice as _;
use crate::keep::share::link;
use crate::page::places::{Entry, Place};

/// The fragment, without its `#`; empty when there is none.
pub(crate) fn fragment() -> String {
    let hash = window().location().hash().unwrap_or_default();
    hash.trim_start_matches('#').to_owned()
}

/// The place that the fragment names, if it names one.
pub(crate) fn place() -> Option<Place> {
    Place::from_key(&fragment())
}

/// The page's address with another fragment.
pub(crate) fn with_fragment(fragment: &str) -> String {
    let href = window().location().href().unwrap_or_default();
    let page = href.split('#').next().unwrap_or_default();
    format!("{page}#{fragment}")
}

/// What the browser's history knows of the page as it is now; nothing where the address was typed or followed.
pub(crate) fn entry() -> Option<Entry> {
    let state = window().history().ok()?.state().ok()?;
    Entry::from_text(&state.as_string()?)
}

/// A step to come back to: what is shown from now on.
pub(crate) fn push(entry: Entry) {
    if let Ok(history) = window().history() {
        // A browser that refuses leaves the address as it was; the page works all the same.
        let _ = history.push_state_with_url(&state_of(entry), "", Some(&address_of(entry.place)));
    }
}

/// Writes what is shown into the step the history stands at.
pub(crate) fn replace(entry: Entry) {
    replace_with(entry, &address_of(entry.place));
}

/// One step back, in a moment.
pub(crate) fn back() {
    if let Ok(history) = window().history() {
        let _ = history.back();
    }
}

/// Takes a shared design out of the address bar, without a step to go back to. The address names the place shown again.
pub(crate) fn forget_design() {
    if !carries_measured() {
        forget_link();
    }
}

/// Does the same with a measured line.
pub(crate) fn forget_measured() {
    if carries_measured() {
        forget_link();
    }
}

fn forget_link() {
    if carries_design() {
        let entry = entry().unwrap_or(Entry::of(Place::default()));
        replace_with(entry, &with_fragment(entry.place.key()));
    }
}

/// Whether the address carries a measured line, whole or not.
pub(crate) fn carries_measured() -> bool {
    link::begins_with(&fragment(), link::MEASURED_PREFIX)
}

/// Whether the address carries more than the name of a place: a design, or what was meant as one.
pub(crate) fn carries_design() -> bool {
    !fragment().is_empty() && place().is_none()
}

fn replace_with(entry: Entry, address: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&state_of(entry), "", Some(address));
    }
}

fn state_of(entry: Entry) -> JsValue {
    JsValue::from_str(&entry.text())
}

/// The address of a place. A design in the address stays there until it is kept or left, so that a reload shows it again.
fn address_of(place: Place) -> String {
    if carries_design() {
        window().location().href().unwrap_or_default()
    } else {
        with_fragment(place.key())
    }
}
