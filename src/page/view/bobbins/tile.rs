//! One bobbin: its picture, what to wind on it, and a tap to tick it.

use leptos::prelude::*;

use super::ticks::Ticks;
use crate::base::units::show;
use crate::page::view::bench::bench;
use crate::page::view::icon::{Glyph, Icon};
use crate::paper::chart::bobbin::{Area, BobbinPicture, SIZE, bobbin_picture};
use crate::paper::words;
use crate::plan::bobbins::Bobbin;
use crate::plan::wound::WoundState;

/// The tile.
#[component]
pub(super) fn Tile(index: usize, ticks: Ticks) -> impl IntoView {
    let bench = bench();
    let bobbin = Memo::new(move |_| bench.plan.with(|plan| plan.bobbins.get(index).copied()));
    let of =
        move |what: fn(&Bobbin) -> String| move || bobbin.with(|bobbin| bobbin.as_ref().map(what));
    view! {
        <li
            data-bobbin=of(|bobbin| bobbin.carrier.to_string())
            data-ends=of(|bobbin| bobbin.ends.to_string())
            data-length=of(|bobbin| bobbin.length.metres().to_string())
            data-mass=of(|bobbin| bobbin.mass.kilograms().to_string())
            data-runs-out=move || bobbin.get().and_then(|bobbin| bobbin.runs_out).map(|at| at.metres().to_string())
        >
            <TileButton index bobbin ticks />
        </li>
    }
}

#[component]
fn TileButton(index: usize, bobbin: Memo<Option<Bobbin>>, ticks: Ticks) -> impl IntoView {
    let bench = bench();
    let units = bench.units;
    let state = Memo::new(move |_| ticks.state(bobbin.get()));
    let is_wound = move || state.get() == WoundState::Wound;
    // Carrier and ends of a tile stay what they are: another bobbin is another tile.
    let names = bobbin.with_untracked(|bobbin| bobbin.as_ref().map(words::bobbin_names));
    let (short, spoken) = names.unwrap_or_default();
    let is_standard = Memo::new(move |_| {
        let standard = bench.drawn(|design| design.supply().light);
        bobbin.with(|bobbin| bobbin.is_none_or(|bobbin| bobbin.ends == standard))
    });
    let ends = move || {
        let ends = bobbin.with(|bobbin| bobbin.map(|bobbin| bobbin.ends));
        ends.filter(|_| !is_standard.get())
            .map(|ends| format!(" · {ends} ends"))
    };
    let of = move |what: fn(&Bobbin, show::Units) -> String| {
        move || bobbin.with(|bobbin| bobbin.as_ref().map(|bobbin| what(bobbin, units.get())))
    };
    let too_small = move || {
        bobbin.with(|bobbin| {
            bobbin
                .as_ref()
                .and_then(|bobbin| words::runs_out(bobbin, units.get()))
        })
    };
    // It stays when the bobbin is ticked, so that the tile keeps its height.
    let work = move || {
        ticks
            .work(bobbin.get())
            .map(|work| words::winding_work(&work))
    };
    let standing = move || words::wound_state(state.get(), units.get());
    view! {
        <button
            class="card bobbin-tile"
            class:wound=is_wound
            data-action="wound"
            aria-pressed=move || is_wound().to_string()
            on:click=move |_| ticks.toggle(index)
        >
            <span class="tick-box" aria-hidden="true"><Glyph icon=Icon::Tick /></span>
            <Picture bobbin />
            <span class="line">
                <b aria-hidden="true">{short}</b>
                <span class="spoken">{spoken}", "</span>
                " "
                <span>{of(|bobbin, units| units.show_yarn(bobbin.length, 1))}</span>
            </span>
            <span class="quiet">{of(|bobbin, _| show::grams(bobbin.mass))}{ends}</span>
            // A tick takes the place of where it enters, so that no tile grows under the finger.
            <Show when=move || !is_wound()>
                <span class="quiet">{of(words::enters)}</span>
            </Show>
            {move || work().map(|said| view! { <span class="quiet" data-work>{said}</span> })}
            {move || too_small().map(|said| view! { <span class="said">{said}</span> })}
            {move || standing().map(|said| view! { <span class="standing-of">{said}</span> })}
        </button>
    }
}

/// The bobbin, filled as far as it will be.
#[component]
fn Picture(bobbin: Memo<Option<Bobbin>>) -> impl IntoView {
    let bench = bench();
    let picture = Memo::new(move |_| {
        let bobbin = bobbin.get()?;
        Some(bench.drawn(|design| {
            let density = design.thread().fibre_density;
            bobbin_picture(&design.bobbin(), bobbin.mass, density)
        }))
    });
    let fits = move || picture.with(|picture| picture.is_none_or(|picture| picture.fits));
    let area = move |of: fn(&BobbinPicture) -> Area, class: &'static str| {
        let side = move |side: fn(&Area) -> f64| {
            move || {
                picture.with(|picture| picture.as_ref().map(|it| format!("{:.1}", side(&of(it)))))
            }
        };
        view! {
            <rect class=class x=side(|it| it.x) y=side(|it| it.y) width=side(|it| it.width) height=side(|it| it.height) />
        }
    };
    let (width, height) = SIZE;
    view! {
        <svg class="bobbin" class:overfull=move || !fits() aria-hidden="true" viewBox=format!("0 0 {width} {height}") width=width height=height>
            {area(|it| it.barrel, "barrel")}
            {area(|it| it.winding, "winding")}
            {area(|it| it.flanges[0], "flange")}
            {area(|it| it.flanges[1], "flange")}
        </svg>
    }
}
