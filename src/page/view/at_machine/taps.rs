//! Taps that are one tap.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

/// Taps closer than this to the last one taken are that same tap, in milliseconds. Our own choice: nothing at the machine is done in less,
/// and a finger that trembles, or a drop of oil, taps sooner.
const SAME_TAP: f64 = 600.0;

/// The last tap taken.
#[derive(Clone, Copy)]
pub(super) struct Taps(StoredValue<f64>);

impl Taps {
    /// None yet.
    pub(super) fn new() -> Self {
        Self(StoredValue::new(f64::NEG_INFINITY))
    }

    /// Whether a press is a tap of its own.
    pub(super) fn is_new(self, event: &MouseEvent) -> bool {
        event.time_stamp() - self.0.get_value() >= SAME_TAP
    }

    /// The same; then it is the last one taken.
    pub(super) fn take(self, event: &MouseEvent) -> bool {
        let is_new = self.is_new(event);
        if is_new {
            self.0.set_value(event.time_stamp());
        }
        is_new
    }
}
