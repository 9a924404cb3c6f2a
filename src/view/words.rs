//! What carriers and actions are called on screen and on paper.

use crate::plan::{Action, Event};
use crate::track::{Carrier, Direction};

/// A carrier as a maker numbers it: from 1, in track order, each direction by itself.
pub(crate) fn carrier(carrier: Carrier) -> String {
    format!("{} {}", direction(carrier.direction), carrier.number + 1)
}

/// The same where room is short.
pub(crate) fn short(carrier: Carrier) -> String {
    let way = match carrier.direction {
        Direction::Clockwise => "cw",
        Direction::CounterClockwise => "ccw",
    };
    format!("{way} {}", carrier.number + 1)
}

fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::Clockwise => "clockwise",
        Direction::CounterClockwise => "counter-clockwise",
    }
}

/// A set of carriers by direction: `clockwise 1, 3 and counter-clockwise 2, 4`.
pub(crate) fn carriers(set: &[Carrier]) -> String {
    let listed = |way: Direction| {
        let mut numbers: Vec<u32> = set
            .iter()
            .filter(|c| c.direction == way)
            .map(|c| c.number + 1)
            .collect();
        numbers.sort_unstable();
        let numbers: Vec<String> = numbers.iter().map(u32::to_string).collect();
        (!numbers.is_empty()).then(|| format!("{} {}", direction(way), numbers.join(", ")))
    };
    let ways = [Direction::Clockwise, Direction::CounterClockwise];
    ways.into_iter()
        .filter_map(listed)
        .collect::<Vec<_>>()
        .join("; ")
}

/// The word of an action in `data-event`.
pub(crate) fn event_key(action: &Action) -> &'static str {
    match action {
        Action::Start(_) => "start",
        Action::Add(_) => "add",
        Action::Drop(_) => "drop",
        Action::Gear { .. } => "gear",
        Action::End(_) => "end",
    }
}

/// The keys of the carriers an action is about, as in `data-carrier`.
pub(crate) fn carrier_keys(action: &Action) -> Option<String> {
    match action {
        Action::Start(set) | Action::End(set) => Some(
            set.iter()
                .map(Carrier::to_string)
                .collect::<Vec<_>>()
                .join(" "),
        ),
        Action::Add(carrier) | Action::Drop(carrier) => Some(carrier.to_string()),
        Action::Gear { .. } => None,
    }
}

/// What to do, in one short sentence.
pub(crate) fn deed(event: &Event) -> String {
    match &event.action {
        Action::Start(set) => format!("Start with {} threads, gear {}", set.len(), event.gear),
        Action::Add(added) => format!("Add {}", carrier(*added)),
        Action::Drop(dropped) => format!("Drop {}", carrier(*dropped)),
        Action::Gear { from, to } => format!("gear {from} off, {to} on"),
        Action::End(_) => "End of the line".to_owned(),
    }
}
