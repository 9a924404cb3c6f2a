//! Whether an element lies in the window, or nearly so.

use js_sys::Array;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, IntersectionObserver, IntersectionObserverEntry, IntersectionObserverInit};

/// How far outside the window still counts, so that what is scrolled in is right before it is seen.
const AROUND: &str = "200px";

/// Calls back with whether the element lies in the window or near it: soon after this, and whenever that changes, until the
/// component goes. A browser that cannot tell calls nothing.
pub(crate) fn watch(element: &Element, on_sight: impl Fn(bool) + 'static) {
    let callback = Closure::<dyn FnMut(Array)>::new(move |entries: Array| {
        // Of several changes at once the last one counts.
        let newest = entries.pop().dyn_into::<IntersectionObserverEntry>();
        if let Ok(entry) = newest {
            on_sight(entry.is_intersecting());
        }
    });
    let options = IntersectionObserverInit::new();
    options.set_root_margin(AROUND);
    let observer =
        IntersectionObserver::new_with_options(callback.as_ref().unchecked_ref(), &options);
    let Ok(observer) = observer else {
        return;
    };
    observer.observe(element);
    // The callback must live as long as the observer that calls it.
    let kept = StoredValue::new_local((observer, callback));
    on_cleanup(move || {
        kept.try_with_value(|(observer, _)| observer.disconnect());
    });
}
