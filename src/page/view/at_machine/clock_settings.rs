//! What the maker sets of the clock: pace, signals, voice.

use leptos::prelude::*;

use super::session::session;
use crate::base::units::show;
use crate::base::units::text::Unit;
use crate::page::view::field::NumberField;
use crate::page::view::run_clock::MOST_LEAD;
use crate::plan::run::PACES;

/// Folded, below the step.
#[component]
pub(super) fn ClockSettings() -> impl IntoView {
    let clocks = session().clocks;
    let settings = clocks.settings;
    let pace = move || clocks.countdown.get().map(|it| it.pace.circuits_per_minute);
    let set_pace = move |pace: f64| {
        if !PACES.contains(&pace) {
            let (low, high) = (PACES.start(), PACES.end());
            return Err(format!(
                "Type a pace from {low} to {high} circuits a minute."
            ));
        }
        clocks.moment();
        clocks.change(|run| run.with_pace(Some(pace)));
        Ok(())
    };
    let timed = Memo::new(move |_| {
        let is_own = clocks.countdown.get()?.pace.basis == crate::plan::run::PaceBasis::Own;
        is_own.then(|| clocks.timed().map(|pace| pace.circuits_per_minute))
    });
    let forget = move |_| clocks.change(|run| run.with_pace(None));
    let forget_words = move || {
        let timed = timed.get().flatten();
        timed.map_or("Use the speed of the workshop".to_owned(), |pace| {
            format!("Use the pace that was timed: {}", show::trimmed(pace, 1))
        })
    };
    let set_lead = move |circuits: f64| {
        if !(0.0..=f64::from(MOST_LEAD)).contains(&circuits) {
            return Err(format!("Type a number of circuits from 0 to {MOST_LEAD}."));
        }
        // Within the range of both.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        settings.set_lead(circuits.round() as u32);
        Ok(())
    };
    view! {
        <details class="finer">
            <summary data-action="clock-settings">"Clock, sound and voice"</summary>
            <div class="fields">
                <NumberField
                    label="Circuits a minute of this machine"
                    action="pace"
                    value=Signal::derive(move || pace().unwrap_or(0.0))
                    unit=Signal::stored(Unit::One)
                    decimals=1
                    commit=set_pace
                    ground="It is timed from the steps you tick, and from the counts you type. What you type here stays."
                />
                <NumberField
                    label="Signal before the stop, circuits"
                    action="signal-lead"
                    value=Signal::derive(move || f64::from(settings.lead.get()))
                    unit=Signal::stored(Unit::One)
                    decimals=0
                    commit=set_lead
                    ground="Type 0 for a signal at the stop only."
                />
            </div>
            <Show when=move || timed.with(Option::is_some)>
                <button class="huge" data-action="pace-timed" on:click=forget>{forget_words}</button>
            </Show>
            <div class="big-buttons">
                <Switch name="Sound and vibration" action="sound" is_on=settings.sound set=Callback::new(move |on| settings.set_sound(on)) />
                <Switch name="Speak each step" action="voice" is_on=settings.voice set=Callback::new(move |on| settings.set_voice(on)) />
            </div>
        </details>
    }
}

/// A button that is on or off, and says which.
#[component]
fn Switch(
    name: &'static str,
    action: &'static str,
    is_on: RwSignal<bool>,
    set: Callback<bool>,
) -> impl IntoView {
    let state = move || if is_on.get() { ": on" } else { ": off" };
    view! {
        <button class="huge" data-action=action aria-pressed=move || is_on.get().to_string() on:click=move |_| set.run(!is_on.get_untracked())>
            {name}{state}
        </button>
    }
}
