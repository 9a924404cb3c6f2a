//! Both lines at their control points.

use super::{Amount, Compared};
use crate::base::units::Length;
use crate::braid::taper::Taper;
use crate::design::Design;
use crate::plan::Plan;

/// Control points that lie closer than this behind a place already listed are not listed beside it. Our own choice.
pub const MERGED_WITHIN: Length = Length::from_millimetres(50.0);

/// Both lines at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Distance from the tip; a control point of one of the two.
    pub at: Length,
    /// One's own line there; `None` where it is not that long.
    pub mine: Option<Place>,
    /// The other line there.
    pub other: Option<Place>,
}

/// One line at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Finished diameter as drawn.
    pub drawn: Length,
    /// Finished diameter as whole threads make it.
    pub made: Length,
    /// Threads engaged.
    pub threads: u32,
}

impl Station {
    /// What is compared there: diameter drawn and made, and threads.
    pub fn rows(&self) -> [Compared; 3] {
        let row = |key, name, amount: fn(Place) -> Amount| Compared {
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

/// The stations of two lines, in order from the tip.
pub(super) fn of(mine: (&Design, &Plan), other: (&Design, &Plan)) -> Vec<Station> {
    let tapers = [mine.0.taper(), other.0.taper()];
    places(&tapers)
        .into_iter()
        .map(|at| Station {
            at,
            mine: place(&tapers[0], mine.1, at),
            other: place(&tapers[1], other.1, at),
        })
        .collect()
}

/// The control points of both, each far enough behind the one before. Of two near each other the first is kept: there
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

fn place(taper: &Taper, plan: &Plan, at: Length) -> Option<Place> {
    (at <= taper.length()).then(|| {
        let station = plan.station(at);
        Place {
            drawn: taper.diameter_at(at),
            made: station.dressed.diameter,
            threads: station.piece.load.threads,
        }
    })
}
