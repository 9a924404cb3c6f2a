//! A bobbin weighed or timed: its weight is compared with the plan, and its time shows what all the others take.

use leptos::prelude::*;

use super::ticks::Ticks;
use crate::base::units::text::{Unit, read};
use crate::base::units::{Length, Mass, show};
use crate::keep::book::machine_notes::WinderTiming;
use crate::page::view::bench::bench;
use crate::page::view::book::{OpenBook, open_book};
use crate::page::view::field::TextField;
use crate::paper::words;
use crate::plan::bobbins::Bobbin;
use crate::plan::weighed_bobbin::{WeighedBobbin, WeighedVerdict};
use crate::plan::wound::weight_in_milligrams;

/// The bobbin that is weighed or timed.
#[derive(Clone, Copy)]
struct AtHand {
    ticks: Ticks,
    open_book: OpenBook,
    /// Its carrier and ends; the first bobbin where none was chosen.
    chosen: RwSignal<Option<String>>,
    /// It, as planned.
    bobbin: Memo<Option<Bobbin>>,
    /// The bobbin whose time was typed at this visit: only its figures belong together.
    timed: RwSignal<Option<String>>,
}

/// What tells a bobbin from the others of its line.
fn key(bobbin: &Bobbin) -> String {
    format!("{} {}", bobbin.carrier, bobbin.ends)
}

impl AtHand {
    fn open(ticks: Ticks) -> Self {
        let bench = bench();
        let chosen = RwSignal::new(None::<String>);
        let bobbin = Memo::new(move |_| {
            bench.plan.with(|plan| {
                let is_chosen = |it: &&Bobbin| chosen.with(|chosen| *chosen == Some(key(it)));
                let found = plan.bobbins.iter().find(is_chosen);
                found.or(plan.bobbins.first()).copied()
            })
        });
        Self {
            ticks,
            open_book: open_book(),
            chosen,
            bobbin,
            timed: RwSignal::new(None),
        }
    }

    fn key(self) -> Option<String> {
        self.bobbin.with(|bobbin| bobbin.as_ref().map(key))
    }

    /// Its weight compared with the plan.
    fn weighed(self) -> Option<WeighedBobbin> {
        let wound = self.ticks.bench.wound;
        self.bobbin
            .with(|bobbin| wound.with(|wound| wound.weighed(bobbin.as_ref()?)))
    }

    /// The thread on it: by weight, or as planned; and its ends.
    fn thread(self) -> Option<(Length, u32)> {
        let bobbin = self.bobbin.get()?;
        let by_weight = self.weighed().map(|weighed| weighed.by_weight);
        Some((by_weight.unwrap_or(bobbin.length), bobbin.ends))
    }

    fn is_timed(self) -> bool {
        self.timed.get().is_some_and(|it| Some(it) == self.key())
    }

    /// A figure of the winder, where it is of this bobbin.
    fn figure(self, of: fn(&WinderTiming) -> Option<f64>) -> String {
        let figure = self
            .open_book
            .workshop
            .with(|workshop| of(&workshop.machine_notes.winder));
        let figure = figure.filter(|_| self.is_timed());
        figure.map_or_else(String::new, |figure| show::trimmed(figure, 2))
    }

    fn take_weight(self, text: &str) -> Result<(), String> {
        let mg = if text.trim().is_empty() {
            None
        } else {
            let grams = read(text, Unit::Gram).map_err(|unread| unread.to_string())?;
            let mg = weight_in_milligrams(Mass::from_grams(grams));
            Some(mg.ok_or("Enter a weight above 0 g and up to 10,000 g.")?)
        };
        if let Some(bobbin) = self.bobbin.get_untracked() {
            self.ticks.weigh(&bobbin, mg);
        }
        // What it took is of the thread that is really on it.
        if untrack(|| self.is_timed()) {
            self.note(|_| ())?;
        }
        Ok(())
    }

    fn take_figure(
        self,
        text: &str,
        unit: Unit,
        set: fn(&mut WinderTiming, Option<f64>),
    ) -> Result<(), String> {
        let figure = if text.trim().is_empty() {
            None
        } else {
            let figure = read(text, unit).map_err(|unread| unread.to_string())?;
            if figure <= 0.0 {
                return Err("Enter a number above 0.".to_owned());
            }
            Some(figure)
        };
        self.note(|timing| set(timing, figure))
    }

    fn note(self, set: impl FnOnce(&mut WinderTiming)) -> Result<(), String> {
        let Some(thread) = untrack(|| self.thread()) else {
            return Ok(());
        };
        let is_same = untrack(|| self.is_timed());
        self.open_book
            .change(|workshop| workshop.machine_notes.winder.note(thread, is_same, set))?;
        self.timed.set(untrack(|| self.key()));
        Ok(())
    }
}

