//! Sharing through the device (W3C Web Share): to a message, a mail, a device nearby.

use js_sys::{Function, Object, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// How the sharing ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ShareOutcome {
    /// Shared, or cancelled by the person.
    Done,
    /// The device refused.
    Refused,
}

/// The browser's function. Many desktop browsers have none, and no browser has it on an unencrypted page.
fn function() -> Option<Function> {
    let share = Reflect::get(&window().navigator(), &"share".into()).ok()?;
    share.dyn_into().ok()
}

/// Whether the browser can share.
pub(crate) fn is_available() -> bool {
    function().is_some()
}

/// Shares an address with a title. Must be called while a press is handled.
pub(crate) async fn share(title: &str, address: &str) -> ShareOutcome {
    match asked(title, address) {
        Ok(promise) => match JsFuture::from(promise).await {
            Err(error) if !is_abort(&error) => ShareOutcome::Refused,
            _ => ShareOutcome::Done,
        },
        Err(_) => ShareOutcome::Refused,
    }
}

fn asked(title: &str, address: &str) -> Result<Promise, JsValue> {
    let what = Object::new();
    Reflect::set(&what, &"title".into(), &title.into())?;
    Reflect::set(&what, &"url".into(), &address.into())?;
    let share = function().ok_or(JsValue::NULL)?;
    share.call1(&window().navigator(), &what)?.dyn_into()
}

/// Whether the person cancelled.
fn is_abort(error: &JsValue) -> bool {
    let name = Reflect::get(error, &"name".into()).ok();
    name.and_then(|name| name.as_string()).as_deref() == Some("AbortError")
}
