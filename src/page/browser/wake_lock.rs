//! Keeping the screen awake, where the browser can (W3C Screen Wake Lock).

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A screen that is kept awake until [`WakeLock::release`].
#[derive(Clone, Debug)]
pub(crate) struct WakeLock(JsValue);

/// Why the screen may sleep.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum WakeLockError {
    /// The browser has no such function.
    Unsupported,
    /// It refuses: battery saving, or a hidden page.
    Refused,
}

/// Asks for a screen that stays awake. It lasts until the page is left or hidden; then ask again.
pub(crate) async fn request_wake_lock() -> Result<WakeLock, WakeLockError> {
    let navigator: JsValue = window().navigator().into();
    let lock =
        Reflect::get(&navigator, &"wakeLock".into()).map_err(|_| WakeLockError::Unsupported)?;
    let request = Reflect::get(&lock, &"request".into()).map_err(|_| WakeLockError::Unsupported)?;
    let request: Function = request.dyn_into().map_err(|_| WakeLockError::Unsupported)?;
    let promise = request
        .call1(&lock, &"screen".into())
        .map_err(|_| WakeLockError::Refused)?;
    let promise: Promise = promise.dyn_into().map_err(|_| WakeLockError::Refused)?;
    let kept = JsFuture::from(promise).await;
    kept.map(WakeLock).map_err(|_| WakeLockError::Refused)
}

impl WakeLock {
    /// Lets the screen sleep again.
    pub(crate) fn release(&self) {
        let release = Reflect::get(&self.0, &"release".into()).ok();
        if let Some(release) = release.and_then(|it| it.dyn_into::<Function>().ok()) {
            // Where the browser has released it already, nothing is left to do.
            let _ = release.call0(&self.0);
        }
    }
}
