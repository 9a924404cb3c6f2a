//! The handles of the lines over the picture: a pointer drags them, keys and buttons move them by pixels of the picture. Each is
//! beside the place it holds, so that a finger does not cover that.

use leptos::ev;
use leptos::prelude::*;
use web_sys::{KeyboardEvent, PointerEvent};

use super::state::PhotoState;
use crate::page::browser::event_target;
use crate::page::view::window_events::on_window;
use crate::paper::chart::photo_handles::{PhotoHandle, PhotoLines, line_path};
use crate::paper::words::photo as words;
use crate::photo::{Line, Point};

/// How far a handle is from the place it holds, in pixels of the screen.
const BESIDE: f64 = 34.0;
/// Radius of the circle that takes hold, and of the dot that is seen.
const REACH: f64 = 26.0;
const DOT: f64 = 9.0;
/// A pointer that moved less has tapped.
const SLOP: f64 = 4.0;
/// Pixels of the picture that an arrow key moves a handle, alone and with Shift; and a button.
const KEY_STEPS: [f64; 2] = [1.0, 10.0];
const BUTTON_STEP: f64 = 4.0;

/// A pointer that holds a handle.
#[derive(Clone, Copy)]
struct Grip {
    handle: PhotoHandle,
    pointer: i32,
    /// Where the pointer went down.
    from: Point,
    /// The place held then.
    held: Point,
    /// All lines then.
    before: PhotoLines,
    /// Whether it has moved.
    is_moved: bool,
}

#[derive(Clone, Copy)]
struct Dragging {
    state: PhotoState,
    svg: NodeRef<leptos::svg::Svg>,
    /// Pixels of the picture in one of the screen.
    zoom: Signal<f64>,
    grip: RwSignal<Option<Grip>>,
}

/// All handles there are.
#[component]
pub(super) fn Handles(
    state: PhotoState,
    svg: NodeRef<leptos::svg::Svg>,
    zoom: Signal<f64>,
) -> impl IntoView {
    let dragging = Dragging {
        state,
        svg,
        zoom,
        grip: RwSignal::new(None),
    };
    // A second finger means that the hand wants something else.
    on_window(ev::pointerdown, move |event| {
        if dragging.grip_of(&event).is_none() {
            dragging.abort();
        }
    });
    let all = move |handles: &'static [PhotoHandle]| {
        let handle = |handle: &PhotoHandle| view! { <Handle dragging handle=*handle /> };
        handles.iter().map(handle).collect_view()
    };
    view! {
        <Show when=move || state.reading.with(Option::is_some)>{all(&PhotoHandle::EDGES)}</Show>
        <Show when=move || state.rule.with(Option::is_some)>{all(&PhotoHandle::RULE)}</Show>
    }
}

#[component]
fn Handle(dragging: Dragging, handle: PhotoHandle) -> impl IntoView {
    let Dragging { state, zoom, .. } = dragging;
    let element = NodeRef::<leptos::svg::G>::new();
    let grip = Memo::new(move |_| {
        state
            .lines
            .with(|lines| lines.grip(handle, BESIDE * zoom.get()))
    });
    let place = move || {
        let Point { x, y } = grip.get();
        format!("translate({x:.1} {y:.1}) scale({:.3})", zoom.get())
    };
    let stalk = move || {
        line_path(Line::new(
            grip.get(),
            state.lines.with(|it| it.held(handle)),
        ))
    };
    let is_chosen = move || state.chosen.get() == Some(handle);
    // Keys move it; once they rest it is let go.
    let is_struck = StoredValue::new(false);
    let settle = move || {
        // A handle with the focus is left by it also while it is taken away.
        if is_struck.try_get_value().unwrap_or_default() {
            is_struck.set_value(false);
            state.let_go(handle);
        }
    };
    let struck = move |event: &KeyboardEvent| {
        if event.key() == "Escape" && dragging.abort() {
            // The sheet stays open.
            return event.prevent_default();
        }
        if matches!(event.key().as_str(), "Enter" | " ") {
            event.prevent_default();
            return state.chosen.set(Some(handle));
        }
        if let Some((right, down)) = arrow(&event.key()).filter(|_| state.is_steady()) {
            event.prevent_default();
            let step = KEY_STEPS[usize::from(event.shift_key())];
            is_struck.set_value(true);
            shift(state, handle, (right * step, down * step));
        }
    };
    view! {
        <path class="casing" d=stalk />
        <path class="photo-stalk" d=stalk />
        <g
            node_ref=element
            class="photo-handle"
            class:chosen=is_chosen
            transform=place
            tabindex="0"
            role="button"
            aria-label=handle.name()
            aria-pressed=move || is_chosen().to_string()
            aria-keyshortcuts="ArrowUp ArrowDown ArrowLeft ArrowRight"
            data-photo-handle=handle.key()
            on:focus=move |_| state.chosen.set(Some(handle))
            // A screen reader and a switch press it without a pointer or the focus.
            on:click=move |_| state.chosen.set(Some(handle))
            on:pointerdown=move |event| {
                dragging.down(handle, &event);
                // Escape is to reach it.
                if let Some(element) = element.get_untracked() {
                    // A browser that refuses leaves it where it was.
                    let _ = element.focus();
                }
            }
            on:pointermove=move |event| dragging.moved(&event)
            on:pointerup=move |event| dragging.up(&event)
            on:pointercancel=move |event| dragging.lost(&event)
            on:lostpointercapture=move |event| dragging.lost(&event)
            on:keydown=move |event| struck(&event)
            on:keyup=move |_| settle()
            on:blur=move |_| settle()
        >
            <circle class="target" r=REACH />
            <circle class="ring" r=DOT + 5.0 />
            <circle class="dot" r=DOT />
        </g>
    }
}

