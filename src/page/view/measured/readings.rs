//! All readings: those left out first, then each with its place in the line, to be corrected or removed.

use leptos::prelude::*;

use super::state::open_measured;
use crate::base::choice::Choice as _;
use crate::base::units::show::trimmed;
use crate::base::units::text::{Unit, read};
use crate::base::units::{Length, show::Units};
use crate::measured::{DraftReading, MeasuredEdit, Trust};
use crate::page::view::bench::bench;
use crate::page::view::field::{NumberField, TextField};

/// How many readings are shown at once.
const AT_ONCE: usize = 40;

/// On request the micrometer, the length, and all readings.
#[component]
pub(super) fn AllReadings() -> impl IntoView {
    let open = open_measured();
    let count = move || open.line.with(|line| line.draft().readings.len());
    let is_unfolded = RwSignal::new(false);
    view! {
        <details class="card finer" on:toggle:target=move |event| is_unfolded.set(event.target().open())>
            <summary>{move || format!("All readings ({}), micrometer, length", count())}</summary>
            {move || is_unfolded.get().then(|| view! { <Settings /> <Rows /> })}
        </details>
    }
}

/// The readings left out, each with a button to use it, and those the maker decided on, each with one to let the search decide.
#[component]
pub(super) fn Decided() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let listed = Memo::new(move |_| {
        let found = open.found.get();
        let is_out = |index: usize| {
            found
                .as_ref()
                .is_some_and(|found| found.left_out.get(index) == Some(&true))
        };
        open.line.with(|line| {
            let readings = line.draft().readings.iter().enumerate();
            readings
                .map(|(index, reading)| (index, *reading, is_out(index)))
                .filter(|(_, reading, is_out)| *is_out || reading.trust != Trust::Judged)
                .collect::<Vec<_>>()
        })
    });
    let row = move |(index, reading, is_out): (usize, DraftReading, bool)| {
        let words = words_of(&reading, bench.units.get());
        let (said, to, key, does) = match reading.trust {
            Trust::Judged => ("left out", Trust::Used, "use-reading", "Use it"),
            Trust::Used => (
                "used: you decided",
                Trust::Judged,
                "judge-reading",
                "Decide for me",
            ),
            Trust::LeftOut => (
                "left out: you decided",
                Trust::Judged,
                "judge-reading",
                "Decide for me",
            ),
        };
        view! {
            <li data-left-out=is_out.then(|| index.to_string())>
                <span>{words.clone()}<span class="facts">{said}</span></span>
                <button
                    data-action=key
                    aria-label=format!("{does}: {words}")
                    on:click=move |_| open.press(MeasuredEdit::Trust(index, to))
                >
                    {does}
                </button>
            </li>
        }
    };
    view! {
        <Show when=move || listed.with(|left| !left.is_empty())>
            <section class="card" aria-label="Readings left out">
                <h3>"Readings left out"</h3>
                <ul class="left-out-readings">{move || listed.get().into_iter().map(row).collect_view()}</ul>
            </section>
        </Show>
    }
}

fn words_of(reading: &DraftReading, units: Units) -> String {
    format!(
        "{} at {}",
        units.show_diameter_short(Length::from_millimetres(reading.diameter_mm)),
        units.show_position(Length::from_metres(reading.at_m))
    )
}

/// The micrometer, and the length of the line.
#[component]
fn Settings() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let micrometer = Signal::derive(move || open.line.with(|line| line.draft().micrometer_um));
    let length = move || {
        let units = bench.units.get();
        let metres = open.line.with(|line| line.draft().length_m)?;
        let shown = Unit::Metre.convert(metres, units.position())?;
        Some(trimmed(shown, 3))
    };
    let set_length = move |text: String| {
        if text.trim().is_empty() {
            return open.change(MeasuredEdit::Length(None));
        }
        let unit = bench.units.get_untracked().position();
        let typed = read(&text, unit).map_err(|unread| unread.to_string())?;
        open.change(MeasuredEdit::Length(unit.convert(typed, Unit::Metre)))
    };
    view! {
        <div class="fields">
            <NumberField
                label="Micrometer error"
                value=micrometer
                unit=Signal::stored(Unit::Micrometre)
                decimals=0
                commit=move |error| open.change(MeasuredEdit::Micrometer(error))
                action="micrometer-error"
                ground="How far one reading may be off: one standard deviation. A hand micrometer shows hundredths of a millimetre; half of one is usual: rule of thumb, no source. Where the readings scatter more, their own scatter counts."
            />
            <TextField
                label="Length of the line"
                value=Signal::derive(move || length().unwrap_or_default())
                unit=Signal::derive(move || bench.units.get().position().symbol().to_owned())
                numeric=true
                commit=set_length
                action="measured-length"
                ground="Where nothing is typed, the line ends at its last reading."
            />
        </div>
    }
}

