//! Opening a file.

use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::HtmlInputElement;

use crate::page::browser::files;

/// A file input under a label that looks like the buttons beside it.
#[component]
pub(crate) fn OpenFile(
    /// What it says.
    label: &'static str,
    /// A key for tests.
    action: &'static str,
    /// Largest file read, in bytes.
    largest: usize,
    /// What the browser offers to choose, as the attribute `accept` has it.
    #[prop(optional)]
    accepts: Option<&'static str>,
    /// Takes the text of the file; `None` where it is larger.
    take: Callback<Option<String>>,
    /// Takes the reason for a failure.
    tell: Callback<String>,
) -> impl IntoView {
    let open = move |input: HtmlInputElement| {
        let Some(chosen) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        if chosen.size() > largest as f64 {
            return take.run(None);
        }
        spawn_local(async move {
            let text = files::text(&chosen).await;
            // The same file chosen again must count as a change.
            input.set_value("");
            match text {
                Some(text) => take.run(Some(text)),
                None => tell.run("The browser could not read the file.".to_owned()),
            }
        });
    };
    view! {
        <label class="button">
            {label}
            <input
                type="file"
                accept=accepts.unwrap_or(".json,application/json")
                data-action=action
                on:change:target=move |event| open(event.target())
            />
        </label>
    }
}
