//! What watches an element for as long as the component is there that asked for it.

use js_sys::Array;
use leptos::prelude::*;
use wasm_bindgen::closure::Closure;

/// What an observer calls, with all that it saw since the last time.
pub(super) type Callback = Closure<dyn FnMut(Array)>;

/// Keeps an observer, and what it calls, until the component goes; then it is to stop.
pub(super) fn keep<Observer: 'static>(observer: Observer, callback: Callback, stop: fn(&Observer)) {
    let kept = StoredValue::new_local((observer, callback));
    on_cleanup(move || {
        kept.try_with_value(|(observer, _)| stop(observer));
    });
}
