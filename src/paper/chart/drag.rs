//! What a hand on a handle does: it drags the control point, or a finger scrolls the page.
//!
//! ```text
//! ready ─ down ─▶ undecided ─▶ dragging ─ up ─▶ ready; the change is finished
//!                     └──────▶ scrolling ─ up ─▶ ready; nothing has changed
//! ```
//!
//! Ready means that there is no [`Drag`]. Escape, a second pointer and a pointer taken away abort from everywhere: the drag is
//! dropped, and with it what it changed.
//!
//! A finger near a handle may mean the page: where it first moves mainly along the page it scrolls, unless it went down on the
//! ring itself or rested there. A finger is also broad: a drag sideways keeps the size, and a drag upwards the place, until
//! the finger leaves a corridor.

use super::grip::{ChartPoint, Edge, Grip, RING};
use super::scale::Scale;
use crate::design::DraftPoint;

/// Pixels a mouse or pen may tremble.
const SLOP_FINE: f64 = 4.0;
/// Pixels a finger may tremble.
const SLOP_FINGER: f64 = 6.0;
/// Half the width of the corridor in which a finger keeps to the direction it began with, in pixels: about half a fingertip. Our
/// own choice.
const CORRIDOR: f64 = 24.0;

/// What points at the chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointerKind {
    /// A mouse.
    Mouse,
    /// A pen.
    Pen,
    /// A finger.
    Finger,
}

impl PointerKind {
    /// By the name the browser gives it; what it does not know is a mouse to it.
    pub fn of_name(name: &str) -> Self {
        match name {
            "touch" => Self::Finger,
            "pen" => Self::Pen,
            _ => Self::Mouse,
        }
    }

    const fn slop(self) -> f64 {
        match self {
            Self::Mouse | Self::Pen => SLOP_FINE,
            Self::Finger => SLOP_FINGER,
        }
    }
}

/// What the hand is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Phase {
    /// It has not moved farther than a hand trembles.
    Undecided,
    /// It drags.
    Dragging(Way),
    /// It scrolls the page.
    Scrolling,
}

/// Which way a drag began.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    /// A finger, along the line.
    Along,
    /// A finger, across it.
    Across,
    /// Not a finger: any way.
    Any,
}

/// A hand on a handle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drag {
    /// The number of its pointer.
    pub pointer: i32,
    kind: PointerKind,
    grip: Grip,
    /// Where the pointer went down.
    down: ChartPoint,
    phase: Phase,
    is_held: bool,
}

impl Drag {
    /// A pointer goes down on a handle.
    pub fn begin(pointer: i32, kind: PointerKind, grip: Grip, down: ChartPoint) -> Self {
        let is_on_ring = distance(down, grip.spot) <= RING;
        Self {
            pointer,
            kind,
            grip,
            down,
            phase: Phase::Undecided,
            is_held: kind != PointerKind::Finger || is_on_ring,
        }
    }

    /// The control point.
    pub const fn index(&self) -> usize {
        self.grip.index
    }

    /// The control point as it was.
    pub const fn from(&self) -> DraftPoint {
        self.grip.point
    }

    /// Whether the handle is held: it follows the hand from now on, and the page does not scroll.
    pub const fn is_held(&self) -> bool {
        self.is_held
    }

    /// Whether the control point follows the hand.
    pub const fn is_dragging(&self) -> bool {
        matches!(self.phase, Phase::Dragging(_))
    }

    /// Whether a finger scrolls the page.
    pub const fn is_scrolling(&self) -> bool {
        matches!(self.phase, Phase::Scrolling)
    }

    /// Whether a finger holds it.
    pub fn is_by_finger(&self) -> bool {
        self.is_held && self.kind == PointerKind::Finger
    }

    /// Whether a hand covers what it holds: a finger, or one with a pen.
    pub fn is_covered(&self) -> bool {
        self.is_held && self.kind != PointerKind::Mouse
    }

    /// The pointer has rested for a while where it went down.
    pub fn rested(&mut self) {
        self.is_held |= self.phase == Phase::Undecided;
    }

