//! The surface of the braid from the side, and what can be counted on it.

use leptos::prelude::*;

use super::station::{MachineState, StationSignals};
use crate::base::units::show;
use crate::page::view::bench::bench;
use crate::paper::chart::braid_view::{self, BraidView, SIZE, ThreadLayer};

/// Room below the braid for the scale bar, in pixels.
const FOOT: f64 = 26.0;

/// The braid with its figures.
#[component]
pub(super) fn Surface(station: StationSignals) -> impl IntoView {
    let units = bench().units;
    let here = station.here;
    let picture = Memo::new(move |_| here.with(picture_of));
    let bar = Memo::new(move |_| picture.with(BraidView::scale_bar));
    let length = move || units.get().show_diameter_short(bar.get());
    let figures = move || {
        here.with(|here| {
            let (braid, units) = (&here.braid, units.get());
            format!(
                "Angle {}, lay {}, {} crossings {} along one rib, cover {:.0}\u{202f}%.",
                show::angle(braid.angle),
                units.show_diameter_short(braid.lay),
                units.show_crossings_number(braid.crossings_per_metre()),
                units.show_crossings_unit(),
                100.0 * braid.cover(),
            )
        })
    };
    let spoken = move || format!("Surface of the bare braid, magnified. {}", figures());
    let times = move || picture.with(|picture| show::trimmed(picture.magnification, 1));
    view! {
        <figure class="surface">
            <figcaption class="title">"The bare braid here"</figcaption>
            <p class="told">{figures}</p>
            <svg
                data-picture="braid"
                role="img"
                aria-label=spoken
                viewBox=format!("0 0 {} {}", SIZE.0, SIZE.1 + FOOT)
                width=SIZE.0
            >
                {move || picture.with(drawing)}
                <Bar length=Signal::derive(move || bar.get().metres() * picture.with(|picture| picture.pixels_per_metre)) words=Signal::derive(length) />
            </svg>
            <p class="legend">"Drawn "{times}" times larger. The tip is at the left. Dark: gaps between the threads."</p>
        </figure>
    }
}

fn picture_of(here: &MachineState) -> BraidView {
    BraidView::of(&braid_view::Surface {
        ring: here.ring,
        mounted: &here.mounted,
        path_diameter: here.braid.path_diameter,
        angle: here.braid.angle,
        thread_width: here.thread_width,
        thread_ends: here.thread_ends,
    })
}

fn drawing(picture: &BraidView) -> impl IntoView + use<> {
    let (top, bottom) = picture.body;
    let (width, height) = (picture.width, bottom - top);
    view! {
        <defs>
            <linearGradient id="roundness" x1="0" y1="0" x2="0" y2="1">
                <stop class="edge" offset="0" />
                <stop class="front" offset="0.4" />
                <stop class="front" offset="0.6" />
                <stop class="edge" offset="1" />
            </linearGradient>
        </defs>
        <rect class="inside" x="0" y=top width=width height=height />
        {layer(&picture.below)}
        {layer(&picture.above)}
        <rect x="0" y=top width=width height=height fill="url(#roundness)" />
    }
}

fn layer(layer: &ThreadLayer) -> impl IntoView + use<> {
    view! {
        <path class="thread" d=layer.clockwise.clone() />
        <path class="thread back" d=layer.counter_clockwise.clone() />
        <path class="thread-edge" d=layer.edges.clone() />
    }
}

/// The scale bar below the braid.
#[component]
fn Bar(
    /// Its length, in pixels.
    length: Signal<f64>,
    /// What it measures.
    words: Signal<String>,
) -> impl IntoView {
    let y = SIZE.1 + 12.0;
    let bar = move || format!("M1 {}v12m0 -6h{:.1}m0 -6v12", y - 6.0, length.get());
    view! {
        <path class="bar" d=bar />
        <text class="bar-length" x=move || length.get() + 10.0 y=y + 5.0>{move || words.get()}</text>
    }
}
