//! Counting in: circuits by taps or from the machine's own counter, or the length from a rule. The clock follows.

use leptos::prelude::*;

use super::count_words::{by_clock, by_length};
use super::session::{Session, session};
use crate::base::units::Length;
use crate::base::units::text::Unit;
use crate::page::view::field::{NumberField, TextField};
use crate::plan::run::AGREE;

/// From this many circuits, tens can be counted too. Our own choice.
const MANY: f64 = 50.0;
/// Most circuits that can be typed. Our own choice: more than any stretch takes.
const MOST: f64 = 999_999.0;
/// A count of fewer circuits is not compared with anything. Our own choice: one circuit of 50 is 2 %.
const COMPARED: f64 = 50.0;

/// The count, against the circuits wanted.
#[component]
pub(super) fn Counter(
    wanted: Signal<f64>,
    /// Whether the length can be typed: the lead-in has no place on the line.
    #[prop(optional)]
    has_length: bool,
) -> impl IntoView {
    let session = session();
    let clocks = session.clocks;
    let known = Memo::new(move |_| clocks.circuits());
    let is_unknown = Memo::new(move |_| known.with(Option::is_none));
    // While something typed stands in the field, the clock does not write there.
    let is_typing = RwSignal::new(false);
    let shown = Memo::new(move |before: Option<&f64>| match before {
        Some(before) if is_typing.get() => *before,
        _ => f64::from(known.get().unwrap_or_else(|| clocks.counted())),
    });
    let are_many = Memo::new(move |_| wanted.get() >= MANY);
    let over = move || known.get().map_or(0.0, f64::from) - wanted.get();
    let words = move || match over() {
        _ if is_unknown.get() => {
            format!("of {:.0} circuits. Type how many are done.", wanted.get())
        }
        over if over > 0.5 => format!("of {:.0} circuits: {over:.0} too many", wanted.get()),
        _ => format!("of {:.0} circuits", wanted.get()),
    };
    let said = RwSignal::new(None::<String>);
    let nudge = move |by: i32| {
        let now = clocks.moment();
        said.set(None);
        is_typing.set(false);
        if let Some(shown) = untrack(|| clocks.circuits()) {
            session.change(|run, _| run.nudged(shown, by, now));
            clocks.absence.forget();
        }
    };
    // A machine with a counter of its own runs faster than anybody taps: its reading is typed.
    let type_in = move |reading: f64| {
        if !(0.0..=MOST).contains(&reading) {
            return Err(format!("Type a number of circuits from 0 to {MOST:.0}."));
        }
        is_typing.set(false);
        said.set(differs_from_clock(session, reading));
        session.count_in(reading);
        Ok(())
    };
    view! {
        <div class="counter" data-past=move || (over() > 0.5).to_string()
            on:input=move |_| is_typing.set(true)
            on:keydown=move |event| {
                if event.key() == "Escape" {
                    is_typing.set(false);
                }
            }
        >
            <NumberField
                label="Circuits counted"
                action="circuits-read"
                value=shown.into()
                unit=Signal::stored(Unit::One)
                decimals=0
                commit=type_in
            />
            <p class="of-circuits">{words}</p>
            <div class="count-buttons">
                <button class="huge" data-action="circuit-less" disabled=move || is_unknown.get() on:click=move |_| nudge(-1)>
                    "−1"<span class="spoken">" circuit"</span>
                </button>
                <button class="huge" data-action="circuit" disabled=move || is_unknown.get() on:click=move |_| nudge(1)>
                    "+1"<span class="spoken">" circuit"</span>
                </button>
                <Show when=move || are_many.get()>
                    <button class="huge" data-action="circuits-ten" disabled=move || is_unknown.get() on:click=move |_| nudge(10)>"+10"<span class="spoken">" circuits"</span></button>
                </Show>
            </div>
        </div>
        {move || said.get().map(|said| view! { <p class="stop-first" role="status" data-count-differs="">{said}</p> })}
        <Show when=move || has_length>
            <ByLength said />
        </Show>
    }
}

/// The length braided since the last stop. Where it does not go with the count, the maker says which of the two is right.
#[component]
fn ByLength(said: RwSignal<Option<String>>) -> impl IntoView {
    let session = session();
    let asked = RwSignal::new(None::<(f64, String)>);
    let measure = move |text: String| {
        let typed = session.positions().read_length(&text)?;
        let length = typed - session.since_stop();
        if length < Length::ZERO {
            return Err(
                "The machine was farther than that already. Type the length since the last stop."
                    .to_owned(),
            );
        }
        let circuits = session.circuits_for(length)?;
        if let Some(words) = differs_from_count(session, length, circuits) {
            asked.set(Some((circuits, words)));
        } else {
            said.set(differs_from_clock(session, circuits));
            asked.set(None);
            session.count_in(circuits);
        }
        Ok(())
    };
    let unit = Signal::derive(move || session.positions().units.position().symbol().to_owned());
    let question = move || {
        let (circuits, words) = asked.get()?;
        let use_length = move |_| {
            asked.set(None);
            said.set(None);
            session.count_in(circuits);
        };
        Some(view! {
            <div class="away" role="status" data-count-differs="">
                <p>{words}</p>
                <div class="big-buttons">
                    <button class="huge" data-action="length-right" on:click=use_length>"The length is right"</button>
                    <button class="huge" data-action="count-right" on:click=move |_| asked.set(None)>"The count is right"</button>
                </div>
            </div>
        })
    };
    view! {
        <details class="finer by-length">
            <summary data-action="by-length">"Count by length"</summary>
            <TextField
                label="Braided since the last stop"
                action="length-read"
                numeric=true
                unit
                value=Signal::stored(String::new())
                commit=measure
            />
            {question}
        </details>
    }
}

/// What is to be said where a count is something else than the clock expected.
fn differs_from_clock(session: Session, reading: f64) -> Option<String> {
    session.clocks.moment();
    let countdown = session.clocks.countdown.get_untracked()?;
    let expected = countdown.done.filter(|_| countdown.is_timed())?;
    let is_alike = (reading - expected).abs() <= AGREE * expected;
    (expected >= COMPARED && !is_alike).then(|| by_clock(reading, expected))
}

/// What is to be said where a length makes so many circuits, and others were counted for it.
fn differs_from_count(session: Session, length: Length, circuits: f64) -> Option<String> {
    let run = session.run.get_untracked()?;
    let counted = f64::from(run.circuits);
    let ran = run.clock.ran_until(session.clocks.moment());
    let is_counted = run.clock.sure.circuits == run.circuits && ran == Some(0.0);
    if !is_counted || counted < COMPARED {
        return None;
    }
    let take_off = session.with_planned(|design, _| design.take_off())?;
    let difference = session.adjusted.with_untracked(|adjusted| {
        run.count_difference(adjusted.as_ref()?, &take_off, counted, length)
    })?;
    Some(by_length(&difference, counted, circuits))
}
