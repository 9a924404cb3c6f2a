//! The bar of the six places: at the foot of a screen held upright, at the left side of a wide one.

use leptos::prelude::*;

use super::icon::{Glyph, Icon};
use super::places::places;
use crate::base::choice::Choice as _;
use crate::page::places::Place;

/// The bar.
#[component]
pub(crate) fn PlaceBar() -> impl IntoView {
    let places = places();
    let button = move |&place: &Place| {
        let is_here = move || places.now() == place;
        view! {
            <li>
                <button
                    data-action="place"
                    data-place=place.key()
                    aria-current=move || is_here().then_some("page")
                    on:click=move |_| places.go(place)
                >
                    <Glyph icon=Icon::of(place) />
                    <span>{place.name()}</span>
                </button>
            </li>
        }
    };
    view! {
        <nav class="place-bar" aria-label="Places">
            <ul>{Place::ALL.iter().map(button).collect_view()}</ul>
        </nav>
    }
}
