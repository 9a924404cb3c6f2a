//! Getting a picture: from the camera, from a file, or pasted.

use leptos::ev;
use leptos::prelude::*;
use web_sys::{ClipboardEvent, Event, HtmlInputElement};

use super::state::{PhotoState, Work};
use crate::page::browser::clipboard;
use crate::page::browser::text_input::is_typed_in;
use crate::page::view::window_events::on_window;
use crate::paper::words::photo::{self as words, PhotoAim};

/// The ways to a picture, how to take a good one, and how far the reader is.
#[component]
pub(super) fn ChoosePicture(state: PhotoState, aim: PhotoAim) -> impl IntoView {
    on_window(ev::paste, move |event| pasted(state, &event));
    let has_picture = Memo::new(move |_| state.picture.with(Option::is_some));
    let hints = move || {
        let hint = |words: &'static str| view! { <li>{words}</li> };
        (!has_picture.get())
            .then(|| view! { <ul class="photo-hints">{words::HINTS.map(hint)}</ul> })
    };
    // A second picture is taken at the same machine.
    let stop_first =
        (aim == PhotoAim::Check).then(|| view! { <p class="stop-first">{words::STOP_FIRST}</p> });
    let status = move || match state.work.get() {
        Work::Coming => words::LOOKING.to_owned(),
        Work::None | Work::Broken => state.said.get(),
    };
    let is_broken = Memo::new(move |_| state.work.get() == Work::Broken);
    view! {
        <section class="card" aria-label="Picture">
            {stop_first}
            {hints}
            <div class="photo-sources">
                <PictureInput state label="Take a photo" action="photo-camera" is_camera=true />
                <PictureInput state label="Choose a picture" action="photo" is_camera=false />
            </div>
            <p class="hint">{words::STAYS_HERE}" You can also drop or paste one here."</p>
            <p class="photo-status" role="status" data-photo-work=move || state.work.get().key()>{status}</p>
            <Show when=move || is_broken.get()>
                <p class="said" role="alert">{words::BROKEN}</p>
                <button class="main" data-action="photo-again" on:click=move |_| state.try_again()>"Try again"</button>
            </Show>
        </section>
    }
}

impl Work {
    const fn key(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Coming => "coming",
            Self::Broken => "broken",
        }
    }
}

/// A file input under a label that looks like a large button.
#[component]
fn PictureInput(
    state: PhotoState,
    label: &'static str,
    action: &'static str,
    is_camera: bool,
) -> impl IntoView {
    let choose = move |input: HtmlInputElement| {
        match input.files().and_then(|files| files.get(0)) {
            Some(file) => state.open(&file),
            None => nothing_chosen(state),
        }
        // The same file chosen again must count as a change.
        input.set_value("");
    };
    view! {
        <label class="button">
            {label}
            <input
                type="file"
                accept="image/*"
                capture=is_camera.then_some("environment")
                data-action=action
                on:change:target=move |event| choose(event.target())
                on:cancel=move |_: Event| nothing_chosen(state)
            />
        </label>
    }
}

/// Whatever is shown stays.
fn nothing_chosen(state: PhotoState) {
    state.said.set(words::NONE_CHOSEN.to_owned());
}

/// A picture in the clipboard is measured; a text is a field's own.
fn pasted(state: PhotoState, event: &ClipboardEvent) {
    if let Some(file) = clipboard::file(event) {
        event.prevent_default();
        return state.open(&file);
    }
    let is_text = event.target().is_some_and(|target| is_typed_in(&target));
    if !is_text {
        state.said.set(words::NONE_PASTED.to_owned());
    }
}