    /// The pointer moves. What it does is decided once it has moved farther than a hand trembles.
    pub fn moved(&mut self, at: ChartPoint) {
        if self.phase == Phase::Undecided && distance(at, self.down) > self.kind.slop() {
            let is_along_page = (at.1 - self.down.1).abs() > (at.0 - self.down.0).abs();
            self.phase = match (self.kind, is_along_page) {
                (PointerKind::Mouse | PointerKind::Pen, _) => Phase::Dragging(Way::Any),
                (PointerKind::Finger, true) if !self.is_held => Phase::Scrolling,
                (PointerKind::Finger, true) => Phase::Dragging(Way::Across),
                (PointerKind::Finger, false) => Phase::Dragging(Way::Along),
            };
            self.is_held |= self.is_dragging();
        }
    }

    /// Where the control point should go while the pointer is at a place; `None` while it does not follow.
    pub fn wish(&self, at: ChartPoint, scale: &Scale) -> Option<DraftPoint> {
        let Phase::Dragging(way) = self.phase else {
            return None;
        };
        let (right, down) = (at.0 - self.down.0, at.1 - self.down.1);
        let slop = self.kind.slop();
        // From where the slop or the corridor was left, so that nothing jumps there.
        let (right, down) = match way {
            Way::Any => return Some(self.point_at(right, down, scale)),
            Way::Along => (beyond(right, slop), beyond(down, CORRIDOR)),
            Way::Across => (beyond(right, CORRIDOR), beyond(down, slop)),
        };
        let moved = self.point_at(right, down, scale);
        let Grip { point, .. } = self.grip;
        Some(DraftPoint {
            at_m: if right == 0.0 { point.at_m } else { moved.at_m },
            diameter_mm: if down == 0.0 {
                point.diameter_mm
            } else {
                moved.diameter_mm
            },
        })
    }

    /// The point whose handle is so many pixels to the right of where it was, and below.
    fn point_at(&self, right: f64, down: f64, scale: &Scale) -> DraftPoint {
        let Grip { edge, spot, .. } = self.grip;
        let (x, y) = (spot.0 + right, spot.1 + down);
        let middle = scale.profile().middle();
        let half = match edge {
            Edge::Upper => middle - y,
            Edge::Lower => y - middle,
        };
        DraftPoint {
            at_m: scale.at_of(x).metres(),
            diameter_mm: scale.diameter_of(half.max(0.0)).millimetres(),
        }
    }
}

fn distance(one: ChartPoint, other: ChartPoint) -> f64 {
    (one.0 - other.0).hypot(one.1 - other.1)
}

