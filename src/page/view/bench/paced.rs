//! What the figures beside the chart show. They follow a drag ten times a second: digits that change with every picture cannot be
//! read, and laying them out would cost more than the line itself. Chart, class, weight and the chosen point follow at once; when
//! nothing is dragged, all of it does.

use core::time::Duration;

use leptos::prelude::*;

use super::state::{Bench, Shown};

/// How long figures stand while a hand drags. Our own choice.
const PACE: Duration = Duration::from_millis(100);

/// Whether figures stand for a moment, and whether the line has changed since.
#[derive(Clone, Copy, Default)]
struct Pace {
    is_standing: bool,
    is_stale: bool,
}

/// Has the figures follow the line on the bench.
pub(crate) fn follow(bench: Bench) {
    let pace = StoredValue::new(Pace::default());
    let is_dragging = Memo::new(move |_| bench.drag.with(Option::is_some));
    // Not at once: the bench opens with the figures of its line.
    Effect::watch(
        move || {
            bench.design.track();
            bench.plan.track();
            is_dragging.get()
        },
        move |&is_dragging, _, _| {
            if is_dragging {
                show_in_turn(bench, pace);
            } else {
                pace.update_value(|pace| pace.is_stale = false);
                show(bench);
            }
        },
        false,
    );
}

fn show_in_turn(bench: Bench, pace: StoredValue<Pace>) {
    if pace.with_value(|pace| pace.is_standing) {
        pace.update_value(|pace| pace.is_stale = true);
        return;
    }
    show(bench);
    pace.set_value(Pace {
        is_standing: true,
        is_stale: false,
    });
    let end = move || {
        let before = pace.try_update_value(core::mem::take);
        if before.is_some_and(|before| before.is_stale) {
            show_in_turn(bench, pace);
        }
    };
    set_timeout(end, PACE);
}

fn show(bench: Bench) {
    let design = bench.design.try_get_untracked();
    let plan = bench.plan.try_get_untracked();
    if let Some((design, plan)) = design.zip(plan) {
        bench.shown.try_set(Shown { design, plan });
    }
}
