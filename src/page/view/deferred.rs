//! Parts of the page that are built a moment later, so that the chart can be touched first.
//!
//! Each is built in a task of its own after the first picture. The attribute `data-whole` of the document says that nothing
//! waits; tests wait for it.

use core::time::Duration;
use std::collections::VecDeque;

use leptos::prelude::*;

/// Where the browser draws nothing, as for a hidden page, the rest is built after this time all the same.
const PATIENCE: Duration = Duration::from_millis(200);

/// Attribute of the document while everything is built and nothing waits.
const WHOLE: &str = "data-whole";

/// A task that can wait.
type Task = Box<dyn FnOnce() + Send + Sync>;

/// The tasks that wait.
#[derive(Clone, Copy)]
pub(super) struct TaskQueue {
    waiting: StoredValue<VecDeque<Task>>,
    /// Whether they are being worked off.
    is_running: StoredValue<bool>,
    /// Whether something else is waited for before the page is whole.
    is_held: StoredValue<bool>,
}

impl TaskQueue {
    /// An empty queue. Tasks wait until [`TaskQueue::begin`].
    pub(super) fn new() -> Self {
        Self {
            waiting: StoredValue::new(VecDeque::new()),
            is_running: StoredValue::new(true),
            is_held: StoredValue::new(false),
        }
    }

    /// Begins, once the browser has drawn what is built by now, with this.
    pub(super) fn begin(self, first: impl Fn() + Copy + 'static) {
        let is_begun = StoredValue::new(false);
        let begin = move || {
            if !is_begun.get_value() {
                is_begun.set_value(true);
                first();
                self.go_on();
            }
        };
        request_animation_frame(move || set_timeout(begin, Duration::ZERO));
        set_timeout(begin, PATIENCE);
    }

    /// Until [`TaskQueue::release`] the page is not whole, though tasks go on.
    pub(super) fn hold(self) {
        self.is_held.set_value(true);
    }

    /// What was waited for is there. What it brings may queue tasks in this moment, and they come first.
    pub(super) fn release(self) {
        self.queue(move || self.is_held.set_value(false));
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
        let next = self.waiting.try_update_value(VecDeque::pop_front).flatten();
        if let Some(task) = next {
            task();
            set_timeout(move || self.go_on(), Duration::ZERO);
            return;
        }
        self.is_running.set_value(false);
        set_complete(!self.is_held.get_value());
    }
}

fn set_complete(is_complete: bool) {
    if let Some(root) = document().document_element() {
        // Refused by no browser: the name is a plain one.
        let _ = root.toggle_attribute_with_force(WHOLE, is_complete);
    }
}

/// A part that is built in its turn.
#[component]
pub(super) fn Deferred(children: ChildrenFn) -> impl IntoView {
    let is_due = RwSignal::new(false);
    // The place it belongs to may be left before.
    expect_context::<TaskQueue>().queue(move || {
        is_due.try_set(true);
    });
    move || is_due.get().then(|| children())
}
