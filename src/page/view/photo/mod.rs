//! Measure a braid from a photo, a sheet: a picture is taken, chosen, pasted or dropped; the reader beside the page looks for the
//! braid in it; and what it finds is written where the sheet was opened from.

mod button;
mod choose;
mod evenness;
mod handles;
mod link;
mod picture;
mod scale;
mod state;
mod task;
mod threads;
mod use_it;
mod verdict;

use leptos::prelude::*;

use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use super::terms::TermLine;
use crate::paper::terms::Term;
use crate::paper::words::photo as words;
use state::PhotoState;

pub(crate) use button::PhotoButton;
pub(crate) use link::{PhotoLink, photo_link};
pub(crate) use task::{PhotoTask, Taken};

/// Words the sheet uses.
const TERMS: [Term; 4] = [Term::Angle, Term::Crossing, Term::Rib, Term::Spread];

/// The sheet.
#[component]
pub(crate) fn PhotoSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Photo><Measure /></Sheet> }
}

#[component]
fn Measure() -> impl IntoView {
    let link = photo_link();
    let task = link.begun();
    let aim = task.aim;
    let state = PhotoState::new(task.diameter, task.threads());
    link.show(state);
    let task = StoredValue::new(task);
    let has_picture = Memo::new(move |_| state.picture.with(Option::is_some));
    let is_read = Memo::new(move |_| state.reading.with(Option::is_some));
    let is_measured = Memo::new(move |_| state.with_reading(|_| ()).is_some());
    view! {
        <article class="photo" data-photo-for=aim.key()>
            <choose::ChoosePicture state aim />
            <Show when=move || has_picture.get()><picture::Picture state /></Show>
            <Show when=move || is_read.get()><verdict::Verdict state task /></Show>
            <Show when=move || is_read.get()><threads::Threads state /></Show>
            <Show when=move || is_measured.get()>
                <scale::Scale state />
                <use_it::UseIt state task />
                <evenness::Evenness state />
            </Show>
            <How />
            <TermLine of=&TERMS />
        </article>
    }
}

/// How it is measured.
#[component]
fn How() -> impl IntoView {
    let sentence = |words: &'static str| view! { <p>{words}</p> };
    view! {
        <details class="finer card">
            <summary>"How this is measured"</summary>
            {words::HOW.map(sentence).into_iter().collect_view()}
        </details>
    }
}
