//! What gives the picture its scale: the diameter of the braid, or a rule in the picture.

use leptos::prelude::*;

use super::state::PhotoState;
use crate::base::units::Length;
use crate::base::units::show::{Units, trimmed};
use crate::base::units::text::{Unit, read};
use crate::page::browser::focus::{find, focus};
use crate::page::view::bench::bench;
use crate::page::view::field::{NumberField, TextField};
use crate::paper::words::photo as words;
use crate::photo::KnownDiameter;

/// Diameters that a braid can have.
const DIAMETERS: (Length, Length) = (
    Length::from_millimetres(0.1),
    Length::from_millimetres(20.0),
);
/// Lengths that a line on a rule can have.
const RULES: (Length, Length) = (
    Length::from_millimetres(0.5),
    Length::from_millimetres(500.0),
);

/// The scale, which crossings need.
#[component]
pub(super) fn Scale(state: PhotoState) -> impl IntoView {
    let by_rule = Memo::new(move |_| state.rule.with(Option::is_some));
    view! {
        <section class="card" aria-label="Scale of the picture">
            <h3>"Scale of the picture"</h3>
            <p class="hint">"Crossings need it. The angle does not."</p>
            <Show when=move || by_rule.get() fallback=move || view! { <ByDiameter state /> }>
                <ByRule state />
            </Show>
        </section>
    }
}

#[component]
fn ByDiameter(state: PhotoState) -> impl IntoView {
    let units = bench().units;
    let value = move || {
        let size = state.diameter.get()?.size();
        let shown = Unit::Metre.convert(size.metres(), units.get().diameter())?;
        Some(trimmed(shown, 3))
    };
    let take = move |text: String| {
        if text.trim().is_empty() {
            state.diameter.set(None);
            return Ok(());
        }
        let typed = length(&text, units.get_untracked().diameter())?;
        if typed < DIAMETERS.0 || typed > DIAMETERS.1 {
            return Err(between(DIAMETERS, |size| {
                units.get_untracked().show_diameter_short(size)
            }));
        }
        state.diameter.set(Some(KnownDiameter::Measured(typed)));
        Ok(())
    };
    let ground = move || match state.diameter.get() {
        Some(known) => words::known_by(known),
        None => words::NO_DIAMETER.to_owned(),
    };
    let begin = move |_| {
        let rule = match units.get_untracked() {
            Units::Metric => Length::from_millimetres(10.0),
            Units::Imperial => Length::from_inches(0.5),
        };
        state.rule.set(Some(rule));
        // The line to drag is in the picture, which may be out of sight.
        request_animation_frame(|| {
            if let Some(frame) = find(".photo-frame") {
                frame.scroll_into_view();
                focus(&frame);
            }
        });
    };
    view! {
        <TextField
            label="diameter of the braid"
            action="photo-diameter"
            numeric=true
            value=Signal::derive(move || value().unwrap_or_default())
            unit=Signal::derive(move || units.get().diameter().symbol().to_owned())
            commit=take
        />
        <p class="hint" data-photo-known="">{ground}</p>
        <button data-action="photo-rule" on:click=begin>"Set the scale by a rule"</button>
    }
}

#[component]
fn ByRule(state: PhotoState) -> impl IntoView {
    let units = bench().units;
    let unit = Signal::derive(move || match units.get() {
        Units::Metric => Unit::Millimetre,
        Units::Imperial => Unit::Inch,
    });
    let value = move || {
        let length = state.rule.get().unwrap_or(Length::ZERO);
        Unit::Metre
            .convert(length.metres(), unit.get())
            .unwrap_or_default()
    };
    let take = move |value: f64| {
        let metres = unit.get_untracked().convert(value, Unit::Metre);
        let length = Length::from_metres(metres.unwrap_or_default());
        if !(RULES.0..=RULES.1).contains(&length) {
            return Err(between(RULES, |size| {
                units.get_untracked().show_short(size)
            }));
        }
        state.rule.set(Some(length));
        Ok(())
    };
    view! {
        <p>{words::SET_RULE}</p>
        <Show when=move || !state.is_rule_set()>
            <p class="said">{words::RULE_NOT_SET}</p>
        </Show>
        <NumberField
            label="length between these marks"
            action="photo-rule-length"
            value=Signal::derive(value)
            unit
            decimals=4
            commit=take
        />
        <button data-action="photo-by-diameter" on:click=move |_| state.rule.set(None)>"Set the scale by the diameter"</button>
    }
}

/// A length typed in a unit.
fn length(text: &str, unit: Unit) -> Result<Length, String> {
    let typed = read(text, unit).map_err(|unread| unread.to_string())?;
    let metres = unit.convert(typed, Unit::Metre).unwrap_or_default();
    Ok(Length::from_metres(metres))
}

fn between((least, most): (Length, Length), shown: impl Fn(Length) -> String) -> String {
    format!("Type a length from {} to {}.", shown(least), shown(most))
}
