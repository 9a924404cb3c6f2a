//! What is wrong with what was entered, said below its field.

use std::cell::Cell;

use leptos::prelude::*;

thread_local! {
    /// How many there were on this page: each has an id of its own.
    static COUNT: Cell<u32> = const { Cell::new(0) };
}

/// The error of one field, if there is one. The field names it by [`FieldError::described_by`], so that it is read out with the field.
#[derive(Clone, Copy)]
pub(crate) struct FieldError {
    words: RwSignal<Option<String>>,
    id: u32,
}

impl FieldError {
    /// None yet.
    pub(crate) fn none() -> Self {
        let id = COUNT.get();
        COUNT.set(id + 1);
        Self {
            words: RwSignal::new(None),
            id,
        }
    }

    /// Says what is wrong, or that nothing is any more.
    pub(crate) fn set(self, words: Option<String>) {
        self.words.set(words);
    }

    /// Whether something is wrong.
    pub(crate) fn is_there(self) -> bool {
        self.words.with(Option::is_some)
    }

    /// For `aria-invalid`.
    pub(crate) fn invalid(self) -> &'static str {
        if self.is_there() { "true" } else { "false" }
    }

    /// For `aria-describedby`.
    pub(crate) fn described_by(self) -> Option<String> {
        self.is_there().then(|| self.name())
    }

    /// The words, where there are some.
    pub(crate) fn shown(self) -> impl IntoView {
        let words = move |words| view! { <p class="said" role="alert" id=self.name()>{words}</p> };
        move || self.words.get().map(words)
    }

    fn name(self) -> String {
        format!("field-error-{}", self.id)
    }
}
