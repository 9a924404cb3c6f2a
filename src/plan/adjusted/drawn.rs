//! A take-off that draws more or less than its gears should, from a place on.

use crate::base::units::Length;
use crate::braid::stretch::Piece;

/// From a place on, the take-off draws so much of what its gears should.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drawn {
    /// From where, from the tip.
    pub from: Length,
    /// Length drawn in one circuit over what the gears should draw.
    pub factor: f64,
}

/// What is drawn at a place; 1 where nothing else is known.
pub(super) fn factor_at(drawn: &[Drawn], at: Length) -> f64 {
    let known = drawn.iter().rfind(|drawn| drawn.from <= at);
    known.map_or(1.0, |drawn| drawn.factor)
}

/// What is known once a check has shown how much is drawn from a place on: it holds in the place of what was thought from there.
pub(super) fn known_from(drawn: &[Drawn], from: Length, factor: f64) -> Vec<Drawn> {
    let before = drawn.iter().filter(|drawn| drawn.from < from);
    let mut known: Vec<Drawn> = before.copied().collect();
    if known.last().map_or(1.0, |before| before.factor) != factor {
        known.push(Drawn { from, factor });
    }
    known
}

/// The pieces with the lay that is really drawn, cut where that changes. Wheels, threads and places stay.
pub(super) fn pieces(pieces: Vec<Piece>, drawn: &[Drawn]) -> Vec<Piece> {
    if drawn.is_empty() {
        return pieces;
    }
    let mut cut = Vec::with_capacity(pieces.len() + drawn.len());
    for piece in pieces {
        let inside = |from: &Length| piece.from < *from && *from < piece.to;
        let places = drawn.iter().map(|drawn| drawn.from).filter(inside);
        let mut from = piece.from;
        for to in places.chain([piece.to]) {
            let lay = piece.lay * factor_at(drawn, from);
            cut.push(Piece {
                from,
                to,
                lay,
                ..piece
            });
            from = to;
        }
    }
    cut
}
