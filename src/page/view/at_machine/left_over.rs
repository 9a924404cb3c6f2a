//! The thread left on the bobbins when a line is done, saved for the next one.

use leptos::prelude::*;

use super::session::session;
use crate::page::view::book::open_book;
use crate::paper::words;
use crate::plan::left_over::{LEAST_LEFT, left_on};
use crate::plan::wound::Wound;

/// What is left, and a button that notes it in the bench book. Then it is on this line no more: its ticks are taken away.
#[component]
pub(super) fn LeftOver() -> impl IntoView {
    let (session, open_book) = (session(), open_book());
    let bench = session.bench;
    let saved = RwSignal::new(0_usize);
    let left = Memo::new(move |_| {
        let bobbins = session.adjusted.with(|adjusted| {
            session.with_planned(|design, _| Some(adjusted.as_ref()?.bobbins(design)))
        });
        let bobbins = bobbins.flatten().unwrap_or_default();
        bench.wound.with(|wound| left_on(&bobbins, wound))
    });
    let words = move || {
        let left = left.with(|left| words::thread_left(left, bench.units.get()));
        left.or_else(|| {
            let saved = Some(saved.get()).filter(|saved| *saved > 0)?;
            let bobbins = words::bobbin_count(saved);
            Some(format!(
                "Thread left is saved for the next line: {bobbins}."
            ))
        })
    };
    let is_left = move || left.with(|left| left.iter().any(|one| one.left >= LEAST_LEFT));
    let save = move |_| {
        let left = left.get_untracked();
        let count = left.iter().filter(|one| one.left >= LEAST_LEFT).count();
        match open_book.change(|workshop| workshop.machine_notes.note_left(&left)) {
            Ok(()) => {
                saved.set(count);
                bench.set_wound(Wound::default());
            }
            Err(said) => bench.say(said),
        }
    };
    view! {
        <p data-left-over role="status">{words}</p>
        <Show when=is_left><p class="hint">"Only bobbins ticked at Wind are counted."</p></Show>
        <Show when=is_left>
            <div class="big-buttons">
                <button class="huge" data-action="keep-left-over" on:click=save>"Keep for the next line"</button>
            </div>
        </Show>
    }
}
