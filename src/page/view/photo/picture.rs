//! The picture, and over it what was found and what the maker can drag.

use leptos::prelude::*;

use super::handles::{Handles, MoveButtons};
use super::state::PhotoState;
use crate::page::browser::element_size;
use crate::page::browser::photo_reader::draw;
use crate::paper::chart::photo_handles::line_path;
use crate::paper::chart::photo_threads::{PhotoThreads, photo_threads};
use crate::paper::words::photo as words;
use crate::photo::Point;

/// Most of the window's height that a picture takes, percent of it.
const MOST_HEIGHT: f64 = 42.0;

/// The picture that is measured.
#[component]
pub(super) fn Picture(state: PhotoState) -> impl IntoView {
    let canvas = NodeRef::<leptos::html::Canvas>::new();
    let frame = NodeRef::<leptos::html::Div>::new();
    let svg = NodeRef::<leptos::svg::Svg>::new();
    let shown_width = element_size::width(frame, 1.0);
    Effect::new(move |_| {
        if let Some(canvas) = canvas.get() {
            state.picture.with(|picture| {
                if let Some(picture) = picture {
                    draw(&canvas, picture);
                }
            });
        }
    });
    let size = Memo::new(move |_| state.lines.with(|lines| lines.size));
    // Pixels of the picture in one of the screen.
    let zoom = Signal::derive(move || size.get().0 / shown_width.get().max(1.0));
    let ratio = move || {
        let (width, height) = size.get();
        format!("{width} / {height}")
    };
    let width = move || {
        let (width, height) = size.get();
        let most = MOST_HEIGHT * width / height.max(1.0);
        format!("min(100%, {most:.2}vh)")
    };
    let view_box = move || {
        let (width, height) = size.get();
        format!("0 0 {width} {height}")
    };
    let hint = move || {
        state.reading.with(|reading| match reading {
            Some(Ok(_)) => words::IF_EDGES_ARE_WRONG,
            Some(Err(_)) => words::SET_EDGES,
            None => "",
        })
    };
    view! {
        <section class="card" aria-label="Picture with what was found">
            <div class="photo-frame" tabindex="-1" node_ref=frame style:aspect-ratio=ratio style:width=width>
                <canvas node_ref=canvas role="img" aria-label="The picture that is measured" />
                <svg node_ref=svg role="group" aria-label="Lines over the picture" viewBox=view_box>
                    <Threads state zoom />
                    <Lines state />
                    <Handles state svg zoom />
                </svg>
            </div>
            <MoveButtons state />
            <p class="hint">{hint}</p>
            <Show when=move || state.has_own_edges.get()>
                <button data-action="photo-find-edges" on:click=move |_| state.find_edges()>
                    "Find the edges again"
                </button>
            </Show>
        </section>
    }
}

/// How the threads lie where they were found; what is in doubt is dashed and has its number.
#[component]
fn Threads(state: PhotoState, zoom: Signal<f64>) -> impl IntoView {
    let found = Memo::new(move |_| state.with_reading(photo_threads).unwrap_or_default());
    let sign = move |(at, number): (Point, usize)| {
        let place = move || {
            format!(
                "translate({:.1} {:.1}) scale({:.3})",
                at.x,
                at.y,
                zoom.get()
            )
        };
        view! {
            <g class="photo-sign" transform=place>
                <circle r="15" />
                <text y="6">{format!("!{number}")}</text>
            </g>
        }
    };
    move || {
        let PhotoThreads {
            clear,
            doubtful,
            signs,
        } = found.get();
        view! {
            <g class="photo-threads">
                <path class="casing" d=clear.clone() />
                <path class="clear" d=clear />
                <path class="casing" d=doubtful.clone() />
                <path class="doubtful" d=doubtful />
                {signs.into_iter().map(sign).collect_view()}
            </g>
        }
    }
}

/// The edges of the braid, and the line on a rule.
#[component]
fn Lines(state: PhotoState) -> impl IntoView {
    let edge = move |index: usize| move || line_path(state.lines.with(|lines| lines.edges[index]));
    let rule = move || line_path(state.lines.with(|lines| lines.rule));
    view! {
        <Show when=move || state.reading.with(Option::is_some)>
            {[0, 1].map(|index| view! {
                <path class="casing" d=edge(index) />
                <path class="photo-edge" data-photo-edge=index.to_string() d=edge(index) />
            }).into_iter().collect_view()}
        </Show>
        <Show when=move || state.rule.with(Option::is_some)>
            <path class="casing" d=rule />
            <path class="photo-rule" d=rule />
        </Show>
    }
}
