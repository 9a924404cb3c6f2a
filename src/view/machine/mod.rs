//! The machine at the place the page tells of: its ring from above, and the braid it makes there.

mod braid_view;
mod gauge;
mod station;
mod track_map;

use leptos::prelude::*;

use super::bench::bench;

/// Both pictures, side by side where there is room.
#[component]
pub(crate) fn Machine() -> impl IntoView {
    let station = station::station(bench());
    view! {
        <section class="machine" id="machine" aria-label="Machine at this place">
            <h2>"The machine at this place"</h2>
            <p class="hint">
                "Follows the pointer over the drawing, or a tap on it; otherwise the chosen point."
            </p>
            <div class="pictures">
                <track_map::Map station />
                <div class="braid">
                    <braid_view::Surface station />
                    <gauge::Gauge station />
                </div>
            </div>
        </section>
    }
}
