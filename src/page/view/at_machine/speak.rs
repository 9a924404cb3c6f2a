//! The step, spoken by the browser.

use leptos::prelude::*;

use super::session::{Session, session};
use crate::page::browser::voice::VoiceError;
use crate::page::view::icon::{Glyph, Icon};
use crate::paper::words;
use crate::plan::Event;

/// Speaks the step to do now.
pub(super) fn speak_step(session: Session) {
    let positions = untrack(|| session.positions());
    let said = |step: &[Event]| words::spoken_step(step, positions.rollers, positions.units);
    let of_run = session
        .now
        .with_untracked(|now| now.as_ref().map(|now| said(&now.step)));
    // Before the line is started its first step is the one to do.
    let words = of_run.unwrap_or_else(|| {
        session
            .bench
            .settled_plan
            .with_untracked(|plan| said(plan.stops().next().unwrap_or_default()))
    });
    session.clocks.signals.speak(&words);
}

/// A button that speaks the step, again and again; steps are spoken by themselves where the maker wants that.
#[component]
pub(super) fn SpeakStep() -> impl IntoView {
    let session = session();
    let clocks = session.clocks;
    // A new step is spoken when it is shown, not when the page is opened.
    Effect::watch(
        move || session.with_now(|now| now.index),
        move |now, before, _| {
            let is_next = before.is_some_and(|before| before != now) && now.is_some();
            clocks.signals.unspoken.set(None);
            if is_next && clocks.settings.voice.get_untracked() {
                speak_step(session);
            }
        },
        false,
    );
    view! {
        <button class="speak" data-action="speak" on:click=move |_| speak_step(session)>
            <Glyph icon=Icon::Speak />
            <span class="spoken">"Speak this step"</span>
        </button>
    }
}

/// Why nothing was spoken.
#[component]
pub(super) fn Unspoken() -> impl IntoView {
    let unspoken = session().clocks.signals.unspoken;
    let said = move || {
        unspoken.get().map(|why| match why {
            VoiceError::Unsupported => "This browser cannot speak.",
            VoiceError::NeedsConnection => {
                "This device has no voice of its own. Without a connection it cannot speak."
            }
            VoiceError::Failed => "This browser did not speak. Check that its sound is on.",
        })
    };
    move || said().map(|said| view! { <p class="hint" role="status" data-unspoken="">{said}</p> })
}
