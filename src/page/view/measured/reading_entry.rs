//! Typing readings one after the other, with one hand: the next place is proposed, Enter goes on. A caliper that types like a
//! keyboard, or a dictation, fills the same field.

use leptos::prelude::*;

use super::open_readings::OpenReadings;
use super::state::{OpenMeasured, open_measured};
use crate::base::units::show::{Units, trimmed};
use crate::base::units::text::read;
use crate::base::units::{Length, METRES_PER_FOOT};
use crate::measured::{DraftReading, MeasuredEdit, Trust, next_place};
use crate::page::browser::focus::{focus, reveal};
use crate::page::browser::speech;
use crate::page::view::bench::{Bench, bench};
use crate::page::view::entries::{Entries, Entry};
use crate::page::view::field_error::FieldError;

/// How many readings at a place can be chosen.
const EACH: [usize; 3] = [1, 2, 3];

/// What is being typed.
#[derive(Clone, Copy)]
struct TypedReading {
    open: OpenMeasured,
    bench: Bench,
    /// The place typed in the stead of the proposed one.
    place: RwSignal<Option<String>>,
    diameter: RwSignal<String>,
    /// Readings at each place.
    each: RwSignal<usize>,
    wrong: FieldError,
    /// What was added last, in words.
    last: RwSignal<String>,
    input: NodeRef<leptos::html::Input>,
}

impl TypedReading {
    fn of(bench: Bench, open: OpenMeasured) -> Self {
        Self {
            open,
            bench,
            place: RwSignal::new(None),
            diameter: RwSignal::new(String::new()),
            each: RwSignal::new(1),
            wrong: FieldError::none(),
            last: RwSignal::new(String::new()),
            input: NodeRef::new(),
        }
    }

    /// The place as the field shows it: typed, else proposed.
    fn shown_place(self) -> String {
        self.place.get().unwrap_or_else(|| {
            let units = self.bench.units.get();
            let next = self
                .open
                .line
                .with(|line| next_place(line, self.each.get(), usual_step(units)));
            trimmed(in_units(next, units), 3)
        })
    }

    /// Adds what is typed, if anything is.
    fn add(self) {
        let text = self.diameter.get_untracked();
        if text.trim().is_empty() {
            return;
        }
        let place = untrack(|| self.shown_place());
        match added(self.open, &place, &text, self.bench.units.get_untracked()) {
            Ok(words) => {
                self.last.set(words);
                self.place.set(None);
                self.diameter.set(String::new());
                self.wrong.set(None);
            }
            Err(said) => self.wrong.set(Some(said)),
        }
    }

    /// Where the hand stays while it types one after the other.
    fn focus_diameter(self) {
        if let Some(input) = self.input.get_untracked() {
            focus(&input);
        }
    }
}

/// The two fields, and how many readings there are at each place.
#[component]
pub(super) fn ReadingEntry() -> impl IntoView {
    let open = open_measured();
    let typed = TypedReading::of(bench(), open);
    expect_context::<Entries>().add(Entry {
        is_open: Callback::new(move |()| {
            let is_typed = |text: &String| !text.trim().is_empty();
            typed.diameter.with_untracked(is_typed)
        }),
        show: Callback::new(move |()| {
            if let Some(input) = typed.input.get_untracked() {
                reveal(&input);
            }
        }),
    });
    let is_empty = Memo::new(move |_| open.line.with(|line| line.draft().readings.is_empty()));
    let heard = move |words: String| {
        typed.diameter.set(words);
        typed.add();
    };
    view! {
        <section class="card" aria-label="Type readings">
            <h3>"Type readings"</h3>
            <p class="hint">"Measure from the tip on. Press Enter after each diameter: the next place is filled in."</p>
            <div class="reading-entry" data-answers="">
                <PlaceField typed />
                <DiameterField typed />
                <button class="main" data-action="add-reading" on:click=move |_| typed.add()>"Add"</button>
                <Speak heard=Callback::new(heard) />
            </div>
            {typed.wrong.shown()}
            <p class="hint" role="status" data-last-reading="">{typed.last}</p>
            <EachPlace typed />
            <Show when=move || is_empty.get()>
                <p class="hint">"Or open a table from a file, or paste one below."</p>
                <div class="step-buttons"><OpenReadings /></div>
            </Show>
        </section>
    }
}

