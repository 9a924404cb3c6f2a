//! The foot of the card: dressing in short, what can hurt, the maker's notes, the address of the page, and beside it the code of the line.

use super::blocks::Block;
use super::input::CardInput;
use super::paper::MARGIN;
use super::sheet::plain;
use super::spacing::Spacing;
use crate::base::choice::Choice as _;
use crate::braid::recipe::Caution;
use crate::paper::code::LARGEST_MM;
use crate::paper::words;
use crate::paper::words::ledger::ShownLedger;
use crate::plan::StepReport;

/// The sentence on every sheet.
pub(super) const AT_THE_MACHINE: &str = "Machine at rest before you reach in. Guards stay on.";
/// Room between the words and the code, in millimetres.
const BESIDE: f64 = 4.0;

/// The foot.
pub(super) fn foot(input: &CardInput<'_>, spacing: &Spacing) -> Block {
    let room = input.details.paper.room();
    let words = (MARGIN, room - LARGEST_MM - BESIDE);
    let mut block = Block::default();
    block.rule(words, 0.35);
    let set = plain(spacing.small);
    if !spacing.is_brief {
        block.headed(set, words, "Dressing:", &dressing(input));
    }
    block.headed(set, words, "Take care:", &cautions(input, spacing.is_brief));
    let notes = &input.design.draft().notes;
    if !notes.is_empty() {
        block.headed(set, words, "Notes:", notes);
    }
    if let Ok(link) = input.details.link {
        block.words(set, words, &address(link));
    }
    input.code.put(&mut block.sheet, 0.0);
    block.height = block.height.max(LARGEST_MM);
    block
}

/// Where the page is: the code beside it carries the line.
fn address(link: &str) -> String {
    let page = link.split('#').next().unwrap_or_default();
    let page = page
        .trim_start_matches("https://")
        .trim_start_matches("http://");
    format!(
        "The code opens this line at {}.",
        page.trim_end_matches('/')
    )
}

/// The steps in one line of words: `1 Oil under vacuum, 2 h · 100 mbar: pour …`.
fn dressing(input: &CardInput<'_>) -> String {
    let steps = &input.plan.dressing;
    if steps.is_empty() {
        return "None: the line stays as braided.".to_owned();
    }
    let steps: Vec<String> = (1..)
        .zip(steps)
        .map(|(n, step)| in_short(n, step))
        .collect();
    format!(
        "{}. Amounts and days are on the dressing plan.",
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
    let ledger = ShownLedger::of(report);
    let then = if ledger.changes.is_empty() {
        String::new()
    } else {
        format!(", {}", ledger.short())
    };
    format!("{number} {}{values}{then}", report.step.kind.name())
}

/// What can hurt at the machine; where the steps of the dressing are on the card, in them too.
fn cautions(input: &CardInput<'_>, is_brief: bool) -> String {
    let is_met = |caution: &&Caution| {
        let steps = &input.design.draft().recipe;
        **caution == Caution::Blades
            || !is_brief
                && steps
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
