//! What would make the line turn over more gently, or with more energy: arrows on the handles of the drawing, and a shape of the same class
//! that is offered beside it. Nothing is changed unless the maker takes it.

use core::time::Duration;

use leptos::prelude::*;

use super::state::{CastState, Offer, cast_state};
use crate::base::choice::Choice as _;
use crate::edit::turnover::Wish;
use crate::page::view::bench::bench;
use crate::paper::words::turnover as words;

/// The section.
#[component]
pub(super) fn Reshape() -> impl IntoView {
    let (bench, state) = (bench(), cast_state());
    let wish = state.wish;
    let is_searching = RwSignal::new(false);
    let show = move |_| {
        bench.wish.set(Some(wish.get_untracked()));
        bench.sheet.set(None);
    };
    let search = move |_| {
        if is_searching.get_untracked() {
            return;
        }
        is_searching.set(true);
        let wanted = wish.get_untracked();
        // The page says so first. Nobody waits for it on a sheet that was closed.
        request_animation_frame(move || {
            set_timeout(
                move || {
                    if is_searching.try_set(false).is_none() {
                        state.search(wanted);
                    }
                },
                Duration::ZERO,
            );
        });
    };
    let choice = move |&one: &Wish| {
        view! {
            <label class="choice">
                <input
                    type="radio"
                    name="turnover-wish"
                    data-action=format!("turnover-{}", one.key())
                    prop:checked=move || wish.get() == one
                    on:change=move |_| {
                        wish.set(one);
                        state.put_offer_away();
                    }
                />
                <span>{one.name()}</span>
            </label>
        }
    };
    let said = move || {
        let said = |offer: &Offer| match &offer.outcome {
            Ok(shape) => words::found(offer.wish, shape.energy_left),
            Err(why) => why.clone(),
        };
        state.offer.with(|offer| offer.as_ref().map(said))
    };
    let is_offered = Memo::new(move |_| {
        let is_found = |offer: &Offer| offer.outcome.is_ok();
        state.offer.with(|offer| offer.as_ref().map(is_found))
    });
    let found = move || match is_offered.get() {
        Some(true) => "found",
        Some(false) => "none",
        None if is_searching.get() => "searching",
        None => "",
    };
    view! {
        <section class="card" aria-label="Change the shape">
            <h3>"Change the shape"</h3>
            <fieldset class="turnover-wishes">
                <legend>"Wanted: a line that"</legend>
                {Wish::ALL.iter().map(choice).collect_view()}
            </fieldset>
            <div class="buttons" data-answers="">
                <button data-action="turnover-arrows" on:click=show>"Show arrows on the drawing"</button>
                <button data-action="turnover-find" on:click=search>"Find such a shape, same class"</button>
            </div>
            <p role="status" data-turnover-search=found>
                {move || if is_searching.get() { Some("Searching …".to_owned()) } else { said() }}
            </p>
            <Show when=move || is_offered.get() == Some(true)>
                <Taking state />
            </Show>
        </section>
    }
}

/// What may be done with the shape that is offered.
#[component]
fn Taking(state: CastState) -> impl IntoView {
    view! {
        <p class="hint">"It is shown dashed under your drawing, and as the other line above."</p>
        <div class="buttons">
            <button class="main" data-action="turnover-use" on:click=move |_| state.use_offer()>"Use this shape"</button>
            <button data-action="turnover-leave" on:click=move |_| state.put_offer_away()>"Do not use it"</button>
        </div>
    }
}