#[component]
fn PlaceField(typed: TypedReading) -> impl IntoView {
    let go_on = move |event: web_sys::KeyboardEvent| {
        if event.key() == "Enter" {
            event.prevent_default();
            typed.focus_diameter();
        }
    };
    view! {
        <label class="field">
            <span class="label">"Place from the tip"</span>
            <span class="entry">
                <input
                    type="text"
                    inputmode="decimal"
                    enterkeyhint="next"
                    autocomplete="off"
                    data-action="reading-place"
                    prop:value=move || typed.shown_place()
                    on:input:target=move |event| typed.place.set(Some(event.target().value()))
                    on:keydown=go_on
                />
                <span class="unit">{move || typed.bench.units.get().position().symbol()}</span>
            </span>
        </label>
    }
}

#[component]
fn DiameterField(typed: TypedReading) -> impl IntoView {
    let wrong = typed.wrong;
    // A caliper that types like a keyboard ends a reading with Enter or Tab.
    let go_on = move |event: web_sys::KeyboardEvent| {
        let is_typed = typed
            .diameter
            .with_untracked(|text| !text.trim().is_empty());
        if event.key() == "Enter" || (event.key() == "Tab" && !event.shift_key() && is_typed) {
            event.prevent_default();
            typed.add();
            typed.focus_diameter();
        }
    };
    view! {
        <label class="field" class:wrong=move || wrong.is_there()>
            <span class="label">"Diameter"</span>
            <span class="entry">
                <input
                    node_ref=typed.input
                    type="text"
                    inputmode="decimal"
                    enterkeyhint="next"
                    autocomplete="off"
                    data-action="reading-diameter"
                    aria-invalid=move || wrong.invalid()
                    aria-describedby=move || wrong.described_by()
                    prop:value=typed.diameter
                    on:input:target=move |event| typed.diameter.set(event.target().value())
                    on:keydown=go_on
                />
                <span class="unit">{move || typed.bench.units.get().diameter().symbol()}</span>
            </span>
        </label>
    }
}

/// How many readings there are at each place.
#[component]
fn EachPlace(typed: TypedReading) -> impl IntoView {
    let choice = move |count: usize| {
        view! {
            <button
                data-action="readings-each"
                data-each=count.to_string()
                aria-pressed=move || (typed.each.get() == count).to_string()
                on:click=move |_| typed.each.set(count)
            >
                {count}
            </button>
        }
    };
    view! {
        <div class="readings-each" role="group" aria-label="Readings at each place">
            <span>"Readings at each place"</span>
            {EACH.map(choice).into_iter().collect_view()}
        </div>
    }
}

/// A button that listens to one number, where the browser can.
#[component]
fn Speak(heard: Callback<String>) -> impl IntoView {
    let status = RwSignal::new("");
    let listen = move |_| {
        status.set("Say the diameter, with its decimals.");
        // The sheet may be closed before anything is said.
        speech::listen(move |words| {
            let said = match words {
                Some(words) => {
                    heard.try_run(words);
                    ""
                }
                None => "Nothing was understood. Try again, or type it.",
            };
            status.try_set(said);
        });
    };
    speech::is_available().then(|| {
        view! {
            <button data-action="speak-reading" on:click=listen>"Speak"</button>
            <p class="hint" role="status">{status}</p>
        }
    })
}

/// Adds a reading, and says which.
fn added(open: OpenMeasured, place: &str, diameter: &str, units: Units) -> Result<String, String> {
    let number = |text: &str, shown, kept| {
        let value = read(text, shown).map_err(|unread| unread.to_string())?;
        Ok::<_, String>(
            crate::base::units::text::Unit::convert(shown, value, kept).unwrap_or(value),
        )
    };
    let (metre, millimetre) = (Units::Metric.position(), Units::Metric.diameter());
    let reading = DraftReading {
        at_m: number(place, units.position(), metre)?,
        diameter_mm: number(diameter, units.diameter(), millimetre)?,
        trust: Trust::Judged,
    };
    open.change(MeasuredEdit::Add(reading))?;
    Ok(format!(
        "Added: {} at {}.",
        units.show_diameter_short(Length::from_millimetres(reading.diameter_mm)),
        units.show_position(Length::from_metres(reading.at_m))
    ))
}

/// How far apart places are until the maker chose a second one: half a metre, or two feet.
fn usual_step(units: Units) -> Length {
    match units {
        Units::Metric => Length::from_metres(0.5),
        Units::Imperial => Length::from_metres(2.0 * METRES_PER_FOOT),
    }
}

fn in_units(place: Length, units: Units) -> f64 {
    match units {
        Units::Metric => place.metres(),
        Units::Imperial => place.feet(),
    }
}
