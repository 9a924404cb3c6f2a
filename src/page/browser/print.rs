//! Printing the place shown, where otherwise the card would be printed.

use leptos::prelude::{document, window};

/// Attribute of the document while the place is printed.
const PLACE: &str = "data-prints-place";

/// Prints the place shown; whether the browser does. Call [`place_printed`] after it.
pub(crate) fn print_place() -> bool {
    mark(true);
    window().print().is_ok()
}

/// The place is printed: from now on it is the card's turn again.
pub(crate) fn place_printed() {
    mark(false);
}

fn mark(is_on: bool) {
    if let Some(root) = document().document_element() {
        // Refused by no browser: the name is a plain one.
        let _ = root.toggle_attribute_with_force(PLACE, is_on);
    }
}
