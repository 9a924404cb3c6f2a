//! Everything kept in this browser: lines, workshops, what lies in the bin, what cannot be read, and all of it as one file. It
//! lies over the bench like the card.

mod bin;
mod books;
mod everything;
mod kind;
mod lines;
mod row;
mod stock;
mod strange;

use leptos::prelude::*;

use super::bench::bench;
use super::book::desk;
use super::overlay::{Overlay, Sheet};
use stock::{Stock, stock};

pub(crate) use everything::{Due, bring_in};

/// The sheet of what is kept.
#[component]
pub(crate) fn KeptSheet() -> impl IntoView {
    let bench = bench();
    let is_open = Memo::new(move |_| bench.sheet.get() == Some(Sheet::Lines));
    view! {
        <Overlay sheet=Sheet::Lines label="My lines" has_print=false>
            <Show when=move || is_open.get()>
                <Shelves />
            </Show>
        </Overlay>
    }
}

#[component]
fn Shelves() -> impl IntoView {
    provide_context(Stock::open(bench(), desk()));
    view! {
        <article class="kept">
            <h1>"My lines"</h1>
            <everything::Everything />
            <lines::Lines />
            <books::Books />
            <strange::Unreadable />
            <bin::Bin />
            <Told />
        </article>
    }
}

/// What was done last, at the foot of the screen wherever one has scrolled to, and the way back.
#[component]
fn Told() -> impl IntoView {
    let stock = stock();
    let told = move |told: stock::Told| {
        let back = told.back.map(|back| {
            view! { <button class="main" data-action="take-back" on:click=move |_| back.take(stock)>"Take it back"</button> }
        });
        view! {
            <p class="message">
                <span>{told.words}</span>
                {back}
                <button data-action="told-close" on:click=move |_| stock.told.set(None)>"Close"</button>
            </p>
        }
    };
    view! { <div class="kept-told" role="status">{move || stock.told.get().map(told)}</div> }
}
