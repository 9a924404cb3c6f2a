//! Scrolling to a section of the page.

use leptos::prelude::*;

/// Brings a section into view; whether it is there. Not by a link: the fragment of the address belongs to shared designs.
pub(super) fn scroll_to(id: &str) -> bool {
    let section = document().get_element_by_id(id);
    if let Some(section) = &section {
        section.scroll_into_view();
    }
    section.is_some()
}
