//! When the dressing begins, and what can be done with its days as a whole.

use leptos::prelude::*;

use super::days::days;
use super::step_days::DayField;
use super::timeline::Timeline;
use crate::plan::days::Day;

/// When it begins, and what can be done with the days as a whole.
#[component]
pub(super) fn Start() -> impl IntoView {
    let days = days();
    let has_begun = Memo::new(move |_| days.record.with(Option::is_some));
    let name = move || {
        days.record
            .with(|record| record.as_ref().map(|(_, record)| record.name.clone()))
    };
    let words = move || {
        match name() {
        Some(name) => format!("In dressing: {name}. Tick each step on the day it was done; what follows moves along."),
        None => "Name the day work begins, and every step gets its days. The line is written into the bench book.".to_owned(),
    }
    };
    let is_other = move || has_begun.get() && !days.fits.get();
    view! {
        <p class="hint">{words}</p>
        <div class="fields">
            <DayField
                label="work begins on"
                action="dressing-start"
                value=Signal::derive(move || days.start())
                take=Callback::new(move |day: Option<Day>| if let Some(day) = day { days.begin(day) })
            />
        </div>
        <Show when=is_other>
            <p class="caution">
                "The line in dressing was begun with other steps than the plan has now, so its days are not shown here."
            </p>
            <button data-action="follow-plan" on:click=move |_| days.follow_plan()>"Dress it by the steps as they are now"</button>
        </Show>
        <Show when=move || days.are_shown()>
            <Timeline />
            <div class="step-buttons">
                <button data-action="save-calendar" on:click=move |_| days.save_calendar()>"Save the days for my calendar"</button>
                <button data-action="begin-another" on:click=move |_| days.begin_another()>"Begin another line of this plan today"</button>
            </div>
        </Show>
    }
}
