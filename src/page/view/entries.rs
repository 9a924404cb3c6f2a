//! What is typed on a part of the page and not yet used, and what was asked there and not yet answered. No button of that part
//! acts before it is settled: what stays open is shown instead, so that nothing typed is thrown away unseen.
//!
//! That a typed text is taken as soon as something else is pressed is the work of
//! [`text_input::commit_before_presses`](crate::page::browser::text_input::commit_before_presses); what then is still open was
//! refused, or asks something.

use leptos::context::Provider;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// Something that may stand open on a part of the page.
#[derive(Clone, Copy)]
pub(crate) struct Entry {
    /// Whether it does.
    pub(crate) is_open: Callback<(), bool>,
    /// Shows it to the maker.
    pub(crate) show: Callback<()>,
}

/// All that may stand open on a part of the page.
#[derive(Clone, Copy)]
pub(crate) struct Entries(StoredValue<Vec<(usize, Entry)>>);

impl Entries {
    pub(crate) fn new() -> Self {
        Self(StoredValue::new(Vec::new()))
    }

    /// Adds one, until the component that asks for it is disposed of.
    pub(crate) fn add(self, entry: Entry) {
        let number = self.0.try_update_value(|all| {
            let number = all.last().map_or(0, |(last, _)| last + 1);
            all.push((number, entry));
            number
        });
        on_cleanup(move || {
            self.0
                .try_update_value(|all| all.retain(|(other, _)| Some(*other) != number));
        });
    }

    /// Whether nothing stands open here; else the first that does is shown.
    pub(crate) fn are_settled(self) -> bool {
        let all = self.0.get_value();
        let open = all.iter().find(|(_, entry)| entry.is_open.run(()));
        if let Some((_, open)) = open {
            open.show.run(());
        }
        open.is_none()
    }

    /// A button here is about to be pressed: where something stands open the press ends here.
    fn before_press(self, event: &MouseEvent) {
        if is_of_button(event) && !self.are_settled() {
            event.stop_propagation();
            event.prevent_default();
        }
    }
}

/// A part of the page whose buttons wait for what stands open in it. Those that answer it stand inside an element with the
/// attribute `data-answers`.
#[component]
pub(crate) fn EntryGroup(entries: Entries, children: Children) -> impl IntoView {
    view! {
        <div class="entry-group" on:click:capture=move |event| entries.before_press(&event)>
            <Provider value=entries>{children()}</Provider>
        </div>
    }
}

/// Whether a button is pressed that does not answer what stands open.
fn is_of_button(event: &MouseEvent) -> bool {
    let target = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    let is_inside = |selector| {
        let around = target
            .as_ref()
            .and_then(|target| target.closest(selector).ok());
        around.flatten().is_some()
    };
    is_inside("button") && !is_inside("[data-answers]")
}