/// Where an arrow key leads.
fn arrow(key: &str) -> Option<(f64, f64)> {
    match key {
        "ArrowLeft" => Some((-1.0, 0.0)),
        "ArrowRight" => Some((1.0, 0.0)),
        "ArrowUp" => Some((0.0, -1.0)),
        "ArrowDown" => Some((0.0, 1.0)),
        _ => None,
    }
}

/// Moves what a handle holds by pixels of the picture.
fn shift(state: PhotoState, handle: PhotoHandle, (right, down): (f64, f64)) {
    let held = state.lines.with_untracked(|lines| lines.held(handle));
    state.move_to(handle, Point::new(held.x + right, held.y + down));
}

impl Dragging {
    fn grip_of(self, event: &PointerEvent) -> Option<Grip> {
        let grip = self.grip.get_untracked();
        grip.filter(|grip| grip.pointer == event.pointer_id())
    }

    /// Where a pointer is, in pixels of the picture.
    fn place(self, event: &PointerEvent) -> Option<Point> {
        let bounds = self.svg.get_untracked()?.get_bounding_client_rect();
        let zoom = self.zoom.get_untracked();
        Some(Point::new(
            (f64::from(event.client_x()) - bounds.left()) * zoom,
            (f64::from(event.client_y()) - bounds.top()) * zoom,
        ))
    }

    fn down(self, handle: PhotoHandle, event: &PointerEvent) {
        let is_taken = event.button() == 0 && self.state.is_steady();
        let place = self.place(event).filter(|_| is_taken);
        let (Some(from), None) = (place, self.grip.get_untracked()) else {
            return;
        };
        event.prevent_default();
        if let Some(target) = event_target::element(event) {
            // Refused only for a pointer that is already gone; then its end follows at once.
            let _ = target.set_pointer_capture(event.pointer_id());
        }
        self.state.chosen.set(Some(handle));
        let before = self.state.lines.get_untracked();
        self.grip.set(Some(Grip {
            handle,
            pointer: event.pointer_id(),
            from,
            held: before.held(handle),
            before,
            is_moved: false,
        }));
    }

    fn moved(self, event: &PointerEvent) {
        if event.buttons() == 0 {
            // It was released outside of the page.
            return self.lost(event);
        }
        self.follow(event);
    }

    fn follow(self, event: &PointerEvent) {
        let (Some(mut grip), Some(to)) = (self.grip_of(event), self.place(event)) else {
            return;
        };
        let way = Line::new(grip.from, to);
        if !grip.is_moved && way.length() < SLOP * self.zoom.get_untracked() {
            return;
        }
        grip.is_moved = true;
        self.grip.set(Some(grip));
        let (right, down) = (to.x - grip.from.x, to.y - grip.from.y);
        let to = Point::new(grip.held.x + right, grip.held.y + down);
        self.state.move_to(grip.handle, to);
    }

    fn up(self, event: &PointerEvent) {
        self.follow(event);
        if let Some(grip) = self.grip_of(event) {
            self.grip.set(None);
            if grip.is_moved {
                self.state.let_go(grip.handle);
            }
        }
    }

    /// The browser took the pointer away.
    fn lost(self, event: &PointerEvent) {
        if self.grip_of(event).is_some() {
            self.abort();
        }
    }

    /// Everything is as before the drag. Whether there was one.
    fn abort(self) -> bool {
        let grip = self.grip.try_get_untracked().flatten();
        if let Some(grip) = grip {
            self.grip.set(None);
            self.state.lines.set(grip.before);
        }
        grip.is_some()
    }
}

/// The ways a button moves a handle: its sign, its name, and where to.
const MOVES: [(&str, &str, (f64, f64)); 4] = [
    ("←", "Move left", (-BUTTON_STEP, 0.0)),
    ("→", "Move right", (BUTTON_STEP, 0.0)),
    ("↑", "Move up", (0.0, -BUTTON_STEP)),
    ("↓", "Move down", (0.0, BUTTON_STEP)),
];

/// Buttons for the chosen handle: for a hand that cannot drag.
#[component]
pub(super) fn MoveButtons(state: PhotoState) -> impl IntoView {
    let button = move |(sign, name, way): (&'static str, &'static str, (f64, f64))| {
        let press = move |_| {
            if let Some(handle) = state.chosen.get_untracked().filter(|_| state.is_steady()) {
                shift(state, handle, way);
                state.let_go(handle);
            }
        };
        let is_off = move || state.chosen.with(Option::is_none);
        view! { <button data-action="photo-move" aria-label=name disabled=is_off on:click=press>{sign}</button> }
    };
    let name = move || {
        state
            .chosen
            .get()
            .map_or(words::CHOOSE_HANDLE, PhotoHandle::name)
    };
    view! {
        // It is there from the start, so that nothing moves when a handle is chosen.
        <Show when=move || state.reading.with(Option::is_some)>
            <div class="photo-moves" role="group" aria-label="Move the chosen handle">
                <span>{name}</span>
                {MOVES.map(button).into_iter().collect_view()}
            </div>
        </Show>
    }
}
