//! From the drawn diameter to whole threads: the levels of the machine, and where the line passes from one to the next.
//!
//! One carrier changes at a time, so the line can only have the levels of whole threads. The target passes from one level
//! to the next where it calls for what lies half-way between them; cutting there leaves as much mass above the drawing
//! as below it along a stretch that is straight in mass.

use crate::base::choice::Choice;
use crate::base::units::Length;
use crate::braid::geometry::Load;
use crate::braid::taper::Point;

/// How a line is made thicker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Build {
    /// By engaging more carriers.
    MoreThreads,
    /// By giving carriers a bobbin with a heavier thread.
    HeavierThreads,
    /// By engaging more carriers, and when all are on, by heavier threads.
    Both,
}

impl Choice for Build {
    const ALL: &'static [Self] = &[Self::MoreThreads, Self::HeavierThreads, Self::Both];

    fn key(self) -> &'static str {
        match self {
            Self::MoreThreads => "more-threads",
            Self::HeavierThreads => "heavier-threads",
            Self::Both => "both",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::MoreThreads => "more threads",
            Self::HeavierThreads => "heavier threads",
            Self::Both => "more threads, then heavier ones",
        }
    }
}

/// What the ladder of levels is built from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Supply {
    /// How the line is made thicker.
    pub build: Build,
    /// Threads the line begins with at its thinnest.
    pub fewest: u32,
    /// Most threads engaged at once.
    pub most: u32,
    /// Ends in the standard thread.
    pub light: u32,
    /// Ends in the heavier thread.
    pub heavy: u32,
}

/// A level: so many threads engaged, some of them heavier.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Level {
    /// Threads engaged.
    pub threads: u32,
    /// Those of them that are of the heavier kind.
    pub heavy: u32,
}

impl Supply {
    /// The levels from the least yarn to the most; neighbours differ on one carrier.
    pub fn levels(&self) -> Vec<Level> {
        let most = match self.build {
            Build::HeavierThreads => self.fewest,
            Build::MoreThreads | Build::Both => self.most.max(self.fewest),
        };
        let adding = (self.fewest..=most).map(|threads| Level { threads, heavy: 0 });
        let swaps = match self.build {
            Build::MoreThreads => 0,
            Build::HeavierThreads | Build::Both => most,
        };
        let swapping = (1..=swaps).map(|heavy| Level {
            threads: most,
            heavy,
        });
        adding.chain(swapping).collect()
    }

    /// What a level puts on the machine.
    pub fn load(&self, level: Level) -> Load {
        let (light, heavy) = (
            f64::from(level.threads - level.heavy),
            f64::from(level.heavy),
        );
        let size = self.heavier_by();
        Load {
            threads: level.threads,
            yarn: light + heavy * size,
            breadth: light + heavy * size.sqrt(),
            buried: 0.0,
        }
    }

    /// Yarn in the heavier thread, in standard threads.
    pub fn heavier_by(&self) -> f64 {
        f64::from(self.heavy) / f64::from(self.light)
    }
}

/// The line passes from one level to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// The lower of the two levels.
    pub lower: usize,
    /// Whether the line gets thicker there.
    pub rising: bool,
    /// Where.
    pub at: Length,
}

impl Change {
    /// The level before it.
    pub fn before(&self) -> usize {
        if self.rising {
            self.lower
        } else {
            self.lower + 1
        }
    }

    /// The level after it.
    pub fn after(&self) -> usize {
        if self.rising {
            self.lower + 1
        } else {
            self.lower
        }
    }

    fn undoes(&self, other: &Self) -> bool {
        self.lower == other.lower && self.rising != other.rising
    }
}

/// How much yarn a finished diameter calls for, and which levels the machine has.
#[derive(Clone, Debug, PartialEq)]
pub struct Staircase {
    /// Standard threads per square metre of bare diameter squared.
    pub threads_per_diameter_squared: f64,
    /// Film of dressing on the surface, on each side.
    pub film: Length,
    /// Yarn of each level in standard threads, ascending; at least one.
    pub yarn: Vec<f64>,
}

impl Staircase {
    /// Yarn wanted for a finished diameter, in standard threads, not rounded.
    pub fn wanted(&self, finished: Length) -> f64 {
        let bare = (finished - self.film * 2.0).max(Length::ZERO).metres();
        self.threads_per_diameter_squared * bare * bare
    }

    /// Finished diameter that calls for this much yarn, in standard threads.
    pub fn diameter(&self, yarn: f64) -> Length {
        Length::from_metres((yarn.max(0.0) / self.threads_per_diameter_squared).sqrt())
            + self.film * 2.0
    }

    /// Least yarn of any level.
    pub fn least(&self) -> f64 {
        self.yarn[0]
    }

    /// Most yarn of any level.
    pub fn most(&self) -> f64 {
        self.yarn[self.yarn.len() - 1]
    }

    /// What lies half-way between a level and the next.
    pub fn boundary(&self, lower: usize) -> f64 {
        0.5 * (self.yarn[lower] + self.yarn[lower + 1])
    }

    /// The nearest level.
    pub fn nearest(&self, finished: Length) -> usize {
        let wanted = self.wanted(finished);
        (0..self.yarn.len() - 1)
            .take_while(|&lower| self.boundary(lower) <= wanted)
            .count()
    }

    /// The level at the tip, and every change along a taper in order.
    pub fn changes(&self, points: &[Point]) -> (usize, Vec<Change>) {
        let mut level = self.nearest(points[0].diameter);
        let first = level;
        let mut changes: Vec<Change> = Vec::new();
        for pair in points.windows(2) {
            let goal = self.nearest(pair[1].diameter);
            while level != goal {
                let change = self.crossing(pair[0], pair[1], level, goal > level);
                level = change.after();
                // Where the drawing only touches a level nobody adds a thread to drop it in the same place.
                let touches = |last: &mut Change| last.at == change.at && change.undoes(last);
                if changes.pop_if(touches).is_none() {
                    changes.push(change);
                }
            }
        }
        let end = points[points.len() - 1].at;
        changes.retain(|change| change.at < end);
        begin(first, changes)
    }

    /// Where a straight piece of the drawing leaves a level, upwards or downwards.
    fn crossing(&self, a: Point, b: Point, level: usize, rising: bool) -> Change {
        let lower = if rising { level } else { level - 1 };
        let boundary = self.diameter(self.boundary(lower));
        let share = (boundary - a.diameter) / (b.diameter - a.diameter);
        // A boundary met exactly at a control point may fall outside by the last bit.
        let at = a.at + (b.at - a.at) * share.clamp(0.0, 1.0);
        Change { lower, rising, at }
    }
}

/// A change at the very tip is none: the line begins after it.
fn begin(mut level: usize, mut changes: Vec<Change>) -> (usize, Vec<Change>) {
    while let Some(change) = changes.first().filter(|change| change.at <= Length::ZERO) {
        level = change.after();
        changes.remove(0);
    }
    (level, changes)
}
