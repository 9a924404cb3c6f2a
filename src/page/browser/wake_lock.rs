//! Keeping the screen awake, where the browser can.

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A screen kept awake; let go, it may sleep again.
#[derive(Clone, Debug)]
pub(crate) struct WakeLock(JsValue);

/// Why the screen may sleep.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum WakeLockError {
    /// The browser knows no way.
    Unsupported,
    /// It knows one and will not: battery saving, or a page out of sight.
    Refused,
}

/// Asks for a screen that stays awake. It lasts until the page is left or put out of sight, then it has to be asked again.
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
            // One already let go by the browser is what was wished for.
            let _ = release.call0(&self.0);
        }
    }
}
