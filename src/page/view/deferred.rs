//! Parts of the page that are built later and updated less often, so that the chart can be touched first.
//!
//! The drawing, the verdict and the buttons are built at once. Each other part is built in a task of its own after the first
//! picture ([`Deferred`]), overlays last, so that a hand on the drawing never waits for all of it. The attribute `data-whole` of
//! the document says that nothing waits; tests wait for it.
//!
//! What is not seen does not follow every move: a [`ColumnPart`] has a [`Bench`] of its own, whose `plan` and `drawn` are those of
//! the last finished change while the part is out of view. It gets that one in its turn, and of several at once only the last.
//! So a component reads `bench.plan` and `bench.drawn(…)`; `bench.design` is for what acts. The browser leaves such parts out of
//! layout and painting too (`content-visibility`).

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

/// Where the browser draws nothing, as for a hidden page, the rest is built after this time all the same.
const PATIENCE: Duration = Duration::from_millis(200);

/// Attribute of the document while everything is built and nothing waits.
const WHOLE: &str = "data-whole";
/// Attribute of the document once everything has been built: from then on the browser knows how much room each part takes, and
/// may leave out those that are not seen.
const BUILT: &str = "data-built";

/// A task that can wait.
type Task = Box<dyn FnOnce() + Send + Sync>;

/// The tasks that wait.
#[derive(Clone, Copy)]
pub(super) struct TaskQueue {
    waiting: StoredValue<VecDeque<Task>>,
    /// Whether they are being worked off.
    is_running: StoredValue<bool>,
    /// The section to scroll to that is not built yet.
    wanted: StoredValue<Option<&'static str>>,
}

impl TaskQueue {
    /// An empty queue. Tasks wait until [`TaskQueue::begin`].
    pub(super) fn new() -> Self {
        Self {
            waiting: StoredValue::new(VecDeque::new()),
            is_running: StoredValue::new(true),
            wanted: StoredValue::new(None),
        }
    }

    /// Begins, once the browser has drawn what is built by now.
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

    /// Adds a task.
    fn queue(self, task: impl FnOnce() + Send + Sync + 'static) {
        self.waiting
            .update_value(|waiting| waiting.push_back(Box::new(task)));
        if !self.is_running.get_value() {
            self.is_running.set_value(true);
            set_complete(false);
            set_timeout(move || self.go_on(), Duration::ZERO);
        }
    }

    /// Runs the first task, and gives the browser time before the next.
    fn go_on(self) {
        self.seek();
        let next = self.waiting.try_update_value(VecDeque::pop_front).flatten();
        if let Some(task) = next {
            task();
            set_timeout(move || self.go_on(), Duration::ZERO);
            return;
        }
        self.is_running.set_value(false);
        set_complete(true);
    }

    /// Scrolls to a section, now or as soon as it is built.
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

fn set_complete(is_complete: bool) {
    if let Some(root) = document().document_element() {
        // Refused by no browser: the name is a plain one.
        let _ = root.toggle_attribute_with_force(WHOLE, is_complete);
        if is_complete {
            let _ = root.set_attribute(BUILT, "");
        }
    }
}

/// A part that is built in its turn.
#[component]
pub(super) fn Deferred(children: ChildrenFn) -> impl IntoView {
    let is_due = RwSignal::new(false);
    expect_context::<TaskQueue>().queue(move || is_due.set(true));
    move || is_due.get().then(|| children())
}

/// A part of the reading column: built in its turn, and following an unfinished change only while it is seen.
#[component]
pub(super) fn ColumnPart(children: ChildrenFn) -> impl IntoView {
    let holder = NodeRef::<Div>::new();
    // Without the observer everything counts as seen.
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

/// The bench of a part: out of view its plan is that of the last finished change, once its turn has come.
fn bench_for_part(bench: Bench, is_seen: RwSignal<bool>, tasks: TaskQueue) -> Bench {
    let settled = RwSignal::new(bench.settled_plan.get_untracked());
    let is_waiting = StoredValue::new(false);
    Effect::watch(
        move || bench.settled_plan.track(),
        move |(), _, _| {
            // Of several changes before its turn, only the last is shown.
            if !is_waiting.get_value() {
                is_waiting.set_value(true);
                tasks.queue(move || {
                    is_waiting.set_value(false);
                    settled.set(bench.settled_plan.get_untracked());
                });
            }
        },
        false,
    );
    let plan = move |_: Option<&Arc<Plan>>| {
        if is_seen.get() {
            bench.plan.get()
        } else {
            settled.get()
        }
    };
    let is_another = |before: Option<&Arc<Plan>>, now: Option<&Arc<Plan>>| match before.zip(now) {
        Some((before, now)) => !Arc::ptr_eq(before, now),
        None => true,
    };
    bench.seen_from(is_seen, Memo::new_with_compare(plan, is_another))
}
