//! Scrolling to a part of the page.

use leptos::prelude::*;
use web_sys::{Element, ScrollIntoViewOptions, ScrollLogicalPosition};

/// Brings a section into view; whether it is there. Not by a link: the fragment of the address belongs to shared designs.
pub(super) fn scroll_to(id: &str) -> bool {
    let section = document().get_element_by_id(id);
    if let Some(section) = &section {
        section.scroll_into_view();
    }
    section.is_some()
}

/// Scrolls no farther than until an element is in view.
pub(super) fn scroll_to_nearest(element: &Element) {
    let nearest = ScrollIntoViewOptions::new();
    nearest.set_block(ScrollLogicalPosition::Nearest);
    element.scroll_into_view_with_scroll_into_view_options(&nearest);
}
