//! Messages that the page is ready without a connection, and that a newer version is there. It is offered, never forced.
//!
//! Accepted in one tab, each tab reloads when nothing would be lost or interrupted: no drag or other change under way, no sheet
//! or dialog open, nothing typed that is not entered, the line stored somewhere. Until then it runs on as it is. The message is
//! with the other messages.

use core::time::Duration;

use leptos::prelude::*;

use super::bench::{Bench, StorageState, bench};
use crate::page::browser::address;
use crate::page::browser::updates::{self, Offline};

/// Pause between two checks whether the maker has finished: short enough to seem immediate, and nothing to a battery.
const PAUSE: Duration = Duration::from_millis(500);

/// Among the messages.
#[component]
pub(crate) fn Updates() -> impl IntoView {
    let bench = bench();
    let state = RwSignal::new(updates::now());
    let is_closed = RwSignal::new(false);
    // A press is about this page, not about the other tabs.
    let is_pressed = StoredValue::new(false);
    updates::watch(move |now| {
        // “Coming” and “ready” are one message, closed together.
        let goes_on = (state.get_untracked(), now) == (Offline::Coming, Offline::Ready);
        is_closed.update(|closed| *closed &= goes_on);
        state.set(now);
        if now == Offline::Taken {
            follow(bench, is_pressed);
        }
    });
    let use_it = move |_| {
        if is_kept_nowhere(bench) {
            bench.say(
                "This line is not saved anywhere. Save it as a file before you use the new version."
                    .to_owned(),
            );
            return;
        }
        is_pressed.set_value(true);
        updates::take();
    };
    let is_newer = move || matches!(state.get(), Offline::Newer | Offline::Taken);
    let is_there = move || !is_closed.get() && state.get() != Offline::Nothing;
    view! {
        <div role="status">
            <Show when=is_there>
                <p class="message">
                    <span>{move || words(state.get())}</span>
                    <Show when=is_newer>
                        <button data-action="use-newer" on:click=use_it>"Update now"</button>
                    </Show>
                    <button data-action="offline-close" on:click=move |_| is_closed.set(true)>"Close"</button>
                </p>
            </Show>
        </div>
    }
}

const fn words(state: Offline) -> &'static str {
    match state {
        Offline::Nothing => "",
        Offline::Coming => "Preparing to work offline: please leave this page open for a moment.",
        Offline::Ready => "Works offline on this device.",
        Offline::Newer => {
            "A new version is ready. It installs when you next open this page, or now."
        }
        Offline::Taken => {
            "A new version is ready. It installs when you have finished your entry, or now."
        }
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
