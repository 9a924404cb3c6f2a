//! The lines over a photo that the maker can drag: the two edges of the braid, and a line on a rule. All in pixels of the picture.
//!
//! Each edge is held at two places within it, and turned or moved there; each end of the line on a rule is held itself.

use super::path::Path;
use crate::photo::{Line, Point};

/// How far from the ends of an edge it is held, as a share of its length.
const HELD_AT: f64 = 1.0 / 6.0;
/// The two places where a line is held stay at least so many pixels apart.
const LEAST_APART: f64 = 24.0;
/// Where edges are before any is known, as shares of the shorter side; and where a line on a rule is.
const FIRST_EDGES: [f64; 2] = [0.35, 0.65];
const FIRST_RULE: f64 = 0.85;
/// How much of the longer side a line on a rule covers at first, either way from its middle.
const FIRST_REACH: f64 = 0.3;

/// A place where a line can be held: which end of which.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoHandle {
    /// Of an edge of the braid.
    Edge(Side, End),
    /// Of the line on a rule.
    Rule(End),
}

/// One of the two edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The first.
    First,
    /// The second.
    Second,
}

/// One of the two ends of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Where it begins.
    From,
    /// Where it ends.
    To,
}

impl PhotoHandle {
    /// Those of both edges.
    pub const EDGES: [Self; 4] = [
        Self::Edge(Side::First, End::From),
        Self::Edge(Side::First, End::To),
        Self::Edge(Side::Second, End::From),
        Self::Edge(Side::Second, End::To),
    ];
    /// Those of the line on a rule.
    pub const RULE: [Self; 2] = [Self::Rule(End::From), Self::Rule(End::To)];

    /// Its key.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Edge(Side::First, End::From) => "edge-1-from",
            Self::Edge(Side::First, End::To) => "edge-1-to",
            Self::Edge(Side::Second, End::From) => "edge-2-from",
            Self::Edge(Side::Second, End::To) => "edge-2-to",
            Self::Rule(End::From) => "rule-from",
            Self::Rule(End::To) => "rule-to",
        }
    }

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Edge(Side::First, End::From) => "First edge, beginning",
            Self::Edge(Side::First, End::To) => "First edge, end",
            Self::Edge(Side::Second, End::From) => "Second edge, beginning",
            Self::Edge(Side::Second, End::To) => "Second edge, end",
            Self::Rule(End::From) => "Line on the rule, beginning",
            Self::Rule(End::To) => "Line on the rule, end",
        }
    }
}

/// The lines that can be dragged.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PhotoLines {
    /// Width and height of the picture.
    pub size: (f64, f64),
    /// The edges of the braid, both in the same direction.
    pub edges: [Line; 2],
    /// A line on a rule.
    pub rule: Line,
}

impl PhotoLines {
    /// Before anything is known of a picture: lines along its longer side.
    pub fn first(size: (f64, f64)) -> Self {
        let (width, height) = size;
        let along = |share: f64, (from, to): (f64, f64)| {
            if width >= height {
                let y = share * height;
                Line::new(Point::new(from * width, y), Point::new(to * width, y))
            } else {
                let x = share * width;
                Line::new(Point::new(x, from * height), Point::new(x, to * height))
            }
        };
        Self {
            size,
            edges: FIRST_EDGES.map(|share| along(share, (0.0, 1.0))),
            rule: along(FIRST_RULE, (0.5 - FIRST_REACH, 0.5 + FIRST_REACH)),
        }
    }

    /// The place of a line that a handle holds.
    pub fn held(&self, handle: PhotoHandle) -> Point {
        let (line, end) = self.line_of(handle);
        match (handle, end) {
            (PhotoHandle::Edge(..), End::From) => between(line, HELD_AT),
            (PhotoHandle::Edge(..), End::To) => between(line, 1.0 - HELD_AT),
            (PhotoHandle::Rule(_), End::From) => line.from,
            (PhotoHandle::Rule(_), End::To) => line.to,
        }
    }

    /// Where the handle itself is: so many pixels beside the place it holds, away from the other edge or from the braid, so that a
    /// hand covers neither. Within the picture.
    pub fn grip(&self, handle: PhotoHandle, beside: f64) -> Point {
        let held = self.held(handle);
        let [first, second] = self.edges.map(|edge| edge.from.half_way(edge.to));
        let middle = first.half_way(second);
        let away = match handle {
            PhotoHandle::Edge(Side::First, _) => Line::new(second, first),
            PhotoHandle::Edge(Side::Second, _) => Line::new(first, second),
            PhotoHandle::Rule(_) => Line::new(middle, self.rule.from.half_way(self.rule.to)),
        };
        self.within(held.towards(away.direction(), beside))
    }

    /// The lines with what a handle holds moved to another place, as far as the picture reaches. Nothing is moved where both places
    /// of a line would come together.
    #[must_use]
    pub fn moved(mut self, handle: PhotoHandle, to: Point) -> Self {
        let to = self.within(to);
        let other = self.held(other_end(handle));
        if !to.is_possible() || Line::new(to, other).length() < LEAST_APART {
            return self;
        }
        let (from, to) = match end_of(handle) {
            End::From => (to, other),
            End::To => (other, to),
        };
        match handle {
            PhotoHandle::Edge(Side::First, _) => self.edges[0] = held_at(from, to),
            PhotoHandle::Edge(Side::Second, _) => self.edges[1] = held_at(from, to),
            PhotoHandle::Rule(_) => self.rule = Line::new(from, to),
        }
        self
    }

