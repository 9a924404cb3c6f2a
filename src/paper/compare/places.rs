//! Both lines at their control points.

use super::amount::Amount;
use super::compared::Compared;
use crate::base::units::Length;
use crate::braid::taper::Taper;
use crate::design::Design;
use crate::plan::Plan;

/// Control points that lie less than this after a place already listed are left out. Our own choice.
pub const MERGED_WITHIN: Length = Length::from_millimetres(50.0);

/// Both lines at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComparedPlace {
    /// Distance from the tip; a control point of one of the two.
    pub at: Length,
    /// One's own line there; `None` where it is not that long.
    pub mine: Option<PlaceValues>,
    /// The other line there.
    pub other: Option<PlaceValues>,
}

/// One line at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaceValues {
    /// Finished diameter as drawn.
    pub drawn: Length,
    /// Finished diameter as whole threads make it.
    pub made: Length,
    /// Threads engaged.
    pub threads: u32,
}

impl ComparedPlace {
    /// What is compared there: diameter drawn and made, and threads.
    pub fn rows(&self) -> [Compared; 3] {
        let row = |key, name, amount: fn(PlaceValues) -> Amount| Compared {
            key,
            name,
            mine: self.mine.map(amount),
            other: self.other.map(amount),
        };
        [
            row("drawn", "drawn", |place| Amount::Diameter(place.drawn)),
            row("made", "made", |place| Amount::Diameter(place.made)),
            row("threads", "threads", |place| {
                Amount::Count(f64::from(place.threads))
            }),
        ]
    }
}

/// The places of two lines, in order from the tip.
pub(super) fn of(mine: (&Design, &Plan), other: (&Design, &Plan)) -> Vec<ComparedPlace> {
    let tapers = [mine.0.taper(), other.0.taper()];
    places(&tapers)
        .into_iter()
        .map(|at| ComparedPlace {
            at,
            mine: place(&tapers[0], mine.1, at),
            other: place(&tapers[1], other.1, at),
        })
        .collect()
}

/// The control points of both, each far enough after the one before. Of two near each other the first is kept: there
/// both lines are most likely still to be found.
fn places(tapers: &[Taper; 2]) -> Vec<Length> {
    let points = tapers.iter().flat_map(Taper::points);
    let mut all: Vec<Length> = points.map(|point| point.at).collect();
    all.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
    let mut kept: Vec<Length> = Vec::new();
    for at in all {
        if kept.last().is_none_or(|&last| at - last >= MERGED_WITHIN) {
            kept.push(at);
        }
    }
    kept
}

fn place(taper: &Taper, plan: &Plan, at: Length) -> Option<PlaceValues> {
    (at <= taper.length()).then(|| {
        let station = plan.station(at);
        PlaceValues {
            drawn: taper.diameter_at(at),
            made: station.dressed.diameter,
            threads: station.piece.load.threads,
        }
    })
}
