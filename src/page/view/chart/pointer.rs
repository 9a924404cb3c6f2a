//! The chart's own element, and where a pointer is on it.

use leptos::prelude::*;
use web_sys::MouseEvent;

use crate::paper::chart::grip::ChartPoint;

/// The chart's SVG element.
pub(super) type ChartRef = NodeRef<leptos::svg::Svg>;

/// Where a pointer is, in pixels of the window.
pub(super) type WindowPoint = (f64, f64);

/// Where a pointer is in the window.
pub(super) fn in_window(event: &MouseEvent) -> WindowPoint {
    (f64::from(event.client_x()), f64::from(event.client_y()))
}

/// The same in the chart's own pixels; it may be beyond its edges. Asking where the chart is makes the browser lay out what was
/// changed since.
pub(super) fn in_chart((x, y): WindowPoint, chart: ChartRef) -> Option<ChartPoint> {
    let bounds = chart.get_untracked()?.get_bounding_client_rect();
    Some((x - bounds.left(), y - bounds.top()))
}

/// Where a pointer is, in the chart's own pixels.
pub(super) fn pointer_in_chart(event: &MouseEvent, chart: ChartRef) -> Option<ChartPoint> {
    in_chart(in_window(event), chart)
}
