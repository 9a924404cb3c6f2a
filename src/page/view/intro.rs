//! How to begin, in three steps above the chart, until the reader dismisses them.

use leptos::prelude::*;

use super::bench::bench;
use super::scroll::scroll_to;
use crate::page::browser::focus::focus_first;
use crate::page::browser::storage::preference;

/// Key under which it is stored that the steps were dismissed.
const INTRO_KEY: &str = "taperwright/intro";
/// What is stored there.
const DONE: &str = "done";
/// The steps' own element.
const ID: &str = "intro";

/// The steps. In place of the bar, the first shows a ring as the drawing has them.
const STEPS: [&str; 3] = [
    "Take hold of a ring | on the drawing and drag it: the line takes that shape.",
    "Class, threads, gear and weight follow. Type exact values below the drawing.",
    "Print the card, share a link or a file. All is kept in this browser only.",
];

/// Whether the steps are shown, and which.
#[derive(Clone, Copy)]
pub(crate) struct Intro {
    shown: RwSignal<bool>,
    step: RwSignal<usize>,
}

impl Intro {
    /// Shown until dismissed, also at later visits.
    pub(super) fn open() -> Self {
        let kept = preference(INTRO_KEY);
        Self {
            shown: RwSignal::new(kept.as_deref() != Some(DONE)),
            step: RwSignal::new(0),
        }
    }

    fn turn(self, by: isize) {
        self.step.update(|step| {
            *step = step.saturating_add_signed(by).min(STEPS.len() - 1);
        });
    }

    /// Shows the steps again from the first, scrolls to them and focuses them.
    fn again(self) {
        self.step.set(0);
        self.shown.set(true);
        request_animation_frame(|| {
            scroll_to(ID);
            focus_first(&[format!("#{ID} [data-action='intro-next']")]);
        });
    }
}

/// The steps.
#[component]
pub(crate) fn Steps() -> impl IntoView {
    let (bench, intro) = (bench(), expect_context::<Intro>());
    let done = move |_| {
        intro.shown.set(false);
        bench.keep_preference(INTRO_KEY, DONE);
    };
    let is_first = move || intro.step.get() == 0;
    let is_last = move || intro.step.get() + 1 == STEPS.len();
    // A button that is at its end stays where it is and keeps the focus.
    view! {
        <Show when=move || intro.shown.get()>
            <section class="intro" id=ID aria-label="How to begin">
                <p aria-live="polite">{move || words(intro.step.get())}</p>
                <button data-action="intro-back" aria-disabled=move || is_first().to_string() on:click=move |_| intro.turn(-1)>"Back"</button>
                <button data-action="intro-next" aria-disabled=move || is_last().to_string() on:click=move |_| intro.turn(1)>"Next"</button>
                <button data-action="intro-done" on:click=done>"Got it, never again"</button>
            </section>
        </Show>
    }
}

fn words(step: usize) -> impl IntoView {
    let text = STEPS[step];
    let (before, behind) = text.split_once('|').unwrap_or((text, ""));
    let ring = text.contains('|').then(|| {
        view! { <svg class="handle" aria-hidden="true" viewBox="0 0 18 18" width="16" height="16"><circle class="dot" cx="9" cy="9" r="7" /></svg> }
    });
    view! { <b>{step + 1}" of "{STEPS.len()}"."</b>" "{before}{ring}{behind}" " }
}

/// Brings the steps back.
#[component]
pub(crate) fn Again() -> impl IntoView {
    let intro = expect_context::<Intro>();
    view! { <p><button data-action="intro-again" on:click=move |_| intro.again()>"Show the first steps again"</button></p> }
}
