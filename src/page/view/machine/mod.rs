//! The machine at the place of the cursor: its ring from above, and the braid it makes there.

mod braid_view;
mod gauge;
mod station;
mod track_map;

use leptos::prelude::*;

use super::bench::bench;
use super::terms::TermLine;
use crate::paper::terms::Term;

pub(crate) use station::{MachineState, StationSignals};
pub(crate) use track_map::ring_lines;

/// Words on the pictures.
const TERMS: [Term; 8] = [
    Term::Carrier,
    Term::HornGear,
    Term::Engaged,
    Term::Angle,
    Term::Lay,
    Term::Crossing,
    Term::Rib,
    Term::Cover,
];

/// Both pictures, side by side where there is room.
#[component]
pub(crate) fn Machine() -> impl IntoView {
    let station = station::station(bench());
    view! {
        <section class="machine" aria-label="Machine at this place">
            <div class="card">
                <track_map::Map station />
            </div>
            <div class="card braid">
                <braid_view::Surface station />
                <details class="finer">
                    <summary>"Check the angle on the line"</summary>
                    <gauge::Gauge station />
                </details>
                <TermLine of=&TERMS />
            </div>
        </section>
    }
}
