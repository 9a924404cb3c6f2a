//! From the drawn diameter to whole threads: the staircase.
//!
//! Threads engage one at a time, so the line can only have the levels of whole thread counts. The target passes from
//! one level to the next where it calls for half a thread more; cutting there leaves as much mass above the drawing
//! as below it along a stretch that is straight in mass.

use crate::taper::Point;
use crate::units::Length;

/// A stretch of the line over which the number of threads does not change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Threads engaged.
    pub threads: u32,
}

/// How many threads a finished diameter calls for, as a real number, and which counts the machine allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Staircase {
    /// Threads per square metre of bare diameter squared.
    pub threads_per_diameter_squared: f64,
    /// Film of dressing on the surface, on each side.
    pub film: Length,
    /// Fewest threads the maker braids with.
    pub fewest: u32,
    /// Most threads: the carriers of the machine.
    pub most: u32,
}

impl Staircase {
    /// Threads wanted for a finished diameter, not rounded.
    pub fn wanted(&self, finished: Length) -> f64 {
        let bare = (finished - self.film * 2.0).max(Length::ZERO).metres();
        self.threads_per_diameter_squared * bare * bare
    }

    /// Finished diameter that calls for this many threads; they need not be whole.
    pub fn diameter(&self, threads: f64) -> Length {
        Length::from_metres((threads.max(0.0) / self.threads_per_diameter_squared).sqrt())
            + self.film * 2.0
    }

    /// The nearest count the machine allows.
    pub fn nearest(&self, finished: Length) -> u32 {
        // Bounded by `most`, so the conversion cannot lose anything.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let rounded = self
            .wanted(finished)
            .round()
            .clamp(f64::from(self.fewest), f64::from(self.most)) as u32;
        rounded
    }

    /// The runs of constant thread count along a taper, tip first, without gap.
    pub fn runs(&self, points: &[Point]) -> Vec<Run> {
        let mut runs = Vec::with_capacity(2 * points.len());
        let mut open = Run {
            from: Length::ZERO,
            to: Length::ZERO,
            threads: self.nearest(points[0].diameter),
        };
        for pair in points.windows(2) {
            self.climb(pair[0], pair[1], &mut open, &mut runs);
            open.to = pair[1].at;
        }
        if open.from < open.to {
            runs.push(open);
        }
        runs
    }

    /// Closes a run at every level the target passes between two control points.
    fn climb(&self, a: Point, b: Point, open: &mut Run, runs: &mut Vec<Run>) {
        let goal = self.nearest(b.diameter);
        while open.threads != goal {
            let next = if goal > open.threads {
                open.threads + 1
            } else {
                open.threads - 1
            };
            let boundary = self.diameter(f64::from(open.threads.min(next)) + 0.5);
            let share = (boundary - a.diameter) / (b.diameter - a.diameter);
            // A boundary met exactly at a control point may fall outside by the last bit.
            let at = a.at + (b.at - a.at) * share.clamp(0.0, 1.0);
            open.to = at;
            step_to(next, open, runs);
        }
    }
}

/// Closes the open run and opens the next. Where the drawing only touches a level there is no run: nobody adds a thread
/// to drop it in the same place.
fn step_to(threads: u32, open: &mut Run, runs: &mut Vec<Run>) {
    if open.from < open.to {
        runs.push(*open);
        *open = Run {
            from: open.to,
            to: open.to,
            threads,
        };
    } else {
        let resumed = runs.pop_if(|last| last.threads == threads);
        *open = resumed.unwrap_or(Run { threads, ..*open });
    }
}
