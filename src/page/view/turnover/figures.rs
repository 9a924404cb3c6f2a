//! The figures of both casts beside each other. Each opens to its formula and its source.

use leptos::prelude::*;

use super::state::Casts;
use crate::page::view::bench::bench;
use crate::page::view::rows::Rows;
use crate::paper::words::turnover::{self as words, CastFigure};

/// The figures.
#[component]
pub(super) fn Figures(casts: Casts) -> impl IntoView {
    let units = bench().units;
    let figures = Memo::new(move |_| {
        casts
            .of_any(|own, other| words::figures(own, other, units.get()))
            .unwrap_or_default()
    });
    let is_compared = move || casts.title.with(Option::is_some);
    view! {
        <section class="card turnover-figures" class:compared=is_compared aria-label="Figures of the cast">
            <div class="turnover-head" aria-hidden="true">
                <span>"this line"</span>
                <span>"other"</span>
                <span>"difference"</span>
            </div>
            <Rows of=figures row=figure />
        </section>
    }
}

fn figure(of: Memo<CastFigure>) -> impl IntoView {
    let (key, name, ground) = of.with_untracked(|of| (of.key, of.name, of.ground));
    let other_si = move || {
        of.with(|of| {
            of.other_si
                .map(|value| value.to_string())
                .unwrap_or_default()
        })
    };
    let cell = move |kind: &'static str, spoken: &'static str, say: fn(&CastFigure) -> String| {
        let text = move || of.with(say);
        view! { <span class=kind><span class="spoken">{spoken}": "</span>{text}</span> }
    };
    view! {
        <details data-turnover=key data-si=move || of.with(|of| of.si.to_string()) data-other=other_si>
            <summary>
                <span class="name">{name}</span>
                {cell("own", "this line", |of| of.own.clone())}
                {cell("other", "other line", |of| of.other.clone())}
                {cell("difference", "difference", |of| of.difference.clone())}
            </summary>
            <p class="ground">{ground}</p>
        </details>
    }
}
