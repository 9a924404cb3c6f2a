//! From the unrolled surface of a braid to what is seen of it from the side.

use core::f64::consts::FRAC_PI_2;

use crate::paper::chart::path::Path;

/// A place on the surface: along the axis in pixels, and round it in radians from the middle of the front.
pub(super) type SurfacePoint = (f64, f64);

/// Widest turn that is drawn as one straight piece, in radians: it is off the true curve by less than 0.3 pixels then.
const TURN: f64 = 0.15;

/// What is seen of a horizontal cylinder: its front half, over some length.
#[derive(Clone, Copy, Debug)]
pub(super) struct Front {
    /// Visible length, in pixels.
    pub(super) width: f64,
    /// Height of the axis below the top, in pixels.
    pub(super) axis: f64,
    /// Radius, in pixels.
    pub(super) radius: f64,
}

impl Front {
    /// Where a point is seen: from the left, from the top. Analytic.
    pub(super) fn seen(&self, (x, turn): SurfacePoint) -> (f64, f64) {
        (x, self.axis + self.radius * turn.sin())
    }

    /// Adds an area to a path, as far as it is visible.
    pub(super) fn area(&self, corners: [SurfacePoint; 4], path: &mut Path) {
        let limits = corners.map(|corner| self.inside(corner));
        if (0..4).any(|limit| limits.iter().all(|inside| inside[limit] < 0.0)) {
            return;
        }
        let mut outline = corners.to_vec();
        for limit in 0..4 {
            outline = cut(&outline, |spot| self.inside(spot)[limit]);
        }
        if outline.is_empty() {
            return;
        }
        for (index, &from) in outline.iter().enumerate() {
            self.run(from, outline[(index + 1) % outline.len()], path);
        }
        path.shut();
    }

    /// Adds a line to a path, as far as it is visible.
    pub(super) fn line(&self, [mut from, mut to]: [SurfacePoint; 2], path: &mut Path) {
        for limit in 0..4 {
            let (before, after) = (self.inside(from)[limit], self.inside(to)[limit]);
            match (before < 0.0, after < 0.0) {
                (true, true) => return,
                (true, false) => from = between(from, to, before / (before - after)),
                (false, true) => to = between(from, to, before / (before - after)),
                (false, false) => {}
            }
        }
        self.run(from, to, path);
        let (x, y) = self.seen(to);
        path.to(x, y);
        path.lift();
    }

    /// How far a point is inside each of the four limits; negative outside.
    fn inside(&self, (x, turn): SurfacePoint) -> [f64; 4] {
        [x, self.width - x, FRAC_PI_2 + turn, FRAC_PI_2 - turn]
    }

    /// The way from one point to before the next, in pieces short enough to look curved.
    fn run(&self, from: SurfacePoint, to: SurfacePoint, path: &mut Path) {
        let pieces = ((to.1 - from.1).abs() / TURN).ceil().max(1.0);
        let mut piece = 0.0;
        while piece < pieces {
            let (x, y) = self.seen(between(from, to, piece / pieces));
            path.to(x, y);
            piece += 1.0;
        }
    }
}

/// The part of a convex outline that is inside one straight limit; `inside` gives how far inside a point is.
fn cut(outline: &[SurfacePoint], inside: impl Fn(SurfacePoint) -> f64) -> Vec<SurfacePoint> {
    let mut kept = Vec::with_capacity(outline.len() + 1);
    for (index, &here) in outline.iter().enumerate() {
        let next = outline[(index + 1) % outline.len()];
        let (before, after) = (inside(here), inside(next));
        if before >= 0.0 {
            kept.push(here);
        }
        if (before < 0.0) != (after < 0.0) {
            kept.push(between(here, next, before / (before - after)));
        }
    }
    kept
}

fn between(from: SurfacePoint, to: SurfacePoint, share: f64) -> SurfacePoint {
    (
        from.0 + (to.0 - from.0) * share,
        from.1 + (to.1 - from.1) * share,
    )
}
