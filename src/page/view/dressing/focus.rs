//! Where the keyboard goes when the list of steps is drawn anew.

use leptos::prelude::*;

use crate::page::browser::focus::{find, focus_first};

/// Once the list is drawn anew: opens the step that was moved to this place, and leaves the keyboard on the button that moved
/// it; at the end of the list on the other one.
pub(super) fn follow(place: usize, action: &'static str) {
    request_animation_frame(move || {
        let Some(details) = find(&format!("{} > details", nth(place))) else {
            return;
        };
        // Only an element that is gone refuses.
        let _ = details.set_attribute("open", "");
        focus_first(&[
            format!("{} [data-action={action}]:enabled", nth(place)),
            format!("{} .step-buttons button:enabled", nth(place)),
        ]);
    });
}

/// Once a step is taken out: the keyboard goes on to the one in its place, or to the last.
pub(super) fn go_on(place: usize) {
    request_animation_frame(move || {
        focus_first(&[
            format!("{} summary", nth(place)),
            ".step:last-child summary".to_owned(),
            "[data-action=add-step]".to_owned(),
        ]);
    });
}

fn nth(place: usize) -> String {
    format!(".step:nth-child({})", place + 1)
}
