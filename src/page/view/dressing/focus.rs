//! Where the focus goes when the list of steps is redrawn.

use leptos::prelude::*;

use crate::page::browser::focus::focus_first;

/// Once the list is redrawn: focuses the button that moved the step to this place; at the end of the list the other one.
pub(super) fn follow(place: usize, action: &'static str) {
    request_animation_frame(move || {
        focus_first(&[
            format!("{} [data-action={action}]:enabled", nth(place)),
            format!("{} .step-buttons button:enabled", nth(place)),
        ]);
    });
}

/// Once a step is removed: focuses the one in its place, or the last.
pub(super) fn go_on(place: usize) {
    request_animation_frame(move || {
        focus_first(&[
            format!("{} summary", nth(place)),
            ".dress-step:last-child summary".to_owned(),
            "[data-action=add-step]".to_owned(),
        ]);
    });
}

fn nth(place: usize) -> String {
    format!(".dress-step:nth-child({})", place + 1)
}
