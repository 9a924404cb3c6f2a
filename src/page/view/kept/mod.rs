//! Everything kept in this browser: lines, workshops, what lies in the bin, what cannot be read, and all of it as one file. It
//! lies over the bench like the card.

mod backup;
mod bin;
mod books;
mod confirm;
mod line_row;
mod lines;
mod shelf_view;
mod stored_work;
mod unreadable;

use leptos::prelude::*;

use super::bench::bench;
use super::book::open_book;
use super::overlay::Overlay;
use super::overlay_kind::OverlayKind;
use shelf_view::{ShelfView, shelf_view};

pub(crate) use backup::{BackupReminder, import_backup};

/// The sheet of what is kept.
#[component]
pub(crate) fn KeptSheet() -> impl IntoView {
    let bench = bench();
    let is_open = Memo::new(move |_| bench.overlay.get() == Some(OverlayKind::Lines));
    view! {
        <Overlay kind=OverlayKind::Lines label="My lines" has_print=false>
            <Show when=move || is_open.get()>
                <Shelves />
            </Show>
        </Overlay>
    }
}

#[component]
fn Shelves() -> impl IntoView {
    provide_context(ShelfView::open(bench(), open_book()));
    view! {
        <article class="kept">
            <h1>"My lines"</h1>
            <backup::Backup />
            <lines::Lines />
            <books::Books />
            <unreadable::Unreadable />
            <bin::Bin />
            <ActionReport />
        </article>
    }
}

/// What was done last, at the foot of the screen wherever one has scrolled to, and the way back.
#[component]
fn ActionReport() -> impl IntoView {
    let shelf_view = shelf_view();
    let told = move |told: shelf_view::ActionReport| {
        let back = told.back.map(|back| {
            view! { <button class="main" data-action="take-back" on:click=move |_| back.take(shelf_view)>"Take it back"</button> }
        });
        view! {
            <p class="message">
                <span>{told.words}</span>
                {back}
                <button data-action="told-close" on:click=move |_| shelf_view.told.set(None)>"Close"</button>
            </p>
        }
    };
    view! { <div class="kept-told" role="status">{move || shelf_view.told.get().map(told)}</div> }
}
