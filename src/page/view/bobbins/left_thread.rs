//! Thread left from the line before, for this one.

use leptos::prelude::*;

use super::ticks::Ticks;
use crate::page::view::book::open_book;
use crate::paper::words;

/// Says that bobbins of this line have thread on them, and takes it for this line. What it says stays in its place once that is done,
/// so that no tile comes under the finger.
#[component]
pub(super) fn LeftThread(ticks: Ticks) -> impl IntoView {
    let (bench, open_book) = (ticks.bench, open_book());
    let used = RwSignal::new(0_usize);
    let left = Memo::new(move |_| {
        open_book.workshop.with(|workshop| {
            bench.plan.with(|plan| {
                bench.wound.with(|wound| {
                    let notes = &workshop.machine_notes;
                    notes.left_for(&plan.bobbins, wound).len()
                })
            })
        })
    });
    let use_it = move |_| {
        let plan = bench.settled_plan.get_untracked();
        let (mut wound, count) = (bench.wound.get_untracked(), left.get_untracked());
        let taken = open_book.change(|workshop| {
            workshop.machine_notes.use_left(&plan.bobbins, &mut wound);
        });
        match taken {
            Ok(()) => {
                ticks.set(wound);
                used.set(count);
            }
            Err(said) => bench.say(said),
        }
    };
    let words = move || match left.get() {
        0 => format!(
            "Thread from before is used: {}.",
            words::bobbin_count(used.get())
        ),
        count => words::left_from_before(count),
    };
    let is_there = move || left.get() + used.get() > 0;
    view! {
        <Show when=is_there>
            <p class="message left-thread" data-left-over=move || left.get()>
                <span>{words}</span>
                <Show when=move || { left.get() > 0 }>
                    <button data-action="use-left-over" on:click=use_it>"Use it"</button>
                </Show>
            </p>
        </Show>
    }
}
