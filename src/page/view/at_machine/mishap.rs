//! Something went wrong: what it was, and what went wrong before.

use leptos::prelude::*;

use super::focus::{PROPOSAL, focus_part};
use super::positions::PositionFormat;
use super::proposal::ProposalPanel;
use super::session::{Session, session};
use crate::base::units::Length;
use crate::page::view::field::TextField;
use crate::page::view::field_error::FieldError;
use crate::plan::AdjustedPlan;
use crate::plan::run::{Mishap, MishapKind, NoMishap, Proposal, Run};

/// Fields for what went wrong, and what follows. Once the run has moved on, what was typed before is meaningless: the fields
/// are made again, folded.
#[component]
pub(super) fn Mishaps() -> impl IntoView {
    let session = session();
    let since = Memo::new(move |_| {
        let (done, mishaps) = session
            .run
            .with(|run| run.as_ref().map(|run| (run.done, run.mishaps.len())))?;
        Some((done, mishaps, session.positions()))
    });
    let outcome = move || {
        let made = session.proposal.get();
        made.map(|made| view! { <ProposalPanel made /> })
    };
    view! {
        <For
            each=move || since.get()
            key=|since| format!("{since:?}")
            children=|(_, _, positions)| view! { <Fields positions /> }
        />
        {outcome}
    }
}

#[component]
fn Fields(positions: PositionFormat) -> impl IntoView {
    let session = session();
    let wrong = FieldError::none();
    let told = move |kind: MishapKind, text: &str| -> Result<(), String> {
        let at = positions.read(text)?;
        let standing = |run: &Run, adjusted: &AdjustedPlan| run.standing_at(adjusted, kind, at);
        let next = untrack(|| session.with_run(standing));
        propose(&session, next, positions)
    };
    let late = move |text: String| -> Result<(), String> {
        let by = positions.read_short(&text)?;
        let made = |run: &Run, adjusted: &AdjustedPlan| run.made_late(adjusted, by);
        let next = untrack(|| session.with_run(made));
        propose(&session, next, positions)
    };
    let broke = move |_| {
        let Some(circuits) = untrack(|| session.clocks.circuits()) else {
            let said = "It is not known how far the machine is. Type first what your counter or rule shows.";
            wrong.set(Some(said.to_owned()));
            return;
        };
        let broken = |run: &Run, adjusted: &AdjustedPlan| {
            let since = run.length_of(adjusted, f64::from(circuits));
            let at = run.stands_at(adjusted) + since;
            run.standing_at(adjusted, MishapKind::Broke, at)
        };
        let next = untrack(|| session.with_run(broken));
        wrong.set(propose(&session, next, positions).err());
    };
    let unit = Signal::stored(positions.units.position().symbol().to_owned());
    let empty = Signal::stored(String::new());
    let [at, skipped, ground] = labels(positions);
    view! {
        <details class="finer mishaps">
            <summary data-action="mishaps">"Something went wrong"</summary>
            <div class="fields">
                <TextField label=at action="mishap-at" numeric=true unit value=empty ground
                    commit=move |text: String| told(MishapKind::Elsewhere, &text) />
                <TextField label="I did the last step late, by" action="mishap-late" numeric=true
                    unit=Signal::stored(positions.short().symbol().to_owned()) value=empty
                    ground="Type a minus if you did it early."
                    commit=late />
                <TextField label=skipped action="mishap-skipped" numeric=true unit value=empty
                    ground="The step is added as soon as possible."
                    commit=move |text: String| told(MishapKind::Skipped, &text) />
            </div>
            <button class="huge" data-action="mishap-broke" on:click=broke>"A thread broke; I have joined it again"</button>
            {wrong.shown()}
        </details>
    }
}

/// What the fields of places are called, and what the first one means: by the maker's mark where there is one.
const fn labels(positions: PositionFormat) -> [&'static str; 3] {
    if positions.rollers.metres() > 0.0 {
        [
            "my mark now reads",
            "I missed this step; my mark now reads",
            "Line that has passed your mark, from the tip. Type a minus if the tip has not reached it yet. Missed changes are made as soon as possible.",
        ]
    } else {
        [
            "I am now at",
            "I missed this step; I am now at",
            "The place where the threads meet, from the tip. Missed changes are made as soon as possible.",
        ]
    }
}

/// Shows what would follow.
fn propose(
    session: &Session,
    next: Option<Result<Run, NoMishap>>,
    positions: PositionFormat,
) -> Result<(), String> {
    let Some(next) = next else {
        return Ok(());
    };
    let run = next.map_err(|why| why.words(|at| positions.show(at)))?;
    let made = session.planned.with_untracked(|planned| {
        let (design, plan) = planned.as_ref()?;
        session
            .adjusted
            .with_untracked(|adjusted| Some(Proposal::of(run, adjusted.as_ref()?, design, plan)))
    });
    session.propose(made);
    focus_part(PROPOSAL);
    Ok(())
}

/// The mishaps so far.
#[component]
pub(super) fn Log() -> impl IntoView {
    let session = session();
    let mishaps = Memo::new(move |_| {
        session.run.with(|run| {
            run.as_ref()
                .map(|run| run.mishaps.clone())
                .unwrap_or_default()
        })
    });
    let rows = move || {
        let positions = session.positions();
        let row = |mishap: Mishap| {
            let at = positions.show(Length::from_metres(mishap.at_m));
            view! { <li>{format!("at {at}: {}", mishap.kind.name())}</li> }
        };
        mishaps.get().into_iter().map(row).collect_view()
    };
    view! {
        <Show when=move || mishaps.with(|mishaps| !mishaps.is_empty())>
            <h2>"Corrections"</h2>
            <ul class="log">{rows}</ul>
        </Show>
    }
}
