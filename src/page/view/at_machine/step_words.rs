//! What the steps are called at the machine.

use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::design::Design;
use crate::paper::words;
use crate::plan::{Action, Event};

/// Said before anybody reaches into the machine.
pub(super) const AT_REST: &str = "Stop the machine and let it come to rest before you reach in.";

/// All of a step in one line: `Drop the thread on clockwise 3; take the gear 22 off, fit 23`.
pub(super) fn step_words(step: &[Event]) -> String {
    let mut words = step.iter().map(operation_words);
    let first = words.next().unwrap_or_default();
    words.fold(first, |all, next| {
        // Only the first begins a sentence.
        let (initial, rest) = next.split_at(1);
        format!("{all}; {}{rest}", initial.to_lowercase())
    })
}

/// One operation in large words, without a full stop.
pub(super) fn operation_words(event: &Event) -> String {
    match &event.action {
        Action::Add { carrier, ends } => format!(
            "Add a thread of {ends} ends on {}",
            words::carrier(*carrier)
        ),
        Action::Drop { carrier, .. } => format!("Drop the thread on {}", words::carrier(*carrier)),
        Action::Swap { carrier, from, to } => format!(
            "On {}, take off the thread of {from} ends and put on that of {to}",
            words::carrier(*carrier)
        ),
        Action::Gear { from, to } => format!("Take off the gear {from} and fit {to}"),
        Action::Start(set) => format!("Thread {} carriers", set.len()),
        Action::End(_) => "The line is long enough: cut it after this place".to_owned(),
    }
}

/// The gear to fit before a line is begun.
pub(super) fn fit_words(start: &Event) -> String {
    format!("Fit the gear {}", start.wheels)
}

/// What becomes of a dropped thread's end, and what to do before a thread is added; `later_mark` is the marking of bobbins that enter
/// later.
pub(super) fn tail_words(
    event: &Event,
    design: &Design,
    later_mark: &str,
    units: Units,
) -> Option<String> {
    match event.action {
        Action::Add { .. } if later_mark.is_empty() => {
            return Some("Free its weight first.".to_owned());
        }
        Action::Add { .. } => {
            return Some(format!(
                "Free its weight first. Its bobbin is marked: {later_mark}."
            ));
        }
        Action::Drop { .. } => {}
        _ => return None,
    }
    let tail = design.buried_tail();
    Some(if tail > Length::ZERO {
        let long = units.show_short(tail);
        format!("Cut it {long} long and lay its tail into the core.")
    } else {
        "Cut it flush.".to_owned()
    })
}
