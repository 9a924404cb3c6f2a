//! The threads along the whole line, with the cursor. A tap moves it.

use leptos::html::Div;
use leptos::prelude::*;

use super::bench::{Cursor, bench};
use crate::paper::chart::stairs::{SIZE, Stairs as Picture};

/// The picture, as wide as there is room.
#[component]
pub(crate) fn Stairs() -> impl IntoView {
    let bench = bench();
    let picture = Memo::new(move |_| bench.plan.with(|plan| Picture::of(plan)));
    let cursor = move || picture.with(|picture| picture.x_of(bench.place()));
    let holder = NodeRef::<Div>::new();
    let tap = move |event: web_sys::MouseEvent| {
        let Some(holder) = holder.get_untracked() else {
            return;
        };
        let bounds = holder.get_bounding_client_rect();
        let share = (f64::from(event.client_x()) - bounds.left()) / bounds.width().max(1.0);
        let at = picture.with_untracked(|picture| picture.place_at(share));
        bench.cursor.set(Cursor::Place(at));
    };
    let (width, height) = SIZE;
    view! {
        <div class="card stairs" node_ref=holder on:click=tap>
            <svg
                viewBox=format!("0 0 {width} {height}")
                preserveAspectRatio="none"
                role="img"
                aria-label="Threads along the line, tip at the left"
                data-picture="stairs"
            >
                <path class="area" d=move || picture.with(|picture| picture.area.clone()) />
                <line class="cursor" x1=cursor x2=cursor y1="0" y2=height />
            </svg>
        </div>
    }
}
