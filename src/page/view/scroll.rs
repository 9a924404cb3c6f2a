//! Scrolling to a part of the page.

use web_sys::{Element, ScrollIntoViewOptions, ScrollLogicalPosition};

/// Scrolls no farther than until an element is in view.
pub(super) fn scroll_to_nearest(element: &Element) {
    let nearest = ScrollIntoViewOptions::new();
    nearest.set_block(ScrollLogicalPosition::Nearest);
    element.scroll_into_view_with_scroll_into_view_options(&nearest);
}
