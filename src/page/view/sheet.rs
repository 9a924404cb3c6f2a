//! A sheet slides over the place it was opened from, and gives it back when it is closed: the focus, and how far it was scrolled.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::bench::bench;
use super::entries::{Entries, EntryGroup};
use super::sheet_kind::SheetKind;
use super::window_events::on_window;
use crate::page::browser::focus::{find, focus};
use crate::page::browser::text_input::is_typed_in;

/// What is open over a sheet.
const OPEN_POPOVER: &str = "[popover]:popover-open";

/// A sheet with its title and its buttons. It takes the focus when it opens; Escape, or its button, closes it. Its content is
/// built when it opens and dropped when it closes.
#[component]
pub(crate) fn Sheet(
    /// Which.
    kind: SheetKind,
    /// Whether its content is there also while it is closed: what is printed may be asked for at any time.
    #[prop(optional)]
    lasts: bool,
    children: ChildrenFn,
) -> impl IntoView {
    let bench = bench();
    let is_open = Memo::new(move |_| kind.is_like(bench.sheet.get()));
    let entries = Entries::new();
    let title = NodeRef::<leptos::html::H2>::new();
    let opener = StoredValue::new_local(None::<HtmlElement>);
    Effect::new(move |_| {
        if let (true, Some(title)) = (is_open.get(), title.get()) {
            opener.set_value(focused_opener(kind));
            focus(&title);
        }
    });
    Effect::watch(
        move || is_open.get(),
        move |is_open, _, _| {
            if !is_open {
                request_animation_frame(move || {
                    // Another sheet that took its place keeps the focus.
                    if bench.sheet.with_untracked(Option::is_none) {
                        focus_opener(kind, opener.get_value());
                    }
                });
            }
        },
        false,
    );
    let close = move || {
        if entries.are_settled() {
            bench.sheet.set(None);
        }
    };
    on_window(leptos::ev::keydown, move |event| {
        // In a field it takes back what was typed; where a note is open over the sheet, it closes that.
        let typing = event.target().is_some_and(|target| is_typed_in(&target));
        if event.key() == "Escape"
            && !typing
            && find(OPEN_POPOVER).is_none()
            && is_open.get_untracked()
            && !event.default_prevented()
        {
            event.prevent_default();
            close();
        }
    });
    let print = move |_| {
        if window().print().is_err() {
            bench.say("The browser did not print.".to_owned());
        }
    };
    // The card is what is printed while no other sheet is open.
    let is_aside = move || {
        let other = bench.sheet.get().filter(|open| *open != kind);
        kind == SheetKind::Card && other.is_some_and(|open| open.print_key().is_some())
    };
    // Without a control in it, the sheet itself is what the keys scroll.
    let is_only_read = kind.is_only_read();
    let children = StoredValue::new(children);
    view! {
        <div
            class=format!("over {}-desk", kind.key())
            class:shown=move || is_open.get()
            class:aside=is_aside
            class:printable=kind.print_key().is_some()
            role="dialog"
            aria-modal="true"
            aria-label=kind.title()
        >
            <div class="over-paper">
                <header class="over-head">
                    <h2 node_ref=title tabindex="-1">{kind.title()}</h2>
                    {kind.print_key().map(|key| view! { <button data-action=key class="main" on:click=print>"Print"</button> })}
                    <button data-action=format!("{}-close", kind.key()) on:click=move |_| close()>"Close"</button>
                </header>
                <EntryGroup entries>
                    <div class="over-body" tabindex=is_only_read.then_some("0") role=is_only_read.then_some("group") aria-label=is_only_read.then_some(kind.title())>
                        <Show when=move || lasts || is_open.get()>{children.with_value(|children| children())}</Show>
                    </div>
                </EntryGroup>
            </div>
        </div>
    }
}

/// The button that has just opened the sheet: of several, the focused one. Some browsers focus no button that is pressed.
fn focused_opener(kind: SheetKind) -> Option<HtmlElement> {
    let focused = document().active_element()?.dyn_into::<HtmlElement>().ok();
    // A measured line is opened from several lists and files, whose buttons have keys of their own.
    focused.filter(|button| {
        kind == SheetKind::Measured || button.matches(&opener_of(kind)).unwrap_or(false)
    })
}

fn opener_of(kind: SheetKind) -> String {
    format!("[data-action={}]", kind.key())
}

/// Moves the focus to the button that opened the sheet, once that is shown again; where it is not known, to the first. A button
/// in a closed menu cannot have it: then the button of the menu gets it.
fn focus_opener(kind: SheetKind, opener: Option<HtmlElement>) {
    let connected = opener.filter(|button| button.is_connected() && button.tag_name() != "BODY");
    let Some(button) = connected.or_else(|| find(&opener_of(kind))) else {
        return;
    };
    let popover = button.closest("[popover]").ok().flatten();
    let of_popover =
        popover.and_then(|popover| find(&format!("[data-action][popovertarget={}]", popover.id())));
    focus(&of_popover.unwrap_or(button));
}
