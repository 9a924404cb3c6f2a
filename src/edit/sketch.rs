//! A design being worked on: as it is at this moment, as it was after the last finished change, and its history.
//!
//! A gesture is any number of [`Sketch::try_out`], then one [`Sketch::settle`] or [`Sketch::abort`]; a field or a button settles at
//! once. Each settled change is one step to undo. It is one plain struct, so that the laws can try its methods in random order; the
//! page only mirrors it.

use crate::design::refusal::Refusal;
use crate::design::{Design, DraftPoint};
use crate::edit::{self, Edit, MoveLimit, MoveOptions};

/// Most steps that can be undone; a design is a few kilobytes.
pub const MOST_STEPS: usize = 200;

/// A design being worked on.
#[derive(Clone, Debug, PartialEq)]
pub struct Sketch {
    now: Design,
    settled: Design,
    past: Vec<Design>,
    future: Vec<Design>,
}

impl Sketch {
    /// A design with nothing done to it yet.
    pub fn new(design: Design) -> Self {
        Self {
            now: design.clone(),
            settled: design,
            past: Vec::new(),
            future: Vec::new(),
        }
    }

    /// A design with the designs before it, oldest first, and those undone, the next to redo last.
    pub fn with_steps(design: Design, past: Vec<Design>, future: Vec<Design>) -> Self {
        Self {
            past: newest(past),
            future: newest(future),
            ..Self::new(design)
        }
    }

    /// The design as it is this moment, also in the middle of a gesture.
    pub fn now(&self) -> &Design {
        &self.now
    }

    /// The design after the last finished change.
    pub fn settled(&self) -> &Design {
        &self.settled
    }

    /// Settled designs before this one, oldest first.
    pub fn past(&self) -> &[Design] {
        &self.past
    }

    /// Settled designs undone, the next to redo last.
    pub fn future(&self) -> &[Design] {
        &self.future
    }

    /// Makes a change within a gesture. It always starts from the settled design: only where a gesture ends
    /// counts.
    ///
    /// # Errors
    /// [`Refusal`] when the outcome would be no design; then nothing has changed.
    pub fn try_out(&mut self, edit: Edit) -> Result<(), Refusal> {
        self.now = edit.apply(&self.settled)?;
        Ok(())
    }

    /// Moves a point towards a wish within a gesture, and gives what held it back, if anything did.
    ///
    /// # Errors
    /// [`Refusal`] when the outcome would be no design; then nothing has changed.
    pub fn try_move(
        &mut self,
        index: usize,
        wish: DraftPoint,
        options: MoveOptions,
    ) -> Result<Option<MoveLimit>, Refusal> {
        let (now, limit) = edit::moved(&self.settled, index, wish, options)?;
        self.now = now;
        Ok(limit)
    }

    /// Ends a gesture. Whether it changed anything; a change can be undone, and takes the place of those undone before.
    pub fn settle(&mut self) -> bool {
        if self.now == self.settled {
            return false;
        }
        let before = core::mem::replace(&mut self.settled, self.now.clone());
        remember(&mut self.past, before);
        self.future.clear();
        true
    }

    /// Cancels a gesture: everything is as it was before.
    pub fn abort(&mut self) {
        self.now = self.settled.clone();
    }

    /// Goes back to before the last finished change, cancelling a gesture. Whether there was one.
    pub fn undo(&mut self) -> bool {
        let Some(design) = self.past.pop() else {
            return false;
        };
        let after = self.put(design);
        remember(&mut self.future, after);
        true
    }

    /// Makes the change last undone once more. Whether there was one.
    pub fn redo(&mut self) -> bool {
        let Some(design) = self.future.pop() else {
            return false;
        };
        let before = self.put(design);
        remember(&mut self.past, before);
        true
    }

    /// Puts a design in the place of the settled one, and gives that.
    fn put(&mut self, design: Design) -> Design {
        self.now = design.clone();
        core::mem::replace(&mut self.settled, design)
    }
}

fn remember(designs: &mut Vec<Design>, design: Design) {
    if designs.len() == MOST_STEPS {
        designs.remove(0);
    }
    designs.push(design);
}

fn newest(mut designs: Vec<Design>) -> Vec<Design> {
    let surplus = designs.len().saturating_sub(MOST_STEPS);
    designs.drain(..surplus);
    designs
}
