//! The buttons that tick the step, and beside them what went wrong with storing it.
//!
//! They stick to the foot of the sheet, so that nothing moves under the finger.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::focus::{STEP, focus_part, scroll_to_part};
use super::session::session;
use crate::plan::run::Run;

/// Taps on “Done” closer than this to the last one taken are that same tap, in milliseconds. Our own choice: no step is done
/// in less, and a finger that trembles, or a drop of oil, taps sooner.
const SAME_TAP: f64 = 600.0;

/// Done and Back.
#[component]
pub(super) fn Footer() -> impl IntoView {
    let session = session();
    let has_begun = Memo::new(move |_| session.run.with(Option::is_some));
    view! {
        <div class="foot">
            <Trouble />
            <Show when=move || has_begun.get()>
                <Buttons />
            </Show>
        </div>
    }
}

#[component]
fn Buttons() -> impl IntoView {
    let session = session();
    let last_tap = StoredValue::new(f64::NEG_INFINITY);
    let is_done = Memo::new(move |_| session.with_event(|_| ()).is_none());
    let at_start = Memo::new(move |_| {
        session
            .run
            .with(|run| run.as_ref().is_none_or(is_untouched))
    });
    let done = move |event: MouseEvent| {
        let at = event.time_stamp();
        if at - last_tap.get_value() < SAME_TAP {
            return;
        }
        last_tap.set_value(at);
        session.tick();
        if is_done.get_untracked() {
            focus_part(STEP);
        } else {
            scroll_to_part(STEP);
        }
    };
    // Lengths count from the mark at the tip: nobody is to tick the start without it.
    let words = move || {
        if session.is_start() {
            "Tip marked, step done"
        } else {
            "Step done"
        }
    };
    let back = move |_| {
        session.take_back();
        scroll_to_part(STEP);
    };
    view! {
        <div class="big-buttons">
            <button class="huge" class:main=move || session.proposal.with(Option::is_none) data-action="run-done" disabled=move || is_done.get() on:click=done>{words}</button>
            <button class="huge" data-action="run-back" disabled=move || at_start.get() on:click=back>"Undo step"</button>
        </div>
    }
}

/// Whether there is nothing to take back.
fn is_untouched(run: &Run) -> bool {
    run.done == 0 && run.mishaps.is_empty()
}

/// What went wrong with storing a tick, beside the buttons that make it.
#[component]
fn Trouble() -> impl IntoView {
    let session = session();
    let unkept = move || {
        session.current_line.trouble().map(|said| {
            view! {
                <div class="unkept" role="alert">
                    <p><b>"Not saved. "</b>{said}</p>
                    <p>"Ticks are shown on this page only, until saving works again."</p>
                </div>
            }
        })
    };
    let message = move || {
        // Others are shown at the top, and are about something else.
        let message = session.bench.message.get().filter(|it| it.is_unkept);
        message.map(|message| view! { <p class="unkept" role="alert">{message.text}</p> })
    };
    view! { {unkept}{message} }
}
