//! The bin: lines, measured lines and workshops to restore, or to delete for good.

use leptos::prelude::*;

use super::confirm::DeleteForGood;
use super::shelf_view::{ShelfView, shelf_view};
use super::stored_work::StoredWork;
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::shelf::{SeenRevision, ShelfEntry};
use crate::measured::MeasuredLine;

/// The bin, when anything is in it.
#[component]
pub(super) fn Bin() -> impl IntoView {
    let shelf_view = shelf_view();
    let lines = Memo::new(move |_| binned(&shelf_view.lines.read()));
    let books = Memo::new(move |_| binned(&shelf_view.books.read()));
    let measured = Memo::new(move |_| binned(&shelf_view.measured.read()));
    let count =
        Memo::new(move |_| lines.with(Vec::len) + books.with(Vec::len) + measured.with(Vec::len));
    let empty = move |()| {
        shelf_view.empty_bin(
            &seen(&lines.read_untracked()),
            &seen(&books.read_untracked()),
            &seen(&measured.read_untracked()),
        );
    };
    view! {
        <Show when=move || { count.get() > 0 }>
            <section class="kept-bin" aria-label="Bin">
                <details class="finer">
                    <summary>{move || format!("Bin ({})", count.get())}</summary>
                    <div class="more">
                        <p class="hint">"Nothing here is deleted by itself. Restore what you still want."</p>
                        <ul class="kept-list">
                            {move || lines.get().into_iter().map(|entry| row::<Design>(shelf_view, entry)).collect_view()}
                            {move || books.get().into_iter().map(|entry| row::<Workshop>(shelf_view, entry)).collect_view()}
                            {move || measured.get().into_iter().map(|entry| row::<MeasuredLine>(shelf_view, entry)).collect_view()}
                        </ul>
                        <div class="step-buttons">
                            <DeleteForGood
                                action="empty-bin"
                                label="Empty the bin"
                                question=Signal::derive(move || format!("Delete {} permanently? You cannot undo this.", count.get()))
                                delete=empty
                            />
                        </div>
                    </div>
                </details>
            </section>
        </Show>
    }
}

fn binned(entries: &[ShelfEntry]) -> Vec<ShelfEntry> {
    let binned = entries.iter().filter(|entry| entry.is_binned);
    binned.cloned().collect()
}

fn seen(entries: &[ShelfEntry]) -> Vec<SeenRevision> {
    entries.iter().filter_map(|entry| entry.seen).collect()
}

fn row<T: StoredWork>(shelf_view: ShelfView, entry: ShelfEntry) -> AnyView {
    let number = entry.number;
    let title = entry.title::<T>().unwrap_or(T::UNNAMED).to_owned();
    let back = move |_| shelf_view.restore::<T>(number, false);
    let label = format!("Restore: {title}");
    view! {
        <li class="binned" data-number=number.to_string()>
            <span>{format!("{title}, a {}", T::WORD)}</span>
            <button data-action="restore" aria-label=label on:click=back>"Restore"</button>
        </li>
    }
    .into_any()
}
