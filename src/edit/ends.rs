//! The two ends of a drawing. Whether they are alike is read from the drawing and not kept in the design: so no drawing can
//! contradict its own flag, and no format has to know of it.

use super::grid::stretches;
use super::options::LineEnds;
use crate::base::units::Length;
use crate::braid::taper::LEVEL_WITHIN;
use crate::design::Design;

/// Stretches that differ by no more than this, in steps of the grid, count as alike: 1 mm.
const ALIKE_WITHIN: i64 = 10;

/// Whether both ends of a drawing are alike: each point at some distance from the tip has one of the same size at the same
/// distance from the rear.
pub fn ends_are_alike(design: &Design) -> bool {
    let taper = design.taper();
    let (points, stretches) = (taper.points(), stretches(&design.draft().points));
    let of_one_size = |a: Length, b: Length| (a - b).abs() <= LEVEL_WITHIN;
    let pairs = || points.iter().zip(points.iter().rev());
    let is_alike = |(a, b): (&i64, &i64)| (a - b).abs() <= ALIKE_WITHIN;
    stretches.iter().zip(stretches.iter().rev()).all(is_alike)
        && pairs().all(|(a, b)| of_one_size(a.diameter, b.diameter))
}

/// Whether both ends are alike and are to stay so.
pub(super) fn keeps_ends_alike(design: &Design, ends: LineEnds) -> bool {
    ends == LineEnds::Alike && ends_are_alike(design)
}
