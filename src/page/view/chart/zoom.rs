//! Zooming: by wheel, by two fingers, by buttons. The wheel over the chart zooms, and scrolls the page once the whole line is
//! shown. One finger on the chart scrolls the page as everywhere; only two fingers that are both beside the handles zoom.
//!
//! Only lengths are enlarged; thickness keeps its scale, so that a slope is never judged by two scales at once. All lengths here are
//! lengths of paper: a level part drawn short stays so however closely it is looked at, or the paper would spring under two fingers.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Touch, TouchEvent, WheelEvent};

use super::pointer::ChartRef;
use crate::base::units::Length;
use crate::page::view::bench::Bench;
use crate::paper::chart::scale::Scale;
use crate::paper::chart::visible_range::VisibleRange;

/// How much closer one pixel of a wheel looks: four notches of 120 make three times.
const PER_PIXEL: f64 = 0.0023;
/// Pixels in a line, for wheels that count in lines.
const PIXELS_PER_LINE: f64 = 16.0;

/// What the chart's zoom works on.
#[derive(Clone, Copy)]
pub(super) struct Zoom {
    pub(super) chart: ChartRef,
    pub(super) bench: Bench,
    pub(super) scale: Signal<Scale>,
    /// What two fingers have taken hold of.
    pub(super) pinch: StoredValue<Option<Pinch>>,
}

/// Two fingers on the chart.
#[derive(Clone, Copy)]
pub(super) struct Pinch {
    /// The paper between them when they came down.
    about: Length,
    /// How far they were apart then, in pixels.
    apart: f64,
    /// What was shown then.
    sight: VisibleRange,
}

impl Zoom {
    /// The wheel over the chart. Once the whole line is shown, it scrolls the page.
    pub(super) fn wheel(self, event: &WheelEvent) {
        if self.bench.drag.with_untracked(Option::is_some) {
            return event.prevent_default();
        }
        let unit = if event.delta_mode() == WheelEvent::DOM_DELTA_LINE {
            PIXELS_PER_LINE
        } else {
            1.0
        };
        let (along, closer) = (event.delta_x() * unit, -event.delta_y() * unit);
        let is_whole = self.bench.sight.with_untracked(Option::is_none);
        let scale = self.scale.get_untracked();
        if along.abs() > closer.abs() || event.shift_key() {
            if !is_whole {
                event.prevent_default();
                let by = if event.shift_key() { -closer } else { along };
                self.look(
                    scale
                        .visible()
                        .moved(scale.length * (by / scale.band_width()), self.line()),
                );
            }
        } else if closer > 0.0 || !is_whole {
            event.prevent_default();
            let about = self.paper_at(f64::from(event.client_x()));
            let times = (closer * PER_PIXEL).exp();
            self.look(scale.visible().zoomed(times, about, self.line()));
        }
    }

    /// A finger more on the chart: two of them begin to pinch it.
    pub(super) fn touched(self, event: &TouchEvent) {
        let pinch = two_beside_handles(event).map(|(a, b)| {
            event.prevent_default();
            Pinch {
                about: self.paper_at(f64::midpoint(a.0, b.0)),
                apart: distance(a, b),
                sight: self.scale.with_untracked(Scale::visible),
            }
        });
        self.pinch.set_value(pinch);
    }

    /// They move: what is between them stays between them.
    pub(super) fn pinched(self, event: &TouchEvent) {
        let Some((pinch, (a, b))) = self.pinch.get_value().zip(two_beside_handles(event)) else {
            return;
        };
        event.prevent_default();
        let times = distance(a, b) / pinch.apart.max(1.0);
        let zoomed = pinch.sight.zoomed(times, pinch.about, self.line());
        let share = self.share_at(f64::midpoint(a.0, b.0));
        let slipped = pinch.about - (zoomed.from + zoomed.length * share);
        self.look(zoomed.moved(slipped, self.line()));
    }

    /// One of them is gone.
    pub(super) fn released(self) {
        self.pinch.set_value(None);
    }

    /// Shows a part of the line, or all of it where that is all.
    fn look(self, sight: VisibleRange) {
        look(self.bench, self.scale, sight);
    }

    fn line(self) -> Length {
        line(self.bench, self.scale)
    }

    /// The paper below a place of the window, in CSS pixels from its left.
    fn paper_at(self, client_x: f64) -> Length {
        let left = self
            .chart
            .get_untracked()
            .map_or(0.0, |chart| chart.get_bounding_client_rect().left());
        self.scale
            .with_untracked(|scale| scale.paper_at(client_x - left))
    }

    /// The same, as a share of what is shown.
    fn share_at(self, client_x: f64) -> f64 {
        let sight = self.scale.with_untracked(Scale::visible);
        (self.paper_at(client_x) - sight.from) / sight.length
    }
}

/// The paper that the whole line takes.
pub(super) fn line(bench: Bench, scale: Signal<Scale>) -> Length {
    let length = bench.settled_plan.with_untracked(|plan| plan.length);
    scale.with_untracked(|scale| scale.paper_of(length))
}

/// Shows a part of the paper; all of it where that is the whole line.
pub(super) fn look(bench: Bench, scale: Signal<Scale>, sight: VisibleRange) {
    // While a hand holds a point the paper stays still.
    if bench.drag.with_untracked(Option::is_some) {
        return;
    }
    let is_whole = sight.is_whole(line(bench, scale));
    bench.sight.set((!is_whole).then_some(sight));
}

/// Both fingers, when there are two and neither is on a handle: that one would drag.
fn two_beside_handles(event: &TouchEvent) -> Option<((f64, f64), (f64, f64))> {
    let touches = event.touches();
    let spot = |touch: Touch| {
        let target = touch.target()?.dyn_into::<Element>().ok()?;
        let is_handle = target.closest(".handle").ok().flatten().is_some();
        let is_on_chart = target.closest(".chart").ok().flatten().is_some();
        (is_on_chart && !is_handle)
            .then(|| (f64::from(touch.client_x()), f64::from(touch.client_y())))
    };
    if touches.length() != 2 {
        return None;
    }
    Some((spot(touches.get(0)?)?, spot(touches.get(1)?)?))
}

fn distance(a: (f64, f64), b: (f64, f64)) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}
