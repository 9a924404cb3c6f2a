//! Rows of tables that were not understood. They stay until the maker removes them.

use leptos::prelude::*;

use super::state::open_measured;
use crate::measured::{DraftUnread, MeasuredEdit};

/// The list, while there is any.
#[component]
pub(super) fn UnreadRows() -> impl IntoView {
    let open = open_measured();
    let rows = Memo::new(move |_| open.line.with(|line| line.draft().unread.clone()));
    let count = move || match rows.with(Vec::len) {
        1 => "1 row was not understood".to_owned(),
        count => format!("{count} rows were not understood"),
    };
    view! {
        <Show when=move || rows.with(|rows| !rows.is_empty())>
            <section class="card notices" aria-label="Rows not understood">
                <h3>{count}</h3>
                <ul class="unread-rows">{move || rows.get().into_iter().map(row).collect_view()}</ul>
                <button data-action="forget-unread" on:click=move |_| open.press(MeasuredEdit::ForgetUnread)>
                    "Remove these rows"
                </button>
            </section>
        </Show>
    }
}

fn row(unread: DraftUnread) -> impl IntoView {
    let DraftUnread { row, text, why } = unread;
    view! {
        <li data-unread=row.to_string()>
            <b>{format!("Row {row}: ")}</b>
            <q>{text}</q>
            <span class="facts">{why}</span>
        </li>
    }
}
