//! At the first visit: one sentence and a hand that shows the drag. It leaves with the first change, or when it is closed.

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::icon::{Glyph, Icon};
use super::places::places;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use crate::page::browser::storage::{keep_hint, preference};
use crate::page::places::Place;

/// Key under which it is stored that the hint was seen.
const INTRO_KEY: &str = "taperwright/intro";
/// What is stored there.
const DONE: &str = "done";

/// Whether the hint is shown.
#[derive(Clone, Copy)]
pub(crate) struct Intro {
    is_shown: RwSignal<bool>,
}

impl Intro {
    /// Shown until the first change or until it is closed, also at later visits.
    pub(super) fn open(bench: Bench) -> Self {
        let kept = preference(INTRO_KEY);
        let intro = Self {
            is_shown: RwSignal::new(kept.as_deref() != Some(DONE)),
        };
        Effect::watch(
            move || bench.settled.track(),
            move |(), _, _| intro.close(),
            false,
        );
        intro
    }

    fn close(self) {
        if self.is_shown.get_untracked() {
            self.is_shown.set(false);
            keep_hint(INTRO_KEY, DONE);
        }
    }
}

/// The hint.
#[component]
pub(crate) fn Hint() -> impl IntoView {
    let (intro, bench) = (expect_context::<Intro>(), bench());
    let is_dragged = Memo::new(move |_| bench.drag.with(Option::is_some));
    view! {
        <Show when=move || intro.is_shown.get()>
            <div class="intro" class:still=is_dragged data-intro="" role="note">
                <svg class="hand" viewBox="0 0 48 48" width="48" height="48" aria-hidden="true">
                    <path class="way" d="M12 26V6M8 10L12 5L16 10M12 38v4" />
                    <circle class="dot" cx="12" cy="26" r="6" />
                    <path class="palm" d="M14 28c0-3 4-3 4 0v-2M18 27c0-3 4-3 4 0M22 27c0-3 4-3 4 0M26 28c0-3 4-2 4 1v7c0 5-3 9-8 9s-7-2-9-5l-4-6c-1-3 2-4 4-2l2 2V22c0-3 4-3 4 0v6" />
                </svg>
                <div class="step-buttons">
                    <p>"Drag a ring to shape the line. Its class changes with it."</p>
                    <SheetButton kind=SheetKind::Questions>"Your workshop"</SheetButton>
                </div>
                <button class="plain" data-action="intro-done" aria-label="Close this hint" on:click=move |_| intro.close()><Glyph icon=Icon::Close /></button>
            </div>
        </Show>
    }
}

/// Brings the hint back.
#[component]
pub(crate) fn Again() -> impl IntoView {
    let (intro, places) = (expect_context::<Intro>(), places());
    let show = move |_| {
        places.go(Place::Draw);
        intro.is_shown.set(true);
    };
    view! { <p><button data-action="intro-again" on:click=show>"Show the first hint again"</button></p> }
}
