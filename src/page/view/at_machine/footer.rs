//! The buttons that tick the step, and beside them what went wrong with storing it.
//!
//! They stick to the foot of the sheet, so that nothing moves under the finger.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::focus::{STEP, focus_part, scroll_to_part};
use super::session::session;
use super::taps::Taps;
use crate::page::view::icon::{Glyph, Icon};
use crate::page::view::run_clock::left_words;
use crate::plan::run::Run;

/// The clock, Done and Back.
#[component]
pub(super) fn Footer() -> impl IntoView {
    let session = session();
    let has_begun = Memo::new(move |_| session.run.with(Option::is_some));
    view! {
        <div class="foot">
            <Trouble />
            <Show
                when=move || has_begun.get()
                fallback=|| view! { <FootCountdown /><div class="big-buttons"><ClockButton /></div> }
            >
                <Buttons />
            </Show>
        </div>
    }
}

#[component]
fn Buttons() -> impl IntoView {
    let session = session();
    let taps = Taps::new();
    let is_done = Memo::new(move |_| session.with_event(|_| ()).is_none());
    // Whether the step seems to be ticked too early: then the same button asks once more.
    let asks = RwSignal::new(false);
    Effect::watch(
        move || session.with_now(|now| now.index),
        move |_, _, _| asks.set(false),
        false,
    );
    let early = move || {
        let countdown = session.clocks.countdown.get().filter(|_| asks.get())?;
        Some(format!(
            "By count and clock {:.0} of {:.0} circuits are done. Is the step done all the same? Then press again.",
            countdown.done?.floor(),
            countdown.wanted
        ))
    };
    let at_start = Memo::new(move |_| {
        session
            .run
            .with(|run| run.as_ref().is_none_or(is_untouched))
    });
    let done = move |event: MouseEvent| {
        if !taps.take(&event) {
            return;
        }
        if session.clocks.seems_early() && !asks.get_untracked() {
            asks.set(true);
            return;
        }
        asks.set(false);
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
        {move || early().map(|said| view! { <p class="early" role="alert" data-early="">{said}</p> })}
        <super::setup::OpenRows />
        <FootCountdown />
        <div class="big-buttons">
            <Show when=move || !is_done.get()><ClockButton /></Show>
            <button class="huge" class:main=move || session.proposal.with(Option::is_none) data-action="run-done" disabled=move || is_done.get() on:click=done>{words}</button>
            <button class="huge" data-action="run-back" disabled=move || at_start.get() on:click=back>"Undo step"</button>
        </div>
    }
}

/// How long until the stop, while the machine runs: the step itself may be scrolled away.
#[component]
fn FootCountdown() -> impl IntoView {
    let clocks = session().clocks;
    let words = Memo::new(move |_| {
        let running = clocks.countdown.get().filter(|it| it.is_running)?;
        Some(left_words(&running))
    });
    let is_due = move || {
        let countdown = clocks.countdown.get();
        let is_due = countdown.is_some_and(|it| it.left().is_none_or(|left| left <= 0.0));
        is_due.to_string()
    };
    move || {
        words.get().map(
            |words| view! { <p class="foot-left" data-due=is_due aria-hidden="true">{words}</p> },
        )
    }
}

/// Says that the machine runs, or was stopped.
#[component]
fn ClockButton() -> impl IntoView {
    let session = session();
    let clocks = session.clocks;
    let taps = Taps::new();
    let is_running = Memo::new(move |_| clocks.countdown.get().is_some_and(|it| it.is_running));
    let has_way = Memo::new(move |_| clocks.countdown.get().is_some_and(|it| it.has_way()));
    let toggle = move |event: MouseEvent| {
        if taps.take(&event) {
            // A machine that braids the lead-in has begun the line.
            if session.run.with_untracked(Option::is_none) {
                session.begin();
            }
            clocks.toggle();
        }
    };
    let icon = move || {
        let icon = if is_running.get() {
            Icon::Stop
        } else {
            Icon::Run
        };
        view! { <Glyph icon /> }
    };
    let words = move || {
        if is_running.get() {
            "Machine stopped"
        } else {
            "Machine runs"
        }
    };
    view! {
        <button class="huge run-clock" data-action="run-clock" data-running=move || is_running.get().to_string()
            disabled=move || !has_way.get() && !is_running.get() on:click=toggle>
            {icon}
            <span>{words}</span>
        </button>
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
