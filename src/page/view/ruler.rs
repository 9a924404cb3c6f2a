//! A ruler of the classes around the weight of the head.

use leptos::prelude::*;

use super::bench::bench;
use super::rows::Rows;
use crate::paper::chart::ruler::{Ruler, RulerBand, ruler};

/// Bands of the classes near the head's weight, and a pointer at it.
#[component]
pub(crate) fn ClassRuler() -> impl IntoView {
    let bench = bench();
    let shown = Memo::new(move |_| bench.plan.with(|plan| plan.head_mass.map(ruler)));
    let is_there = Memo::new(move |_| shown.with(Option::is_some));
    let bands = Signal::derive(move || {
        let bands = |ruler: &Ruler| ruler.bands.clone();
        shown
            .with(|ruler| ruler.as_ref().map(bands))
            .unwrap_or_default()
    });
    let pointer = move || {
        let place = shown.with(|ruler| ruler.as_ref().map(|ruler| ruler.pointer));
        place.map(percent)
    };
    view! {
        <Show when=move || is_there.get()>
            <svg class="ruler" aria-hidden="true">
                <Rows of=bands row=band />
                <line x1=pointer x2=pointer y1="2" y2="26" />
            </svg>
        </Show>
    }
}

/// A band with the number of its class.
fn band(band: Memo<RulerBand>) -> AnyView {
    let from = move || percent(band.read().from);
    let width = move || percent(band.read().to - band.read().from);
    let middle = move || percent(f64::midpoint(band.read().from, band.read().to));
    view! {
        <rect x=from width=width y="7" height="14" rx="5" class:here=move || band.read().holds />
        <text x=middle y="40">{move || band.read().class.number.to_string()}</text>
    }
    .into_any()
}

fn percent(share: f64) -> String {
    format!("{:.2}%", share * 100.0)
}
