//! Bringing a part of the sheet into view.

use leptos::prelude::*;

use crate::page::browser::focus::{find, focus};

/// The step to do now.
pub(super) const STEP: &str = ".stand .step";
/// What follows from something that went otherwise.
pub(super) const PROPOSAL: &str = ".stand .proposal";

/// Scrolls to a part of the page, once it is drawn.
pub(super) fn scroll_to_part(selector: &'static str) {
    request_animation_frame(move || {
        if let Some(part) = find(selector) {
            part.scroll_into_view();
        }
    });
}

/// The same, and focuses it, unless the focus has moved elsewhere meanwhile.
pub(super) fn focus_part(selector: &'static str) {
    let before = document().active_element();
    request_animation_frame(move || {
        let Some(part) = find(selector) else {
            return;
        };
        let now = document().active_element();
        let is_nowhere = now.as_ref().is_none_or(|now| now.tag_name() == "BODY");
        if is_nowhere || now == before {
            part.scroll_into_view();
            focus(&part);
        }
    });
}