/// The part below the bobbins.
#[component]
pub(super) fn WeighOrTime(ticks: Ticks) -> impl IntoView {
    let at_hand = AtHand::open(ticks);
    view! {
        <details class="card weigh-or-time">
            <summary data-action="weigh-or-time">"Weigh or time a bobbin"</summary>
            <div class="fields">
                <ChooseBobbin at_hand />
                <TextField
                    label="Weight of the thread on it"
                    value=Signal::derive(move || at_hand.ticks.weight(at_hand.bobbin.get()))
                    unit=Signal::stored("g".to_owned())
                    numeric=true
                    commit=move |text: String| at_hand.take_weight(&text)
                    action="bobbin-weight"
                    ground="Weigh the bobbin empty and full, and enter the difference."
                />
                <TextField
                    label="Minutes it took"
                    value=Signal::derive(move || at_hand.figure(|timing| timing.minutes))
                    unit=Signal::stored("min".to_owned())
                    numeric=true
                    commit=move |text: String| {
                        at_hand.take_figure(&text, Unit::Minute, |timing, it| timing.minutes = it)
                    }
                    action="winding-minutes"
                    ground="The time of your own winder. The other bobbins then show theirs."
                />
                <TextField
                    label="Turns it took"
                    value=Signal::derive(move || at_hand.figure(|timing| timing.turns))
                    numeric=true
                    commit=move |text: String| {
                        at_hand.take_figure(&text, Unit::One, |timing, it| timing.turns = it)
                    }
                    action="winding-turns"
                    ground="Turns of the bobbin or of the crank, always counted in the same way."
                />
            </div>
            <Judged at_hand />
            <Timed />
        </details>
    }
}

#[component]
fn ChooseBobbin(at_hand: AtHand) -> impl IntoView {
    let plan = bench().plan;
    let all = Memo::new(move |_| {
        plan.with(|plan| {
            let named = |bobbin: &Bobbin| {
                let ends = bobbin.ends;
                let name = words::carrier(bobbin.carrier);
                (key(bobbin), format!("{name}, {ends} ends"))
            };
            plan.bobbins.iter().map(named).collect::<Vec<_>>()
        })
    });
    let option = move |(key, name): (String, String)| {
        let value = key.clone();
        let is_chosen = move || at_hand.key().as_ref() == Some(&key);
        view! { <option value=value selected=is_chosen>{name}</option> }
    };
    view! {
        <div class="field">
            <span class="label">"Bobbin"</span>
            <span class="entry">
                <select
                    aria-label="Bobbin"
                    data-action="weighed-bobbin"
                    prop:value=move || at_hand.key()
                    on:change:target=move |event| at_hand.chosen.set(Some(event.target().value()))
                >
                    {move || all.get().into_iter().map(option).collect_view()}
                </select>
            </span>
        </div>
    }
}

/// What the weight means.
#[component]
fn Judged(at_hand: AtHand) -> impl IntoView {
    let bench = bench();
    let is_short = move || {
        at_hand
            .weighed()
            .is_some_and(|it| matches!(it.verdict, WeighedVerdict::TooShort(_)))
    };
    let words = move || {
        let weighed = at_hand.weighed()?;
        let bobbin = at_hand.bobbin.get()?;
        let runs_out = bench.plan.with(|plan| {
            bench.drawn(|design| plan.runs_out_with(design, &bobbin, weighed.by_weight))
        });
        Some(words::weighed(&weighed, runs_out, bench.units.get()))
    };
    view! { <p class="judged" class:short=is_short role="status" data-judged>{words}</p> }
}

/// The bobbin that was timed, and a button to delete its figures.
#[component]
fn Timed() -> impl IntoView {
    let (units, open_book) = (bench().units, open_book());
    let words = Memo::new(move |_| {
        open_book.workshop.with(|workshop| {
            let timing = &workshop.machine_notes.winder;
            let thread = Length::from_metres(timing.thread_m?);
            words::timed(thread, timing.minutes, timing.turns, units.get())
        })
    });
    let forget = move |_| {
        open_book.press(|workshop| workshop.machine_notes.winder = WinderTiming::default());
    };
    view! {
        <Show when=move || words.with(Option::is_some)>
            <div class="worth-row">
                <p data-timed>"Your winder: "{words}</p>
                <button data-action="forget-timing" on:click=forget>"Delete this time"</button>
            </div>
        </Show>
    }
}
