//! The numbers of the stated cast.

use leptos::prelude::*;

use super::state::cast_state;
use crate::base::choice::Choice as _;
use crate::base::units::show::Units;
use crate::base::units::text::Unit;
use crate::page::view::bench::bench;
use crate::page::view::field::NumberField;
use crate::paper::words::turnover as words;
use crate::turnover::CastNumber;

/// The cast, leader and fly.
#[component]
pub(super) fn CastFields() -> impl IntoView {
    let state = cast_state();
    let resets = RwSignal::new(0_u32);
    // New fields: what was typed and not understood is gone with the old ones.
    let fields = move || {
        resets.track();
        let field = |&number: &CastNumber| view! { <Number number /> };
        CastNumber::ALL.iter().map(field).collect_view()
    };
    let reset = move |_| {
        state.reset();
        resets.update(|count| *count += 1);
    };
    view! {
        <section class="card" aria-label="The cast, leader and fly">
            <h3>"The cast, leader and fly"</h3>
            <p class="hint">"Both lines get the same cast. Your numbers are saved in this browser."</p>
            <div class="fields">{fields}</div>
            <p data-answers="">
                <button data-action="cast-reset" on:click=reset>"Use the usual cast"</button>
            </p>
        </section>
    }
}

#[component]
fn Number(number: CastNumber) -> impl IntoView {
    let (state, units) = (cast_state(), bench().units);
    let rule = number.rule();
    let unit = Signal::derive(move || shown_in(number, units.get()));
    let value = move || {
        let value = state.cast.get().number(number);
        rule.unit.convert(value, unit.get()).unwrap_or(value)
    };
    let take = move |typed: f64| {
        let shown = unit.get_untracked();
        let value = shown.convert(typed, rule.unit).unwrap_or(typed);
        state
            .set(number, value)
            .map_err(|misfit| words::misfit(&misfit, shown))
    };
    view! {
        <NumberField
            label=rule.name
            action=number.key()
            ground=number.ground()
            value=Signal::derive(value)
            unit
            decimals=3
            commit=take
        />
    }
}

/// The unit in which the reader types a number.
const fn shown_in(number: CastNumber, units: Units) -> Unit {
    match (number, units) {
        (CastNumber::FlyBreadth, Units::Imperial) => Unit::Inch,
        (CastNumber::FlyMass, Units::Imperial) => Unit::Grain,
        _ => match number.rule().unit {
            Unit::Metre => units.position(),
            Unit::Millimetre => units.diameter(),
            Unit::MetrePerSecond => units.speed(),
            other => other,
        },
    }
}
