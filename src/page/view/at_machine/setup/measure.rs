//! What is measured on the lead-in, and writing it down as a swatch.

use leptos::prelude::*;

use super::super::checks::CheckFields;
use super::super::session::session;
use crate::keep::book::swatch::Swatch;
use crate::page::view::book::open_book;

/// The fields of the check, and the swatch that they make.
#[component]
pub(super) fn Measured() -> impl IntoView {
    let (session, open_book) = (session(), open_book());
    let measured = Memo::new(move |_| {
        let workshop = open_book.workshop.read();
        let tension = &workshop.machine_notes.tension;
        session.run.with(|run| {
            let run = run.as_ref()?;
            let swatch =
                session.with_planned(|design, plan| Swatch::of_start(design, plan, run, tension));
            swatch.filter(Swatch::is_measured)
        })
    });
    let written = Memo::new(move |_| {
        let workshop = open_book.workshop.read();
        measured.with(|measured| workshop.name_of_like(measured.as_ref()?))
    });
    let is_off = move || written.with(Option::is_some) || !open_book.has_room_for_swatch();
    let write = move |_| {
        let Some(swatch) = measured.get_untracked() else {
            return;
        };
        open_book.press(|workshop| {
            let name = format!("Swatch {}", workshop.swatches.len() + 1);
            workshop.swatches.push(Swatch { name, ..swatch });
        });
    };
    let said = move || {
        let name = written.get()?;
        Some(format!("{name} is in the bench book."))
    };
    view! {
        <Show when=move || session.run.with(Option::is_some)><CheckFields /></Show>
        <Show when=move || measured.with(Option::is_some)>
            <div class="big-buttons">
                <button class="huge" data-action="setup-swatch" disabled=is_off on:click=write>"Write this as a swatch"</button>
            </div>
            <p class="setup-swatch" role="status">{said}</p>
        </Show>
    }
}
