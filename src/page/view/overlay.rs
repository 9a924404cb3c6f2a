//! What covers the bench: the card, the printed dressing plan, the bench book, the tag of a finished line, the list of lines.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::bench::bench;
use super::entries::Entries;
use super::overlay_kind::OverlayKind;
use super::window_events::on_window;
use crate::page::browser::focus::{find, focus};
use crate::page::browser::text_input::is_typed_in;

/// An overlay with its buttons. It takes the focus when it opens; Escape, or its button, closes it and gives the focus back to
/// the button that opened it.
#[component]
pub(crate) fn Overlay(
    /// Which.
    kind: OverlayKind,
    /// What it is called.
    label: &'static str,
    /// What the button says that puts it away.
    #[prop(default = "Back to the bench")]
    back: &'static str,
    /// What may stand open in it and would be lost with it: it stays open until that is settled.
    #[prop(optional)]
    entries: Option<Entries>,
    children: Children,
) -> impl IntoView {
    let bench = bench();
    let is_open = Memo::new(move |_| kind.is_like(bench.overlay.get()));
    let actions = NodeRef::<leptos::html::Nav>::new();
    let opener = StoredValue::new_local(None::<HtmlElement>);
    Effect::new(move |_| {
        if let (true, Some(actions)) = (is_open.get(), actions.get()) {
            opener.set_value(focused_opener(kind));
            // To the print button, or where there is none, to the one that closes.
            if let Some(Ok(button)) = actions
                .query_selector("button")
                .ok()
                .flatten()
                .map(JsCast::dyn_into)
            {
                focus(&button);
            }
            window().scroll_to_with_x_and_y(0.0, 0.0);
        }
    });
    Effect::watch(
        move || is_open.get(),
        move |is_open, _, _| {
            if !is_open {
                request_animation_frame(move || focus_opener(kind, opener.get_value()));
            }
        },
        false,
    );
    let close = move || {
        if entries.is_none_or(Entries::are_settled) {
            bench.overlay.set(kind.under());
        }
    };
    on_window(leptos::ev::keydown, move |event| {
        // In a field it takes back what was typed.
        let typing = event.target().is_some_and(|target| is_typed_in(&target));
        if event.key() == "Escape"
            && !typing
            && is_open.get_untracked()
            && !event.default_prevented()
        {
            event.prevent_default();
            close();
        }
    });
    let print = move |_| {
        if window().print().is_err() {
            bench.say("The browser would not print.".to_owned());
        }
    };
    // The card is what is printed while no other overlay is open.
    let is_aside =
        move || kind == OverlayKind::Card && bench.overlay.get().is_some_and(|open| open != kind);
    view! {
        <div class=format!("over {}-desk", kind.key()) class:shown=move || is_open.get() class:aside=is_aside>
            <nav node_ref=actions class="over-actions" aria-label=label>
                {kind.print_key().map(|key| view! { <button data-action=key class="main" on:click=print>"Print"</button> })}
                <button data-action=format!("{}-close", kind.key()) on:click=move |_| close()>{back}</button>
            </nav>
            {children()}
        </div>
    }
}

/// The button that has just opened the overlay: of several, the focused one. Some browsers focus no button that is pressed.
fn focused_opener(kind: OverlayKind) -> Option<HtmlElement> {
    let focused = document().active_element()?.dyn_into::<HtmlElement>().ok();
    focused.filter(|button| button.matches(&opener_of(kind)).unwrap_or(false))
}

fn opener_of(kind: OverlayKind) -> String {
    format!("[data-action={}]", kind.key())
}

/// Moves the focus to the button that opened the overlay, once that is shown again; where it is not known, to the first.
fn focus_opener(kind: OverlayKind, opener: Option<HtmlElement>) {
    let connected = opener.filter(|button| button.is_connected());
    if let Some(button) = connected.or_else(|| find(&opener_of(kind))) {
        focus(&button);
    }
}
