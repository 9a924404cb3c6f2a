//! The foot of the card: dressing in short, what can hurt, the maker's notes, the link as text, and as a code beside it.

use super::blocks::Block;
use super::measure::wrapped;
use super::sheet::{Anchor, Paint, Place, plain};
use super::{Beside, Level, MARGIN, Matter};
use crate::base::choice::Choice as _;
use crate::base::units::show;
use crate::braid::recipe::Caution;
use crate::paper::code::{Code, LARGEST_MM, QUIET};
use crate::paper::words;
use crate::plan::StepReport;

/// What is always said.
pub(super) const AT_THE_MACHINE: &str = "Machine at rest before you reach in. Guards stay on.";
/// Size in which the link is written out, in millimetres: it is copied at need, not read.
const LINK: f64 = 1.95;
/// Room between the words and the code, in millimetres.
const BESIDE: f64 = 4.0;

/// The foot.
pub(super) fn foot(matter: &Matter<'_>, level: &Level) -> Block {
    let room = matter.beside.paper.room();
    let words = (MARGIN, room - LARGEST_MM - BESIDE);
    let mut block = Block::default();
    block.rule(words, 0.35);
    let set = plain(level.small);
    block.headed(set, words, "Dressing:", &dressing(matter));
    block.headed(set, words, "Take care:", &cautions(matter));
    let notes = &matter.design.draft().notes;
    if !notes.is_empty() {
        block.headed(set, words, "Notes:", notes);
    }
    if let Ok(link) = matter.beside.link {
        block.height += 0.6;
        block.words(plain(LINK), words, link);
    }
    matter.code.put(&mut block.sheet, 0.0);
    block.height = block.height.max(LARGEST_MM);
    block
}

/// The steps in one line of words: `1 Oil under vacuum, 2 h · 100 mbar: pour …`.
fn dressing(matter: &Matter<'_>) -> String {
    let steps = &matter.plan.dressing;
    if steps.is_empty() {
        return "None: the line stays as braided.".to_owned();
    }
    let steps: Vec<String> = (1..)
        .zip(steps)
        .map(|(n, step)| in_short(n, step))
        .collect();
    format!(
        "{}. Amounts and days stand on the dressing plan.",
        steps.join("; ")
    )
}

fn in_short(number: usize, report: &StepReport) -> String {
    let values = words::step_values(&report.step);
    let values = if values.is_empty() {
        values
    } else {
        format!(", {values}")
    };
    let then = report
        .coat
        .map(|_| format!(", then {}", show::grams(report.mass)))
        .unwrap_or_default();
    format!("{number} {}{values}{then}", report.step.kind.name())
}

/// What can hurt, at the machine and in the steps of this line's dressing.
fn cautions(matter: &Matter<'_>) -> String {
    let is_met = |caution: &&Caution| {
        let steps = &matter.design.draft().recipe;
        **caution == Caution::Blades
            || steps
                .iter()
                .any(|step| step.kind.cautions().contains(*caution))
    };
    let met = Caution::ALL
        .iter()
        .filter(is_met)
        .map(|caution| caution.words());
    let all: Vec<&str> = [AT_THE_MACHINE]
        .into_iter()
        .chain(met)
        .chain([Caution::DEFERRING])
        .collect();
    all.join(" ")
}

/// The link as a code at the right, or why there is none: the same however close the card is set.
pub(super) fn code(beside: &Beside<'_>) -> Block {
    let mut block = Block::default();
    let left = MARGIN + beside.paper.room() - LARGEST_MM;
    let said = match beside.link.map(Code::of) {
        Ok(Ok(code)) => {
            let (side, quiet) = (code.module_mm(), f64::from(QUIET));
            let place = Place {
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
    for line in wrapped(&said, LARGEST_MM, plain(2.3)) {
        y += 2.3 * super::blocks::LINE;
        block
            .sheet
            .text((left, y), Anchor::Start, plain(2.3), &line);
    }
    block
}
