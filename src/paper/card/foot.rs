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
    let steps = if spacing.is_brief {
        step_names(input)
    } else {
        dressing(input)
    };
    block.headed(set, words, "Dressing:", &steps);
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

/// The steps by name; the dressing plan says the rest.
fn step_names(input: &CardInput<'_>) -> String {
    let names: Vec<&str> = input
        .plan
        .dressing
        .iter()
        .map(|step| step.step.kind.name())
        .collect();
    if names.is_empty() {
        return "None: the line stays as braided.".to_owned();
    }
    format!("{}. See the dressing plan.", names.join(", "))
}

/// What can hurt, at the machine and in the steps of this line's dressing. Where there is little room, the dressing plan says more
/// of all but the rags: they catch fire when nobody is at work.
fn cautions(input: &CardInput<'_>, is_brief: bool) -> String {
    let steps = &input.design.draft().recipe;
    let is_met = |caution: &Caution| {
        *caution == Caution::Blades
            || steps
                .iter()
                .any(|step| step.kind.cautions().contains(caution))
    };
    let is_full =
        |caution: &Caution| !is_brief || matches!(caution, Caution::Blades | Caution::OilyRags);
    let met = || Caution::ALL.into_iter().filter(is_met);
    let full = met().filter(is_full).map(Caution::words);
    let names: Vec<&str> = met()
        .filter(|one| !is_full(one))
        .map(words::danger)
        .collect();
    let short = (!names.is_empty()).then(|| format!("In the dressing also: {}.", names.join(", ")));
    let all: Vec<String> = core::iter::once(AT_THE_MACHINE.to_owned())
        .chain(full.map(str::to_owned))
        .chain(short)
        .chain([Caution::DEFERRING.to_owned()])
        .collect();
    all.join(" ")
}
