//! What the line is like at one station: where the mouse hovers, or at the chosen point, also while a finger drags it. One quiet line
//! above the chart, for those who want more than the label at the hand says; a narrow page shows less of it.

use leptos::prelude::*;
use web_sys::{MouseEvent, PointerEvent};

use super::pointer::{ChartRef, pointer_in_chart};
use crate::base::units::{Length, show};
use crate::braid::letters::Letter;
use crate::braid::stretch::Station;
use crate::design::Design;
use crate::page::browser::event_target;
use crate::page::view::bench::{self, Bench, Cursor, Ghost, bench};
use crate::page::view::terms::TermWord;
use crate::paper::chart::finish::Finish;
use crate::paper::chart::scale::{LEFT, Scale};
use crate::paper::terms::Term;

/// The line of words above the chart.
#[component]
pub(super) fn Readout() -> impl IntoView {
    let bench = bench();
    let at = Memo::new(move |_| bench.shown.with(|shown| bench.place_on(&shown.design)));
    let whose = move || match bench.cursor.get() {
        Cursor::Point => format!("point {}: ", bench.chosen.get() + 1),
        Cursor::Place(_) => String::new(),
    };
    let here = Memo::new(move |_| bench.shown.with(|shown| shown.plan.station(at.get())));
    let drawn = Memo::new(move |_| {
        bench
            .shown
            .with(|shown| shown.design.taper().diameter_at(at.get()))
    });
    let made = move || {
        let finished = bench.shown.with(|shown| shown.plan.line.process().dressing);
        let dressing = bench.finish.get().dressing(&finished);
        dressing.diameter(here.get().braid.diameter)
    };
    // Said only where it is not the finished line that is shown.
    let finish = move || match bench.finish.get() {
        Finish::Finished => String::new(),
        other => other.name().to_owned(),
    };
    let braid = move || here.get().braid;
    let threads = move || here.get().piece.load.threads;
    let wheels = move || here.get().piece.wheels;
    let units = move || bench.units.get();
    // For tests, in one attribute: place, finished diameter, threads and angle, in SI. Nobody reads it, so it follows at once.
    let numbers = move || {
        let (at, finish) = (bench.place(), bench.finish.get());
        let Station { piece, braid, .. } = bench.plan.with(|plan| plan.station(at));
        let finished = bench.plan.with(|plan| plan.line.process().dressing);
        let made = finish.dressing(&finished).diameter(braid.diameter);
        let (at, made, angle) = (at.metres(), made.metres(), braid.angle.radians());
        format!("{at} {made} {} {angle}", piece.load.threads)
    };
    let letter = move || Letter::nearest(drawn.get()).map_or("–", |letter| letter.name);
    view! {
        <p class="readout" data-station=numbers>
            <span class="of-place">
                {whose}
                {move || units().show_position(at.get())}
            </span>
            <span class="of-drawn">
                {move || units().show_diameter_short(drawn.get())}
                " drawn"
            </span>
            <span>{finish}</span>
            <span class="of-made">
                {move || units().show_diameter_short(made())}
                " made"
                ", size "
                {letter}
            </span>
            <span>
                {move || threads().to_string()}
                " "
                <TermWord term=Term::Thread word="threads" />
            </span>
            <span class="of-gear">
                <TermWord term=Term::ChangeGear word="gear" />
                " "
                {move || wheels().to_string()}
                ", "
                <TermWord term=Term::Angle word="angle" />
                " "
                {move || show::angle(braid().angle)}
            </span>
            <span class="of-crossings">
                {move || units().show_crossings_number(braid().crossings_per_metre())}
                " "
                <TermWord term=Term::Crossing word="crossings" />
                " "
                {move || units().show_crossings_unit()}
            </span>
            <GhostLegend />
        </p>
    }
}

/// What the dashed outline is, where there is one.
#[component]
fn GhostLegend() -> impl IntoView {
    let bench = bench();
    let title = Memo::new(move |_| {
        let title = |ghost: &Ghost| ghost.title.clone();
        let other = bench.ghost.with(|ghost| ghost.as_ref().map(title));
        other.or_else(|| bench.settled.with(original_title))
    });
    move || {
        title
            .get()
            .map(|title| view! { <span class="legend">{format!("dashed: {title}")}</span> })
    }
}

/// What the line it is a copy of is called, where it is one.
fn original_title(design: &Design) -> Option<String> {
    let (original, _) = design.original()?;
    Some(original.title().to_owned())
}

/// From that station to both axes: an upright through all bands, and a line from the drawn edge to the diameters.
#[component]
pub(super) fn Crosshair(scale: Signal<Scale>) -> impl IntoView {
    let bench = bench();
    let lines = move || {
        let at = bench.place();
        let drawn = bench.drawn(|design| design.taper().diameter_at(at));
        scale.with(|scale| {
            let (x, top, foot) = (scale.x_of(at), scale.profile().top, scale.foot());
            let edge = scale.profile().middle() - scale.half_thickness(drawn);
            format!("M{x:.1} {top:.1}V{foot:.1}M{LEFT:.1} {edge:.1}H{x:.1}")
        })
    };
    let is_hidden = move || scale.with(|scale| !scale.shows(bench.place()));
    view! { <path class="crosshair" class:hidden=is_hidden d=lines /> }
}

/// Over the line: why the chosen point does not follow the hand. Spoken only once the hand releases it.
#[component]
pub(super) fn HeldMessage(scale: Signal<Scale>) -> impl IntoView {
    let bench = bench();
    let top = move || scale.with(|scale| format!("{:.0}px", scale.profile().middle()));
    let said =
        move |held: bench::HeldPoint| format!("Point {} is held: {}.", held.index + 1, held.by);
    let shown = move || bench.held.get().map(said);
    let is_steady = move || bench.drawn(|now| bench.settled.with(|settled| now == settled));
    view! {
        {move || shown().map(|words| view! { <p class="held" data-held="" style:top=top aria-hidden="true">{words}</p> })}
        <p class="spoken" role="status">{move || is_steady().then(shown).flatten()}</p>
    }
}

/// A hovering mouse or pen moves the cursor; a finger does not hover, it scrolls the page, or taps.
pub(super) fn follow(event: &PointerEvent, chart: ChartRef, bench: Bench, scale: &Scale) {
    if event.pointer_type() == "touch" || event.buttons() != 0 {
        return;
    }
    bench.cursor.set(place(event, chart, bench, scale));
}

/// A tap beside the handles reads the line there, until a point is chosen or tapped.
pub(super) fn tap(event: &MouseEvent, chart: ChartRef, bench: Bench, scale: &Scale) {
    let target = event_target::element(event);
    let is_handle = target.is_some_and(|target| target.matches("[data-point]").unwrap_or(false));
    if !is_handle {
        bench.cursor.set(place(event, chart, bench, scale));
    }
}

/// The place on the line under a pointer; the chosen point where it is beside the line.
fn place(event: &MouseEvent, chart: ChartRef, bench: Bench, scale: &Scale) -> Cursor {
    let place = pointer_in_chart(event, chart).and_then(|(x, y)| {
        let at = scale.at_of(x);
        let length = bench.plan.with_untracked(|plan| plan.length);
        let on_line = at >= Length::ZERO && at <= length && scale.shows(at);
        let on_bands = y >= scale.profile().top && y <= scale.foot();
        (on_line && on_bands).then_some(Cursor::Place(at))
    });
    place.unwrap_or(Cursor::Point)
}
