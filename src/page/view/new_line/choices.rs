//! The three things a new line asks for.

use leptos::prelude::*;

use super::source::Source;
use super::state::NewLine;
use crate::base::choice::Choice as _;
use crate::braid::weight::{CLASSES, Class};
use crate::edit::starts::Start;
use crate::page::view::line_picture::{frame, line_picture};
use crate::page::view::sheet_button::SheetButton;
use crate::page::view::sheet_kind::SheetKind;
use crate::paper::chart::outline::outline;

/// The shape, each with its picture.
#[component]
pub(super) fn ShapeChoice(new_line: NewLine) -> impl IntoView {
    let tile = move |&start: &Start| {
        let taper = start.design().taper();
        let frame = frame(core::slice::from_ref(&taper));
        let is_on = move || new_line.shape.get() == Some(start);
        view! {
            <button class="tile" data-action="start" data-start=start.key() aria-pressed=move || is_on().to_string() on:click=move |_| new_line.shape.set(Some(start))>
                {line_picture(outline(&taper, &frame))}
                <span>{start.name()}</span>
            </button>
        }
    };
    let sentence = move || new_line.shape.get().map_or("", Start::sentence);
    view! {
        <section aria-label="Shape">
            <h3>"Shape"</h3>
            <div class="tiles shapes">{Start::ALL.iter().map(tile).collect_view()}</div>
            <p class="hint">{sentence}</p>
        </section>
    }
}

/// The class the line is to have.
#[component]
pub(super) fn ClassChoice(new_line: NewLine) -> impl IntoView {
    let tile = move |class: &'static Class| {
        let is_on = move || {
            let chosen = new_line.class.get();
            chosen.is_some_and(|chosen| chosen.number == class.number)
        };
        view! {
            <button
                class="tile"
                data-action="start-class"
                data-class=class.number.to_string()
                aria-label=format!("class {}", class.number)
                aria-pressed=move || is_on().to_string()
                on:click=move |_| new_line.class.set(Some(*class))
            >
                {class.number}
            </button>
        }
    };
    let usual = move || {
        let usual = new_line.shape.get().map(|shape| shape.class().number);
        usual.map(|usual| format!("The example of this shape is class {usual}."))
    };
    view! {
        <section aria-label="Class">
            <h3>"Class"</h3>
            <div class="tiles classes">{CLASSES.iter().map(tile).collect_view()}</div>
            <p class="hint">{usual}</p>
        </section>
    }
}

/// The machine and the yarn, by name.
#[component]
pub(super) fn SourceChoice(new_line: NewLine) -> impl IntoView {
    let tile = move |source: Source| {
        let own = source.clone();
        let is_on = move || new_line.source.with(|chosen| chosen.key == own.key);
        let chosen = source.clone();
        view! {
            <button
                class="tile source"
                data-action="start-source"
                data-source=source.key
                aria-pressed=move || is_on().to_string()
                on:click=move |_| new_line.source.set(chosen.clone())
            >
                <b>{source.name}</b>
                <span class="quiet">{source.facts}</span>
            </button>
        }
    };
    view! {
        <section aria-label="Machine and yarn">
            <h3>"Machine and yarn"</h3>
            <div class="tiles sources">{new_line.sources.get_value().into_iter().map(tile).collect_view()}</div>
            <SheetButton kind=SheetKind::Questions>{SheetKind::Questions.title()}</SheetButton>
            <p class="hint">"The answers change the open line. Then begin the new line with its machine and yarn."</p>
        </section>
    }
}
