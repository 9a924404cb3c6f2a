//! What can be done with a workshop or a measured line other than opening it; it gets another name where it is open.

use leptos::prelude::*;

use super::shelf_view::ShelfView;
use super::stored_work::StoredWork;
use crate::keep::shelf::SeenRevision;

/// The two buttons, folded. `actions` are the keys by which tests find them.
pub(super) fn copy_or_delete<T: StoredWork>(
    shelf_view: ShelfView,
    seen: SeenRevision,
    title: String,
    actions: [&'static str; 2],
) -> AnyView {
    let [copy_action, bin_action] = actions;
    let copy = move |_| shelf_view.copy::<T>(seen.number());
    let bin = move |_| shelf_view.bin::<T>(seen, &title);
    view! {
        <details class="finer">
            <summary>"Copy or delete"</summary>
            <div class="more step-buttons">
                <button data-action=copy_action on:click=copy>"Make a copy"</button>
                <button data-action=bin_action on:click=bin>"Delete"</button>
            </div>
        </details>
    }
    .into_any()
}
