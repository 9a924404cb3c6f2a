//! Keeps the screen awake while the sheet is open.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::page::browser::wake_lock::{WakeLock, WakeLockError, request_wake_lock};
use crate::page::view::window_events::on_window;

/// Keeps the screen awake, again whenever the page becomes visible, and shows when that is refused.
#[component]
pub(super) fn ScreenWakeLock() -> impl IntoView {
    let refused = RwSignal::new(None::<WakeLockError>);
    let kept = StoredValue::new_local(None::<WakeLock>);
    let ask = move || {
        spawn_local(async move {
            let answer = request_wake_lock().await;
            // The sheet may have been closed meanwhile.
            let is_left = refused.try_set(answer.as_ref().err().copied()).is_some();
            match answer {
                Ok(awake) if is_left => awake.release(),
                Ok(awake) => {
                    kept.try_set_value(Some(awake));
                }
                Err(_) => {}
            }
        });
    };
    ask();
    on_window(leptos::ev::visibilitychange, move |_| {
        if !document().hidden() {
            ask();
        }
    });
    on_cleanup(move || {
        kept.try_with_value(|kept| {
            if let Some(awake) = kept {
                awake.release();
            }
        });
    });
    let said = move || {
        refused.get().map(|why| match why {
            WakeLockError::Unsupported => "This browser cannot keep the screen on. Set the device so that it does not sleep.",
            WakeLockError::Refused => "The browser did not keep the screen on, perhaps to save the battery. Set the device so that it does not sleep.",
        })
    };
    view! { <p class="hint" data-awake=move || refused.get().is_none().to_string()>{said}</p> }
}
