//! How much of the line is braided, along its silhouette.

use leptos::prelude::*;

use super::session::session;
use crate::base::units::Length;
use crate::paper::chart::outline::{Frame, outline};
use crate::plan::run::Now;

/// Size of the picture, in units of its own; the page stretches it to the width there is.
const PICTURE: (f64, f64) = (600.0, 40.0);

/// The line from the side, filled as far as it is braided, with a tick at every step.
#[component]
pub(super) fn Progress() -> impl IntoView {
    let session = session();
    let (width, height) = PICTURE;
    let shape = Memo::new(move |_| {
        session.planned.with(|planned| {
            let taper = planned.as_ref()?.0.taper();
            let frame = Frame::around(core::slice::from_ref(&taper), PICTURE);
            Some(outline(&taper, &frame))
        })
    });
    let counted = Memo::new(move |_| {
        let circuits = session.clocks.circuits().unwrap_or(0);
        session
            .with_now(|now| counted_from(now, circuits))
            .unwrap_or(Length::ZERO)
    });
    let braided =
        move || session.with_now(|now| now.stands).unwrap_or(Length::ZERO) + counted.get();
    let share = move || {
        let line = session.with_planned(|_, plan| plan.length);
        line.map_or(0.0, |line| (braided() / line).clamp(0.0, 1.0))
    };
    let words = move || {
        let by = if counted.get() > Length::ZERO {
            " by count and clock"
        } else {
            ""
        };
        format!("braided{by}: {}", session.positions().show(braided()))
    };
    let steps = move || {
        let line = session.with_planned(|_, plan| plan.length)?;
        session.adjusted.with(|adjusted| {
            let events = adjusted.as_ref()?.events.iter();
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

/// What the circuits counted since the last step have braided of the way to the next.
pub(super) fn counted_from(now: &Now, circuits: u32) -> Length {
    if now.circuits > 0.0 {
        now.remaining * (f64::from(circuits) / now.circuits).min(1.0)
    } else {
        Length::ZERO
    }
}
