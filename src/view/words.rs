//! What carriers, actions and notices are called on screen and on paper.

use crate::plan::{Action, Event, Notice};
use crate::track::{Carrier, Direction};
use crate::units::show::{self, Units};

/// A carrier as a maker numbers it: from 1, in track order, each direction by itself.
pub(crate) fn carrier(carrier: Carrier) -> String {
    format!("{} {}", direction(carrier.direction), carrier.number + 1)
}

/// The same where room is short.
pub(crate) fn short(carrier: Carrier) -> String {
    format!("{} {}", carrier.direction.short(), carrier.number + 1)
}

fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::Clockwise => "clockwise",
        Direction::CounterClockwise => "counter\u{2011}clockwise",
    }
}

/// A set of carriers by direction: `clockwise 1, 3; counter‑clockwise 2, 4`.
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

/// A notice in full: what is the matter, and what to do.
pub(crate) fn notice(notice: &Notice, units: Units) -> String {
    match notice {
        Notice::TooThick {
            wanted,
            most,
            possible,
        } => format!(
            "The drawing calls for {wanted:.1} threads where it is thickest; the machine has {most} carriers, which \
             make at most {}. Draw it thinner, or ply more ends to a thread.",
            units.show_diameter_short(*possible)
        ),
        Notice::TooThin {
            wanted,
            fewest,
            possible,
        } => format!(
            "The drawing calls for {wanted:.1} threads where it is thinnest; you braid with at least {fewest}, which \
             make {}. Draw it thicker, or ply fewer ends to a thread.",
            units.show_diameter_short(*possible)
        ),
        Notice::AngleOff {
            stretches,
            from,
            angle,
            mended,
        } => format!(
            "On {} no gear you own brings the angle within your tolerance. The worst begins at {}: {}. {}",
            if *stretches == 1 {
                "one stretch".to_owned()
            } else {
                format!("{stretches} stretches")
            },
            units.show_position(*from),
            show::angle(*angle),
            match mended {
                Some((teeth, angle)) => format!(
                    "A gear of {teeth} teeth would make it {}.",
                    show::angle(*angle)
                ),
                None => "No single wheel would: another partner, or a wider tolerance.".to_owned(),
            }
        ),
        Notice::Unsound { threads, carriers } => format!(
            "With {threads} threads no set of carriers was found that holds: {} would never pass both over and under. Do \
             not braid so; change the fewest threads, or the pattern.",
            self::carriers(carriers)
        ),
    }
}

/// How the carriers are numbered; the plan's crossings depend on it.
pub(crate) const NUMBERING: &str = "Each direction is numbered from 1. Clockwise 1 is any clockwise carrier you choose, \
    clockwise 2 the one ahead of it, and so on. Counter\u{2011}clockwise 1 is the first carrier that clockwise 1 passes \
    outside of after having passed inside one; the next it meets is counter\u{2011}clockwise 2, and so on.";

/// Where lengths count.
pub(crate) const MEASURING: &str =
    "Lengths count from where braiding began, at the point where the threads meet.";
