//! The readings with the taper found in them, and the slider from simpler to closer.

use leptos::prelude::*;

use super::copy::Copied;
use super::finished::Compared;
use super::state::open_measured;
use crate::measured::{CLOSENESS, MeasuredEdit, MeasuredLine};
use crate::page::browser::element_size;
use crate::page::view::bench::bench;
use crate::paper::chart::measured_picture::{Drawn, HEIGHT, MeasuredPicture, measured_picture};
use crate::paper::words::measured as words;

/// Width until it is measured, in pixels.
const USUAL_WIDTH: f64 = 720.0;

/// The picture, what it says in words, and the slider.
#[component]
pub(super) fn Picture(compared: Compared, copied: Copied) -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let holder = NodeRef::<leptos::html::Div>::new();
    let width = element_size::width(holder, USUAL_WIDTH);
    let other = move || compared.sizes().or_else(|| copied.sizes());
    let picture = Memo::new(move |_| {
        let (found, other) = (open.found.get(), other());
        let readings = open.line.with(MeasuredLine::readings);
        let drawn = Drawn {
            readings: &readings,
            found: found.as_deref(),
            other: other.as_deref().map_or(&[], Vec::as_slice),
        };
        measured_picture(drawn, bench.units.get(), width.get())
    });
    let said = Memo::new(move |_| {
        let found = open.found.get();
        found.map_or_else(
            || "Two places at least are needed to find a taper.".to_owned(),
            |found| {
                open.line
                    .with(|line| words::found(&found, &line.readings()))
            },
        )
    });
    let other_words = move || {
        let title = compared.title().or_else(|| copied.title());
        title.map(|title| view! { <span class="legend">{format!("Dashed: {title}.")}</span> })
    };
    view! {
        <section class="card" aria-label="The taper in the readings">
            <div class="measured-picture" node_ref=holder>
                {move || picture.get().map(|picture| drawing(picture, &said.get(), bench.units.get().diameter().symbol()))}
            </div>
            <p role="status" data-found-taper="">{said}" "{other_words}</p>
            <Closeness />
        </section>
    }
}

fn drawing(picture: MeasuredPicture, said: &str, unit: &'static str) -> impl IntoView + use<> {
    let MeasuredPicture { width, sides, .. } = picture;
    let (left, right) = sides;
    let strip = picture.strip.map(|[top, middle, foot]| {
        view! {
            <rect class="tolerance" x=left y=top width=right - left height=foot - top />
            <line class="frame" x1=left x2=right y1=middle y2=middle />
            <text x=left y=picture.strip_caption>"off the taper; band: scatter"</text>
        }
    });
    let place = |(x, label): (f64, String)| {
        view! { <text class="middle" x=x y=picture.place_foot>{label}</text> }
    };
    let size = move |(y, label): (f64, String)| {
        view! {
            <line class="frame" x1=left x2=right y1=y y2=y />
            <text class="last" x=left - 14.0 y=y + 5.0>{label}</text>
        }
    };
    let point = |(x, y): (f64, f64)| view! { <circle class="point" cx=x cy=y r="6" /> };
    view! {
        <svg
            class="measured-chart"
            role="img"
            aria-label=said.to_owned()
            viewBox=format!("0 0 {width:.0} {HEIGHT:.0}")
            width=width
            height=HEIGHT
        >
            {picture.sizes.into_iter().map(size).collect_view()}
            <text x="4" y="16">{format!("diameter, {unit}")}</text>
            {strip}
            {picture.places.into_iter().map(place).collect_view()}
            <path class="bars" d=picture.bars />
            <path class="other" d=picture.other />
            <path class="taper" d=picture.taper />
            <path class="used" d=picture.used />
            <path class="left-out" d=picture.left_out />
            <path class="residuals" d=picture.residuals />
            <path class="left-out" d=picture.left_out_residuals />
            {picture.points.into_iter().map(point).collect_view()}
        </svg>
    }
}

/// From simpler to closer.
#[component]
fn Closeness() -> impl IntoView {
    let open = open_measured();
    let now = Memo::new(move |_| open.line.with(|line| line.draft().closeness));
    let set = move |text: String| {
        if let Ok(closeness) = text.parse() {
            open.press(MeasuredEdit::Closeness(closeness));
        }
    };
    let words = move || match now.get() {
        0 => "usual".to_owned(),
        simpler @ ..0 => format!("{} simpler", -simpler),
        closer => format!("{closer} closer"),
    };
    view! {
        <div class="closeness">
            <span aria-hidden="true">"simpler"</span>
            <input
                type="range"
                min=CLOSENESS.start().to_string()
                max=CLOSENESS.end().to_string()
                step="1"
                aria-label="From a simpler to a closer taper"
                aria-valuetext=words
                data-action="closeness"
                prop:value=move || now.get().to_string()
                on:input:target=move |event| set(event.target().value())
            />
            <span aria-hidden="true">"closer"</span>
        </div>
        <details class="finer">
            <summary>"How the taper is found"</summary>
            <p class="ground">
                "The readings are cut into the fewest straight pieces that explain them within the scatter of the micrometer. The best cut is found exactly, by optimal partitioning (Jackson et al. 2005). A further point must explain more than chance would: Schwarz’s criterion (1978), as Yao (1988) uses it for changes. The slider halves or doubles that price with each step. A single reading is left out where it is off by more than four times the scatter. You can use it again below."
            </p>
        </details>
    }
}
