//! Storage that the browser does not clear away by itself when the device runs short of room (WHATWG Storage Standard,
//! section 4, "Persistence permission").

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

async fn answer(question: &str) -> Option<bool> {
    let promise = asked(question).ok()?;
    JsFuture::from(promise).await.ok()?.as_bool()
}

fn asked(question: &str) -> Result<Promise, JsValue> {
    let storage = Reflect::get(&window().navigator(), &"storage".into())?;
    let function: Function = Reflect::get(&storage, &question.into())?.dyn_into()?;
    function.call0(&storage)?.dyn_into()
}
