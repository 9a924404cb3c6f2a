//! The scale of the chart on the page, in the manner the reader wants it.

use super::folds::Folds;
use super::map::Scale;
use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::braid::taper::Taper;
use crate::design::Design;
use crate::plan::Plan;

/// How the chart draws a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Manner {
    /// Whether long level stretches are drawn short.
    pub is_folded: bool,
    /// Whether thickness begins at a core that is not drawn.
    pub is_cut: bool,
}

impl Scale {
    /// A scale that shows the whole of a line on a chart of this size, in pixels, with room for another one behind it.
    pub fn on_chart(
        (design, plan): (&Design, &Plan),
        other: Option<(&Design, &Plan)>,
        manner: Manner,
        units: Units,
        size: (f64, f64),
    ) -> Self {
        let mut scale = Self::of(design, plan, units, size);
        if let Some((design, plan)) = other {
            let thickest = design.taper().thickest().max(plan.belly.dressed.diameter);
            let loads = plan.line.stretches().iter();
            let threads = loads.map(|stretch| stretch.piece.load.yarn);
            scale = scale.with_room_for(plan.length, thickest, threads.fold(0.0, f64::max));
        }
        // The line it is a copy of needs room too, while no other is compared with.
        let original = design.original_taper().filter(|_| other.is_none());
        if let Some(original) = &original {
            scale = scale.with_room_for(original.length(), original.thickest(), 0.0);
        }
        if manner.is_cut {
            let behind = other.map(|(design, plan)| thinnest(design, plan));
            let behind = behind.or_else(|| original.as_ref().map(Taper::thinnest));
            let own = thinnest(design, plan);
            scale = scale.with_core_below(behind.map_or(own, |behind| behind.min(own)));
        }
        if manner.is_folded {
            let behind = other.map(|(design, _)| design.taper()).or(original);
            let folds = Folds::of(&design.taper(), behind.as_ref(), scale.band_width());
            scale = scale.with_folds(folds);
        }
        scale
    }
}

/// The thinnest place of a line, drawn or braided, bare or dressed.
fn thinnest(design: &Design, plan: &Plan) -> Length {
    let stretches = plan.line.stretches().iter();
    let braided = stretches.flat_map(|stretch| {
        let ends = [stretch.from(), stretch.to()];
        ends.map(|at| plan.line.station_in(stretch, at).braid.diameter)
    });
    braided.fold(design.taper().thinnest(), Length::min)
}
