//! The keyboard focus.

use leptos::prelude::{document, request_animation_frame};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event, HtmlElement};

use super::event_target;

/// What can take the focus where another control loses it. No fields: a tablet would open its keyboard.
const CONTROLS: &str = "button, a[href], summary";
/// So many controls after the one pressed are tried, and as many before it.
const TRIED: usize = 6;

/// The first element of a selector.
pub(crate) fn find(selector: &str) -> Option<HtmlElement> {
    let found = document().query_selector(selector).ok().flatten();
    found.and_then(|element| element.dyn_into().ok())
}

/// Moves the focus to an element.
pub(crate) fn focus(element: &HtmlElement) {
    // A browser that refuses leaves it where it was.
    let _ = element.focus();
}

/// Whether the part that can be folded, and has just been, is open.
pub(crate) fn is_unfolded(toggled: &Event) -> bool {
    let part = event_target::element(toggled);
    part.is_some_and(|part| part.has_attribute("open"))
}

/// Moves the focus to an element that may stand in folded parts: they are unfolded.
pub(crate) fn reveal(element: &HtmlElement) {
    let mut folded = closest_folded(element);
    while let Some(part) = folded {
        // Refused for a bad name only.
        let _ = part.set_attribute("open", "");
        folded = closest_folded(&part);
    }
    element.scroll_into_view();
    focus(element);
}

fn closest_folded(element: &Element) -> Option<Element> {
    element.closest("details:not([open])").ok().flatten()
}

/// Moves the focus to the first of these selectors that finds something.
pub(crate) fn focus_first<S: AsRef<str>>(selectors: &[S]) {
    if let Some(found) = selectors
        .iter()
        .find_map(|selector| find(selector.as_ref()))
    {
        focus(&found);
    }
}

/// From now on the focus does not fall to nothing where the control that was pressed goes away, or can be pressed no more: the next
/// one gets it, else one before it. Parts that know better where it belongs set it themselves.
pub(crate) fn keep_from_falling() {
    let listener = Closure::<dyn Fn(Event)>::new(|event: Event| {
        let pressed = event_target::element(&event)
            .and_then(|target| target.closest(CONTROLS).ok().flatten());
        let Some(pressed) = pressed else { return };
        let beside = beside(&pressed);
        // In the frame after the one in which those parts do so.
        request_animation_frame(move || {
            request_animation_frame(move || {
                let is_lost = is_out_of_use(&pressed) && is_nowhere();
                let next = beside.iter().find(|next| is_lost && !is_out_of_use(next));
                if let Some(next) = next {
                    focus(next);
                }
            });
        });
    });
    // Before anything that the press does. The document takes every listener.
    let function = listener.as_ref().unchecked_ref();
    let _ = document().add_event_listener_with_callback_and_bool("click", function, true);
    listener.forget();
}

/// The controls after one on the page, then those before it, the nearest first.
fn beside(pressed: &Element) -> Vec<HtmlElement> {
    let Ok(found) = document().query_selector_all(CONTROLS) else {
        return Vec::new();
    };
    let count = found.length();
    let is_it = |index: &u32| {
        let control = found.item(*index);
        control.is_some_and(|control| control.is_same_node(Some(pressed)))
    };
    let place = (0..count).find(is_it).unwrap_or(count);
    let after = (place + 1..count).take(TRIED);
    let before = (0..place).rev().take(TRIED);
    let control = |index| found.item(index)?.dyn_into().ok();
    after.chain(before).filter_map(control).collect()
}

/// Whether an element is gone, disabled, covered, or not shown.
fn is_out_of_use(element: &Element) -> bool {
    let is_off = element.matches(":disabled, [inert] *").unwrap_or(true);
    is_off || !element.is_connected() || element.get_client_rects().length() == 0
}

/// Whether no control has the focus that could do anything with it.
fn is_nowhere() -> bool {
    let active = document().active_element();
    active.is_none_or(|active| active.tag_name() == "BODY" || is_out_of_use(&active))
}
