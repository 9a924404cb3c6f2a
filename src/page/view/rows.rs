//! Lists whose rows stay as long as their number does, so that a move writes only what changed (`tests/browser` counts it). Leptos
//! removes and sets every attribute again where an element comes out of a closure; so what changes in a row must be a closure of
//! its own.

use leptos::prelude::*;

/// A row for each place of a list.
#[component]
pub(super) fn Rows<Item, Row>(
    /// What is listed.
    #[prop(into)]
    of: Signal<Vec<Item>>,
    /// Makes the row of a place. What it is given follows what is listed there.
    row: fn(Memo<Item>) -> Row,
) -> impl IntoView
where
    Item: Clone + PartialEq + Send + Sync + 'static,
    Row: IntoView + 'static,
{
    // Once for all rows: a derived list would be made again by each of them.
    let of = Memo::new(move |_| of.get());
    let count = Memo::new(move |_| of.with(Vec::len));
    let make = move |place: usize| row(Memo::new(move |before| at(of, place, before)));
    view! { <For each=move || 0..count.get() key=|place| *place children=make /> }
}

/// The item at a place. A row that is about to be removed keeps what it had.
fn at<Item>(of: Memo<Vec<Item>>, place: usize, before: Option<&Item>) -> Item
where
    Item: Clone + Send + Sync + 'static,
{
    let listed = of.with(|list| list.get(place).cloned());
    listed
        .or_else(|| before.cloned())
        .expect("a row begins with something listed in its place")
}
