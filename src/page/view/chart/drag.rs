//! From pointer events to a drag, and from a drag to edits. What a hand does is [`crate::paper::chart::drag`]'s business.

use core::time::Duration;

use leptos::prelude::*;
use web_sys::{PointerEvent, TouchEvent};

use super::drawn_handles::DrawnHandles;
use super::pointer::{ChartRef, WindowPoint, in_chart, in_window, pointer_in_chart};
use crate::page::browser::event_target;
use crate::page::view::bench::Bench;
use crate::paper::chart::drag::{Drag, PointerKind};
use crate::paper::chart::scale::Scale;

/// A finger that rests so long near a handle holds it. Our own choice.
const REST: Duration = Duration::from_millis(150);

/// The drag under way, if any, and what it works on.
#[derive(Clone, Copy)]
pub(super) struct Dragging {
    pub(super) chart: ChartRef,
    pub(super) bench: Bench,
    pub(super) scale: Signal<Scale>,
    pub(super) handles: DrawnHandles,
    /// Where the pointer has been last, until the next frame shows it.
    pub(super) coming: StoredValue<Option<WindowPoint>>,
    /// Runs out when a finger has rested.
    pub(super) rest: StoredValue<Option<TimeoutHandle>>,
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
        let Some(grip) = self.handles.grip_at(self.bench, self.scale, at) else {
            return;
        };
        event.prevent_default();
        hold(event);
        self.coming.set_value(None);
        let kind = PointerKind::of_name(&event.pointer_type());
        let drag = Drag::begin(event.pointer_id(), kind, grip, at);
        if drag.is_held() {
            self.choose(drag);
        } else {
            self.wait_for_rest();
        }
        self.bench.drag.set(Some(drag));
    }

    fn wait_for_rest(self) {
        if let Some(rest) = self.rest.get_value() {
            rest.clear();
        }
        let rested = move || {
            self.change(Drag::rested);
        };
        self.rest
            .set_value(set_timeout_with_handle(rested, REST).ok());
    }

    /// Changes the drag under way; what shows it is written only when it became another.
    fn change(self, change: impl FnOnce(&mut Drag)) -> Option<Drag> {
        let before = self.bench.drag.try_get_untracked().flatten()?;
        let mut drag = before;
        change(&mut drag);
        if drag.is_held() && !before.is_held() {
            self.choose(drag);
        }
        if drag != before {
            self.bench.drag.set(Some(drag));
        }
        Some(drag)
    }

    /// The point in the hand is the chosen one.
    fn choose(self, drag: Drag) {
        self.bench.held.set(None);
        self.bench.chosen.set(drag.index());
    }

    /// The dragging pointer moves, wherever it is. However many events come, the line follows once in each frame.
    pub(super) fn moved(self, event: &PointerEvent) {
        if event.buttons() == 0 {
            // It was released outside the page.
            return self.lost(event);
        }
        let Some(drag) = self.drag_of(event) else {
            return;
        };
        if !drag.is_dragging() && !self.begins(event) {
            return;
        }
        let is_waiting = self.coming.with_value(Option::is_some);
        self.coming.set_value(Some(in_window(event)));
        if !is_waiting {
            request_animation_frame(move || self.follow());
        }
    }

    /// Whether this move makes it a drag.
    fn begins(self, event: &PointerEvent) -> bool {
        let at = pointer_in_chart(event, self.chart);
        let drag = self.change(|drag| at.into_iter().for_each(|at| drag.moved(at)));
        drag.is_some_and(|drag| drag.is_dragging())
    }

    fn follow(self) {
        let coming = self.coming.try_update_value(Option::take).flatten();
        let at = coming.and_then(|at| in_chart(at, self.chart));
        let (Some(at), Some(drag)) = (at, self.bench.drag.get_untracked()) else {
            return;
        };
        let wish = self.scale.with_untracked(|scale| drag.wish(at, scale));
        if let Some(wish) = wish {
            let (snap, units) = (
                self.bench.snap.get_untracked(),
                self.bench.units.get_untracked(),
            );
            let guides = self.bench.guides.read_untracked();
            let pulled = snap.pull(wish, drag.from(), &guides, units);
            self.bench.try_move(drag.index(), pulled);
        }
    }

    /// The dragging pointer goes up: the change is finished. One that did nothing else has chosen its point.
    pub(super) fn up(self, event: &PointerEvent) {
        if self.drag_of(event).is_none() {
            return;
        }
        let at = pointer_in_chart(event, self.chart);
        let drag = self.change(|drag| at.into_iter().for_each(|at| drag.moved(at)));
        let Some(drag) = drag.filter(|drag| !drag.is_scrolling()) else {
            return self.abort();
        };
        if drag.is_dragging() {
            self.coming.set_value(Some(in_window(event)));
            self.follow();
        } else {
            self.choose(drag);
        }
        self.bench.drag.set(None);
        self.bench.settle();
    }

    /// A finger moves that went down on a handle: the page scrolls only where it does not hold that.
    pub(super) fn touched(self, event: &TouchEvent) {
        let is_held = self
            .bench
            .drag
            .with_untracked(|drag| drag.is_some_and(|drag| drag.is_held()));
        if is_held && event.cancelable() {
            event.prevent_default();
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
}

/// The handle keeps getting the pointer's events, wherever it goes.
fn hold(event: &PointerEvent) {
    if let Some(target) = event_target::element(event) {
        // Refused only for a pointer that is already gone; then its end follows at once.
        let _ = target.set_pointer_capture(event.pointer_id());
    }
}
