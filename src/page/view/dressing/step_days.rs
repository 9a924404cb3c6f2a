//! The days of one step, and the button that marks it as done.

use leptos::prelude::*;

use super::days::days;
use crate::base::choice::Choice as _;
use crate::braid::recipe::StepKind;
use crate::page::browser::clock;
use crate::page::view::field_error::FieldError;
use crate::page::view::icon::{Glyph, Icon};
use crate::plan::days::Day;
use crate::plan::days::dates::StepStatus;

/// The days of a step, in its row.
#[component]
pub(super) fn StepDays(index: usize) -> impl IntoView {
    let days = days();
    let dated = Memo::new(move |_| days.of(index));
    // Of a step that is done the day it was is said beside it.
    let open = move || {
        dated
            .get()
            .filter(|dated| !matches!(dated.status, StepStatus::Done { .. }))
    };
    let words = move || open().map(|dated| Day::range(dated.first, dated.last));
    view! {
        <span class="days" data-first=move || dated.get().map(|it| it.first.iso()) data-last=move || dated.get().map(|it| it.last.iso())>
            {words}
        </span>
    }
}

/// Whether it is done, next or overdue, in its row.
#[component]
pub(super) fn StepStanding(index: usize) -> impl IntoView {
    let days = days();
    let standing = move || {
        days.of(index)
            .and_then(|dated| standing_words(dated.status))
    };
    move || {
        standing().map(
            |(words, key)| view! { <span class="standing-of" data-standing=key>{words}</span> },
        )
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
            (format!("done {}{late}", on.short()), "done")
        }
        StepStatus::Next => ("next".to_owned(), "next"),
        StepStatus::Overdue(by) => (format!("next, {} overdue", days(by)), "overdue"),
        StepStatus::Waiting => return None,
    })
}

/// The day a step was done.
fn done_on(index: usize) -> Memo<Option<Day>> {
    let days = days();
    Memo::new(move |_| match days.of(index)?.status {
        StepStatus::Done { on, .. } => Some(on),
        _ => None,
    })
}

/// Ticking a step as done today, in its row.
#[component]
pub(super) fn StepTick(index: usize, kind: StepKind) -> impl IntoView {
    let days = days();
    let done = done_on(index);
    let is_done = move || done.with(Option::is_some);
    let words = move || if is_done() { "Done" } else { "Mark done" };
    let toggle = move |_| {
        let day = if done.get_untracked().is_some() {
            None
        } else {
            clock::today()
        };
        days.tick(index, day);
    };
    view! {
        <Show when=move || days.of(index).is_some()>
            <button
                class="step-tick"
                data-action="tick"
                aria-pressed=move || is_done().to_string()
                aria-label=move || format!("{}: {}", words(), kind.name())
                on:click=toggle
            >
                <Glyph icon=Icon::Tick />
                <span class="label">{words}</span>
            </button>
        </Show>
    }
}

/// The day a step was done, to be set or corrected, in its open row.
#[component]
pub(super) fn DoneOn(index: usize) -> impl IntoView {
    let days = days();
    let done = done_on(index);
    view! {
        <Show when=move || days.of(index).is_some()>
            <DayField
                label="done on"
                action="tick-day"
                value=Signal::derive(move || done.get())
                take=Callback::new(move |day| days.tick(index, Some(day)))
            />
        </Show>
    }
}

/// A field for a day; the browser offers its own calendar.
#[component]
pub(super) fn DayField(
    label: &'static str,
    action: &'static str,
    value: Signal<Option<Day>>,
    take: Callback<Day>,
) -> impl IntoView {
    let wrong = FieldError::none();
    let finish = move |text: String| {
        // A field that was emptied, or holds half a date, has no text.
        let day = Day::parse(&text);
        wrong.set(day.as_ref().err().map(ToString::to_string));
        if let Ok(day) = day {
            take.run(day);
        }
    };
    view! {
        <div class="field" class:wrong=move || wrong.is_there()>
            <span class="label">{label}</span>
            <span class="entry">
                <input
                    type="date"
                    aria-label=label
                    data-action=action
                    min="2000-01-01"
                    max="2199-12-31"
                    aria-invalid=move || wrong.invalid()
                    aria-describedby=move || wrong.described_by()
                    prop:value=move || value.get().map(Day::iso).unwrap_or_default()
                    on:change:target=move |event| finish(event.target().value())
                />
            </span>
            {wrong.shown()}
        </div>
    }
}
