//! What becomes of the numbers: they are written where the sheet was opened from.

use leptos::prelude::*;

use super::state::PhotoState;
use super::task::{PhotoTask, Taken};
use crate::keep::book::SmallPicture;
use crate::page::view::bench::bench;
use crate::paper::words::photo::{self as words, PhotoAim};

/// The button that writes them, and whether a small picture is saved with them.
#[component]
pub(super) fn UseIt(state: PhotoState, task: StoredValue<PhotoTask>) -> impl IntoView {
    let bench = bench();
    let aim = task.with_value(|task| task.aim);
    let keeps_picture = RwSignal::new(false);
    let wrong = RwSignal::new(None::<String>);
    // Made once for each reading, and only where it can be saved.
    let small = Memo::new(move |_| {
        let address = (aim != PhotoAim::Check).then(|| state.small_picture())??;
        SmallPicture::parse(&address).ok()
    });
    let can_be_used =
        Memo::new(move |_| state.is_current() && state.with_reading(|_| ()).is_some());
    let write = move |_| {
        let read = untrack(|| state.with_reading(|reading| (reading.angle, reading.threads)));
        let Some((surface, threads)) = read else {
            return;
        };
        let angle = task.with_value(|task| task.in_wall(surface, threads));
        let keeps = keeps_picture.get_untracked();
        let taken = Taken {
            angle,
            // With a planned diameter they say the same as the angle once more.
            crossings: untrack(|| state.crossings().filter(|_| !state.is_scale_planned())),
            threads,
            picture: keeps.then(|| small.get_untracked()).flatten(),
        };
        let take = task.with_value(|task| task.take.clone());
        match take(taken) {
            Ok(said) => {
                bench.sheet.set(None);
                bench.say(said);
            }
            Err(said) => wrong.set(Some(said)),
        }
    };
    let choice = move || {
        let bytes = small.with(|small| small.as_ref().map(|it| it.address().len()))?;
        Some(view! {
            <label class="photo-keep">
                <input
                    type="checkbox"
                    data-action="photo-keep"
                    prop:checked=keeps_picture
                    on:change:target=move |event| keeps_picture.set(event.target().checked())
                />
                {words::keep_picture(bytes)}
            </label>
        })
    };
    view! {
        <section class="card" aria-label="Use it">
            <Show when=move || state.is_scale_planned()><p class="hint">{words::NO_CROSSINGS_WRITTEN}</p></Show>
            {choice}
            <button class="main" data-action="photo-use" disabled=move || !can_be_used.get() on:click=write>
                {aim.use_words()}
            </button>
            {move || wrong.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
        </section>
    }
}
