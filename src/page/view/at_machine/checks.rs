//! Looking at the braid on the way: what it should look like, what was measured, and what follows for the rest of the plan.

use leptos::prelude::*;

use super::check_by_photo::CheckByPhoto;
use super::focus::{PROPOSAL, focus_part};
use super::here::{expected_here, here, last};
use super::session::{Session, session};
use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::page::view::field::TextField;
use crate::paper::words::checks as words;
use crate::plan::run::{Check, CheckKind, CheckLevel, Expected, Measured, Proposal, Run};

/// Most checks listed; the book lists all.
const LISTED: usize = 5;

/// What the last check asks for; nothing where all is well.
fn offered(session: Session) -> Option<Proposal> {
    session.run.with_untracked(|run| {
        session.adjusted.with(|adjusted| {
            let (run, adjusted) = (run.as_ref()?, adjusted.as_ref()?);
            let here = untrack(|| here(session))?;
            session
                .with_planned(|design, plan| run.offered_correction(adjusted, design, plan, here))?
        })
    })
}

/// The checks of the run. A circuit counted changes none of them.
fn checks(session: Session) -> Memo<Vec<Check>> {
    Memo::new(move |_| {
        session
            .run
            .with(|run| run.as_ref().map_or_else(Vec::new, |run| run.checks.clone()))
    })
}

/// What to look at where the machine stands, with fields to type it in, folded. Once the run has moved on it is folded again.
#[component]
pub(super) fn Checks() -> impl IntoView {
    let session = session();
    let expected = expected_here(session);
    let since = Memo::new(move |_| {
        let is_there = expected.with(Option::is_some) && !session.is_start();
        let run = |run: &Run| is_there.then_some((run.done, run.mishaps.len()));
        session.run.with(|it| it.as_ref().and_then(run))
    });
    let look = move || {
        let units = session.bench.units.get();
        expected.with(|expected| Some(words::expected(expected.as_ref()?, units)))
    };
    view! {
        <For
            each=move || since.get()
            key=|since| *since
            children=move |_| view! {
                <details class="finer">
                    <summary data-action="checks">"Look at the braid: "{look}</summary>
                    <CheckFields />
                    <Correct />
                </details>
            }
        />
    }
}

/// A field for each thing to measure where the machine stands. A value is judged at once, and kept in the record of the line.
#[component]
pub(super) fn CheckFields() -> impl IntoView {
    let session = session();
    let expected = expected_here(session);
    let checks = checks(session);
    let settles = move || {
        let units = session.bench.units.get();
        let after = expected.with(|expected| expected.as_ref()?.settles_after)?;
        let long = units.show_short(Length::from_millimetres(after.millimetres().round()));
        Some(
            view! { <p>{format!("The angle settles over the next {long}. Measure after that.")}</p> },
        )
    };
    let must_stop = Memo::new(move |_| {
        checks.track();
        let is_stop = |kind: &CheckKind| {
            last(session, *kind).is_some_and(|check| check.level() == CheckLevel::Stop)
        };
        CheckKind::ALL.iter().any(is_stop)
    });
    let fields = CheckKind::ALL.map(|kind| view! { <CheckField kind expected checks /> });
    view! {
        <div class="checks">
            <p class="stop-first">"Stop the machine and let it come to rest before you measure."</p>
            {settles}
            <CheckByPhoto expected />
            <div class="check-fields">{fields}</div>
            <Show when=move || must_stop.get()>
                <p class="stop-first">
                    "Do not run on yet. Look for a broken or slack thread, and for a wrong gear. Rule of thumb, no source."
                </p>
            </Show>
        </div>
    }
}

/// One thing to measure, and below it what the value means; before that, which values are fine.
#[component]
fn CheckField(
    kind: CheckKind,
    expected: Memo<Option<Expected>>,
    checks: Memo<Vec<Check>>,
) -> impl IntoView {
    let session = session();
    let units = session.bench.units;
    let check = Memo::new(move |_| {
        checks.track();
        last(session, kind)
    });
    let value = move || {
        let check = check.get();
        check.map_or_else(String::new, |check| {
            words::check_text(kind, check.value, units.get())
        })
    };
    let verdict = move || match check.get() {
        Some(check) => words::check_verdict(&check, units.get()),
        None => expected.with(|expected| fine_words(kind, expected.as_ref(), units.get())),
    };
    let level = move || check.get().map(|check| check.level().name());
    view! {
        <div class="check">
            <TextField
                label=words::check_name(kind)
                action=action(kind)
                numeric=true
                unit=Signal::derive(move || words::check_unit(kind, units.get()).to_owned())
                value=Signal::derive(value)
                commit=move |text: String| take(session, kind, &text)
            />
            <p class="check-verdict" role="status" data-level=level>{verdict}</p>
        </div>
    }
}

fn fine_words(kind: CheckKind, expected: Option<&Expected>, units: Units) -> String {
    let range = expected.map(|expected| words::check_range(kind, &expected.of(kind), units));
    range.map_or_else(String::new, |range| format!("fine: {range}"))
}

const fn action(kind: CheckKind) -> &'static str {
    match kind {
        CheckKind::Angle => "check-angle",
        CheckKind::Crossings => "check-crossings",
        CheckKind::Diameter => "check-diameter",
    }
}

/// Keeps a value typed; an emptied field takes the last one back.
fn take(session: Session, kind: CheckKind, text: &str) -> Result<(), String> {
    if text.trim().is_empty() {
        session.change(|run, _| run.without_check(kind));
        return Ok(());
    }
    let units = session.bench.units.get_untracked();
    let value = words::read_check(kind, text, units)?;
    let checked = untrack(|| {
        let at = here(session)?;
        session.with_run(|run, adjusted| {
            let measured = Measured::by_hand(kind, value);
            session.with_planned(|design, _| run.checked(adjusted, design, at, measured))
        })?
    });
    match checked {
        Some(Ok(run)) => session.put(run),
        Some(Err(why)) => return Err(why.words(|value| words::check_value(kind, value, units))),
        None => {}
    }
    Ok(())
}

/// Where a check asks for it: the rest of the plan with the gears that suit what was measured.
#[component]
fn Correct() -> impl IntoView {
    let session = session();
    let checks = checks(session);
    let is_offered = Memo::new(move |_| {
        checks.track();
        offered(session).is_some()
    });
    let propose = move |_| {
        session.propose(untrack(|| offered(session)));
        focus_part(PROPOSAL);
    };
    view! {
        <Show when=move || is_offered.get()>
            <button class="huge" data-action="check-correct" on:click=propose>"Correct the rest of the plan"</button>
        </Show>
    }
}

/// The last checks of this line.
#[component]
pub(super) fn CheckLog() -> impl IntoView {
    let session = session();
    let checks = checks(session);
    let rows = move || {
        let positions = session.positions();
        let row = |check: Check| {
            let at = positions.show(Length::from_metres(check.at_m));
            view! { <li>{words::check_row(&check, &at, positions.units)}</li> }
        };
        let newest = checks.get().into_iter().rev().take(LISTED);
        newest.map(row).collect_view()
    };
    view! {
        <Show when=move || checks.with(|checks| !checks.is_empty())>
            <h2>"Checks so far"</h2>
            <ul class="log check-log">{rows}</ul>
        </Show>
    }
}
