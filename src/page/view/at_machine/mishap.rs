//! Something went wrong: what it was, and what went wrong before.

use leptos::prelude::*;

use super::outcome::Outcome;
use super::places::Places;
use super::sight::{PROPOSAL, go_to};
use super::work::{Work, work};
use crate::base::units::Length;
use crate::page::view::field::TextField;
use crate::plan::Course;
use crate::plan::run::{Mishap, MishapKind, NoMishap, Proposal, Run};

/// Ways for things to go wrong, and what follows. Where the run has gone on, what was typed before means nothing any more: all
/// is made anew, folded.
#[component]
pub(super) fn Mishaps() -> impl IntoView {
    let work = work();
    let since = Memo::new(move |_| {
        let (done, mishaps) = work
            .run
            .with(|run| run.as_ref().map(|run| (run.done, run.mishaps.len())))?;
        Some((done, mishaps, work.places()))
    });
    let outcome = move || {
        let made = work.proposal.get();
        made.map(|made| view! { <Outcome made /> })
    };
    view! {
        <For
            each=move || since.get()
            key=|since| format!("{since:?}")
            children=|(_, _, places)| view! { <Fields places /> }
        />
        {outcome}
    }
}

#[component]
fn Fields(places: Places) -> impl IntoView {
    let work = work();
    let wrong = RwSignal::new(None::<String>);
    let told = move |kind: MishapKind, text: &str| -> Result<(), String> {
        let at = places.read(text)?;
        let next = with_run(&work, |run, course| run.standing_at(course, kind, at));
        propose(&work, next, places)
    };
    let late = move |text: String| -> Result<(), String> {
        let by = places.read_short(&text)?;
        let next = with_run(&work, |run, course| run.made_late(course, by));
        propose(&work, next, places)
    };
    let broke = move |_| {
        let next = with_run(&work, |run, course| {
            run.standing_at(course, MishapKind::Broke, run.stands_at(course))
        });
        wrong.set(propose(&work, next, places).err());
    };
    let unit = Signal::stored(places.units.position().symbol().to_owned());
    let empty = Signal::stored(String::new());
    let [at, skipped, ground] = labels(places);
    view! {
        <details class="mishaps">
            <summary data-action="mishaps">"Something went otherwise"</summary>
            <div class="fields">
                <TextField label=at action="mishap-at" numeric=true unit value=empty ground
                    commit=move |text: String| told(MishapKind::Elsewhere, &text) />
                <TextField label="the last step was made late by" action="mishap-late" numeric=true
                    unit=Signal::stored(places.short().symbol().to_owned()) value=empty
                    ground="With a minus where it was made early."
                    commit=late />
                <TextField label=skipped action="mishap-skipped" numeric=true unit value=empty
                    ground="The step is put in as soon as it can be."
                    commit=move |text: String| told(MishapKind::Skipped, &text) />
            </div>
            <button class="huge" data-action="mishap-broke" on:click=broke>"A thread broke; I have joined it again"</button>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
        </details>
    }
}

/// What the fields of places are called, and what the first one means: by the maker's mark where there is one.
const fn labels(places: Places) -> [&'static str; 3] {
    if places.rollers.metres() > 0.0 {
        [
            "at my mark I read",
            "this step was passed over; at my mark I read",
            "Line that has passed your mark, from the tip; with a minus where the tip has not come to it yet. What should have been done before, and was not, is made up for.",
        ]
    } else {
        [
            "I am at",
            "this step was passed over; I am at",
            "Where the threads meet, from the tip. What should have been done before it, and was not, is made up for.",
        ]
    }
}

/// Lays open what would follow.
fn propose(work: &Work, next: Option<Result<Run, NoMishap>>, places: Places) -> Result<(), String> {
    let Some(next) = next else {
        return Ok(());
    };
    let run = next.map_err(|why| why.words(|at| places.told(at)))?;
    let made = work.planned.with_untracked(|planned| {
        let (design, plan) = planned.as_ref()?;
        work.course
            .with_untracked(|course| Some(Proposal::of(run, course.as_ref()?, design, plan)))
    });
    work.proposal.set(made);
    go_to(PROPOSAL);
    Ok(())
}

fn with_run<T>(work: &Work, then: impl FnOnce(&Run, &Course) -> T) -> Option<T> {
    work.run.with_untracked(|run| {
        work.course
            .with_untracked(|course| Some(then(run.as_ref()?, course.as_ref()?)))
    })
}

/// What went otherwise so far.
#[component]
pub(super) fn Log() -> impl IntoView {
    let work = work();
    let mishaps = Memo::new(move |_| {
        work.run.with(|run| {
            run.as_ref()
                .map(|run| run.mishaps.clone())
                .unwrap_or_default()
        })
    });
    let rows = move || {
        let places = work.places();
        let row = |mishap: Mishap| {
            let at = places.told(Length::from_metres(mishap.at_m));
            view! { <li>{format!("at {at}: {}", mishap.kind.name())}</li> }
        };
        mishaps.get().into_iter().map(row).collect_view()
    };
    view! {
        <Show when=move || mishaps.with(|mishaps| !mishaps.is_empty())>
            <h2>"Went otherwise"</h2>
            <ul class="log">{rows}</ul>
        </Show>
    }
}
