//! Ladders that were searched before.

use std::collections::VecDeque;

use super::{CarrierPin, Ladder, Question};
use crate::braid::track::Track;

/// The most ladders kept; the one not asked for the longest goes first.
const MOST_KEPT: usize = 64;

/// Keeps the ladders that were searched last, for a caller that plans one line again and again.
///
/// A search takes up to 15 ms in a browser, the rest of a plan a tenth of a millisecond; while a point is dragged, the
/// same few ladders are asked for over and over. A ladder depends on its question alone, so a cache changes no ladder,
/// only how soon it is there.
#[derive(Clone, Debug, Default)]
pub struct LadderCache {
    /// The one asked for last stands last.
    kept: VecDeque<(Question, Ladder)>,
}

impl LadderCache {
    /// The same as [`Ladder::new`], searched only when it is not kept.
    pub fn ladder(&mut self, track: Track, start: u32, full: u32, pins: &[CarrierPin]) -> Ladder {
        let question = Question::of(track, start, full, pins);
        let at = self.kept.iter().position(|(kept, _)| *kept == question);
        let entry = at.and_then(|at| self.kept.remove(at));
        let entry = entry.unwrap_or_else(|| {
            let ladder = question.ladder();
            (question, ladder)
        });
        let ladder = entry.1.clone();
        self.kept.push_back(entry);
        while self.kept.len() > MOST_KEPT {
            self.kept.pop_front();
        }
        ladder
    }
}
