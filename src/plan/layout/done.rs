//! The pieces of a line from what is done along it.

use super::ground::Ground;
use super::pieces::LineChanges;
use crate::base::units::Length;
use crate::braid::stretch::Piece;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Change;

/// Something done at the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Done {
    /// The level changed.
    Level(Change),
    /// Wheels were fitted.
    Wheels(Wheels),
}

impl Ground {
    /// The pieces of a line that begins with this level and these wheels, when this is done along it.
    pub fn pieces_after(&self, start: (usize, Wheels), done: &[(Length, Done)]) -> Vec<Piece> {
        let mut line_changes = LineChanges::default();
        for (at, done) in done {
            match done {
                Done::Level(change) => self.change(&mut line_changes, *at, change),
                Done::Wheels(wheels) => line_changes.fit(*at, *wheels),
            }
        }
        let mut pieces = Vec::new();
        self.sweep(start, &mut line_changes, &mut pieces);
        pieces
    }
}
