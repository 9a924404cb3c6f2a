//! Observers of elements, which live as long as the component that asked for them.

use js_sys::Array;
use leptos::prelude::*;
use wasm_bindgen::closure::Closure;

/// What an observer calls, with everything it saw since the last call.
pub(super) type Callback = Closure<dyn FnMut(Array)>;

/// Keeps an observer and its callback until the component is disposed of, then stops it.
pub(super) fn keep<Observer: 'static>(observer: Observer, callback: Callback, stop: fn(&Observer)) {
    let kept = StoredValue::new_local((observer, callback));
    on_cleanup(move || {
        kept.try_with_value(|(observer, _)| stop(observer));
    });
}
