//! Something went wrong: what it was, what follows from it, and taking that or not.

use leptos::prelude::*;

use super::to_do::deed_words;
use super::work::{Work, work};
use crate::figures::verdict_title;
use crate::run::{MishapKind, NoMishap, Proposal, Run};
use crate::units::show;
use crate::units::text::{Unit, read};
use crate::units::{Length, Mass};
use crate::view::field::TextField;

/// Ways for things to go wrong, and what follows.
#[component]
pub(super) fn Mishaps() -> impl IntoView {
    let work = work();
    let proposal = RwSignal::new(None::<Proposal>);
    let wrong = RwSignal::new(None::<String>);
    let propose = move |next: Result<Run, NoMishap>| -> Result<(), String> {
        let run = next.map_err(|why| why.to_string())?;
        let made = work.planned.with_untracked(|planned| {
            let (design, plan) = planned.as_ref()?;
            work.course
                .with_untracked(|course| Some(Proposal::of(run, course.as_ref()?, design, plan)))
        });
        proposal.set(made);
        Ok(())
    };
    let told = move |kind: MishapKind, text: &str| -> Result<(), String> {
        let unit = work.bench.units.get_untracked().position();
        let typed = read(text, unit).map_err(|unread| unread.to_string())?;
        let at = Length::from_metres(unit.convert(typed, Unit::Metre).unwrap_or(0.0));
        let next = with_run(&work, |run, course| run.standing_at(course, kind, at));
        next.map_or(Ok(()), propose)
    };
    let late = move |text: String| -> Result<(), String> {
        let typed = read(&text, Unit::Centimetre).map_err(|unread| unread.to_string())?;
        let by = Length::from_metres(typed / 100.0);
        let next = with_run(&work, |run, course| run.made_late(course, by));
        next.map_or(Ok(()), propose)
    };
    let broke = move |_| {
        let next = with_run(&work, |run, course| {
            run.standing_at(course, MishapKind::Broke, run.stands_at(course))
        });
        wrong.set(next.and_then(|next| propose(next).err()));
    };
    let unit = Signal::derive(move || work.bench.units.get().position().symbol().to_owned());
    let empty = Signal::stored(String::new());
    view! {
        <details class="mishaps">
            <summary data-action="mishaps">"Something went otherwise"</summary>
            <div class="fields">
                <TextField label="I am at" action="mishap-at" numeric=true unit value=empty
                    ground="Where the threads meet, from the tip. What should have been done before it, and was not, is made up for."
                    commit=move |text: String| told(MishapKind::Elsewhere, &text) />
                <TextField label="the last step was made late by" action="mishap-late" numeric=true
                    unit=Signal::stored("cm".to_owned()) value=empty
                    ground="With a minus where it was made early."
                    commit=late />
                <TextField label="this step was passed over; I am at" action="mishap-skipped" numeric=true unit value=empty
                    ground="The step is put in as soon as it can be."
                    commit=move |text: String| told(MishapKind::Skipped, &text) />
            </div>
            <button class="huge" data-action="mishap-broke" on:click=broke>"A thread broke; I have joined it again"</button>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
        </details>
        {move || proposal.get().map(|made| view! { <Outcome made proposal /> })}
        <Log />
    }
}

fn with_run<T>(work: &Work, then: impl FnOnce(&Run, &crate::plan::Course) -> T) -> Option<T> {
    work.run.with_untracked(|run| {
        work.course
            .with_untracked(|course| Some(then(run.as_ref()?, course.as_ref()?)))
    })
}

/// What follows from it, before it is taken.
#[component]
fn Outcome(made: Proposal, proposal: RwSignal<Option<Proposal>>) -> impl IntoView {
    let work = work();
    let head = head_words(&made);
    let next = made.next.as_ref().map(|event| {
        let at = work.bench.units.get_untracked().show_position(event.at);
        format!("Next: at {at}, {}.", deed_words(event))
    });
    let run = made.run.clone();
    view! {
        <div class="proposal" role="alert" data-head=made.after.map(Mass::kilograms)>
            <p><b>{head}</b></p>
            <p>{next}</p>
            <div class="big-buttons">
                <button class="main huge" data-action="mishap-take" on:click=move |_| { work.put(run.clone()); proposal.set(None); }>
                    "Go on so"
                </button>
                <button class="huge" data-action="mishap-leave" on:click=move |_| proposal.set(None)>"Leave it"</button>
            </div>
        </div>
    }
}

/// What becomes of the head.
fn head_words(made: &Proposal) -> String {
    let (Some(before), Some(after)) = (made.before, made.after) else {
        return "The line is too short to have a class; the rest is laid out anew.".to_owned();
    };
    let by = (after - before).grains();
    let class = verdict_title(&made.verdict).to_lowercase();
    if by.abs() < 0.05 {
        format!("The first 30 ft stay at {}, {class}.", show::grains(after))
    } else {
        let sign = if by < 0.0 { "lighter" } else { "heavier" };
        format!(
            "The first 30 ft will weigh {}, {:.1} gr {sign}: {class}.",
            show::grains(after),
            by.abs()
        )
    }
}

/// What went otherwise so far.
#[component]
fn Log() -> impl IntoView {
    let work = work();
    let rows = move || {
        let units = work.bench.units.get();
        let mishaps = work.run.with(|run| {
            run.as_ref()
                .map(|run| run.mishaps.clone())
                .unwrap_or_default()
        });
        let row = |mishap: crate::run::Mishap| {
            let at = units.show_position(Length::from_metres(mishap.at_m));
            view! { <li>{format!("at {at}: {}", mishap.kind.name())}</li> }
        };
        mishaps.into_iter().map(row).collect_view()
    };
    let has_any = move || {
        work.run
            .with(|run| run.as_ref().is_some_and(|run| !run.mishaps.is_empty()))
    };
    view! {
        <Show when=has_any>
            <h2>"Went otherwise"</h2>
            <ul class="log">{rows}</ul>
        </Show>
    }
}