/// The readings, some at a time.
#[component]
fn Rows() -> impl IntoView {
    let open = open_measured();
    let shown = RwSignal::new(AT_ONCE);
    let count = Memo::new(move |_| open.line.with(|line| line.draft().readings.len()));
    let left = move || count.get().saturating_sub(shown.get());
    // A row is built again when its reading changes or moves: no button of it then acts on another reading.
    let rows = move || {
        open.line.with(|line| {
            let readings = line.draft().readings.iter().take(shown.get());
            readings.copied().enumerate().collect::<Vec<_>>()
        })
    };
    let key = |(index, reading): &(usize, DraftReading)| {
        (
            *index,
            reading.at_m.to_bits(),
            reading.diameter_mm.to_bits(),
        )
    };
    view! {
        <ol class="all-readings">
            <For each=rows key=key let:row>
                <Row index=row.0 />
            </For>
        </ol>
        <Show when=move || { left() > 0 }>
            <button data-action="more-readings" on:click=move |_| shown.update(|shown| *shown += AT_ONCE)>
                {move || format!("Show {} more", left().min(AT_ONCE))}
            </button>
        </Show>
    }
}

#[component]
fn Row(index: usize) -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let reading = Memo::new(move |_| {
        open.line
            .with(|line| line.draft().readings.get(index).copied())
    });
    let now = move || {
        reading.get().unwrap_or(DraftReading {
            at_m: 0.0,
            diameter_mm: 0.0,
            trust: Trust::Judged,
        })
    };
    let shown = move |of: fn(&DraftReading) -> f64, kept: Unit, wanted: fn(Units) -> Unit| {
        Signal::derive(move || {
            let value = of(&now());
            kept.convert(value, wanted(bench.units.get()))
                .unwrap_or(value)
        })
    };
    let kept =
        move |value: f64, kept: Unit, wanted: Unit| wanted.convert(value, kept).unwrap_or(value);
    let set_place = move |value: f64| {
        let at_m = kept(value, Unit::Metre, bench.units.get_untracked().position());
        let reading = DraftReading {
            at_m,
            ..untrack(now)
        };
        open.change(MeasuredEdit::Change(index, reading))
    };
    let set_size = move |value: f64| {
        let diameter_mm = kept(
            value,
            Unit::Millimetre,
            bench.units.get_untracked().diameter(),
        );
        let reading = DraftReading {
            diameter_mm,
            ..untrack(now)
        };
        open.change(MeasuredEdit::Change(index, reading))
    };
    let option = move |trust: &'static Trust| {
        view! { <option value=trust.key() prop:selected=move || now().trust == *trust>{trust.name()}</option> }
    };
    let choose = move |key: String| {
        if let Some(trust) = Trust::from_key(&key) {
            open.press(MeasuredEdit::Trust(index, trust));
        }
    };
    let name = move || format!("Reading {}", index + 1);
    view! {
        <li data-reading=index.to_string()>
            <NumberField
                label="place"
                value=shown(|one| one.at_m, Unit::Metre, Units::position)
                unit=Signal::derive(move || bench.units.get().position())
                decimals=4
                commit=set_place
                action="edit-place"
            />
            <NumberField
                label="diameter"
                value=shown(|one| one.diameter_mm, Unit::Millimetre, Units::diameter)
                unit=Signal::derive(move || bench.units.get().diameter())
                decimals=4
                commit=set_size
                action="edit-diameter"
            />
            <label class="field">
                <span class="label">"in the taper"</span>
                <select data-action="trust" on:change:target=move |event| choose(event.target().value())>
                    {Trust::ALL.iter().map(option).collect_view()}
                </select>
            </label>
            <button
                data-action="remove-reading"
                aria-label=move || format!("Remove {}", name().to_lowercase())
                on:click=move |_| open.press(MeasuredEdit::Remove(index))
            >
                "Remove"
            </button>
        </li>
    }
}
