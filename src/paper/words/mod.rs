//! What carriers, actions, notices and pins are called on screen, on paper and in files.

mod care;
pub mod checks;
mod course;
mod dressing;
pub mod ledger;
mod machine;
pub mod measured;
mod notices;
pub mod photo;
mod spoken_step;
pub mod turnover;
mod unmet;
mod winder;
mod winding;
mod work_changes;

use crate::base::choice::Choice;
use crate::base::units::Length;
use crate::base::units::show::{self, Units};
use crate::braid::takeoff::Train;
use crate::braid::taper::Taper;
use crate::braid::track::{Carrier, Direction};
use crate::design::pin::Pin;
use crate::plan::bobbins::Plying;
use crate::plan::{Action, Event, Plan, Workload};

pub use care::care;
pub use course::{Course, course, course_length};
pub use dressing::{coat_parts, danger, depth, step_values, step_warning};
pub use machine::{made_of, take_off, tension};
pub use notices::{heading, notice, warnings, why_not_as_drawn};
pub use spoken_step::spoken_step;
pub use unmet::unmet;
pub use winder::{
    bobbin_count, left_from_before, minutes_left, thread_left, timed, weighed, winding_work,
};
pub use winding::{
    bobbin_names, enters, plied, runs_out, to_buy, to_ply, wound_count, wound_state, yarn_label,
};
pub use work_changes::work_changes;

/// A carrier as a maker numbers it: from 1, in track order, each direction by itself.
pub fn carrier(carrier: Carrier) -> String {
    format!("{} {}", carrier.direction.name(), carrier.number + 1)
}

/// The same where room is short.
pub fn short(carrier: Carrier) -> String {
    format!("{} {}", carrier.direction.short(), carrier.number + 1)
}

/// A set of carriers by direction: `clockwise 1, 3; counter‑clockwise 2, 4`.
pub fn carriers(set: impl IntoIterator<Item = Carrier>) -> String {
    let set: Vec<Carrier> = set.into_iter().collect();
    let listed = |way: Direction| {
        let mut numbers: Vec<u32> = set
            .iter()
            .filter(|c| c.direction == way)
            .map(|c| c.number + 1)
            .collect();
        numbers.sort_unstable();
        let numbers: Vec<String> = numbers.iter().map(u32::to_string).collect();
        (!numbers.is_empty()).then(|| format!("{} {}", way.name(), numbers.join(", ")))
    };
    Direction::BOTH
        .into_iter()
        .filter_map(listed)
        .collect::<Vec<_>>()
        .join("; ")
}

/// The carriers of a set with their ends; where they differ, those of each kind by themselves.
pub fn set(set: &[(Carrier, u32)]) -> String {
    let mut kinds: Vec<u32> = set.iter().map(|&(_, ends)| ends).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let of_kind = |ends: u32| carriers(set.iter().filter(|one| one.1 == ends).map(|one| one.0));
    match kinds[..] {
        [] => String::new(),
        [ends] => of_kind(ends),
        _ => kinds
            .iter()
            .map(|&ends| format!("of {ends} ends {}", of_kind(ends)))
            .collect::<Vec<_>>()
            .join("; "),
    }
}

/// The word of an action in `data-event`.
pub fn event_key(action: &Action) -> &'static str {
    match action {
        Action::Start(_) => "start",
        Action::Add { .. } => "add",
        Action::Drop { .. } => "drop",
        Action::Swap { .. } => "swap",
        Action::Gear { .. } => "gear",
        Action::End(_) => "end",
    }
}

/// The keys of the carriers an action is about, as in `data-carrier`.
pub fn carrier_keys(action: &Action) -> Option<String> {
    match action {
        Action::Start(set) | Action::End(set) => Some(
            set.iter()
                .map(|(carrier, _)| carrier.to_string())
                .collect::<Vec<_>>()
                .join(" "),
        ),
        _ => action.carrier().map(|carrier| carrier.to_string()),
    }
}

/// What to do, in one short sentence.
pub fn operation(event: &Event) -> String {
    match &event.action {
        Action::Start(set) => format!("Start with {} threads, gear {}", set.len(), event.wheels),
        Action::Add {
            carrier: added,
            ends,
        } => format!("Add {}, {ends} ends", carrier(*added)),
        Action::Drop {
            carrier: dropped, ..
        } => format!("Drop {}", carrier(*dropped)),
        Action::Swap {
            carrier: swapped,
            from,
            to,
        } => format!("Swap {}: {from} ends off, {to} on", carrier(*swapped)),
        Action::Gear { from, to } => format!("gear {from} off, {to} on"),
        Action::End(_) => "End of the line".to_owned(),
    }
}

