//! The look of the page: stored in this browser, and set on the document before the page is painted. Until the program has
//! loaded, `boot.js` has set it.

use leptos::prelude::*;

use super::bench::bench;
use super::field::options;
use crate::base::choice::Choice;
use crate::page::browser::storage::preference;
use crate::page::looks::Look;

/// Key under which the reader's look is kept.
const LOOK_KEY: &str = "taperwright/look";
/// The attribute of the document that selects the colours.
const ATTRIBUTE: &str = "data-look";

/// The look kept at an earlier visit.
fn kept() -> Look {
    let key = preference(LOOK_KEY);
    key.and_then(|key| Look::from_key(&key)).unwrap_or_default()
}

/// Puts on the look of an earlier visit.
pub(super) fn put_on_kept() {
    put_on(kept());
}

fn put_on(look: Look) {
    if let Some(document) = document().document_element() {
        // Refused only for a name that is none.
        let _ = document.set_attribute(ATTRIBUTE, look.key());
    }
}

/// Light, dark, bright, or as the device has it.
#[component]
pub(crate) fn LookChoice() -> impl IntoView {
    let bench = bench();
    let look = RwSignal::new(kept());
    let choose = move |key: String| {
        let Some(chosen) = Look::from_key(&key) else {
            return;
        };
        look.set(chosen);
        put_on(chosen);
        bench.keep_preference(LOOK_KEY, chosen.key());
    };
    view! {
        <label class="choice">
            <span>"Look"</span>
            <select
                data-action="look"
                prop:value=move || look.get().key()
                on:change:target=move |event| choose(event.target().value())
            >
                {options::<Look>(look.into())}
            </select>
        </label>
    }
}
