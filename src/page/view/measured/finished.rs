//! The other way: a line of one's own, finished and measured along its length, beside its plan.

use std::sync::Arc;

use leptos::prelude::*;

use super::copy::Differences;
use super::state::open_measured;
use crate::base::units::Length;
use crate::edit::copied::{Difference, differences};
use crate::keep::book::Workshop;
use crate::keep::book::record::LineStage;
use crate::page::view::book::{OpenBook, open_book};
use crate::paper::chart::measured_picture::finished_sizes;
use crate::plan::Plan;

/// The line of the book that is compared with.
#[derive(Clone, Copy)]
pub(super) struct Compared {
    open_book: OpenBook,
    /// Its place in the book.
    record: RwSignal<Option<usize>>,
    plan: Memo<Option<Arc<Plan>>>,
}

impl Compared {
    /// None yet; where the measured line is called as a line of the book is, that one.
    pub(super) fn none() -> Self {
        let (open_book, open) = (open_book(), open_measured());
        let name = open.line.with_untracked(|line| line.draft().name.clone());
        let named = |workshop: &Workshop| {
            let mut records = workshop.records.iter();
            records.position(|record| !name.is_empty() && record.name == name)
        };
        let record = RwSignal::new(open_book.workshop.with_untracked(named));
        let plan = Memo::new(move |_| {
            let index = record.get()?;
            open_book.workshop.with(|workshop| {
                let record = workshop.records.get(index)?;
                let design = record.design.design().ok()?;
                Some(Arc::new(Plan::of(design)))
            })
        });
        Self {
            open_book,
            record,
            plan,
        }
    }

    /// Its planned sizes along the line.
    pub(super) fn sizes(self) -> Option<Arc<Vec<(Length, Length)>>> {
        let plan = self.plan.get()?;
        Some(Arc::new(finished_sizes(&plan)))
    }

    /// What it is called.
    pub(super) fn title(self) -> Option<String> {
        self.plan.get().map(|_| "as planned".to_owned())
    }
}

/// The choice of the line, the differences, and the way to the book.
#[component]
pub(super) fn FinishedCard(compared: Compared) -> impl IntoView {
    let open_book = compared.open_book;
    let has_lines = Memo::new(move |_| {
        open_book
            .workshop
            .with(|workshop| !workshop.records.is_empty())
    });
    view! {
        <Show when=move || has_lines.get()>
            <Finished compared />
        </Show>
    }
}

#[component]
fn Finished(compared: Compared) -> impl IntoView {
    let (open_book, open) = (compared.open_book, open_measured());
    let status = RwSignal::new(String::new());
    let names = move || {
        open_book.workshop.with(|workshop| {
            let records = workshop.records.iter().enumerate();
            records
                .map(|(index, record)| {
                    let words = format!("{}, {}", record.name, workshop.when(index));
                    view! {
                        <option value=index.to_string() prop:selected=move || compared.record.get() == Some(index)>
                            {words}
                        </option>
                    }
                })
                .collect_view()
        })
    };
    let choose = move |text: String| {
        status.set(String::new());
        compared.record.set(text.parse().ok());
    };
    let differences = move || -> Option<Vec<Difference>> {
        let (plan, found, made_of) = (compared.plan.get()?, open.found.get()?, open.made_of.get()?);
        Some(differences(&plan, &found.taper(), &made_of))
    };
    let write = move |_| {
        let (Some(index), Some(found)) =
            (compared.record.get_untracked(), open.found.get_untracked())
        else {
            return;
        };
        let points: Vec<(f64, f64)> = found
            .points
            .iter()
            .map(|point| (point.at.metres(), point.diameter.millimetres()))
            .collect();
        let mut added = 0;
        let written = open_book.change_record(index, |record| {
            added = record.add_diameters(LineStage::Finished, &points);
        });
        status.set(match (written, added) {
            (Err(said), _) => said,
            (Ok(()), 0) => "They are in the book already, or it has no room for more.".to_owned(),
            (Ok(()), 1) => "1 diameter is in the book now.".to_owned(),
            (Ok(()), count) => format!("{count} diameters are in the book now."),
        });
    };
    let shown = move || {
        differences().map(|of| {
            view! {
                <Differences of title="Measured and planned" own="plan" />
                <button data-action="diameters-to-book" on:click=write>"Write these diameters to the book"</button>
            }
        })
    };
    view! {
        <section class="card" aria-label="A finished line of yours">
            <h3>"Is it a line you made?"</h3>
            <label class="field">
                <span class="label">"Compare with the plan of"</span>
                <select data-action="compare-made" on:change:target=move |event| choose(event.target().value())>
                    <option value="">"no line of mine"</option>
                    {names}
                </select>
            </label>
            {shown}
            <p role="status" class="hint">{status}</p>
        </section>
    }
}
