//! The size of an element as the window is turned or resized.

use js_sys::Array;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};

/// Width and height inside its border, in pixels.
pub(crate) fn of(element: &Element) -> (f64, f64) {
    (
        f64::from(element.client_width()),
        f64::from(element.client_height()),
    )
}

/// Calls back with width and height inside its border, in pixels, whenever the element's size changes, until the component goes.
pub(crate) fn watch(element: &Element, on_size: impl Fn((f64, f64)) + 'static) {
    let watched = element.clone();
    let callback = Closure::<dyn FnMut(Array)>::new(move |_| on_size(of(&watched)));
    let Ok(observer) = ResizeObserver::new(callback.as_ref().unchecked_ref()) else {
        return;
    };
    observer.observe(element);
    // The callback must live as long as the observer that calls it.
    let kept = StoredValue::new_local((observer, callback));
    on_cleanup(move || {
        kept.try_with_value(|(observer, _)| observer.disconnect());
    });
}