/// How much is to do at the machine: `12 thread changes, 12 gear changes`.
pub fn changes_in_all(plan: &Plan) -> String {
    let count = |number: usize, what: &str| match number {
        1 => format!("1 {what} change"),
        number => format!("{number} {what} changes"),
    };
    let (threads, gears) = (plan.thread_changes(), plan.gear_changes());
    format!("{}, {}", count(threads, "thread"), count(gears, "gear"))
}

/// What a pin holds.
pub fn pin(pin: &Pin, units: Units) -> String {
    match pin {
        Pin::Place { lower, rising, at } => {
            let (from, to) = if *rising {
                ("", " to one more")
            } else {
                ("one more than ", " back to that")
            };
            format!(
                "from {from}{} threads{}{to} at {}",
                lower.threads,
                if lower.heavy > 0 {
                    format!(", {} of them heavier,", lower.heavy)
                } else {
                    String::new()
                },
                units.show_position(*at)
            )
        }
        Pin::Carrier {
            threads,
            carrier: pinned,
        } => format!("thread {} on {}", threads + 1, carrier(*pinned)),
        Pin::Swap {
            heavy,
            carrier: pinned,
        } => format!("heavier thread {} on {}", heavy + 1, carrier(*pinned)),
        Pin::Wheels {
            level,
            near,
            wheels,
        } => format!(
            "gear {wheels} with {} threads near {}",
            level.threads,
            units.show_position(*near)
        ),
    }
}

/// Where a control point stands on the line: `between front taper and belly`, `in the belly`.
pub fn point_place(taper: &Taper, index: usize) -> String {
    let Some(point) = taper.points().get(index) else {
        return String::new();
    };
    let sections = taper.sections();
    let ends = sections.iter().find(|section| section.to == point.at);
    let begins = sections.iter().find(|section| section.from == point.at);
    let within = sections
        .iter()
        .find(|section| section.from < point.at && point.at < section.to);
    match (ends, begins, within) {
        (Some(a), Some(b), _) => format!("between {} and {}", a.part.name(), b.part.name()),
        (Some(_), None, _) => "end of the line".to_owned(),
        (None, Some(_), _) => "beginning of the line".to_owned(),
        (None, None, Some(section)) => format!("in the {}", section.part.name()),
        (None, None, None) => String::new(),
    }
}

/// How the carriers are numbered; the plan's crossings depend on it.
pub const NUMBERING: &str = "Each direction is numbered from 1. Clockwise 1 is any clockwise carrier you choose; \
    clockwise 2 is the one ahead of it, and so on. Counter\u{2011}clockwise 1 is the first carrier that clockwise 1 passes \
    outside of, after passing inside one. The next it meets is counter\u{2011}clockwise 2, and so on.";

/// Where lengths count.
pub const MEASURING: &str =
    "Lengths are measured from where braiding began, at the point where the threads meet.";

/// What becomes of the ends of threads.
pub fn tails(tail: Length, units: Units) -> String {
    let dropped = if tail > Length::ZERO {
        let cut = units.show_short(tail);
        format!("a dropped one is cut {cut} long, and its tail is laid into the core")
    } else {
        "a dropped one is cut flush too".to_owned()
    };
    format!("An added thread’s loose end is trimmed flush; {dropped}.")
}

/// Which of a pair drives.
pub fn pair(train: Train) -> &'static str {
    if train.is_pair() {
        "In a pair of gears the driving gear is written first: 21/39 means 21 drives 39."
    } else {
        ""
    }
}

/// What is braided before the tip.
pub fn lead_in(lead_in: Length, units: Units) -> String {
    format!(
        "Braid {} of lead-in first. The tip is where it ends, and lengths count from there.",
        units.show_position(lead_in)
    )
}

/// How far the machine has run since the row before: length, circuits, and turns of the handle where there is one.
pub fn since(event: &Event, workload: &Workload, units: Units) -> String {
    let turns = event.circuits * workload.handle_turns;
    let by_hand = if turns > 0.0 {
        format!(", {turns:.0} handle turns")
    } else {
        format!(", {}", show::minutes(event.circuits / workload.speed))
    };
    format!(
        "after {}: {}{by_hand}",
        units.show_position(event.since),
        show::circuits(event.circuits)
    )
}

/// `8 bobbins of 14 ends: 491 m of thread together, 7224 m of filament end from the cones, 16.85 g`.
pub fn ply(kind: &Plying, units: Units) -> String {
    format!(
        "{} bobbins of {} ends: {} of thread together, {} of end from the cones, {}",
        kind.bobbins,
        kind.ends,
        units.show_yarn(kind.thread, 0),
        units.show_yarn(kind.yarn, 0),
        show::grams(kind.mass)
    )
}
