//! The link as a code to scan.

use super::blocks::{Block, LINE};
use super::input::CardDetails;
use super::measure::wrapped;
use super::paper::MARGIN;
use super::sheet::{Anchor, Paint, Placement, plain};
use super::spacing::LEAST;
use crate::paper::code::{Code, LARGEST_MM, QUIET};

/// The link as a code at the right, or why there is none: the same however close the card is set.
pub(super) fn code(details: &CardDetails<'_>) -> Block {
    let mut block = Block::default();
    let left = MARGIN + details.paper.room() - LARGEST_MM;
    let said = match details.link.map(Code::of) {
        Ok(Ok(code)) => {
            let (side, quiet) = (code.module_mm(), f64::from(QUIET));
            let place = Placement {
                at: (left + quiet * side, quiet * side),
                scale: side,
                turn: 0.0,
            };
            block.sheet.path(place, Paint::Squares, code.path());
            return block;
        }
        Ok(Err(too_long)) => too_long.to_string(),
        Err(said) => said.to_owned(),
    };
    let mut y = 0.0;
    for line in wrapped(&said, LARGEST_MM, plain(LEAST)) {
        y += LEAST * LINE;
        block
            .sheet
            .text((left, y), Anchor::Start, plain(LEAST), &line);
    }
    block
}
