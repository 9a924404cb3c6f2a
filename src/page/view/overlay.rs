//! What lies over the bench: the card, the dressing plan on paper, the bench book, a finished line's tag, what is kept.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use super::bench::{bench, is_typed_in};

/// A sheet that can lie over the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sheet {
    /// The card for the machine.
    Card,
    /// The dressing plan on paper.
    Dressing,
    /// The bench book.
    Book,
    /// The steps at the machine.
    Machine,
    /// Everything kept in this browser.
    Lines,
    /// The tag of the finished line of this index in the book.
    Tag(usize),
}

impl Sheet {
    /// The key of the button that opens it.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Dressing => "dressing-sheet",
            Self::Book => "book",
            Self::Machine => "at-machine",
            Self::Lines => "my-lines",
            Self::Tag(_) => "tag",
        }
    }

    /// What is open once it is put away.
    const fn under(self) -> Option<Self> {
        match self {
            Self::Card | Self::Dressing | Self::Book | Self::Machine | Self::Lines => None,
            Self::Tag(_) => Some(Self::Book),
        }
    }

    /// Whether two are the same sheet, whatever stands on it.
    pub(crate) fn is_like(self, other: Option<Self>) -> bool {
        other.is_some_and(|other| other.key() == self.key())
    }
}

/// A sheet with its buttons. Opened, it takes the keyboard; Escape, or its button, puts it away and gives the keyboard back to
/// the button that opened it.
#[component]
pub(crate) fn Overlay(
    /// Which.
    sheet: Sheet,
    /// What it is called.
    label: &'static str,
    /// What the button says that puts it away.
    #[prop(default = "Back to the bench")]
    back: &'static str,
    /// Whether it can be printed.
    #[prop(default = true)]
    has_print: bool,
    children: Children,
) -> impl IntoView {
    let bench = bench();
    let is_open = Memo::new(move |_| sheet.is_like(bench.sheet.get()));
    let actions = NodeRef::<leptos::html::Nav>::new();
    let opener = StoredValue::new_local(None::<HtmlElement>);
    Effect::new(move |_| {
        if let (true, Some(actions)) = (is_open.get(), actions.get()) {
            opener.set_value(focused_opener(sheet));
            focus(first_button(&actions));
            window().scroll_to_with_x_and_y(0.0, 0.0);
        }
    });
    Effect::watch(
        move || is_open.get(),
        move |is_open, _, _| {
            if !is_open {
                request_animation_frame(move || focus_opener(sheet, opener.get_value()));
            }
        },
        false,
    );
    let close = move || bench.sheet.set(sheet.under());
    let escape = window_event_listener(leptos::ev::keydown, move |event| {
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
    on_cleanup(move || escape.remove());
    let print = move |_| {
        if window().print().is_err() {
            bench.say("The browser would not print.".to_owned());
        }
    };
    // The card is what the printer finds as long as nothing else lies there.
    let is_aside =
        move || sheet == Sheet::Card && bench.sheet.get().is_some_and(|open| open != sheet);
    view! {
        <div class=format!("over {}-desk", sheet.key()) class:shown=move || is_open.get() class:aside=is_aside>
            <nav node_ref=actions class="over-actions" aria-label=label>
                {has_print.then(|| view! { <button data-action=print_key(sheet) class="main" on:click=print>"Print"</button> })}
                <button data-action=format!("{}-close", sheet.key()) on:click=move |_| close()>{back}</button>
            </nav>
            {children()}
        </div>
    }
}

const fn print_key(sheet: Sheet) -> &'static str {
    match sheet {
        Sheet::Card => "print",
        Sheet::Dressing => "print-dressing",
        Sheet::Book => "print-book",
        Sheet::Machine => "print-steps",
        Sheet::Lines => "print-lines",
        Sheet::Tag(_) => "print-tag",
    }
}

/// The button that has just opened a sheet: of several such, that with the keyboard. Some browsers give it to none.
fn focused_opener(sheet: Sheet) -> Option<HtmlElement> {
    let focused = document().active_element()?.dyn_into::<HtmlElement>().ok();
    focused.filter(|button| button.matches(&opener_of(sheet)).unwrap_or(false))
}

fn opener_of(sheet: Sheet) -> String {
    format!("[data-action={}]", sheet.key())
}

/// Moves the keyboard to the button that opened a sheet, once that is shown again; where that is not known, to the first.
fn focus_opener(sheet: Sheet, opener: Option<HtmlElement>) {
    let first = || {
        let found = document().query_selector(&opener_of(sheet));
        found.ok().flatten().map(JsCast::unchecked_into)
    };
    focus(opener.filter(|button| button.is_connected()).or_else(first));
}

/// Where the keyboard goes on a sheet: to its printing, or where nothing is printed, to the way back.
fn first_button(actions: &Element) -> Option<HtmlElement> {
    let found = actions.query_selector("button").ok().flatten();
    found.map(JsCast::unchecked_into)
}

fn focus(button: Option<HtmlElement>) {
    if let Some(button) = button {
        // A browser that will not move the focus leaves it where it was.
        let _ = button.focus();
    }
}
