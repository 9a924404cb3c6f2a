//! From pointer events to a drag, and from a drag to edits. What a drag means is [`crate::paper::chart::grip`]'s business.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

use super::pointer::{ChartRef, pointer_in_chart};
use crate::base::units::Length;
use crate::page::view::bench::Bench;
use crate::paper::chart::grip::{self, Drag};
use crate::paper::chart::scale::Scale;

/// Pixels a mouse or pen may tremble.
const SLOP_FINE: f64 = 4.0;
/// Pixels a finger may tremble.
const SLOP_TOUCH: f64 = 6.0;

/// The drag under way, if any, and what it works on.
#[derive(Clone, Copy)]
pub(super) struct Dragging {
    pub(super) chart: ChartRef,
    pub(super) bench: Bench,
    pub(super) scale: Signal<Scale>,
    pub(super) edges: Memo<Vec<grip::Edge>>,
    /// Where the pointer has been last, until the next frame shows it.
    pub(super) coming: StoredValue<Option<grip::ChartPoint>>,
}

impl Dragging {
    /// A pointer goes down on or near a handle.
    pub(super) fn down(self, event: &PointerEvent) {
        if self.bench.drag.with_untracked(Option::is_some) {
            return;
        }
        let Some(at) = pointer_in_chart(event, self.chart).filter(|_| event.button() == 0) else {
            return;
        };
        let spots = self.spots();
        let Some(index) = grip::nearest(&spots, at) else {
            return;
        };
        event.prevent_default();
        hold(event);
        self.coming.set_value(None);
        self.bench.held.set(None);
        self.bench.chosen.set(index);
        let slop = if event.pointer_type() == "touch" {
            SLOP_TOUCH
        } else {
            SLOP_FINE
        };
        let edge = self.edges.with_untracked(|edges| edges[index]);
        self.bench.drag.set(Some(Drag::begin(
            event.pointer_id(),
            index,
            edge,
            spots[index],
            at,
            slop,
            event.pointer_type() != "mouse",
        )));
    }

    /// The dragging pointer moves, wherever it is. However many events come, the line follows once in each frame.
    pub(super) fn moved(self, event: &PointerEvent) {
        if event.buttons() == 0 {
            // It was released outside the page.
            return self.lost(event);
        }
        if self.drag_of(event).is_none() {
            return;
        }
        let is_waiting = self.coming.with_value(Option::is_some);
        self.coming.set_value(pointer_in_chart(event, self.chart));
        if !is_waiting {
            request_animation_frame(move || self.follow());
        }
    }

    fn follow(self) {
        let coming = self.coming.try_update_value(Option::take).flatten();
        let (Some(at), Some(mut drag)) = (coming, self.bench.drag.get_untracked()) else {
            return;
        };
        let wish = self.scale.with_untracked(|scale| drag.wish(at, scale));
        self.bench.drag.set(Some(drag));
        if let Some(wish) = wish {
            let (snap, units) = (
                self.bench.snap.get_untracked(),
                self.bench.units.get_untracked(),
            );
            let guides = self.bench.guides.read_untracked();
            self.bench
                .try_move(drag.index, snap.pull(wish, &guides, units));
        }
    }

    /// The dragging pointer goes up: the change is finished.
    pub(super) fn up(self, event: &PointerEvent) {
        if self.drag_of(event).is_some() {
            self.coming.set_value(pointer_in_chart(event, self.chart));
            self.follow();
            self.bench.drag.set(None);
            self.bench.settle();
        }
    }

    /// A pointer goes down anywhere: a second one means that the hand wants something else, and cancels the drag.
    pub(super) fn down_anywhere(self, event: &PointerEvent) {
        if self.bench.drag.with_untracked(Option::is_some) && self.drag_of(event).is_none() {
            self.abort();
        }
    }

    /// The browser took the pointer away.
    pub(super) fn lost(self, event: &PointerEvent) {
        if self.drag_of(event).is_some() {
            self.abort();
        }
    }

    /// Everything is as before the drag.
    pub(super) fn abort(self) {
        if self.bench.drag.with_untracked(Option::is_some) {
            self.coming.set_value(None);
            self.bench.abort();
        }
    }

    fn drag_of(self, event: &PointerEvent) -> Option<Drag> {
        self.bench
            .drag
            .get_untracked()
            .filter(|drag| drag.pointer == event.pointer_id())
    }

    fn spots(self) -> Vec<grip::ChartPoint> {
        self.bench.design.with_untracked(|design| {
            self.edges.with_untracked(|edges| {
                let points = design.draft().points.iter().zip(edges);
                points
                    .map(|(point, &edge)| {
                        self.scale.with_untracked(|scale| {
                            let at = Length::from_metres(point.at_m);
                            // What is out of view cannot be grabbed.
                            if scale.shows(at) {
                                grip::spot(point, edge, scale)
                            } else {
                                (f64::INFINITY, f64::INFINITY)
                            }
                        })
                    })
                    .collect()
            })
        })
    }
}

/// The handle keeps getting the pointer's events, wherever it goes.
fn hold(event: &PointerEvent) {
    if let Some(target) = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok())
    {
        // Refused only for a pointer that is already gone; then its end follows at once.
        let _ = target.set_pointer_capture(event.pointer_id());
    }
}
