//! The copy of the page for use without a connection, as the maker sees it: that it works offline stands in the menu; that a newer
//! version is ready, or did not open here, is a message. The newer version is offered, never forced.
//!
//! Accepted in one tab, each tab reloads when nothing would be lost or interrupted: no drag or other change under way, no sheet
//! or dialog open, nothing typed that is not entered, the line stored somewhere. Until then it runs on as it is.

use core::time::Duration;

use leptos::prelude::*;

use super::bench::{Bench, StorageState, bench};
use crate::page::browser::address;
use crate::page::browser::updates::{self, Offline};

/// Pause between two checks whether the maker has finished: short enough to seem immediate, and nothing to a battery.
const PAUSE: Duration = Duration::from_millis(500);

/// The state of the copy, for the page.
#[derive(Clone, Copy)]
pub(crate) struct OfflineCopy {
    state: RwSignal<Offline>,
    /// A press is about this page, not about the other tabs.
    is_pressed: StoredValue<bool>,
}

impl OfflineCopy {
    /// Follows the copy for as long as the page lives.
    pub(crate) fn follow(bench: Bench) -> Self {
        let copy = Self {
            state: RwSignal::new(updates::now()),
            is_pressed: StoredValue::new(false),
        };
        updates::watch(move |now| {
            copy.state.set(now);
            if now == Offline::Taken {
                follow(bench, copy.is_pressed);
            }
        });
        copy
    }

    fn take(self, bench: Bench) {
        if is_kept_nowhere(bench) {
            bench.say(
                "This line is not saved anywhere. Save it as a file before you use the new version."
                    .to_owned(),
            );
            return;
        }
        self.is_pressed.set_value(true);
        updates::take();
    }
}

/// In the menu: whether the page works offline.
#[component]
pub(crate) fn OfflineLine() -> impl IntoView {
    let copy = expect_context::<OfflineCopy>();
    let words = move || match copy.state.get() {
        Offline::Coming => {
            Some("Preparing to work offline: please leave this page open for a moment.")
        }
        Offline::Ready => Some("Works offline on this device."),
        _ => None,
    };
    view! { {move || words().map(|words| view! { <p class="quiet" data-said="offline">{words}</p> })} }
}

/// Among the messages: a newer version is ready.
#[component]
pub(crate) fn Updates() -> impl IntoView {
    let bench = bench();
    let copy = expect_context::<OfflineCopy>();
    let is_closed = RwSignal::new(false);
    let words = move || match copy.state.get() {
        Offline::Newer => {
            Some("A new version is ready. It installs when you next open this page, or now.")
        }
        Offline::Taken => {
            Some("A new version is ready. It installs when you have finished your entry, or now.")
        }
        Offline::Older => Some(
            "A new version did not open on this device, so this is the version before. The new one is tried again tomorrow.",
        ),
        _ => None,
    };
    let is_there = move || !is_closed.get() && words().is_some();
    let is_offered = move || copy.state.get() != Offline::Older;
    view! {
        <div role="status">
            <Show when=is_there>
                <p class="message">
                    <span>{words}</span>
                    <Show when=is_offered>
                        <button data-action="use-newer" on:click=move |_| copy.take(bench)>"Update now"</button>
                    </Show>
                    <button data-action="newer-close" on:click=move |_| is_closed.set(true)>"Close"</button>
                </p>
            </Show>
        </div>
    }
}

/// Loads the newer version as soon as nothing would be lost or interrupted by it.
fn follow(bench: Bench, is_pressed: StoredValue<bool>) {
    let may_go = is_pressed.get_value() || is_steady(bench);
    if may_go && !is_kept_nowhere(bench) && !is_under_a_hand(bench) {
        updates::reload();
    } else {
        set_timeout(move || follow(bench, is_pressed), PAUSE);
    }
}

/// Nothing is open that would be closed, nothing typed that would be lost.
fn is_steady(bench: Bench) -> bool {
    // A line that came by the address comes by it again; one that was dropped on the page does not.
    let is_fleeting = bench
        .storage_state
        .with_untracked(|storage_state| *storage_state == StorageState::Preview)
        && !address::carries_design();
    bench.sheet.with_untracked(Option::is_none) && !is_fleeting && !updates::is_at_work()
}

/// A change is under way.
fn is_under_a_hand(bench: Bench) -> bool {
    bench.drag.with_untracked(Option::is_some)
        || bench
            .design
            .with_untracked(|now| bench.settled.with_untracked(|settled| now != settled))
}

/// Only this page has the line.
fn is_kept_nowhere(bench: Bench) -> bool {
    bench.storage_state.with_untracked(|storage_state| {
        matches!(storage_state, StorageState::Unkept { filed: false, .. })
    })
}
