//! The days of one step, and the box that marks it as done.

use leptos::prelude::*;

use super::days::days;
use crate::page::browser::clock;
use crate::plan::days::Day;
use crate::plan::days::dates::{DatedStep, StepStatus};

/// The days of a step, in its row.
#[component]
pub(super) fn StepDays(index: usize) -> impl IntoView {
    let days = days();
    let dated = Memo::new(move |_| days.of(index));
    let words = move || dated.get().map(|dated| day_words(&dated));
    let standing = move || dated.get().and_then(|dated| standing_words(dated.status));
    view! {
        <span class="days" data-first=move || dated.get().map(|it| it.first.iso()) data-last=move || dated.get().map(|it| it.last.iso())>
            {words}
        </span>
        {move || standing().map(|(words, key)| view! { <span class="standing-of" data-standing=key>{words}</span> })}
    }
}

/// `Wed 25 Nov`, or from one day to another.
fn day_words(dated: &DatedStep) -> String {
    if dated.first == dated.last {
        dated.first.words()
    } else {
        format!("{} – {}", dated.first.words(), dated.last.words())
    }
}

fn standing_words(standing: StepStatus) -> Option<(String, &'static str)> {
    let days = |count: i64| match count {
        1 => "1 day".to_owned(),
        count => format!("{count} days"),
    };
    Some(match standing {
        StepStatus::Done { on, late_by } => {
            let late = match late_by {
                0 => String::new(),
                late if late > 0 => format!(", {} late", days(late)),
                early => format!(", {} early", days(-early)),
            };
            (format!("✓ done {}{late}", on.words()), "done")
        }
        StepStatus::Next => ("next".to_owned(), "next"),
        StepStatus::Overdue(by) => (format!("next, {} overdue", days(by)), "overdue"),
        StepStatus::Waiting => return None,
    })
}

/// Ticking a step, in its open row.
#[component]
pub(super) fn StepTick(index: usize) -> impl IntoView {
    let days = days();
    let done = Memo::new(move |_| match days.of(index)?.status {
        StepStatus::Done { on, .. } => Some(on),
        _ => None,
    });
    view! {
        <Show when=move || days.of(index).is_some()>
            <div class="tick">
                <button
                    data-action="tick"
                    aria-pressed=move || done.get().is_some().to_string()
                    on:click=move |_| {
                        let day = if done.get_untracked().is_some() { None } else { clock::today() };
                        days.tick(index, day);
                    }
                >
                    {move || if done.get().is_some() { "Not done after all" } else { "Done today" }}
                </button>
                <DayField
                    label="done on"
                    action="tick-day"
                    value=Signal::derive(move || done.get())
                    take=Callback::new(move |day| days.tick(index, day))
                />
            </div>
        </Show>
    }
}

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
