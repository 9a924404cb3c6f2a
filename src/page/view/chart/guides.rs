//! The sizes points are drawn to, as lines across the profile.

use leptos::prelude::*;

use crate::page::view::bench::bench;
use crate::paper::chart::guides::guide_lines;
use crate::paper::chart::scale::{LEFT, Scale};

/// A line for every size, its mark at the right edge where there is room for it.
#[component]
pub(super) fn Guides(scale: Signal<Scale>) -> impl IntoView {
    let bench = bench();
    move || {
        let guides = bench.guides.read();
        scale.with(|scale| {
            let right = scale.right();
            let line = |line: crate::paper::chart::guides::GuideLine| {
                view! {
                    <line x1=LEFT x2=right y1=line.y y2=line.y />
                    <text x=right - 2.0 y=line.y - 2.0>{line.label}</text>
                }
            };
            let lines = guide_lines(&guides, scale);
            view! { <g class="guides" aria-hidden="true">{lines.into_iter().map(line).collect_view()}</g> }
        })
    }
}
