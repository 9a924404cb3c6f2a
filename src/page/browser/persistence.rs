//! Storage that the browser does not delete by itself when the device runs short of room (WHATWG Storage Standard,
//! section 4, "Persistence permission"), or when a page was not visited for a week.

use core::cell::Cell;

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

thread_local! {
    /// Whether this page has asked already: some browsers put the question to the maker each time.
    static ASKED: Cell<bool> = const { Cell::new(false) };
}

/// Asks the browser to keep what is stored here until the maker clears it away, once in the life of a page and only where
/// it does not yet. Browsers decide by themselves, or ask the maker.
pub(crate) fn request() {
    if !ASKED.replace(true) {
        spawn_local(async {
            if is_granted().await != Some(true) {
                // The answer is not needed here: where it is shown it is asked for again.
                let _ = answer("persist").await;
            }
        });
    }
}

/// Whether it does; `None` where the browser does not say.
pub(crate) async fn is_granted() -> Option<bool> {
    answer("persisted").await
}

/// Whether this browser deletes what a page stores after seven days without a visit: Safari is said to, unless the page is on
/// the home screen. From memory; no standard says so.
pub(crate) fn is_deleted_after_a_week() -> bool {
    let navigator = window().navigator();
    let property = |name: &str| Reflect::get(&navigator, &name.into()).ok();
    let vendor = property("vendor").and_then(|vendor| vendor.as_string());
    let is_webkit = vendor.is_some_and(|vendor| vendor.starts_with("Apple"));
    let is_installed = property("standalone").is_some_and(|it| it.is_truthy())
        || window()
            .match_media("(display-mode: standalone)")
            .is_ok_and(|found| found.is_some_and(|found| found.matches()));
    is_webkit && !is_installed
}

async fn answer(question: &str) -> Option<bool> {
    let promise = asked(question).ok()?;
    JsFuture::from(promise).await.ok()?.as_bool()
}

fn asked(question: &str) -> Result<Promise, JsValue> {
    let storage = Reflect::get(&window().navigator(), &"storage".into())?;
    let function: Function = Reflect::get(&storage, &question.into())?.dyn_into()?;
    function.call0(&storage)?.dyn_into()
}
