//! Lines as the air knows them: planned, as drawn, and the measured line that one is a copy of.

use super::contents::Plan;
use super::drawn_mass::DrawnMass;
use crate::base::units::{Length, LinearDensity, Mass};
use crate::braid::stretch::Stretch;
use crate::braid::taper::{Point, Taper};
use crate::braid::weight::Head;
use crate::design::Design;
use crate::measured::volume;
use crate::plan::layout::Ground;
use crate::turnover::{FlyLine, LinePiece};

/// Longest piece whose size and mass change evenly.
const LONGEST_PIECE: Length = Length::from_metres(0.1);

impl Plan {
    /// The finished line as it will be braided, threads in whole numbers.
    pub fn fly_line(&self) -> Option<FlyLine> {
        let of_stretch = |stretch: &Stretch| {
            let (from, to) = (stretch.piece.from, stretch.piece.to);
            pieces((from, to), |at| {
                let dressed = self.line.station_in(stretch, at).dressed;
                (dressed.diameter, dressed.linear_density)
            })
        };
        FlyLine::new(self.line.stretches().iter().flat_map(of_stretch).collect())
    }
}

/// Lines exactly as drawn, as if threads could be divided: they change evenly with each point. What they are braided of, and how, is
/// that of one design; their tapers may be any, also such as lie between the steps of a design.
#[derive(Clone, Debug)]
pub struct AsDrawn(Ground);

impl AsDrawn {
    /// Lines braided as a design says.
    pub fn of(design: &Design) -> Self {
        Self(Ground::of(design))
    }

    /// The finished line of a taper.
    pub fn fly_line(&self, taper: &Taper) -> Option<FlyLine> {
        let drawn = DrawnMass::of(&self.0);
        of_taper(taper, |size| drawn.of_diameter(size))
    }

    /// What a taper weighs between two places.
    pub fn mass_between(&self, taper: &Taper, ends: (Length, Length)) -> Mass {
        DrawnMass::of(&self.0).mass_of(taper, ends)
    }
}

/// The measured line that a design is a copy of, as its readings have it; `None` where it is a copy of none. Where its first 30 ft were
/// weighed it has the mass per volume that follows; else it weighs what a braid of the design of the same size would.
pub fn original_fly_line(design: &Design) -> Option<FlyLine> {
    let (original, taper) = design.original()?;
    let head = Head::of(&taper.sections());
    let is_whole = head.missing(taper.length()).is_none();
    if let Some(mass) = original.head().filter(|_| is_whole) {
        let density = mass / volume(&taper, (head.from, head.to));
        return of_taper(&taper, |size| size.circle() * density);
    }
    let ground = Ground::of(design);
    let drawn = DrawnMass::of(&ground);
    of_taper(&taper, |size| drawn.of_diameter(size))
}

fn of_taper(taper: &Taper, mass: impl Fn(Length) -> LinearDensity) -> Option<FlyLine> {
    let of_piece = |pair: &[Point]| {
        pieces((pair[0].at, pair[1].at), |at| {
            let size = taper.diameter_at(at);
            (size, mass(size))
        })
    };
    FlyLine::new(taper.points().windows(2).flat_map(of_piece).collect())
}

/// Short pieces between two places, from what the line is like at each.
fn pieces(
    (from, to): (Length, Length),
    of: impl Fn(Length) -> (Length, LinearDensity),
) -> Vec<LinePiece> {
    let length = to - from;
    if length <= Length::ZERO {
        return Vec::new();
    }
    let count = (length / LONGEST_PIECE).ceil().max(1.0);
    let mut pieces = Vec::new();
    let (mut index, mut before) = (0.0, of(from));
    while index < count {
        index += 1.0;
        let after = of(from + length * (index / count));
        pieces.push(LinePiece {
            length: length / count,
            diameter: [before.0, after.0],
            linear_density: [before.1, after.1],
        });
        before = after;
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;

    #[test]
    fn the_planned_line_has_the_length_and_mass_of_the_plan() {
        let plan = Plan::of(&demo());
        let line = plan.fly_line().unwrap();
        assert!((line.length() / plan.length - 1.0).abs() < 1e-9);
        assert!((line.mass() / plan.total_mass - 1.0).abs() < 1e-3);
    }

    #[test]
    fn the_drawn_line_weighs_what_is_drawn() {
        let design = demo();
        let plan = Plan::of(&design);
        let line = AsDrawn::of(&design).fly_line(&design.taper()).unwrap();
        let drawn = plan.head_drawn.unwrap();
        let front =
            |length: Length| -> Mass { line.front(length).iter().map(LinePiece::mass).sum() };
        let head = front(plan.head.to) - front(plan.head.from);
        assert!((head / drawn - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_line_that_is_no_copy_has_no_original() {
        assert_eq!(original_fly_line(&demo()), None);
    }
}
