//! The steps that can be undone on a line, kept beside it.
//!
//! They are a convenience, but they are what the maker did: nobody's steps are dropped to make room, neither for a line nor
//! for other steps. Where there is no room for them, the line is kept without its newest steps, and that is said.

use super::prefixes::{LineNumber, STEPS_KEY};
use super::store::{Shelf, Store, StoreError};
use crate::design::Design;
use crate::edit::sketch::Sketch;
use crate::keep::share::steps;

impl<S: Store> Shelf<S> {
    /// A kept line with its steps to undo and redo.
    pub fn sketch(&self, number: LineNumber, design: Design) -> Sketch {
        let text = self.store.get(&key(number)).ok().flatten();
        steps::read(&text.unwrap_or_default(), design)
    }

    /// Keeps the steps of a line just kept. They name the design they belong to, so that steps and line, two keys, are
    /// never taken for one: where either was written without the other, there is nothing to undo.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses; the steps kept before are still there then.
    pub fn keep_steps(&mut self, number: LineNumber, sketch: &Sketch) -> Result<(), StoreError> {
        self.store.set(&key(number), &steps::write(sketch))
    }
}

fn key(number: LineNumber) -> String {
    format!("{STEPS_KEY}{number}")
}
