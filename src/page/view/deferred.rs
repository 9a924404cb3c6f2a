//! What is not needed for the first touch, nor for every move. The drawing and its verdict stand first; whatever lies below
//! them, or over the page once it is called, is built after that, part by part, each in a task of its own, so that a hand on
//! the drawing never waits for all of it.
//!
//! A part out of sight is told of the plan only when a change is finished, and then in its turn too.

use core::time::Duration;
use std::collections::VecDeque;
use std::sync::Arc;

use leptos::context::Provider;
use leptos::html::Div;
use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::scroll::scroll_to;
use crate::page::browser::visibility;
use crate::plan::Plan;

/// A browser that draws nothing, as for a page out of sight, has this long until the rest is built all the same.
const PATIENCE: Duration = Duration::from_millis(200);

/// Attribute of the document while everything is built and nothing waits.
const WHOLE: &str = "data-whole";
/// Attribute of the document once everything was built: from then on the browser knows how much room each part takes, and may
/// leave out those that are not seen.
const BUILT: &str = "data-built";

/// Something that can wait.
type Task = Box<dyn FnOnce() + Send + Sync>;

/// What waits for its turn.
#[derive(Clone, Copy)]
pub(super) struct TaskQueue {
    waiting: StoredValue<VecDeque<Task>>,
    /// Whether somebody sees to what waits.
    is_running: StoredValue<bool>,
    /// The section that was asked for before it was there.
    wanted: StoredValue<Option<&'static str>>,
}

impl TaskQueue {
    /// Nothing waits. What comes is held back until [`Turns::begin`].
    pub(super) fn new() -> Self {
        Self {
            waiting: StoredValue::new(VecDeque::new()),
            is_running: StoredValue::new(true),
            wanted: StoredValue::new(None),
        }
    }

    /// Begins, once the browser has drawn what stands there by now.
    pub(super) fn begin(self) {
        let is_begun = StoredValue::new(false);
        let begin = move || {
            if !is_begun.get_value() {
                is_begun.set_value(true);
                self.go_on();
            }
        };
        request_animation_frame(move || set_timeout(begin, Duration::ZERO));
        set_timeout(begin, PATIENCE);
    }

    /// Does it in its turn.
    fn queue(self, task: impl FnOnce() + Send + Sync + 'static) {
        self.waiting
            .update_value(|waiting| waiting.push_back(Box::new(task)));
        if !self.is_running.get_value() {
            self.is_running.set_value(true);
            tell(false);
            set_timeout(move || self.go_on(), Duration::ZERO);
        }
    }

    /// Does what waits first, and leaves the browser to itself before the next.
    fn go_on(self) {
        self.seek();
        let next = self.waiting.try_update_value(VecDeque::pop_front).flatten();
        if let Some(task) = next {
            task();
            set_timeout(move || self.go_on(), Duration::ZERO);
            return;
        }
        self.is_running.set_value(false);
        tell(true);
    }

    /// Brings a section into view, now or as soon as it is there.
    pub(super) fn scroll_to(self, id: &'static str) {
        self.wanted.set_value(Some(id));
        self.seek();
    }

    fn seek(self) {
        if self.wanted.get_value().is_some_and(scroll_to) {
            self.wanted.set_value(None);
        }
    }
}

fn tell(is_whole: bool) {
    if let Some(root) = document().document_element() {
        // Refused by no browser: the name is a plain one.
        let _ = root.toggle_attribute_with_force(WHOLE, is_whole);
        if is_whole {
            let _ = root.set_attribute(BUILT, "");
        }
    }
}

/// Something built in its turn.
#[component]
pub(super) fn Deferred(children: ChildrenFn) -> impl IntoView {
    let is_due = RwSignal::new(false);
    expect_context::<TaskQueue>().queue(move || is_due.set(true));
    move || is_due.get().then(|| children())
}

/// A part of the reading column: built in its turn, and following a change in the making only while it is seen.
#[component]
pub(super) fn ColumnPart(children: ChildrenFn) -> impl IntoView {
    let holder = NodeRef::<Div>::new();
    // Where a browser cannot tell, everything counts as seen.
    let is_seen = RwSignal::new(true);
    Effect::new(move |_| {
        if let Some(holder) = holder.get() {
            visibility::watch(&holder, move |seen| is_seen.set(seen));
        }
    });
    let bench = bench_for_part(bench(), is_seen, expect_context());
    let children = StoredValue::new(children);
    view! {
        <div class="lower" node_ref=holder>
            <Deferred>
                <Provider value=bench>{children.with_value(|children| children())}</Provider>
            </Deferred>
        </div>
    }
}

/// The same bench; but as long as nobody looks, its plan is that of the last finished change, when its turn has come.
fn bench_for_part(bench: Bench, is_seen: RwSignal<bool>, tasks: TaskQueue) -> Bench {
    let rested = RwSignal::new(bench.settled_plan.get_untracked());
    let is_waiting = StoredValue::new(false);
    Effect::watch(
        move || bench.settled_plan.track(),
        move |(), _, _| {
            // Of several changes before its turn comes, the last one is shown, once.
            if !is_waiting.get_value() {
                is_waiting.set_value(true);
                tasks.queue(move || {
                    is_waiting.set_value(false);
                    rested.set(bench.settled_plan.get_untracked());
                });
            }
        },
        false,
    );
    let plan = move |_: Option<&Arc<Plan>>| {
        if is_seen.get() {
            bench.plan.get()
        } else {
            rested.get()
        }
    };
    let is_another = |before: Option<&Arc<Plan>>, now: Option<&Arc<Plan>>| match before.zip(now) {
        Some((before, now)) => !Arc::ptr_eq(before, now),
        None => true,
    };
    bench.seen_from(is_seen, Memo::new_with_compare(plan, is_another))
}