/// How far a shift reaches beyond a limit, either way; 0 within it.
fn beyond(shift: f64, limit: f64) -> f64 {
    (shift.abs() - limit).max(0.0).copysign(shift)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::show::Units;
    use crate::design::demo::demo;
    use crate::edit::snap::Snap;
    use crate::paper::chart::grip::{grips, handles};
    use crate::plan::Plan;

    /// Where the demo's belly begins.
    const BELLY: usize = 2;

    fn scale() -> Scale {
        let design = demo();
        Scale::of(&design, &Plan::of(&design), Units::Metric, (780.0, 520.0))
    }

    fn grip() -> Grip {
        let (design, scale) = (demo(), scale());
        let handles = handles(&design, &scale, BELLY);
        let mut grips = grips(&design, &handles, &scale);
        grips.nth(BELLY).expect("every point has a handle")
    }

    /// A hand that goes down so far from the centre of the ring.
    fn down(kind: PointerKind, right: f64, below: f64) -> Drag {
        let (x, y) = grip().spot;
        Drag::begin(1, kind, grip(), (x + right, y + below))
    }

    /// The same hand, so far from where it went down.
    fn moved(mut drag: Drag, right: f64, below: f64) -> (Drag, Option<DraftPoint>) {
        let at = (drag.down.0 + right, drag.down.1 + below);
        drag.moved(at);
        (drag, drag.wish(at, &scale()))
    }

    #[test]
    fn a_finger_beside_the_ring_that_moves_along_the_page_scrolls() {
        let beside = down(PointerKind::Finger, 12.0, 16.0);
        assert!(!beside.is_held());
        let (drag, wish) = moved(beside, 5.0, -30.0);
        assert!(drag.is_scrolling() && !drag.is_held());
        assert_eq!(wish, None);
        // It never becomes a drag again, neither by resting nor by turning.
        let mut later = drag;
        later.rested();
        let (later, wish) = moved(later, 80.0, -30.0);
        assert!(later.is_scrolling() && !later.is_held());
        assert_eq!(wish, None);
    }

    #[test]
    fn a_finger_on_the_ring_or_at_rest_or_sideways_drags() {
        let on_ring = down(PointerKind::Finger, 8.0, 8.0);
        let mut rested = down(PointerKind::Finger, 12.0, 16.0);
        rested.rested();
        for held in [on_ring, rested] {
            assert!(held.is_held() && held.is_by_finger());
            let (drag, wish) = moved(held, 0.0, -30.0);
            assert!(drag.is_dragging());
            assert!(wish.is_some_and(|wish| wish.diameter_mm > grip().point.diameter_mm));
        }
        let beside = down(PointerKind::Finger, 12.0, 16.0);
        let (drag, wish) = moved(beside, 30.0, -5.0);
        assert!(drag.is_dragging() && drag.is_held());
        assert!(wish.is_some_and(|wish| wish.at_m > grip().point.at_m));
    }

    #[test]
    fn a_hand_that_trembles_has_decided_nothing() {
        for (kind, slop) in [(PointerKind::Mouse, 4.0), (PointerKind::Finger, 6.0)] {
            let (drag, wish) = moved(down(kind, 0.0, 0.0), 0.0, slop);
            assert!(!drag.is_dragging() && !drag.is_scrolling());
            assert_eq!(wish, None);
            assert!(moved(drag, 0.0, slop + 0.1).0.is_dragging());
        }
    }

    #[test]
    fn a_finger_keeps_its_direction_until_it_leaves_the_corridor() {
        let from = grip().point;
        let (sideways, _) = moved(down(PointerKind::Finger, 0.0, 0.0), 20.0, 3.0);
        for below in [-CORRIDOR, -3.0, CORRIDOR] {
            let wish = moved(sideways, 60.0, below).1.expect("it drags");
            assert_eq!(wish.diameter_mm.to_bits(), from.diameter_mm.to_bits());
            assert!(wish.at_m > from.at_m);
        }
        // It leaves the corridor without a jump: a tenth of a pixel is a tenth of a pixel.
        let left = moved(sideways, 60.0, CORRIDOR + 0.1).1.expect("it drags");
        let thinner = from.diameter_mm - left.diameter_mm;
        assert!(thinner > 0.0 && thinner < 0.01, "{thinner}");
        let (upward, _) = moved(down(PointerKind::Finger, 0.0, 0.0), 3.0, -20.0);
        for right in [-CORRIDOR, 3.0, CORRIDOR] {
            let wish = moved(upward, right, -30.0).1.expect("it drags");
            assert_eq!(wish.at_m.to_bits(), from.at_m.to_bits());
            assert!(wish.diameter_mm > from.diameter_mm);
        }
        assert!(
            moved(upward, -CORRIDOR - 5.0, -30.0)
                .1
                .is_some_and(|wish| wish.at_m < from.at_m)
        );
    }

    #[test]
    fn mouse_and_pen_move_both_numbers_at_once() {
        let from = grip().point;
        for kind in [PointerKind::Mouse, PointerKind::Pen] {
            let wish = moved(down(kind, 3.0, 20.0), 9.0, -5.0).1.expect("it drags");
            assert!(wish.at_m > from.at_m && wish.diameter_mm > from.diameter_mm);
        }
    }

    /// Pixel by pixel a finger passes over no size that whole threads make.
    #[test]
    fn the_finest_drag_of_a_finger_is_one_thread() {
        let guides = Snap::default().of_finger().guides(&demo());
        let place = |size: f64| {
            let off = |at: &usize| (guides[*at].diameter.millimetres() - size).abs();
            (0..guides.len())
                .min_by(|a, b| off(a).total_cmp(&off(b)))
                .expect("there are guides")
        };
        let from = grip().point;
        let (mut drag, mut last) = (down(PointerKind::Finger, 0.0, 0.0), place(from.diameter_mm));
        let mut passed = 0;
        for pixels in 1..=40 {
            let (next, wish) = moved(drag, 0.0, f64::from(pixels));
            drag = next;
            let Some(wish) = wish else { continue };
            let pulled = Snap::default().pull(wish, from, &guides, Units::Metric);
            let now = place(pulled.diameter_mm);
            assert!(last.abs_diff(now) <= 1, "{last} to {now} at {pixels} px");
            passed += last.abs_diff(now);
            last = now;
        }
        assert!(passed >= 3, "only {passed} threads in 40 px");
    }
}
