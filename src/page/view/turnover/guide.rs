//! Arrows on the handles of the drawing: the way to move each point for a gentler turnover, or for one with more energy. They follow
//! the settled line, the words beside them the hand.

use core::time::Duration;

use leptos::prelude::*;

use crate::design::Design;
use crate::edit::turnover::{MOST_POINTS, influences};
use crate::page::view::bench::Bench;
use crate::paper::chart::point_arrow::arrows;
use crate::paper::words::turnover as words;
use crate::turnover::{Cast, Surroundings, turn_over};

/// Arrows are calculated once the line has rested for this time: they take as long as some dozen casts.
const REST: Duration = Duration::from_millis(150);

/// Keeps arrows and words up to date as long as they are wanted.
pub(super) fn follow(bench: Bench, cast: RwSignal<Cast>) {
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    Effect::new(move |_| {
        let is_wanted = bench.wish.get().is_some();
        cast.track();
        let points = bench.settled.with(|design| design.draft().points.len());
        if let Some(waiting) = waiting.try_update_value(Option::take).flatten() {
            waiting.clear();
        }
        // Those of another drawing would stand on wrong handles.
        if !is_wanted || bench.arrows.with_untracked(Vec::len) != points {
            bench.arrows.set(Vec::new());
        }
        if is_wanted {
            let draw = move || draw_arrows(bench, cast);
            waiting.set_value(set_timeout_with_handle(draw, REST).ok());
        }
    });
    Effect::new(move |_| {
        let Some(wish) = bench.wish.get() else {
            return;
        };
        if bench.settled.with(|design| design.draft().points.len()) > MOST_POINTS {
            return bench.guide.set(words::TOO_MANY.to_owned());
        }
        let stated = cast.get();
        let share = bench.shown.with(|shown| {
            let line = shown.plan.fly_line()?;
            Some(turn_over(&line, &stated, &Surroundings::USUAL).energy_left())
        });
        bench.guide.set(
            share
                .map(|share| words::guide(wish, share))
                .unwrap_or_default(),
        );
    });
}

fn draw_arrows(bench: Bench, cast: RwSignal<Cast>) {
    let Some(wish) = bench.wish.get_untracked() else {
        return;
    };
    let stated = cast.get_untracked();
    let of = |design: &Design| influences(design, &stated, &Surroundings::USUAL);
    bench
        .arrows
        .set(arrows(&bench.settled.with_untracked(of), wish));
}
