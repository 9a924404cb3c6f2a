//! What a braid is measured for, and what becomes of the numbers.

use std::sync::Arc;

use leptos::prelude::*;

use crate::base::units::Angle;
use crate::braid::geometry::{Braiding, Load};
use crate::keep::book::SmallPicture;
use crate::keep::book::swatch::Swatch;
use crate::page::view::bench::Bench;
use crate::page::view::book::OpenBook;
use crate::paper::words::photo::{PhotoAim, written};
use crate::photo::{Estimate, KnownDiameter};
use crate::plan::run::at_path;

/// What was measured from a photo.
#[derive(Clone, Debug)]
pub(crate) struct Taken {
    /// Braid angle at the path of the threads, radians.
    pub(crate) angle: Estimate,
    /// Crossings along a rib, per metre; nothing without a scale.
    pub(crate) crossings: Option<Estimate>,
    /// Threads in the braid, as stated or as counted.
    pub(crate) threads: u32,
    /// A small picture to save with them, where the maker wants one.
    pub(crate) picture: Option<SmallPicture>,
}

impl Taken {
    /// What was written down of it, into what has this name.
    pub(crate) fn written(&self, aim: PhotoAim, name: &str) -> String {
        written(aim, name, self.crossings.is_some(), self.picture.is_some())
    }
}

/// Writes down what was measured, and says what it wrote; or why it did not.
type Take = Arc<dyn Fn(Taken) -> Result<String, String> + Send + Sync>;

/// What a braid is measured for.
#[derive(Clone)]
pub(crate) struct PhotoTask {
    /// For what.
    pub(crate) aim: PhotoAim,
    /// The angle that is planned where the braid is from.
    pub(crate) planned: Option<Angle>,
    /// What was on the machine there, as far as it is known.
    pub(crate) loaded: Option<(Braiding, Load)>,
    /// Its diameter before it is dressed.
    pub(crate) diameter: Option<KnownDiameter>,
    /// What becomes of it.
    pub(crate) take: Take,
}

impl PhotoTask {
    /// Threads in the braid, where it is known which braid it is.
    pub(super) fn threads(&self) -> Option<u32> {
        let is_known = self.aim != PhotoAim::Line;
        self.loaded
            .filter(|_| is_known)
            .map(|(_, load)| load.threads)
    }

    /// The angle in the middle of the wall, which plan and book speak of, of one on the surface of so many threads.
    pub(super) fn in_wall(&self, surface: Estimate, threads: u32) -> Estimate {
        let (surface, threads) = (surface, threads.max(1));
        self.loaded.map_or(surface, |(braiding, load)| {
            at_path(&braiding, load.of_threads(threads), surface)
        })
    }

    /// The angle to show, and the planned one to compare it with. Which braid a picture shows that belongs to nothing is not known:
    /// then both are those on the surface, and a braid of another count of threads is compared with nothing.
    pub(super) fn shown(&self, surface: Estimate, threads: u32) -> (Estimate, Option<Angle>) {
        match (self.aim, self.loaded) {
            (PhotoAim::Line, Some((braiding, load))) => {
                let on_surface = |angle| braiding.at_angle(load, angle).surface_angle();
                let planned = self.planned.filter(|_| load.threads == threads);
                (surface, planned.map(on_surface))
            }
            _ => (self.in_wall(surface, threads), self.planned),
        }
    }

    /// For itself: it is compared with the belly of the open line, and can be written down as a swatch of that.
    pub(super) fn of_line(bench: Bench, open_book: OpenBook) -> Self {
        let belly = bench
            .settled_plan
            .with_untracked(|plan| (plan.belly.braid.angle, plan.belly.braid.diameter));
        let loaded = bench.settled.with_untracked(|design| {
            bench
                .settled_plan
                .with_untracked(|plan| (design.braiding(), plan.belly.piece.load))
        });
        let take = move |taken: Taken| {
            let mut name = String::new();
            let said = taken.clone();
            let swatch = bench.settled.with_untracked(|design| {
                bench
                    .settled_plan
                    .with_untracked(|plan| Swatch::of_belly(design, plan))
            });
            open_book.change(|workshop| {
                name = format!("Swatch {}", workshop.swatches.len() + 1);
                let mut swatch = if swatch.threads == Some(f64::from(taken.threads)) {
                    Swatch {
                        tension: workshop.machine_notes.tension.clone(),
                        ..swatch
                    }
                } else {
                    // It is not the belly of this line: of its set-up nothing is known but the threads.
                    Swatch {
                        threads: Some(f64::from(taken.threads)),
                        ..Swatch::default()
                    }
                };
                swatch.name.clone_from(&name);
                swatch.take_photo(taken.angle, taken.crossings, taken.picture);
                workshop.swatches.push(swatch);
            })?;
            Ok(said.written(PhotoAim::Line, &name))
        };
        Self {
            aim: PhotoAim::Line,
            planned: Some(belly.0),
            loaded: Some(loaded),
            diameter: Some(KnownDiameter::Planned(belly.1)),
            take: Arc::new(take),
        }
    }
}
