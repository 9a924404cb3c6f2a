//! How much of the line is braided, along its silhouette.

use leptos::prelude::*;

use super::work::work;
use crate::chart::outline::{Frame, outline};

/// Size of the picture, in units of its own; the page stretches it to the width there is.
const PICTURE: (f64, f64) = (600.0, 40.0);

/// The line from the side, filled as far as it is braided, with a tick at every step.
#[component]
pub(super) fn Progress() -> impl IntoView {
    let work = work();
    let (width, height) = PICTURE;
    let shape = Memo::new(move |_| {
        work.planned.with(|planned| {
            let taper = planned.as_ref()?.0.taper();
            let frame = Frame::around(core::slice::from_ref(&taper), PICTURE);
            Some(outline(&taper, &frame))
        })
    });
    let share = move || {
        let line = work
            .planned
            .with(|planned| planned.as_ref().map(|(_, plan)| plan.length));
        work.now
            .with(|now| Some(now.as_ref()?.share(line?)))
            .unwrap_or(0.0)
    };
    let words = move || {
        let units = work.bench.units.get();
        work.now.with(|now| {
            now.as_ref()
                .map(|now| format!("{} braided", units.show_position(now.stands)))
        })
    };
    let steps = move || {
        let line = work
            .planned
            .with(|planned| planned.as_ref().map(|(_, plan)| plan.length))?;
        work.course.with(|course| {
            let events = course.as_ref()?.events.iter();
            let x = |at| format!("{:.2}", width * (at / line));
            let ticks =
                events.map(|event| view! { <line x1=x(event.at) x2=x(event.at) y1="0" y2="6" /> });
            Some(ticks.collect_view())
        })
    };
    view! {
        <figure class="progress">
            <svg viewBox=format!("0 0 {width} {height}") preserveAspectRatio="none" role="img" aria-label="The line, filled as far as it is braided">
                <clipPath id="braided"><rect x="0" y="0" width=move || width * share() height=height /></clipPath>
                <path class="shape" d=move || shape.get() />
                <path class="braided" d=move || shape.get() clip-path="url(#braided)" />
                <g class="ticks">{steps}</g>
            </svg>
            <figcaption data-braided=move || share().to_string()>{words}</figcaption>
        </figure>
    }
}
