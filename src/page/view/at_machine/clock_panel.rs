//! The run clock in the step: how long until the stop, at what time of day, and what the clock could not know.

use leptos::prelude::*;

use super::session::session;
use crate::base::units::show;
use crate::page::browser::clock::{time_of_day, wall};
use crate::page::view::run_clock::{AbsenceKind, RunClocks, left_words, run_clocks};
use crate::plan::run::{Countdown, PaceBasis, Signal};

/// From this length on a stretch can be left: its end by the time of day matters. In seconds; our own choice.
const SHORT: f64 = 90.0;

/// How long until the stop.
#[component]
pub(super) fn ClockPanel() -> impl IntoView {
    let clocks = session().clocks;
    let countdown = clocks.countdown;
    let seconds = Memo::new(move |_| countdown.get().and_then(|it| it.seconds()));
    let state = move || {
        countdown
            .get()
            .map(|it| state(&it, clocks.signals.last.get()))
    };
    let left = Memo::new(move |_| countdown.get().map(|it| left_words(&it)));
    let more = move || {
        let countdown = countdown.get()?;
        let long = countdown.seconds()?;
        let due = countdown.due(wall())?;
        let at = (countdown.is_running && long > SHORT)
            .then(|| format!("Stop at {}. ", time_of_day(due)));
        Some(format!(
            "{}{}",
            at.unwrap_or_default(),
            pace_words(&countdown)
        ))
    };
    let share = move || countdown.get().and_then(|it| it.share()).unwrap_or(0.0);
    view! {
        <div class="clock" data-clock-state=state>
            <p
                class="left"
                role="timer"
                data-clock="next-stop"
                data-si=move || seconds.get().map_or(String::new(), |it| it.to_string())
            >
                {move || left.get()}
            </p>
            <div class="clock-bar" aria-hidden="true">
                <div style:width=move || format!("{:.1}%", 100.0 * share())></div>
            </div>
            <p class="where-at">{more}</p>
            <Unknown />
            <Away />
            <Refused />
            <Aid />
        </div>
    }
}

/// The state of the clock, as a key.
fn state(countdown: &Countdown, last: Option<Signal>) -> &'static str {
    if countdown.left().is_none() {
        "unknown"
    } else if !countdown.is_running {
        "stopped"
    } else if countdown.past() > 0.0 {
        "due"
    } else if last == Some(Signal::Soon) {
        "soon"
    } else {
        "running"
    }
}

/// `41.3 ± 0.4 circuits a minute, timed 5 times on this line.`
fn pace_words(countdown: &Countdown) -> String {
    let pace = countdown.pace;
    let spread = pace.spread.map(|share| share * pace.circuits_per_minute);
    let spread = spread.filter(|spread| *spread >= 0.05);
    let spread = spread.map_or_else(String::new, |spread| format!(" ± {spread:.1}"));
    let number = format!("{}{spread}", show::trimmed(pace.circuits_per_minute, 1));
    let of = |count: usize, lines: &str| match count {
        1 => format!("timed once on {lines}"),
        count => format!("timed {count} times on {lines}"),
    };
    let from = match pace.basis {
        PaceBasis::Own => "as you set it".to_owned(),
        PaceBasis::ThisLine(count) => of(count, "this line"),
        PaceBasis::EarlierLines(count) => of(count, "this workshop’s lines"),
        PaceBasis::Settings => "as the workshop has it".to_owned(),
    };
    format!("{number} circuits a minute, {from}.")
}

/// Why the clock does not know, and what helps.
#[component]
fn Unknown() -> impl IntoView {
    let clocks = run_clocks();
    let why = Memo::new(move |_| {
        let countdown = clocks.countdown.get()?;
        // While it is asked about a time, the question says why.
        let is_asked = clocks.doubtful() > 0.0 || clocks.away().is_some();
        (countdown.left().is_none() && !is_asked).then(|| {
            if countdown.is_long_past() {
                "The stop was due a while ago. If the machine is stopped, press “Machine stopped”. If it ran on, type what your counter or rule shows."
            } else {
                "The clock of this device was changed, or its time makes no sense. Type what your counter or rule shows, and the clock counts from there."
            }
        })
    });
    view! { {move || why.get().map(|why| view! { <p class="stop-first" role="status">{why}</p> })} }
}

