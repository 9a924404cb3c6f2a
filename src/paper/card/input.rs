//! What a card is made from.

use super::blocks::Block;
use super::paper::Paper;
use super::start_map::StartMap;
use crate::base::units::show::Units;
use crate::design::Design;
use crate::design::check::is_unseen;
use crate::plan::Plan;
use crate::plan::days::Day;

/// Most characters in the name of a maker.
pub const MAKER_ROOM: usize = 60;

/// What a card says in addition to the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CardDetails<'a> {
    /// Who braids the line; nothing where that is not given.
    pub maker: &'a str,
    /// How the carriers pull, in the maker's own words; nothing where that is not noted.
    pub tension: &'a str,
    /// The day it was made, where it is known.
    pub day: Option<Day>,
    /// The whole link of the line; else why there is none.
    pub link: Result<&'a str, &'a str>,
    /// The reader's units.
    pub units: Units,
    /// What it is printed on.
    pub paper: Paper,
}

/// What a card is made from.
pub(super) struct CardInput<'a> {
    pub(super) design: &'a Design,
    pub(super) plan: &'a Plan,
    pub(super) details: CardDetails<'a>,
    /// The machine at the start.
    pub(super) map: StartMap,
    /// The code of the link, or why there is none.
    pub(super) code: Block,
}

/// A maker's name as it may stand on a card: without unseen characters, and no longer than [`MAKER_ROOM`].
pub fn maker(raw: &str) -> String {
    let shown = |c: &char| !c.is_control() && !is_unseen(*c);
    let clean: String = raw.chars().filter(shown).take(MAKER_ROOM).collect();
    clean.trim().to_owned()
}
