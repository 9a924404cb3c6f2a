//! A field for a day.

use leptos::prelude::*;

use crate::plan::days::Day;

/// A field for a day; the browser offers its own calendar.
#[component]
pub(super) fn DayField(
    label: &'static str,
    action: &'static str,
    value: Signal<Option<Day>>,
    take: Callback<Option<Day>>,
) -> impl IntoView {
    let wrong = RwSignal::new(None::<String>);
    let finish = move |text: String| {
        if text.is_empty() {
            wrong.set(None);
            return take.run(None);
        }
        match Day::parse(&text) {
            Ok(day) => {
                wrong.set(None);
                take.run(Some(day));
            }
            Err(said) => wrong.set(Some(said.to_string())),
        }
    };
    view! {
        <div class="field" class:wrong=move || wrong.with(Option::is_some)>
            <span class="label">{label}</span>
            <span class="entry">
                <input
                    type="date"
                    aria-label=label
                    data-action=action
                    min="2000-01-01"
                    max="2199-12-31"
                    prop:value=move || value.get().map(Day::iso).unwrap_or_default()
                    on:change:target=move |event| finish(event.target().value())
                />
            </span>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
        </div>
    }
}
