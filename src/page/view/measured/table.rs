//! A table pasted from a spreadsheet, and how the last one was read.

use leptos::prelude::*;

use super::state::{TableReport, open_measured};
use crate::base::units::text::Unit;
use crate::page::browser::focus::reveal;
use crate::page::view::entries::{Entries, Entry};

/// The units a table may be in.
const PLACE_UNITS: [Unit; 5] = [
    Unit::Metre,
    Unit::Centimetre,
    Unit::Millimetre,
    Unit::Foot,
    Unit::Inch,
];
const DIAMETER_UNITS: [Unit; 4] = [
    Unit::Millimetre,
    Unit::Micrometre,
    Unit::Thousandth,
    Unit::Inch,
];

/// What came of the table read last.
#[component]
pub(super) fn LastTable() -> impl IntoView {
    let open = open_measured();
    move || open.report.get().map(|report| view! { <Report report /> })
}

/// The field for a table.
#[component]
pub(super) fn PasteTable() -> impl IntoView {
    let open = open_measured();
    let text = RwSignal::new(String::new());
    let wrong = RwSignal::new(None::<String>);
    let is_unfolded = RwSignal::new(
        open.line
            .with_untracked(|line| line.draft().readings.is_empty()),
    );
    let take = move |_| {
        let typed = text.get_untracked();
        if typed.trim().is_empty() {
            return wrong.set(Some("Paste a table here first.".to_owned()));
        }
        match open.paste(typed) {
            Ok(()) => {
                text.set(String::new());
                wrong.set(None);
                is_unfolded.set(false);
            }
            Err(said) => wrong.set(Some(said)),
        }
    };
    let field = NodeRef::<leptos::html::Textarea>::new();
    // What was pasted and not read is not thrown away unseen.
    expect_context::<Entries>().add(Entry {
        is_open: Callback::new(move |()| text.with_untracked(|text| !text.trim().is_empty())),
        show: Callback::new(move |()| {
            if let Some(field) = field.get_untracked() {
                reveal(&field);
            }
        }),
    });
    view! {
        <details class="card finer" prop:open=is_unfolded on:toggle:target=move |event| is_unfolded.set(event.target().open())>
            <summary>"Paste a table"</summary>
            <div>
                <label class="field">
                    <span class="label">"Rows with a place and one or more diameters, as a spreadsheet copies them"</span>
                    <textarea
                        node_ref=field
                        rows="3"
                        autocomplete="off"
                        spellcheck="false"
                        data-action="paste-readings"
                        aria-invalid=move || wrong.with(Option::is_some).to_string()
                        prop:value=text
                        on:input:target=move |event| text.set(event.target().value())
                    ></textarea>
                </label>
                {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
            </div>
            <button class="main" data-answers="" data-action="read-table" on:click=take>"Read the table"</button>
        </details>
    }
}

/// How many readings were found, in which units, and what was not used.
#[component]
fn Report(report: TableReport) -> impl IntoView {
    let open = open_measured();
    let table = report.table;
    let (place, diameter) = (table.at_unit, table.diameter_unit);
    let assumed = match (table.at_assumed, table.diameter_assumed) {
        (false, false) => "",
        (true, false) => " The place had no unit: check it.",
        (false, true) => " The diameter had no unit: check it.",
        (true, true) => " The table had no units: check them.",
    };
    let count = match table.readings.len() {
        1 => "1 reading added.".to_owned(),
        count => format!("{count} readings added."),
    };
    let unused = (!table.passed_by.is_empty()).then(|| {
        let names = table.passed_by.join(", ");
        view! { <p class="hint">{format!("Columns not used: {names}.")}</p> }
    });
    view! {
        <section class="card" aria-label="The table" data-table-read=table.readings.len().to_string()>
            <p role="status">{format!("{count}{assumed}")}</p>
            <div class="fields">
                <UnitChoice
                    label="Unit of the places"
                    action="table-place-unit"
                    units=&PLACE_UNITS
                    now=place
                    choose=Callback::new(move |unit| open.read_again(unit, diameter))
                />
                <UnitChoice
                    label="Unit of the diameters"
                    action="table-diameter-unit"
                    units=&DIAMETER_UNITS
                    now=diameter
                    choose=Callback::new(move |unit| open.read_again(place, unit))
                />
            </div>
            {unused}
            <button data-action="table-done" on:click=move |_| open.report.set(None)>"Done"</button>
        </section>
    }
}

#[component]
fn UnitChoice(
    label: &'static str,
    action: &'static str,
    units: &'static [Unit],
    now: Unit,
    choose: Callback<Unit>,
) -> impl IntoView {
    let option = move |unit: &Unit| {
        let symbol = unit.symbol();
        view! { <option value=symbol selected=*unit == now>{symbol}</option> }
    };
    let chosen = move |symbol: String| {
        if let Some(unit) = units.iter().find(|unit| unit.symbol() == symbol) {
            choose.run(*unit);
        }
    };
    // A unit from the table that is not usual is among them all the same.
    let unusual = (!units.contains(&now)).then_some(now);
    view! {
        <label class="field">
            <span class="label">{label}</span>
            <select data-action=action on:change:target=move |event| chosen(event.target().value())>
                {unusual.iter().map(option).collect_view()}
                {units.iter().map(option).collect_view()}
            </select>
        </label>
    }
}
