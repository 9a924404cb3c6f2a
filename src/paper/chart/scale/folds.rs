//! Level stretches drawn short. A long level stretch takes most of a chart and shows nothing; so its middle is left out, with a
//! break, and the scale of length is the same everywhere else.
//!
//! *Paper* is a length as it is drawn: the true one less what is left out before it, plus a gap for each break. Visible ranges,
//! and so zooming and pinching, are lengths of paper: looked at closely, a fold stays a fold, and nothing springs while fingers move.

use crate::base::units::Length;
use crate::braid::taper::{LEVEL_WITHIN, Taper};

/// A level stretch longer than this share of the line is drawn short.
const LONG: f64 = 0.15;
/// Share of the paper that one drawn short takes, and all of them together at most. Our own choice.
const SHORT: f64 = 0.22;
const ALL_SHORT: f64 = 0.5;
/// Worth a break only where it is drawn this much shorter at least.
const WORTH: f64 = 0.8;
/// With less than this beside the level stretches there is nothing else to look at.
const LEAST_BESIDE: Length = Length::from_metres(0.25);
/// Width of a gap where the whole line is visible, in pixels.
const GAP: f64 = 30.0;
/// A gap takes at most this share of a short stretch: on narrow charts some of it must be left.
const MOST_GAP: f64 = 0.45;
/// While the drawn ends of a stretch are between these shares of their usual length, its fold stays where it is.
const KEPT: core::ops::RangeInclusive<f64> = 0.25..=2.6;
/// More stretches than this cannot each be longer than the share of the line they must exceed.
const MOST: usize = 6;

/// A level stretch drawn short.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fold {
    /// Where the level stretch begins and ends.
    pub level: (Length, Length),
    /// Where what is not drawn begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

impl Fold {
    /// How much is not drawn; above 0.
    fn hidden(&self) -> Length {
        self.to - self.from
    }

    /// The lengths drawn on either side.
    fn ends(&self) -> [Length; 2] {
        [self.from - self.level.0, self.level.1 - self.to]
    }
}

/// The folds of a chart, tip first. They never touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Folds {
    folds: [Option<Fold>; MOST],
    /// Paper each break takes; above 0 where there is one.
    gap: Length,
}

impl Folds {
    /// Nothing is drawn short.
    pub const NONE: Self = Self {
        folds: [None; MOST],
        gap: Length::ZERO,
    };

    /// The folds of a line on bands so many pixels wide. Where another line is drawn behind it, only what is level in both: a
    /// taper of the other must not vanish in a break.
    pub fn of(taper: &Taper, other: Option<&Taper>, band_width: f64) -> Self {
        let mut long = long_levels(taper, other);
        while !long.is_empty() {
            let level: Length = long.iter().map(|&(from, to)| to - from).sum();
            let beside = taper.length() - level;
            let share = SHORT.min(ALL_SHORT / long.len() as f64);
            let paper = beside / (1.0 - share * long.len() as f64);
            let short = paper * share;
            let shortest = (0..long.len()).min_by(|&a, &b| {
                let length = |index: usize| (long[index].1 - long[index].0).metres();
                length(a).total_cmp(&length(b))
            });
            let Some(shortest) = shortest.filter(|_| beside >= LEAST_BESIDE) else {
                break;
            };
            if short <= (long[shortest].1 - long[shortest].0) * WORTH {
                let gap = (paper * (GAP / band_width.max(1.0))).min(short * MOST_GAP);
                return Self::cut(&long, (short - gap) / 2.0, gap);
            }
            long.remove(shortest);
        }
        Self::NONE
    }

    /// Folds that leave this much of every stretch on either side.
    fn cut(long: &[(Length, Length)], end: Length, gap: Length) -> Self {
        let mut folds = [None; MOST];
        for (fold, &(from, to)) in folds.iter_mut().zip(long) {
            *fold = Some(Fold {
                level: (from, to),
                from: from + end,
                to: to - end,
            });
        }
        Self { folds, gap }
    }

    /// The folds, tip first.
    pub fn iter(&self) -> impl Iterator<Item = Fold> + '_ {
        self.folds.iter().flatten().copied()
    }

    /// Whether nothing is drawn short.
    pub fn is_empty(&self) -> bool {
        self.folds[0].is_none()
    }

    /// The folds of before, where each of them is still well within a level stretch: after a small change nothing moves from
    /// under the finger. Where one is not, folds that hide as much in all: then only the breaks move.
    #[must_use]
    pub fn keeping(self, before: &Self) -> Self {
        if self.is_empty() || self.iter().count() != before.iter().count() {
            return self;
        }
        let is_kept = |end: Length, new: &Fold| KEPT.contains(&(end / new.ends()[0]));
        let mut kept = *before;
        for (old, new) in kept.folds.iter_mut().flatten().zip(self.iter()) {
            old.level = new.level;
        }
        let mut pairs = kept.iter().zip(self.iter());
        if pairs.all(|(old, new)| old.ends().into_iter().all(|end| is_kept(end, &new))) {
            return kept;
        }
        let levels: Vec<_> = self.iter().map(|fold| fold.level).collect();
        let level: Length = levels.iter().map(|&(from, to)| to - from).sum();
        let hidden: Length = before.iter().map(|fold| fold.hidden()).sum();
        let end = (level - hidden) / (2.0 * levels.len() as f64);
        if self.iter().all(|new| is_kept(end, &new)) {
            return Self::cut(&levels, end, before.gap);
        }
        self
    }

    /// The length of paper from the tip to a place on the line. It never falls, and is the place itself before the first fold.
    pub fn paper_of(&self, at: Length) -> Length {
        let mut paper = at;
        for fold in self.iter() {
            let hidden = fold.hidden();
            let share = ((at - fold.from) / hidden).clamp(0.0, 1.0);
            paper = paper - (hidden - self.gap) * share;
        }
        paper
    }

    /// The place on the line so much paper from the tip.
    pub fn at_of(&self, paper: Length) -> Length {
        let mut at = paper;
        for fold in self.iter() {
            let hidden = fold.hidden();
            let share = ((at - fold.from) / self.gap).clamp(0.0, 1.0);
            at += (hidden - self.gap) * share;
        }
        at
    }
}

/// The long level stretches of a line, as far as they are level in the other one too.
fn long_levels(taper: &Taper, other: Option<&Taper>) -> Vec<(Length, Length)> {
    let least = taper.length() * LONG;
    let is_long = |&(from, to): &(Length, Length)| to - from > least;
    let long = levels(taper).filter(is_long);
    let Some(other) = other else {
        return long.collect();
    };
    // Beyond its end there is nothing of it to hide.
    let beyond = (other.length(), Length::from_metres(f64::INFINITY));
    let others: Vec<_> = levels(other).chain([beyond]).collect();
    let shared = |(from, to): (Length, Length)| {
        let parts = others
            .iter()
            .map(|other| (from.max(other.0), to.min(other.1)));
        let longest = |a: &(Length, Length), b: &(Length, Length)| {
            (a.1 - a.0).metres().total_cmp(&(b.1 - b.0).metres())
        };
        parts.max_by(longest).filter(is_long)
    };
    long.filter_map(shared).collect()
}

/// The level stretches between two neighbouring points. A point between them is never hidden.
fn levels(taper: &Taper) -> impl Iterator<Item = (Length, Length)> {
    taper.points().windows(2).filter_map(|pair| {
        let is_level = (pair[1].diameter - pair[0].diameter).abs() <= LEVEL_WITHIN;
        is_level.then_some((pair[0].at, pair[1].at))
    })
}
