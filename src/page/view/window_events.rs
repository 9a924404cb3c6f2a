//! Events of the window.

use leptos::ev::EventDescriptor;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// Listens to an event of the window until the component is disposed of.
pub(super) fn on_window<E>(event: E, handle: impl Fn(E::EventType) + 'static)
where
    E: EventDescriptor + 'static,
    E::EventType: JsCast,
{
    let listener = window_event_listener(event, handle);
    on_cleanup(move || listener.remove());
}
