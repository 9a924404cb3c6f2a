//! The map of the machine at the start; beside it weights, sizes, and what a maker must know to braid by the schedule.

use super::blocks::Block;
use super::input::CardInput;
use super::measure::width;
use super::paper::MARGIN;
use super::sheet::{Anchor, Type, bold, plain};
use super::spacing::Spacing;
use super::start_map::StartMap;
use crate::paper::figures::{FIGURES, ON_CARD};
use crate::paper::words;
use crate::plan::Action;

/// Room between the map and what stands beside it, in millimetres.
const BESIDE: f64 = 5.0;
/// What the map shows.
const LEGEND: &str = "The machine at the start, from above. Round carriers run clockwise (cw), square ones \
    counter-clockwise (ccw). Black: threaded at the start.";
/// What stands beside the carriers.
const ORDER: &str =
    "Beside a carrier, the order of its first change: + add, − drop, h swap to its heavier thread.";
/// Where that has no room.
const NO_ORDER: &str = "The schedule gives the order of the other carriers.";

/// The figures that stay where there is little room: what is wanted at the machine and the scales.
const FEWEST: [&str; 8] = [
    "head-mass",
    "head-bare-mass",
    "total-mass",
    "bare-mass",
    "length",
    "circuits",
    "braiding-time",
    "yarn-mass",
];

/// Map and figures.
pub(super) fn order(input: &CardInput<'_>, spacing: &Spacing) -> Block {
    let StartMap { drawn, has_order } = &input.map;
    let mut block = drawn.clone();
    let side = block.height;
    let left = MARGIN + side + BESIDE;
    let room = input.details.paper.room() - side - BESIDE;
    let mut words = Block::default();
    figures(&mut words, input, (left, room), spacing);
    words.height += 1.0;
    let legend = [LEGEND, if *has_order { ORDER } else { NO_ORDER }];
    rules(&mut words, input, spacing, (left, room), legend);
    words.put(&mut block.sheet, 0.0);
    block.height = words.height.max(side);
    block
}

/// Weights and sizes, in two columns where names and values have room beside each other.
fn figures(block: &mut Block, input: &CardInput<'_>, (left, room): (f64, f64), spacing: &Spacing) {
    let set = plain(spacing.small);
    let heavy = Type { bold: true, ..set };
    let rows: Vec<(&str, String)> = FIGURES
        .iter()
        .filter(|figure| ON_CARD.contains(&figure.key))
        .filter(|figure| !spacing.is_brief || FEWEST.contains(&figure.key))
        .map(|figure| {
            (
                figure.name,
                (figure.value)(input.plan, input.details.units).text,
            )
        })
        .collect();
    let gap = 5.0;
    let half = (room - gap) / 2.0;
    let needs = |(name, value): &(&str, String)| width(name, set) + width(value, heavy) + 1.5;
    let (columns, column) = if rows.iter().all(|row| needs(row) <= half) {
        (2, half)
    } else {
        (1, room)
    };
    let lines = rows.len().div_ceil(columns);
    let pitch = set.size * 1.3;
    for (index, (name, value)) in rows.iter().enumerate() {
        let left = left + (index / lines) as f64 * (half + gap);
        let y = (index % lines + 1) as f64 * pitch - set.size * 0.3;
        let end = (left + column, y);
        block.sheet.text((left, y), Anchor::Start, set, name);
        block.sheet.text(end, Anchor::End, heavy, value);
    }
    block.height += lines as f64 * pitch;
}

/// What must be known to braid by the schedule.
fn rules(
    block: &mut Block,
    input: &CardInput<'_>,
    spacing: &Spacing,
    place: (f64, f64),
    legend: [&str; 2],
) {
    let (design, plan, units) = (input.design, input.plan, input.details.units);
    block.words(plain(spacing.small), place, &words::made_of(design));
    let tension = words::tension(input.details.tension);
    block.words(plain(spacing.small), place, &tension);
    if let Some(Action::Start(set)) = plan.events.first().map(|event| &event.action) {
        let start = format!("Threaded at the start: {}.", words::set(set));
        block.words(bold(spacing.small), place, &start);
    }
    let ply: Vec<String> = plan
        .plying
        .iter()
        .map(|kind| words::ply(kind, units))
        .collect();
    let ply = format!(
        "To ply: {}. This includes {} for lead-in and waste each time a thread is added, tails, and the lead-in.",
        ply.join("; "),
        units.show_yarn(design.thread_allowance(), 1)
    );
    block.words(plain(spacing.small), place, &ply);
    let columns = format!(
        "In the schedule, on: threads engaged from there; {}: crossings along one rib. Circuits count from the row before.",
        units.show_crossings_unit()
    );
    let said = [
        legend.join(" "),
        words::lead_in(design.lead_in(), units),
        words::pair(design.draft().train).to_owned(),
    ];
    let more = [
        words::MEASURING.to_owned(),
        words::tails(design.buried_tail(), units),
        columns,
        words::NUMBERING.to_owned(),
    ];
    let more = more.into_iter().filter(|_| !spacing.is_brief);
    let said = said.into_iter().chain(more);
    let said: Vec<String> = said.filter(|words| !words.is_empty()).collect();
    block.words(plain(spacing.small), place, &said.join(" "));
}
