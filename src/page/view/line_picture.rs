//! A small picture of a line from the side, in a list of lines.

use leptos::prelude::*;

use crate::braid::taper::Taper;
use crate::paper::chart::outline::Frame;

/// Its size in units of its own. The page stretches it to the width there is, not in height.
const SIZE: (f64, f64) = (320.0, 26.0);

/// The scale that all these lines fit in.
pub(super) fn frame(tapers: &[Taper]) -> Frame {
    Frame::around(tapers, SIZE)
}

/// The picture of an outline. The words beside it say all that it shows.
pub(super) fn line_picture(path: String) -> impl IntoView {
    let (width, height) = SIZE;
    view! {
        <svg viewBox=format!("0 0 {width} {height}") preserveAspectRatio="none" aria-hidden="true">
            <path d=path />
        </svg>
    }
}