    const fn line_of(&self, handle: PhotoHandle) -> (Line, End) {
        let line = match handle {
            PhotoHandle::Edge(Side::First, _) => self.edges[0],
            PhotoHandle::Edge(Side::Second, _) => self.edges[1],
            PhotoHandle::Rule(_) => self.rule,
        };
        (line, end_of(handle))
    }

    fn within(&self, point: Point) -> Point {
        let (width, height) = self.size;
        Point::new(point.x.min(width).max(0.0), point.y.min(height).max(0.0))
    }
}

/// A line as path data.
pub fn line_path(line: Line) -> String {
    let mut path = Path::default();
    path.to(line.from.x, line.from.y);
    path.to(line.to.x, line.to.y);
    path.open()
}

const fn end_of(handle: PhotoHandle) -> End {
    match handle {
        PhotoHandle::Edge(_, end) | PhotoHandle::Rule(end) => end,
    }
}

const fn other_end(handle: PhotoHandle) -> PhotoHandle {
    let other = match end_of(handle) {
        End::From => End::To,
        End::To => End::From,
    };
    match handle {
        PhotoHandle::Edge(side, _) => PhotoHandle::Edge(side, other),
        PhotoHandle::Rule(_) => PhotoHandle::Rule(other),
    }
}

/// The place of a line at a share of its length.
fn between(line: Line, share: f64) -> Point {
    Point::new(
        share.mul_add(line.to.x - line.from.x, line.from.x),
        share.mul_add(line.to.y - line.from.y, line.from.y),
    )
}

/// The edge that is held at these two places.
fn held_at(from: Point, to: Point) -> Line {
    let beyond = HELD_AT / (1.0 - 2.0 * HELD_AT);
    let held = Line::new(from, to);
    Line::new(between(held, -beyond), between(held, 1.0 + beyond))
}

#[cfg(test)]
mod tests {
    use super::*;

    const WIDE: (f64, f64) = (1200.0, 900.0);

    fn is_near(one: Point, other: Point) -> bool {
        (one.x - other.x).abs() < 1e-9 && (one.y - other.y).abs() < 1e-9
    }

    #[test]
    fn lines_run_along_the_longer_side_at_first() {
        let wide = PhotoLines::first(WIDE);
        assert_eq!(wide.edges[0].from, Point::new(0.0, 315.0));
        assert_eq!(wide.edges[0].to, Point::new(1200.0, 315.0));
        let high = PhotoLines::first((900.0, 1200.0));
        assert_eq!(high.edges[1].from, Point::new(585.0, 0.0));
        assert_eq!(high.edges[1].to, Point::new(585.0, 1200.0));
    }

    #[test]
    fn a_moved_handle_is_where_it_was_moved_to_and_the_others_stay() {
        let lines = PhotoLines::first(WIDE);
        let to = Point::new(260.0, 290.0);
        for handle in PhotoHandle::EDGES.into_iter().chain(PhotoHandle::RULE) {
            let moved = lines.moved(handle, to);
            assert!(is_near(moved.held(handle), to), "{handle:?}");
            for other in PhotoHandle::EDGES.into_iter().chain(PhotoHandle::RULE) {
                let stays = other == handle || is_near(moved.held(other), lines.held(other));
                assert!(stays, "{handle:?} {other:?}");
            }
        }
    }

    #[test]
    fn nothing_leaves_the_picture_or_comes_together() {
        let lines = PhotoLines::first(WIDE);
        let handle = PhotoHandle::EDGES[1];
        let out = lines.moved(handle, Point::new(1e4, -1e4));
        assert!(is_near(out.held(handle), Point::new(1200.0, 0.0)));
        let other = lines.held(PhotoHandle::EDGES[0]);
        assert_eq!(lines.moved(handle, other), lines);
        let nowhere = Point::new(f64::NAN, f64::NAN);
        let moved = lines.moved(handle, nowhere);
        assert!(moved.held(handle).is_possible());
        assert_eq!(
            PhotoLines::default().moved(handle, other),
            PhotoLines::default()
        );
    }

    /// A finger at a handle covers neither the braid nor the other handle.
    #[test]
    fn handles_are_outside_of_the_braid() {
        let lines = PhotoLines::first(WIDE);
        let grip = |handle| lines.grip(handle, 40.0).y;
        assert!((grip(PhotoHandle::EDGES[0]) - 275.0).abs() < 1e-9);
        assert!((grip(PhotoHandle::EDGES[2]) - 625.0).abs() < 1e-9);
        assert!(grip(PhotoHandle::RULE[0]) > lines.rule.from.y);
        // Where there is no room they stay in the picture.
        let mut high = lines;
        high.edges[0] = Line::new(Point::new(0.0, 5.0), Point::new(1200.0, 5.0));
        assert!(high.grip(PhotoHandle::EDGES[0], 40.0).y.abs() < 1e-9);
    }
}
