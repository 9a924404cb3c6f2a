//! Whether an element is in the window, or close to it.

use js_sys::Array;
use wasm_bindgen::JsCast;
use web_sys::{Element, IntersectionObserver, IntersectionObserverEntry, IntersectionObserverInit};

use super::observer::{self, Callback};

/// How far outside the window still counts, so that what is scrolled in is right before it is seen.
const AROUND: &str = "200px";

/// Calls back with whether the element is in the window or close to it: soon, and whenever that changes, until the component
/// is disposed of. A browser without the observer never calls.
pub(crate) fn watch(element: &Element, on_sight: impl Fn(bool) + 'static) {
    let callback = Callback::new(move |entries: Array| {
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
    observer::keep(observer, callback, IntersectionObserver::disconnect);
}