/// What happened while nobody looked, and what the maker says of it.
#[component]
fn Away() -> impl IntoView {
    let clocks = run_clocks();
    let doubtful = Memo::new(move |_| clocks.doubtful());
    let away = Memo::new(move |_| clocks.away());
    let shown = move || {
        let (words, buttons) = match (doubtful.get(), away.get()) {
            (seconds, _) if seconds > 0.0 => (
                format!(
                    "The clock of this device jumped ahead by {}, or the device slept. Did the machine run all that time?",
                    long(seconds)
                ),
                vec![(Answer::Ran, "It ran"), (Answer::RanNot, "No, it did not")],
            ),
            (seconds, _) if seconds < 0.0 => return None,
            (
                _,
                Some(AbsenceKind::Away {
                    seconds,
                    until,
                    missed,
                }),
            ) => {
                let missed = if missed {
                    " A signal was due in that time and came late."
                } else {
                    ""
                };
                (
                    format!(
                        "This page slept or was closed for {}, until {}. The clock counted on.{missed}",
                        long(seconds),
                        time_of_day(until)
                    ),
                    vec![
                        (Answer::Seen, "The machine ran"),
                        (Answer::Stood(seconds), "It stood in that time"),
                    ],
                )
            }
            (_, Some(AbsenceKind::SetBack { seconds })) => (
                format!(
                    "The clock of this device was set back by {}. The run clock counts on as before.",
                    long(seconds)
                ),
                vec![(Answer::Seen, "OK")],
            ),
            (_, None) => return None,
        };
        let button = |(answer, name): (Answer, &'static str)| {
            view! {
                <button class="huge" data-action=answer.key() on:click=move |_| answer.give(clocks)>{name}</button>
            }
        };
        let buttons = buttons.into_iter().map(button).collect_view();
        Some(view! {
            <div class="away" role="status" data-away="">
                <p>{words}</p>
                <div class="big-buttons">{buttons}</div>
            </div>
        })
    };
    view! { {shown} }
}

/// A time in words.
fn long(seconds: f64) -> String {
    show::minutes(seconds.abs() / 60.0)
}

/// What the maker says of a time when nobody looked.
#[derive(Clone, Copy)]
enum Answer {
    /// The machine ran in the time that is in doubt.
    Ran,
    /// It did not.
    RanNot,
    /// The machine stood for so many seconds.
    Stood(f64),
    /// Nothing is to be changed.
    Seen,
}

impl Answer {
    const fn key(self) -> &'static str {
        match self {
            Self::Ran | Self::Seen => "away-ran",
            Self::RanNot | Self::Stood(_) => "away-stood",
        }
    }

    fn give(self, clocks: RunClocks) {
        clocks.moment();
        match self {
            Self::Ran => clocks.change(|run| run.without_doubt(true)),
            Self::RanNot => clocks.change(|run| run.without_doubt(false)),
            Self::Stood(seconds) => clocks.change(|run| run.without_seconds(seconds)),
            Self::Seen => {}
        }
        clocks.absence.forget();
    }
}

/// Sound or voice that the browser refuses.
#[component]
fn Refused() -> impl IntoView {
    let signals = run_clocks().signals;
    let silent = move || {
        signals
            .is_silent
            .get()
            .then_some("This browser gives no sound. Keep the screen in sight.")
    };
    view! {
        {move || silent().map(|said| view! { <p class="hint" data-silent="">{said}</p> })}
    }
}

/// Said once: what the clock is.
#[component]
fn Aid() -> impl IntoView {
    let clocks = run_clocks();
    let settings = clocks.settings;
    let is_running = Memo::new(move |_| clocks.countdown.get().is_some_and(|it| it.is_running));
    view! {
        <Show when=move || is_running.get() && !settings.has_read.get()>
            <div class="away" role="status">
                <p>"The clock is an aid. Your own mark and your own count decide."</p>
                <div class="big-buttons">
                    <button class="huge" data-action="clock-read" on:click=move |_| settings.read()>"OK"</button>
                </div>
            </div>
        </Show>
    }
}
