//! Where the program runs.

use wasm_bindgen::JsCast;
use web_sys::DedicatedWorkerGlobalScope;

/// The program's own surroundings.
pub(super) fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}
