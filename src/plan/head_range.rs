//! The head over the range of the yarn's label, and the head at the other end.

use crate::base::units::{Length, Mass};
use crate::braid::stretch::{BraidedLine, Piece};
use crate::braid::taper::{Part, Section, Taper};
use crate::braid::weight::{Head, Verdict};
use crate::design::Design;
use crate::plan::layout::Ground;

/// What the head weighs with the finest and with the heaviest yarn its label allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadRange {
    /// With the finest.
    pub low: Mass,
    /// With the heaviest.
    pub high: Mass,
    /// The class of either.
    pub verdicts: (Verdict, Verdict),
}

/// The first 30 ft from the other end of a line that ends in a tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RearHead {
    /// Its mass.
    pub mass: Mass,
    /// Its class.
    pub verdict: Verdict,
}

/// The same threads, wheels and places with other yarn, calculated and not scaled: a heavier yarn also makes a thicker path, a
/// steeper angle and so still more thread. The pieces are those of the head, from the tip on.
pub(super) fn range(
    design: &Design,
    ground: &Ground,
    pieces: &[Piece],
    (from, to): (Length, Length),
) -> HeadRange {
    let spread = design.label_spread();
    let head = |factor| ground.braid_with_yarn(pieces, factor).mass(from, to);
    let (low, high) = (head(1.0 - spread), head(1.0 + spread));
    HeadRange {
        low,
        high,
        verdicts: (Verdict::of(low), Verdict::of(high)),
    }
}

/// The head from the rear, where the line gets thinner towards it and ends in no running line.
pub(super) fn rear(taper: &Taper, line: &BraidedLine) -> Option<RearHead> {
    let length = taper.length();
    let mirrored: Vec<Section> = taper
        .sections()
        .into_iter()
        .rev()
        .filter_map(|section| {
            let part = match section.part {
                Part::RearTip => Part::LevelTip,
                Part::RunningLine => return None,
                part => part,
            };
            Some(Section {
                part,
                from: length - section.to,
                to: length - section.from,
            })
        })
        .collect();
    let begins = mirrored
        .first()
        .filter(|section| section.from == Length::ZERO);
    let ends_in_a_tip =
        begins.is_some_and(|section| matches!(section.part, Part::LevelTip | Part::RearTaper));
    let head = Head::of(&mirrored);
    if !ends_in_a_tip || head.missing(length).is_some() {
        return None;
    }
    let mass = line.mass((length - head.to).max(Length::ZERO), length - head.from);
    Some(RearHead {
        mass,
        verdict: Verdict::of(mass),
    })
}
