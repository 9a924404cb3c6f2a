//! The picture kept with a swatch.

use leptos::prelude::*;

use super::open_book::OpenBook;
use crate::keep::book::swatch::Swatch;

/// The picture, and how to remove it; nothing where none is kept.
#[component]
pub(super) fn SwatchPicture(
    open_book: OpenBook,
    index: usize,
    swatch: Memo<Swatch>,
) -> impl IntoView {
    let picture = Memo::new(move |_| swatch.with(|swatch| swatch.picture.clone()));
    let words = move || {
        swatch.with(|swatch| match swatch.name.as_str() {
            "" => "Photo of the swatch".to_owned(),
            name => format!("Photo of {name}"),
        })
    };
    let remove = move |_| {
        open_book.press(|workshop| {
            if let Some(swatch) = workshop.swatches.get_mut(index) {
                swatch.picture = None;
            }
        });
    };
    let shown = move || {
        let picture = picture.get()?;
        Some(view! {
            <div class="swatch-picture">
                <img src=picture.address().to_owned() alt=words width=picture.width() height=picture.height() />
                <button data-action="swatch-picture-remove" on:click=remove>"Remove the picture"</button>
            </div>
        })
    };
    view! { {shown} }
}
