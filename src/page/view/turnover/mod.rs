//! How the line turns over in the air: one's own line and another in the same cast, and what would change it. What is calculated:
//! [`crate::turnover`].

mod cast_fields;
mod charts;
mod figures;
mod flight;
mod guide;
mod reshape;
mod state;

pub(crate) use state::CastState;

use leptos::prelude::*;

use super::sheet::Sheet;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use crate::page::view::bench::bench;
use crate::paper::words::turnover as words;
use state::{Casts, cast_state};

/// The sheet.
#[component]
pub(crate) fn TurnoverSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Turnover><Place /></Sheet> }
}

/// All of it.
#[component]
fn Place() -> impl IntoView {
    let casts = cast_state().casts();
    view! {
        <div class="turnover">
            <p class="hint">{words::LIMITS}</p>
            <flight::Flights casts />
            <Said casts />
            <figures::Figures casts />
            <charts::Charts casts />
            <reshape::Reshape />
            <cast_fields::CastFields />
        </div>
    }
}

/// What a caster would say of it.
#[component]
fn Said(casts: Casts) -> impl IntoView {
    let units = bench().units;
    let verdict = move || casts.of_own(|own| words::verdict(own, units.get()));
    let compared = move || casts.of_both(|own, other| words::compared(own, other, units.get()));
    let is_alone = Memo::new(move |_| casts.title.with(Option::is_none));
    view! {
        <section class="card" aria-label="Result of the cast">
            <details class="turnover-verdict" data-turnover-verdict="">
                <summary>{verdict}</summary>
                <p class="ground">{words::COLLAPSE}</p>
            </details>
            <Show
                when=move || !is_alone.get()
                fallback=|| view! { <p class="hint">"Choose another line to see both in the same cast."</p> }
            >
                <h3>"Compared with: "{move || casts.title.get()}</h3>
                <ul class="turnover-said">
                    {move || compared().unwrap_or_default().into_iter().map(|said| view! { <li>{said}</li> }).collect_view()}
                </ul>
            </Show>
            <div class="buttons">
                <SheetButton kind=SheetKind::Compare>
                    {move || if is_alone.get() { "Compare with another line" } else { "Compare with a different line" }}
                </SheetButton>
            </div>
        </section>
    }
}
