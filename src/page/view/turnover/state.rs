//! The stated cast, kept for the next visit, and the two lines in it.

use std::sync::Arc;

use leptos::prelude::*;

use super::guide::follow;
use crate::base::rule::Misfit;
use crate::design::Design;
use crate::edit::Edit;
use crate::edit::turnover::{Reshaped, Wish, reshape};
use crate::page::browser::storage::preference;
use crate::page::view::bench::{Bench, Ghost};
use crate::paper::words::turnover as words;
use crate::plan::original_fly_line;
use crate::turnover::{Cast, CastNumber, FlyLine, Surroundings, Turnover, turn_over};

/// Key under which the cast is kept.
const CAST_KEY: &str = "taperwright/cast";

/// The stated cast.
#[derive(Clone, Copy)]
pub(crate) struct CastState {
    bench: Bench,
    /// The cast.
    pub(super) cast: RwSignal<Cast>,
    /// What is wanted of another shape.
    pub(super) wish: RwSignal<Wish>,
    /// The shape that is offered, or why there is none. It stays while the sheet is closed, so that the maker can look at the drawing.
    pub(super) offer: RwSignal<Option<Offer>>,
}

/// A shape that was found, or why there is none, with what it was sought for.
#[derive(Clone, PartialEq)]
pub(super) struct Offer {
    /// The line as it was.
    pub(super) of: Design,
    /// The cast.
    pub(super) cast: Cast,
    /// What was wanted.
    pub(super) wish: Wish,
    /// What was found.
    pub(super) outcome: Result<Reshaped, String>,
    /// What the maker compared with before.
    before: Option<Ghost>,
}

impl Offer {
    /// Whether a line is the shape that is offered.
    fn is_ghost(&self, ghost: Option<&Ghost>) -> bool {
        let offered = self.outcome.as_ref().ok();
        offered.is_some_and(|offered| ghost.is_some_and(|ghost| ghost.design == offered.design))
    }
}

/// The cast of this page.
pub(super) fn cast_state() -> CastState {
    expect_context()
}

/// Both lines in the cast.
#[derive(Clone, Copy)]
pub(super) struct Casts {
    own: Memo<Option<Arc<Turnover>>>,
    other: Memo<Option<(String, Arc<Turnover>)>>,
    /// What the other line is called; `None` where there is none.
    pub(super) title: Memo<Option<String>>,
}

impl CastState {
    /// The cast of the visit before, or the usual one.
    pub(crate) fn open(bench: Bench) -> Self {
        let kept = preference(CAST_KEY).and_then(|text| Cast::read(&text));
        let state = Self {
            bench,
            cast: RwSignal::new(kept.unwrap_or_default()),
            wish: RwSignal::new(Wish::Gentler),
            offer: RwSignal::new(None),
        };
        follow(bench, state.cast);
        // What was found is about the line and the cast as they were.
        Effect::watch(
            move || (bench.settled.get(), state.cast.get()),
            move |(design, cast), _, _| {
                let is_stale = |offer: &Offer| offer.of != *design || offer.cast != *cast;
                if state
                    .offer
                    .with_untracked(|offer| offer.as_ref().is_some_and(is_stale))
                {
                    state.put_offer_away();
                }
            },
            false,
        );
        state
    }

    /// Looks for a shape, and offers it as the line to compare with.
    pub(super) fn search(self, wish: Wish) {
        self.put_offer_away();
        let (of, cast) = (
            self.bench.settled.get_untracked(),
            self.cast.get_untracked(),
        );
        let outcome = reshape(&of, wish, &cast, &Surroundings::USUAL);
        let before = self.bench.ghost.get_untracked();
        if let Ok(shape) = &outcome {
            let ghost = Ghost {
                title: words::offered(wish).to_owned(),
                ..Ghost::of(shape.design.clone(), None)
            };
            self.bench.ghost.set(Some(ghost));
        }
        self.offer.set(Some(Offer {
            of,
            cast,
            wish,
            outcome: outcome.map_err(|why| why.to_string()),
            before,
        }));
    }

    /// Takes the offer back, and compares with what was compared with before.
    pub(super) fn put_offer_away(self) {
        let Some(offer) = self.offer.get_untracked() else {
            return;
        };
        if self
            .bench
            .ghost
            .with_untracked(|ghost| offer.is_ghost(ghost.as_ref()))
        {
            self.bench.ghost.set(offer.before);
        }
        self.offer.set(None);
    }

    /// Takes the shape that is offered. The line before is compared with it, unless the maker compares with another.
    pub(super) fn use_offer(self) {
        let shape = self
            .offer
            .get_untracked()
            .and_then(|offer| offer.outcome.ok());
        self.put_offer_away();
        if let Some(shape) = shape {
            let points = shape.design.draft().points.clone();
            self.bench.commit_and_compare(Edit::Points(points));
        }
    }

    /// Sets a number of the cast, now and for the next visit.
    pub(super) fn set(self, number: CastNumber, value: f64) -> Result<(), Misfit> {
        self.keep(self.cast.get_untracked().with(number, value)?);
        Ok(())
    }

    /// Goes back to the usual cast.
    pub(super) fn reset(self) {
        self.keep(Cast::default());
    }

    fn keep(self, cast: Cast) {
        self.cast.set(cast);
        self.bench.keep_preference(CAST_KEY, &cast.write());
    }

    /// Both lines in the cast, as long as somebody looks.
    pub(super) fn casts(self) -> Casts {
        let bench = self.bench;
        let cast_of = move |line: Option<FlyLine>| {
            let line = line?;
            Some(Arc::new(turn_over(
                &line,
                &self.cast.get(),
                &Surroundings::USUAL,
            )))
        };
        let own = Memo::new(move |_| cast_of(bench.shown.with(|shown| shown.plan.fly_line())));
        let other = Memo::new(move |_| {
            let ghost = bench.ghost.with(|ghost| {
                let ghost = ghost.as_ref()?;
                Some((ghost.title.clone(), ghost.plan.fly_line()))
            });
            let (title, line) = ghost.or_else(|| {
                bench.settled.with(|design| {
                    let title = design.original()?.0.title().to_owned();
                    Some((title, original_fly_line(design)))
                })
            })?;
            Some((title, cast_of(line)?))
        });
        let title = Memo::new(move |_| other.with(|other| Some(other.as_ref()?.0.clone())));
        Casts { own, other, title }
    }
}

impl Casts {
    /// Something about one's own cast; the default without one.
    pub(super) fn of_own<T: Default>(self, say: impl FnOnce(&Turnover) -> T) -> T {
        self.own
            .with(|own| own.as_ref().map(|own| say(own)).unwrap_or_default())
    }

    /// Something about both casts; `None` where there is one only.
    pub(super) fn of_both<T>(self, say: impl FnOnce(&Turnover, &Turnover) -> T) -> Option<T> {
        self.own.with(|own| {
            self.other
                .with(|other| Some(say(own.as_ref()?, &other.as_ref()?.1)))
        })
    }

    /// Something about one's own cast and the other where there is one.
    pub(super) fn of_any<T>(
        self,
        say: impl FnOnce(&Turnover, Option<&Turnover>) -> T,
    ) -> Option<T> {
        self.own.with(|own| {
            let own = own.as_ref()?;
            Some(
                self.other
                    .with(|other| say(own, other.as_ref().map(|other| &*other.1))),
            )
        })
    }

    /// How long the longer of both takes, seconds.
    pub(super) fn longest(self) -> f64 {
        self.of_any(|own, other| {
            let other = other.map_or(0.0, |other| other.end().seconds);
            own.end().seconds.max(other)
        })
        .unwrap_or_default()
    }
}
