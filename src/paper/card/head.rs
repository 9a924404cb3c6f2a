//! The head of the card: what line it is, of which class, by whom and when; and warnings.

use super::blocks::Block;
use super::input::CardInput;
use super::measure::{size_for, width, wrapped};
use super::paper::MARGIN;
use super::sheet::{Anchor, bold, plain};
use super::spacing::Spacing;
use crate::paper::figures::{prediction_detail, range_detail, verdict_detail, verdict_title};
use crate::paper::words;
use crate::plan::days::Day;

/// Most lines of warnings before the rest is counted.
const MOST_WARNINGS: usize = 8;
/// Size of the class, in millimetres.
const CLASS: f64 = 6.2;

/// Title and class, maker and day, and the reasons of the class.
pub(super) fn head(input: &CardInput<'_>, spacing: &Spacing) -> Block {
    let (plan, room) = (input.plan, input.details.paper.room());
    let across = (MARGIN, room);
    let mut block = Block::default();
    let class = verdict_title(&plan.verdict);
    let title = input.design.title();
    let title_room = room - width(&class, bold(CLASS)) - 5.0;
    let sizes = [bold(CLASS), bold(5.0), bold(4.2)];
    let set = size_for(title, title_room, 1, &sizes);
    block.height = CLASS - set.size;
    block.words(set, (MARGIN, title_room), title);
    let at = (MARGIN + room, CLASS);
    block.sheet.text(at, Anchor::End, bold(CLASS), &class);
    block.words(plain(spacing.words), across, &made(input));
    let detail = verdict_detail(plan, input.details.units);
    let copied = copied_from(input);
    let behind = [
        Some(detail),
        prediction_detail(plan),
        range_detail(plan),
        copied,
    ];
    let behind: Vec<String> = behind.into_iter().flatten().map(closed).collect();
    block.words(plain(spacing.words), across, &behind.join(" "));
    block.height += 1.0;
    block.rule(across, 0.35);
    block
}

/// Which line it is a copy of, and what that weighs.
fn copied_from(input: &CardInput<'_>) -> Option<String> {
    let (original, _) = input.design.original()?;
    let weight = original.head().map(|head| {
        format!(
            ", whose first 30 ft weigh {}",
            crate::base::units::show::grains(head)
        )
    });
    Some(format!(
        "A copy of {}{}.",
        original.title(),
        weight.unwrap_or_default()
    ))
}

/// Who made it and when.
fn made(input: &CardInput<'_>) -> String {
    let day = input.details.day.map(Day::words_with_year);
    let maker = (!input.details.maker.is_empty()).then(|| input.details.maker.to_owned());
    let said: Vec<String> = [maker, day].into_iter().flatten().collect();
    said.join(" · ")
}

/// A sentence with its stop.
fn closed(words: String) -> String {
    if words.ends_with('.') {
        words
    } else {
        words + "."
    }
}

/// What speaks against braiding by the plan.
pub(super) fn warnings(input: &CardInput<'_>, spacing: &Spacing) -> Block {
    let said: Vec<String> = words::warnings(&input.plan.notices)
        .map(|notice| format!("▲ {}", words::notice(notice, input.details.units)))
        .collect();
    let (set, room) = (bold(spacing.words), input.details.paper.room());
    let mut block = Block::default();
    let mut lines = 0;
    for (index, words) in said.iter().enumerate() {
        lines += wrapped(words, room, set).len();
        if lines > MOST_WARNINGS {
            let rest = said.len() - index;
            let words = format!("Before you braid: {rest} more warnings on the page.");
            block.words(set, (MARGIN, room), &words);
            break;
        }
        block.words(set, (MARGIN, room), words);
    }
    block
}
