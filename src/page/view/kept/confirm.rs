//! Deleting for good, after a question.

use leptos::prelude::*;

/// A button that asks, before anything is deleted for good, whether that is meant.
#[component]
pub(super) fn DeleteForGood(
    /// A key for tests; that of the two answers is made from it.
    action: &'static str,
    /// What the button says.
    label: &'static str,
    /// The question.
    #[prop(into)]
    question: Signal<String>,
    /// Deletes.
    #[prop(into)]
    delete: Callback<()>,
) -> impl IntoView {
    let is_asking = RwSignal::new(false);
    let sure = move |_| {
        is_asking.set(false);
        delete.run(());
    };
    view! {
        <Show
            when=move || is_asking.get()
            fallback=move || view! { <button data-action=action on:click=move |_| is_asking.set(true)>{label}</button> }
        >
            <span>{question}</span>
            <button class="danger" data-action=format!("{action}-sure") on:click=sure>"Delete permanently"</button>
            <button data-action=format!("{action}-no") on:click=move |_| is_asking.set(false)>"No"</button>
        </Show>
    }
}
