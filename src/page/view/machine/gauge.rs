//! Lines at the braid angle, to hold the finished line against.

use leptos::prelude::*;

use super::station::StationSignals;
use crate::base::units::show;
use crate::paper::chart::gauge::{DASHED, SIZE, SOLID, Segment, fan};

/// The fan, and how to use it.
#[component]
pub(super) fn Gauge(station: StationSignals) -> impl IntoView {
    let angle = Memo::new(move |_| station.here.with(|here| here.braid.angle));
    let target = Memo::new(move |_| station.here.with(|here| here.target));
    let told = move || {
        format!(
            "Solid: {}, the braid here. Dashed: {}, your target.",
            show::angle_at_machine(angle.get()),
            show::angle_at_machine(target.get())
        )
    };
    let spoken = move || format!("Lines crossing an axis at the braid angle. {}", told());
    view! {
        <figure class="gauge">
            <figcaption class="title">"Hold the line against this fan"</figcaption>
            <p class="told">{told}</p>
            <svg
                data-gauge=""
                data-si=move || angle.get().radians().to_string()
                role="img"
                aria-label=spoken
                viewBox=format!("0 0 {} {}", SIZE.0, SIZE.1)
                width=SIZE.0
            >
                <line class="axis" x1="4" x2=SIZE.0 - 4.0 y1=SIZE.1 / 2.0 y2=SIZE.1 / 2.0 />
                <path class="wanted" d=move || path(fan(target.get(), DASHED)) />
                <path class="made" d=move || path(fan(angle.get(), SOLID)) />
            </svg>
            <p class="legend">
                "Lay the line along the axis of dots and dashes. Look at both through a loupe. The threads should \
                 run parallel to the solid lines, in both directions."
            </p>
        </figure>
    }
}

fn path(lines: [Segment; 2]) -> String {
    lines
        .map(|line| {
            let ((x, y), (to_x, to_y)) = (line.from, line.to);
            format!("M{x:.1} {y:.1}L{to_x:.1} {to_y:.1}")
        })
        .concat()
}
