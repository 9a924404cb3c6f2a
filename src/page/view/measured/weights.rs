//! What the line, or parts of it, weigh.

use leptos::prelude::*;

use super::state::open_measured;
use crate::base::units::show::trimmed;
use crate::base::units::text::{Unit, read};
use crate::measured::{DraftCut, MeasuredEdit};
use crate::page::view::bench::bench;
use crate::page::view::field::{NumberField, TextField};

/// Weight of the whole, of the first 30 ft, and of pieces.
#[component]
pub(super) fn Weights() -> impl IntoView {
    let open = open_measured();
    let whole = Signal::derive(move || open.line.with(|line| line.draft().whole_g));
    let head = Signal::derive(move || open.line.with(|line| line.draft().head_g));
    let count = Memo::new(move |_| open.line.with(|line| line.draft().cuts.len()));
    view! {
        <section class="card" aria-label="What it weighs">
            <h3>"What it weighs"</h3>
            <p class="hint">"Weigh the whole line, pieces of it, or its first 30 ft. Of the level tip, up to 6 in are left out first."</p>
            <div class="fields">
                <WeightField label="Whole line" action="measured-whole" value=whole set=MeasuredEdit::Whole />
                <WeightField label="First 30 ft" action="measured-head" value=head set=MeasuredEdit::Head />
            </div>
            <ul class="weighed-pieces">
                <For each=move || 0..count.get() key=|index| *index let:index>
                    <Piece index />
                </For>
            </ul>
            <NewPiece />
        </section>
    }
}

#[component]
fn WeightField(
    label: &'static str,
    action: &'static str,
    value: Signal<Option<f64>>,
    set: fn(Option<f64>) -> MeasuredEdit,
) -> impl IntoView {
    let open = open_measured();
    let commit = move |text: String| {
        if text.trim().is_empty() {
            return open.change(set(None));
        }
        let grams = read(&text, Unit::Gram).map_err(|unread| unread.to_string())?;
        open.change(set(Some(grams)))
    };
    let shown = move || {
        value
            .get()
            .map_or_else(String::new, |grams| trimmed(grams, 3))
    };
    view! {
        <TextField
            label
            action
            numeric=true
            value=Signal::derive(shown)
            unit=Signal::stored("g".to_owned())
            commit
        />
    }
}

/// Three empty fields for a piece that was weighed; it counts once all are filled and the button is pressed.
#[component]
fn NewPiece() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let typed = [(); 3].map(|()| RwSignal::new(String::new()));
    let wrong = RwSignal::new(None::<String>);
    let number = move |which: usize, unit: Unit, kept: Unit| {
        let value = typed[which].with_untracked(|text| read(text, unit));
        let value = value.map_err(|unread| unread.to_string())?;
        Ok::<_, String>(unit.convert(value, kept).unwrap_or(value))
    };
    let added = move || {
        let unit = bench.units.get_untracked().position();
        let cut = DraftCut {
            from_m: number(0, unit, Unit::Metre)?,
            to_m: number(1, unit, Unit::Metre)?,
            mass_g: number(2, Unit::Gram, Unit::Gram)?,
        };
        open.change(MeasuredEdit::AddCut(cut))
    };
    let add = move |_| {
        let outcome = added();
        if outcome.is_ok() {
            for text in typed {
                text.set(String::new());
            }
        }
        wrong.set(outcome.err());
    };
    let field = move |which: usize, label: &'static str, action: &'static str| {
        let unit = move || {
            if which == 2 {
                Unit::Gram
            } else {
                bench.units.get().position()
            }
        };
        view! {
            <TextField
                label
                action
                numeric=true
                value=typed[which].into()
                unit=Signal::derive(move || unit().symbol().to_owned())
                commit=move |text: String| {
                    typed[which].set(text);
                    Ok(())
                }
            />
        }
    };
    view! {
        <details class="finer">
            <summary>"Add a piece that was weighed"</summary>
            <div class="fields">
                {field(0, "from", "new-cut-from")}
                {field(1, "to", "new-cut-to")}
                {field(2, "weight", "new-cut-mass")}
            </div>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
            <button data-action="add-cut" on:click=add>"Add the piece"</button>
        </details>
    }
}

/// A piece: from, to, and what it weighs.
#[component]
fn Piece(index: usize) -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let cut = Memo::new(move |_| open.line.with(|line| line.draft().cuts.get(index).copied()));
    let now = move || {
        cut.get().unwrap_or(DraftCut {
            from_m: 0.0,
            to_m: 1.0,
            mass_g: 1.0,
        })
    };
    let place = move |of: fn(&DraftCut) -> f64| {
        Signal::derive(move || {
            let metres = of(&now());
            let unit = bench.units.get().position();
            Unit::Metre.convert(metres, unit).unwrap_or(metres)
        })
    };
    let set_place = move |value: f64, set: fn(&mut DraftCut, f64)| {
        let unit = bench.units.get_untracked().position();
        let mut cut = untrack(now);
        set(&mut cut, unit.convert(value, Unit::Metre).unwrap_or(value));
        open.change(MeasuredEdit::ChangeCut(index, cut))
    };
    let set_mass = move |mass_g: f64| {
        let cut = DraftCut {
            mass_g,
            ..untrack(now)
        };
        open.change(MeasuredEdit::ChangeCut(index, cut))
    };
    let unit = Signal::derive(move || bench.units.get().position());
    view! {
        <li data-cut=index.to_string()>
            <NumberField
                label="from"
                value=place(|cut| cut.from_m)
                unit
                decimals=3
                commit=move |value| set_place(value, |cut, at| cut.from_m = at)
                action="cut-from"
            />
            <NumberField
                label="to"
                value=place(|cut| cut.to_m)
                unit
                decimals=3
                commit=move |value| set_place(value, |cut, at| cut.to_m = at)
                action="cut-to"
            />
            <NumberField
                label="weight"
                value=Signal::derive(move || now().mass_g)
                unit=Signal::stored(Unit::Gram)
                decimals=3
                commit=set_mass
                action="cut-mass"
            />
            <button
                data-action="remove-cut"
                aria-label=format!("Remove piece {}", index + 1)
                on:click=move |_| open.press(MeasuredEdit::RemoveCut(index))
            >
                "Remove"
            </button>
        </li>
    }
}
