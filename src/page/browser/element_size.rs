//! The size of an element as the window is turned or resized.

use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, ResizeObserver};

use super::observer::{self, Callback};

/// Width and height inside its border, in pixels.
pub(crate) fn of(element: &Element) -> (f64, f64) {
    (
        f64::from(element.client_width()),
        f64::from(element.client_height()),
    )
}

/// Calls back with width and height inside its border, in pixels, whenever the element's size changes, until the component is disposed of.
pub(crate) fn watch(element: &Element, on_size: impl Fn((f64, f64)) + 'static) {
    let watched = element.clone();
    let callback = Callback::new(move |_| on_size(of(&watched)));
    let Ok(observer) = ResizeObserver::new(callback.as_ref().unchecked_ref()) else {
        return;
    };
    observer.observe(element);
    observer::keep(observer, callback, ResizeObserver::disconnect);
}

/// Width of an element inside its border, in pixels; `usual` until it is there.
pub(crate) fn width(element: NodeRef<Div>, usual: f64) -> RwSignal<f64> {
    let width = RwSignal::new(usual);
    Effect::new(move |_| {
        if let Some(element) = element.get() {
            width.set(of(&element).0);
            watch(&element, move |(wide, _)| width.set(wide));
        }
    });
    width
}
