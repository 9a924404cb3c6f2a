//! Both casts drawn at one moment, one above the other. A slider sets the moment; a button plays the cast slowly. Where the reader wants
//! less motion there is only the slider.

use leptos::prelude::*;

use super::state::{Casts, cast_state};
use crate::page::browser::element_size;
use crate::page::view::bench::bench;
use crate::paper::chart::flight::{Flight, FlightPaper};
use crate::paper::words::turnover as words;

/// Width until it is measured, in pixels.
const USUAL_WIDTH: f64 = 640.0;
/// The cast is played so many times slower than it is.
const SLOWER: f64 = 4.0;
/// The share of the cast that is shown first.
const FIRST: f64 = 0.4;
/// Steps of the slider.
const STEPS: f64 = 500.0;

/// The moment that is shown, and whether the cast is being played.
#[derive(Clone, Copy)]
struct Player {
    casts: Casts,
    /// Share of the longest cast, 0 to 1.
    share: RwSignal<f64>,
    /// When the page drew the cast last while it is played, milliseconds.
    playing: RwSignal<Option<f64>>,
    /// The picture that is asked for.
    coming: StoredValue<Option<AnimationFrameRequestHandle>>,
}

impl Player {
    fn seconds(self) -> f64 {
        self.share.get() * self.casts.longest()
    }

    fn stop(self) {
        self.playing.set(None);
        // Pressed again at once, it would be played twice.
        if let Some(coming) = self.coming.try_update_value(Option::take).flatten() {
            coming.cancel();
        }
    }

    fn set(self, share: f64) {
        self.stop();
        self.share.set(share.clamp(0.0, 1.0));
    }

    fn toggle(self) {
        if self.playing.get_untracked().is_some() {
            return self.stop();
        }
        if self.share.get_untracked() >= 1.0 {
            self.share.set(0.0);
        }
        self.playing.set(now());
        self.draw_next();
    }

    /// The next picture, as long as it is played and somebody looks.
    fn draw_next(self) {
        let draw = move || {
            let (Some(Some(before)), Some(now)) = (self.playing.try_get_untracked(), now()) else {
                return;
            };
            let whole = untrack(|| self.casts.longest()) * SLOWER * 1e3;
            let share = self.share.get_untracked() + (now - before).max(0.0) / whole;
            if share >= 1.0 || share.is_nan() {
                self.set(1.0);
            } else {
                self.share.set(share);
                self.playing.set(Some(now));
                self.draw_next();
            }
        };
        self.coming
            .set_value(request_animation_frame_with_handle(draw).ok());
    }
}

/// Milliseconds since the page was opened; `None` where the browser does not say.
fn now() -> Option<f64> {
    window().performance().map(|clock| clock.now())
}

/// Both pictures with their slider.
#[component]
pub(super) fn Flights(casts: Casts) -> impl IntoView {
    let units = bench().units;
    let holder = NodeRef::<leptos::html::Div>::new();
    let width = element_size::width(holder, USUAL_WIDTH);
    let player = Player {
        casts,
        share: RwSignal::new(FIRST),
        playing: RwSignal::new(None),
        coming: StoredValue::new(None),
    };
    let paper = Memo::new(move |_| {
        casts.of_any(|own, other| {
            FlightPaper::of([Some(own), other].into_iter().flatten(), width.get())
        })?
    });
    let stated = cast_state().cast;
    let leader = move || stated.get().leader_length();
    let own = Memo::new(move |_| {
        let paper = paper.get()?;
        Some(casts.of_own(|own| paper.at(own, leader(), player.seconds())))
    });
    let other = Memo::new(move |_| {
        let paper = paper.get()?;
        casts.of_both(|_, other| paper.at(other, leader(), player.seconds()))
    });
    let said = move || casts.of_own(|own| words::moment(own, player.seconds(), units.get()));
    let cast = move || words::cast(&stated.get(), units.get());
    let is_playing = Memo::new(move |_| player.playing.get().is_some());
    let play = move || {
        if is_playing.get() {
            "Stop"
        } else {
            "Play slowly"
        }
    };
    view! {
        <section class="card" aria-label="The cast in the air">
            <div node_ref=holder class="flights">
                <Picture paper flight=own title=Signal::stored("This line".to_owned()) />
                <Show when=move || other.with(Option::is_some)>
                    <Picture paper flight=other title=Signal::derive(move || casts.title.get().unwrap_or_default()) />
                </Show>
            </div>
            <div class="flight-moves">
                <button class="flight-play" data-action="turnover-play" on:click=move |_| player.toggle()>{play}</button>
                <input
                    type="range"
                    aria-label="moment of the cast"
                    aria-valuetext=said
                    data-action="turnover-moment"
                    min="0"
                    max=STEPS.to_string()
                    prop:value=move || (player.share.get() * STEPS).round().to_string()
                    on:input:target=move |event| {
                        if let Ok(step) = event.target().value().parse::<f64>() {
                            player.set(step / STEPS);
                        }
                    }
                />
                <span class="flight-said" aria-hidden="true">{said}</span>
            </div>
            <p class="hint">{cast}</p>
            <p class="hint">{words::DRAWING}</p>
        </section>
    }
}

#[component]
fn Picture(
    paper: Memo<Option<FlightPaper>>,
    flight: Memo<Option<Flight>>,
    title: Signal<String>,
) -> impl IntoView {
    let size = move || {
        paper
            .get()
            .map_or((1.0, 1.0), |paper| (paper.width, paper.height))
    };
    let with = move |say: fn(&Flight) -> String| {
        flight.with(|it| it.as_ref().map(say).unwrap_or_default())
    };
    let view_box = move || {
        let (width, height) = size();
        format!("0 0 {width:.0} {height:.0}")
    };
    let at = move |say: fn(&Flight) -> (f64, f64)| {
        flight.with(|it| it.as_ref().map(say).unwrap_or_default())
    };
    view! {
        <figure>
            <figcaption>{title}</figcaption>
            <svg class="flight" aria-hidden="true" viewBox=view_box width=move || size().0 height=move || size().1>
                <path class="flight-line" d=move || with(|flight| flight.line.clone()) />
                <path class="flight-leader" d=move || with(|flight| flight.leader.clone()) />
                <circle class="flight-tip" r="5" cx=move || at(|flight| flight.rod_tip).0 cy=move || at(|flight| flight.rod_tip).1 />
                <circle class="flight-fly" r="4" cx=move || at(|flight| flight.fly).0 cy=move || at(|flight| flight.fly).1 />
            </svg>
        </figure>
    }
}
