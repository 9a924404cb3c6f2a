//! The chart's own element, and where a pointer is on it.

use leptos::prelude::*;
use web_sys::MouseEvent;

/// The chart's SVG element.
pub(super) type ChartRef = NodeRef<leptos::svg::Svg>;

/// Where a pointer is, in the chart's own pixels; it may be beyond its edges.
pub(super) fn pointer_in_chart(event: &MouseEvent, chart: ChartRef) -> Option<(f64, f64)> {
    let bounds = chart.get_untracked()?.get_bounding_client_rect();
    Some((
        f64::from(event.client_x()) - bounds.left(),
        f64::from(event.client_y()) - bounds.top(),
    ))
}
