//! The course of the dressing: where it stands today, as a bar of days; before it begins, the choice of the day.

use leptos::prelude::*;

use super::days::{days, steps_from};
use super::step_days::DayField;
use crate::base::choice::Choice as _;
use crate::page::browser::clock;
use crate::page::view::bench::bench;
use crate::paper::chart::timeline::{DateLabel, Segment, timeline};
use crate::paper::words;

/// Height of the bar, of the mark of today around it, and of the whole picture, in pixels.
const BAR: f64 = 32.0;
const MARK: f64 = 4.0;
const HEIGHT: f64 = 64.0;
/// What is left between two parts of the bar, in pixels.
const GAP: f64 = 3.0;

/// The card at the head of the place.
#[component]
pub(super) fn CourseCard() -> impl IntoView {
    let days = days();
    let has_begun = Memo::new(move |_| days.record.with(Option::is_some));
    let is_other = move || has_begun.get() && !days.fits.get();
    view! {
        <div class="card course">
            <Show when=move || !has_begun.get()>
                <NotBegun />
            </Show>
            <Show when=is_other>
                <h2>"The steps have changed"</h2>
                <p class="caution">
                    "The line in dressing was started with other steps than the plan has now. So its days are not shown here."
                </p>
                <div class="step-buttons">
                    <button class="main" data-action="follow-plan" on:click=move |_| days.follow_plan()>"Use the steps as they are now"</button>
                </div>
            </Show>
            <Show when=move || days.are_shown()>
                <Standing />
                <Bar />
            </Show>
            <Show when=move || has_begun.get()>
                <More />
            </Show>
        </div>
    }
}

/// The offer to choose a start date.
#[component]
fn NotBegun() -> impl IntoView {
    let (bench, days) = (bench(), days());
    let length = move || {
        let dated = bench
            .settled
            .with(|design| steps_from(design, clock::today()));
        words::course_length(&dated)
    };
    let has_steps = move || {
        bench
            .settled
            .with(|design| !design.draft().recipe.is_empty())
    };
    view! {
        <Show
            when=has_steps
            fallback=|| view! {
                <h2>"No steps yet"</h2>
                <p class="hint">"Choose steps below. The days and amounts for this line are then shown here."</p>
            }
        >
            <h2>"Choose a start date"</h2>
            <p class="hint">
                {length}
                " Every step gets its day. Tick it when it is done. The line is entered in your book."
            </p>
            <div class="start">
                <StartField label="Start date" />
                <button
                    class="main"
                    data-action="start-today"
                    on:click=move |_| if let Some(today) = clock::today() { days.begin(today) }
                >
                    "Start today"
                </button>
            </div>
        </Show>
    }
}

#[component]
fn StartField(label: &'static str) -> impl IntoView {
    let days = days();
    view! {
        <DayField label action="dressing-start" value=Signal::derive(move || days.start()) take=Callback::new(move |day| days.begin(day)) />
    }
}

/// The step at hand, what follows, and the calendar file.
#[component]
fn Standing() -> impl IntoView {
    let days = days();
    let course = Memo::new(move |_| words::course(&days.of_kinds(), clock::today()));
    let heading = move || course.with(|course| course.as_ref().map(|it| it.heading.clone()));
    let ahead = move || course.with(|course| course.as_ref().map(|it| it.ahead.clone()));
    view! {
        <div class="course-head">
            <div>
                <h2>{heading}</h2>
                <p class="hint">{ahead}</p>
            </div>
            <button data-action="save-calendar" on:click=move |_| days.save_calendar()>"Add to calendar"</button>
        </div>
    }
}

/// Which line it is, another start, another line.
#[component]
fn More() -> impl IntoView {
    let days = days();
    let name = move || {
        days.record
            .with(|record| record.as_ref().map(|(_, record)| record.name.clone()))
    };
    view! {
        <details class="finer">
            <summary data-action="course-more">"Move the start, or start another line"</summary>
            <p class="hint">"In dressing: "{name}". When you move the start, the days of all steps not done move too."</p>
            <div class="start">
                <StartField label="Start date" />
                <button data-action="begin-another" on:click=move |_| days.begin_another()>"Start another line of this plan today"</button>
            </div>
        </details>
    }
}

/// The bar of days.
#[component]
fn Bar() -> impl IntoView {
    let days = days();
    let bar = move || {
        let steps = days.of_kinds();
        let dated: Vec<_> = steps.iter().map(|step| step.1).collect();
        let line = timeline(&dated, clock::today())?;
        let segments = line.segments.iter().map(|segment| {
            let names: Vec<&str> = steps[segment.steps.clone()]
                .iter()
                .map(|(kind, _)| kind.name())
                .collect();
            part(segment, &names.join(", "))
        });
        let today = line.today.map(|at| {
            let x = percent(at);
            view! { <line class="today" x1=x.clone() x2=x y1="0" y2=BAR + 2.0 * MARK /> }
        });
        Some(view! {
            <svg class="strip" height=HEIGHT role="img" aria-label="The steps as a bar of days; today is marked">
                {segments.collect_view()}
                {line.labels.iter().map(label).collect_view()}
                {today}
            </svg>
        })
    };
    view! { {bar} }
}

fn percent(share: f64) -> String {
    format!("{:.3}%", share * 100.0)
}

fn part(segment: &Segment, names: &str) -> impl IntoView + use<> {
    let share = percent(segment.to - segment.from);
    let gap = if segment.to < 1.0 { GAP } else { 0.0 };
    // A browser that takes no width of a drawing from a style leaves no gap.
    let width = format!("calc({share} - {gap}px)");
    let names = names.to_owned();
    view! {
        <rect class:done=segment.is_done x=percent(segment.from) width=share style:width=width y=MARK height=BAR rx="4">
            <title>{names}</title>
        </rect>
    }
}

fn label(label: &DateLabel) -> impl IntoView + use<> {
    let (is_first, is_last) = (label.at <= 0.0, label.at >= 1.0);
    view! {
        <text class:first=is_first class:last=is_last x=percent(label.at) y=HEIGHT - 4.0>{label.text.clone()}</text>
    }
}
