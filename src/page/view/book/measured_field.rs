//! A field for a measured number: it may be empty, and what cannot be is said below it and kept all the same.

use leptos::prelude::*;

use super::doubts::Question;
use crate::base::units::show::{Units, trimmed};
use crate::base::units::text::{Unit, read};
use crate::keep::book::doubt::Doubt;
use crate::page::view::bench::bench;
use crate::page::view::field::TextField;

/// What a field for a measured number needs.
#[derive(Clone)]
pub(super) struct MeasuredNumber {
    /// Its name.
    pub(super) label: String,
    /// The unit the number is kept in, as the book names it.
    pub(super) unit: &'static str,
    /// A key for tests.
    pub(super) action: &'static str,
    /// The number.
    pub(super) value: Signal<Option<f64>>,
    /// Takes a number, or that there is none.
    pub(super) take: Callback<Option<f64>, Result<(), String>>,
    /// That it came from a photo, if it did.
    pub(super) by_photo: Signal<Option<String>>,
    /// What is wrong with it, if anything.
    pub(super) complaint: Signal<Option<String>>,
    /// What is expected of it, if anything.
    pub(super) expected: Signal<Option<String>>,
    /// The question it raises, if any.
    pub(super) doubt: Signal<Option<Doubt>>,
}

/// The unit a number is kept in, and the one the reader wants it in.
fn units_of(unit: &str, units: Units) -> (Unit, Unit) {
    match unit {
        "m" => (Unit::Metre, units.position()),
        "mm" => (Unit::Millimetre, units.diameter()),
        "g" => (Unit::Gram, Unit::Gram),
        "°" => (Unit::Degree, Unit::Degree),
        _ => (Unit::One, Unit::One),
    }
}

/// The field.
#[component]
pub(super) fn MeasureField(of: MeasuredNumber) -> impl IntoView {
    let bench = bench();
    let MeasuredNumber {
        label,
        unit,
        action,
        value,
        take,
        by_photo,
        complaint,
        expected,
        doubt,
    } = of;
    let is_doubted = move || complaint.with(Option::is_some) || doubt.with(Option::is_some);
    let shown = move || {
        let (kept, wanted) = units_of(unit, bench.units.get());
        let value = value.get()?;
        Some(trimmed(kept.convert(value, wanted)?, 4))
    };
    let commit = move |text: String| {
        if text.trim().is_empty() {
            return take.run(None);
        }
        let (kept, wanted) = units_of(unit, bench.units.get_untracked());
        let typed = read(&text, wanted).map_err(|unread| unread.to_string())?;
        take.run(wanted.convert(typed, kept))
    };
    let symbol = move || units_of(unit, bench.units.get()).1.symbol().to_owned();
    view! {
        <div class="measure" class:doubted=is_doubted>
            <TextField
                label
                action
                numeric=true
                value=Signal::derive(move || shown().unwrap_or_default())
                unit=Signal::derive(symbol)
                commit=commit
            />
            {move || by_photo.get().map(|words| view! { <p class="by-photo">{words}</p> })}
            {move || expected.get().map(|words| view! { <p class="expected">{words}</p> })}
            {move || complaint.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
            {move || doubt.get().map(|doubt| view! { <Question of=doubt /> })}
        </div>
    }
}
