//! What areas of the chart are filled with: silk, shaded as round and with its braid hinted at, and the hatch of what is outside the
//! tolerance. One pattern has shade and braid, so that a silhouette is one path.

use leptos::prelude::*;

use crate::paper::chart::scale::Scale;

/// The ids of the patterns, as fills.
pub(super) const SILK: &str = "url(#silk)";
pub(super) const WEIGHED: &str = "url(#silk-weighed)";
pub(super) const OUTSIDE: &str = "url(#outside)";

/// Width and height of a diamond of the braid, in pixels.
const DIAMOND: (f64, f64) = (11.0, 13.0);

/// The patterns. They change only with the scale.
#[component]
pub(super) fn Paint(scale: Signal<Scale>) -> impl IntoView {
    let top = Memo::new(move |_| scale.with(|scale| scale.profile().top));
    let height = Memo::new(move |_| scale.with(|scale| scale.profile().height));
    let silk = move |id: &'static str| {
        let shade = format!("{id}-shade");
        let fill = format!("url(#{shade})");
        let stop = |class, offset| view! { <stop class=class offset=offset /> };
        view! {
            <linearGradient id=shade x1="0" x2="0" y1="0" y2="1">
                {stop("light", "0")}
                {stop("middle", "0.4")}
                {stop("dark", "1")}
            </linearGradient>
            <pattern id=id class=id patternUnits="userSpaceOnUse" x="0" y=top width=DIAMOND.0 height=height>
                <rect width=DIAMOND.0 height=height fill=fill />
                <path class="braid" d=move || diamonds(height.get()) />
            </pattern>
        }
    };
    view! {
        <defs class="paint">
            {silk("silk")}
            {silk("silk-weighed")}
            <pattern id="outside" patternUnits="userSpaceOnUse" width="7" height="7" patternTransform="rotate(45)">
                <path class="hatch" d="M0 0V7" />
            </pattern>
        </defs>
    }
}

/// One column of crossing threads, so high.
fn diamonds(height: f64) -> String {
    use core::fmt::Write as _;
    let mut path = String::new();
    let mut y = -DIAMOND.1;
    while y < height {
        // Writing to a string cannot fail.
        let _ = write!(
            path,
            "M0 {y}l{} {}M0 {}l{} -{}",
            DIAMOND.0,
            DIAMOND.1,
            y + DIAMOND.1,
            DIAMOND.0,
            DIAMOND.1
        );
        y += DIAMOND.1;
    }
    path
}
