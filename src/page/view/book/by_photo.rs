//! A swatch measured from a photo: what the plan says of it, and what is written down.

use std::sync::Arc;

use leptos::prelude::*;

use super::open_book::{OpenBook, open_book};
use crate::base::units::Length;
use crate::keep::book::swatch::{Swatch, SwatchField};
use crate::page::view::bench::{Bench, bench};
use crate::page::view::photo::{PhotoButton, PhotoTask, Taken};
use crate::paper::words::photo::PhotoAim;
use crate::photo::KnownDiameter;

/// The button that opens the sheet for a swatch.
#[component]
pub(super) fn SwatchByPhoto(index: usize, swatch: Memo<Swatch>) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let task = move || Some(task(bench, open_book, index, &swatch.get_untracked()));
    view! { <PhotoButton aim=PhotoAim::Swatch task /> }
}

fn task(bench: Bench, open_book: OpenBook, index: usize, swatch: &Swatch) -> PhotoTask {
    let (belly, angle, diameter) = bench.settled.with_untracked(|design| {
        bench.settled_plan.with_untracked(|plan| {
            let braid = plan.belly.braid;
            let belly = Swatch::of_belly(design, plan);
            (belly, braid.angle, braid.diameter)
        })
    });
    let loaded = bench.settled.with_untracked(|design| {
        let load = swatch.load(design.thread().ends)?;
        Some((design.braiding(), load))
    });
    // Of other threads or gears the plan of the belly says nothing.
    let is_of_belly = SwatchField::SETUP
        .iter()
        .all(|field| swatch.get(*field) == belly.get(*field));
    let measured = swatch
        .get(SwatchField::Diameter)
        .map(Length::from_millimetres);
    let planned = is_of_belly.then_some(KnownDiameter::Planned(diameter));
    let name = swatch.name.clone();
    let take = move |taken: Taken| {
        // Another tab may have deleted it meanwhile, and others have its place then.
        let is_there = open_book.workshop.with_untracked(|workshop| {
            let swatch = workshop.swatches.get(index);
            swatch.is_some_and(|swatch| swatch.name == name)
        });
        let called = if name.trim().is_empty() {
            "This swatch"
        } else {
            &name
        };
        if !is_there {
            return Err(format!("{called} is no longer in the bench book."));
        }
        let said = taken.written(PhotoAim::Swatch, called);
        open_book.change_swatch(index, |swatch| {
            swatch.take_photo(taken.angle, taken.crossings, taken.picture);
        })?;
        Ok(said)
    };
    PhotoTask {
        aim: PhotoAim::Swatch,
        planned: is_of_belly.then_some(angle),
        loaded,
        diameter: measured.map(KnownDiameter::Measured).or(planned),
        take: Arc::new(take),
    }
}
