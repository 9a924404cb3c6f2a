//! Finding a thread plan: which threads to ply, and how many to begin and to end with, for a line as drawn.
//!
//! All plans that could fit are judged roughly; the most promising are then planned in full. A plan is recommended only if it
//! meets all conditions (`conditions`); of those that do, the one that makes the class of the drawing most likely is best, and of
//! those alike in that the one with the fewest faults. Others are listed apart, with what they do not meet. The search proceeds in
//! small steps, so that a page can draw between them.

mod candidates;
pub(super) mod conditions;
mod rough;
mod thread_plan;

use crate::braid::ladder::LadderCache;
use crate::braid::threads::{Build, Supply};
use crate::design::Design;
use candidates::candidates;
use rough::RoughEstimate;

pub use conditions::Unmet;
pub use thread_plan::{ThreadPlan, judge};

/// How many plans are recommended at most.
pub const LISTED: usize = 6;
/// How many are listed apart at most.
pub const LISTED_APART: usize = 3;
/// How many are planned in full.
const PLANNED: usize = 28;

/// A search in progress: candidates are rated roughly, then the most promising are planned in full.
#[derive(Clone, Debug)]
pub struct Finder {
    design: Design,
    /// What the rating needs to know of the line.
    rough: RoughEstimate,
    /// What is still to be rated.
    unrated: Vec<Supply>,
    /// Rated candidates with their estimated demerit; once all are rated, worst first.
    rated: Vec<(f64, Supply)>,
    found: Vec<ThreadPlan>,
    /// Candidates that differ in their ends share a ladder.
    ladders: LadderCache,
}

/// Candidates rated in the time one is planned.
const RATED_PER_PLAN: usize = 16;

impl Finder {
    /// Begins a search for this line. The design's own threads are among what is found.
    pub fn new(design: &Design) -> Self {
        let own = design.supply();
        let mut ladders = LadderCache::default();
        let rough = RoughEstimate::of(design, &mut ladders);
        let mut unrated = candidates(design, &rough.ground);
        unrated.retain(|supply| !is_alike(*supply, own));
        Self {
            design: design.clone(),
            rough,
            unrated,
            rated: Vec::new(),
            found: judge(design, own, &mut ladders).into_iter().collect(),
            ladders,
        }
    }

    /// Works for about as long as `count` plans take. Whether anything is left to do.
    pub fn step(&mut self, count: usize) -> bool {
        if self.unrated.is_empty() {
            self.plan(count);
        } else {
            self.rate(count * RATED_PER_PLAN);
        }
        !(self.unrated.is_empty() && self.rated.is_empty())
    }

    fn rate(&mut self, count: usize) {
        let from = self.unrated.len().saturating_sub(count);
        for supply in self.unrated.drain(from..) {
            self.rated.push((self.rough.demerit(&supply), supply));
        }
        if self.unrated.is_empty() {
            self.rated.sort_by(|a, b| a.0.total_cmp(&b.0));
            // Equal plans have equal estimates, and so are neighbours.
            self.rated.dedup_by(|a, b| a.1 == b.1);
            self.rated.truncate(PLANNED);
            self.rated.reverse();
        }
    }

    fn plan(&mut self, count: usize) {
        for _ in 0..count {
            let Some((_, supply)) = self.rated.pop() else {
                break;
            };
            let judged = judge(&self.design, supply, &mut self.ladders);
            self.found.extend(judged);
        }
        self.found.sort_by(ThreadPlan::cmp_rank);
        // Plans that differ only in carriers the line never uses are one plan.
        self.found
            .dedup_by(|a, b| a.demerit == b.demerit && a.head == b.head);
    }

    /// The whole search at once: every plan planned in full, the best first.
    pub fn finish(mut self) -> Vec<ThreadPlan> {
        while self.step(PLANNED) {}
        self.found
    }

    /// The best found so far of those that meet all conditions, best first.
    pub fn best(&self) -> impl Iterator<Item = &ThreadPlan> {
        let recommended = self.found.iter().filter(|plan| plan.is_recommended());
        recommended.take(LISTED)
    }

    /// The best found so far of those that do not, best first.
    pub fn apart(&self) -> impl Iterator<Item = &ThreadPlan> {
        let others = self.found.iter().filter(|plan| !plan.is_recommended());
        others.take(LISTED_APART)
    }

    /// The design the search is for.
    pub fn design(&self) -> &Design {
        &self.design
    }
}

/// Whether two differ only in what neither uses.
fn is_alike(a: Supply, b: Supply) -> bool {
    let heavy = |supply: Supply| (supply.build != Build::MoreThreads).then_some(supply.heavy);
    (a.build, a.fewest, a.most, a.light) == (b.build, b.fewest, b.most, b.light)
        && heavy(a) == heavy(b)
}
