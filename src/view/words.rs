//! What carriers, actions, notices and pins are called on screen and on paper.

use crate::choice::Choice;
use crate::ladder::GivenUp;
use crate::layout::pins::{DroppedPin, Pin, Why};
use crate::layout::stops::Crowd;
use crate::plan::{Action, Event, Notice, SectionWeight, WhyOff, Work};
use crate::takeoff::Train;
use crate::taper::Part;
use crate::track::{Carrier, Direction};
use crate::units::Length;
use crate::units::show::{self, Units, trimmed};

/// A carrier as a maker numbers it: from 1, in track order, each direction by itself.
pub(crate) fn carrier(carrier: Carrier) -> String {
    format!("{} {}", carrier.direction.name(), carrier.number + 1)
}

/// The same where room is short.
pub(crate) fn short(carrier: Carrier) -> String {
    format!("{} {}", carrier.direction.short(), carrier.number + 1)
}

/// A set of carriers by direction: `clockwise 1, 3; counter‑clockwise 2, 4`.
pub(crate) fn carriers(set: impl IntoIterator<Item = Carrier>) -> String {
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
pub(crate) fn set(set: &[(Carrier, u32)]) -> String {
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
pub(crate) fn event_key(action: &Action) -> &'static str {
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
pub(crate) fn carrier_keys(action: &Action) -> Option<String> {
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
pub(crate) fn deed(event: &Event) -> String {
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

/// The weightiest notice in a few words; the whole of it stands before the schedule.
pub(crate) fn heading(notice: &Notice) -> &'static str {
    match notice {
        Notice::Unsound { .. } => "Falls apart",
        Notice::TooThick { .. } => "Too thick",
        Notice::TooThin { .. } => "Too thin",
        Notice::AngleOff { .. } => "Angle off",
        Notice::Jammed { .. } => "Jams",
        Notice::TooOpen { .. } => "Too open",
        Notice::BobbinTooSmall { .. } => "Bobbin too small",
        Notice::PinDropped(_) => "Pin not kept",
        Notice::Crowded(_) => "Stops too close",
        Notice::Restless { .. } => "Angle unsteady",
        Notice::LeadInShort { .. } => "Lead-in short",
        Notice::SectionOff(_) => "Off the drawing",
    }
}

/// Why the line does not weigh what its drawing does.
pub(crate) fn why_not_as_drawn(notices: &[Notice]) -> &'static str {
    let is_out =
        |notice: &Notice| matches!(notice, Notice::TooThick { .. } | Notice::TooThin { .. });
    if notices.iter().any(is_out) {
        "the threads there are do not reach the drawing"
    } else {
        "threads come whole"
    }
}

/// Whether a line with such a notice should not be braided as it is.
pub(crate) fn is_grave(notice: &Notice) -> bool {
    !matches!(
        notice,
        Notice::Crowded(_)
            | Notice::Restless { .. }
            | Notice::SectionOff(_)
            | Notice::PinDropped(_)
    )
}

/// A notice in full: what is the matter, and what to do.
pub(crate) fn notice(notice: &Notice, units: Units) -> String {
    match notice {
        Notice::Unsound { threads, carriers } => format!(
            "With {threads} threads no set of carriers was found that holds: {} would never pass both over and under. Do \
             not braid so; change the fewest threads, or the machine.",
            self::carriers(carriers.iter().copied())
        ),
        Notice::TooThick {
            wanted,
            most,
            possible,
        } => format!(
            "The drawing calls for {wanted:.1} threads where it is thickest; there are at most {}, which make {}. Draw it \
             thinner, or ply more ends to a thread.",
            trimmed(*most, 1),
            units.show_diameter_short(*possible)
        ),
        Notice::TooThin {
            wanted,
            fewest,
            possible,
        } => format!(
            "The drawing calls for {wanted:.1} threads where it is thinnest; you braid with at least {}, which make {}. \
             Draw it thicker, or ply fewer ends to a thread.",
            trimmed(*fewest, 1),
            units.show_diameter_short(*possible)
        ),
        Notice::AngleOff { .. } => angle_off(notice, units),
        Notice::Jammed {
            from,
            to,
            cover_factor,
        } => format!(
            "From {} to {} the threads find no room beside each other, though they be round: they would fill {:.0} % of \
             the way round. Ply fewer ends, take fewer threads, or aim at a smaller angle.",
            units.show_position(*from),
            units.show_position(*to),
            cover_factor * 100.0
        ),
        Notice::TooOpen { from, to, cover } => format!(
            "From {} to {} the threads cover only {:.0} % of the surface. Take more threads, or aim at a larger angle; the \
             limit is among the finer values of the machine.",
            units.show_position(*from),
            units.show_position(*to),
            cover * 100.0
        ),
        Notice::BobbinTooSmall { bobbins, first, at } => format!(
            "{} not hold the thread of the whole line. {} with {} ends is empty first, at {}: wind a second bobbin for it \
             and join there, or use larger ones.",
            if *bobbins == 1 {
                "One bobbin does".to_owned()
            } else {
                format!("{bobbins} bobbins do")
            },
            capitalised(&carrier(first.carrier)),
            first.ends,
            units.show_position(*at)
        ),
        Notice::PinDropped(dropped) => pin_dropped(dropped, units),
        Notice::Crowded(crowd) => crowded(crowd, units),
        Notice::Restless { stops, at, needed } => format!(
            "{} the next before the angle is steady, the first at {}. It takes {} after a change; the angle shown has that \
             in it. A longer taper, or fewer and heavier threads, would give it time.",
            if *stops == 1 {
                "One stop is followed by".to_owned()
            } else {
                format!("{stops} stops are followed by")
            },
            units.show_position(*at),
            units.show_position(*needed)
        ),
        Notice::LeadInShort { lead_in, needed } => format!(
            "The lead-in of {} is short: the angle needs {} to be steady, and the line is reckoned as if it were at the \
             tip. Braid a longer one; it is among the finer values of the threads.",
            units.show_position(*lead_in),
            units.show_position(*needed)
        ),
        Notice::SectionOff(section) => section_off(section),
    }
}

fn angle_off(notice: &Notice, units: Units) -> String {
    let Notice::AngleOff {
        parts,
        length,
        at,
        angle,
        mended,
        passing,
    } = notice
    else {
        return String::new();
    };
    let places = match parts {
        1 => "one part".to_owned(),
        parts => format!("{parts} parts"),
    };
    let remedy = match (passing, mended) {
        (true, _) => {
            "That lasts only until the angle has settled: what is fitted there comes to rest within your tolerance."
                .to_owned()
        }
        (false, Some(mend)) if mend.is_owned => format!(
            "Gear {}, which you own, would make it {}; the price of a gear change, or a pin of yours, keeps it off.",
            mend.wheels,
            show::angle(mend.angle)
        ),
        (false, Some(mend)) => format!(
            "Gear {}, which you do not own, would make it {}.",
            mend.wheels,
            show::angle(mend.angle)
        ),
        (false, None) => {
            "No one gear more would mend it: other gears, another angle to aim at, or a wider tolerance.".to_owned()
        }
    };
    format!(
        "On {places} of the line, {} together, the angle is outside your tolerance. It is worst at {}: {}. {remedy}",
        units.show_position(*length),
        units.show_position(*at),
        show::angle(*angle),
    )
}

fn crowded(crowd: &Crowd, units: Units) -> String {
    match crowd {
        Crowd::Together { at, changes } => format!(
            "{changes} changes would come closer than your least distance; they are made at one stop, at {}.",
            units.show_position(*at)
        ),
        Crowd::LeftOut { into, .. } => format!(
            "At {} the drawing asks for a change and takes it back within your least distance; it is left out. Draw the \
             place longer if you mean it.",
            units.show_position(into.change.at)
        ),
        Crowd::Close { at, apart } => format!(
            "The stop at {} and the next are only {} apart, less than your least distance, since there is no room to move \
             them.",
            units.show_position(*at),
            units.show_position(*apart)
        ),
    }
}

fn section_off(section: &SectionWeight) -> String {
    let why = match section.why_off {
        Some(WhyOff::Spacing) => "changes there could not be placed where the drawing wants them",
        Some(WhyOff::OutOfReach) => "it is drawn beyond the threads there are",
        Some(WhyOff::Pins) => "what you pinned there leaves it off",
        Some(WhyOff::WholeThreads) | None => "threads come whole, and gears in whole teeth",
    };
    format!(
        "The {} weighs {} against the drawing: {why}.",
        part(section.section.part),
        show::deviation(section.off())
    )
}

fn pin_dropped(dropped: &DroppedPin, units: Units) -> String {
    let what = pin(&dropped.pin, units);
    let why = match &dropped.why {
        Why::Held => "another pin of yours holds it already".to_owned(),
        Why::NoSuchChange => "the line makes no such change there any more".to_owned(),
        Why::OutOfOrder { from, to } => format!(
            "its neighbours leave it room only from {} to {}",
            units.show_position(*from),
            units.show_position(*to)
        ),
        Why::LeftOut => "the swelling there is shorter than your least distance".to_owned(),
        Why::NoSuchTread => "no part of the line has so many threads any more".to_owned(),
        Why::NotEngaged => "that carrier bears no thread where threads are swapped".to_owned(),
        Why::NotItsTurn => {
            "heavier threads alternate, and it is the other direction’s turn".to_owned()
        }
        Why::NotOwned => "the gears you own do not make it".to_owned(),
        Why::Carrier(GivenUp::NotMounted) => "no such carrier is mounted".to_owned(),
        Why::Carrier(GivenUp::StepNotOnLine) => "the line makes no such step any more".to_owned(),
        Why::Carrier(GivenUp::Twice) => "another pin holds that step or that carrier".to_owned(),
        Why::Carrier(GivenUp::Unbalanced) => {
            "one direction would have two threads more than the other".to_owned()
        }
        Why::Carrier(GivenUp::FallsApart(loose)) => format!(
            "the braid would fall apart: {} would lie loose",
            carriers(loose.iter().copied())
        ),
    };
    format!("Your pin is not kept: {what}. The reason: {why}. Let it go below, or pin it anew.")
}

/// What a pin insists on.
pub(crate) fn pin(pin: &Pin, units: Units) -> String {
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

/// What a part of the line is called.
pub(crate) fn part(part: Part) -> &'static str {
    match part {
        Part::LevelTip => "tip",
        Part::FrontTaper => "front taper",
        Part::Belly => "belly",
        Part::RearTaper => "rear taper",
        Part::RearTip => "rear tip",
        Part::RunningLine => "running line",
    }
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// How the carriers are numbered; the plan's crossings depend on it.
pub(crate) const NUMBERING: &str = "Each direction is numbered from 1. Clockwise 1 is any clockwise carrier you choose, \
    clockwise 2 the one ahead of it, and so on. Counter\u{2011}clockwise 1 is the first carrier that clockwise 1 passes \
    outside of after having passed inside one; the next it meets is counter\u{2011}clockwise 2, and so on.";

/// Where lengths count.
pub(crate) const MEASURING: &str =
    "Lengths count from where braiding began, at the point where the threads meet.";

/// What becomes of the ends of threads.
pub(crate) fn tails(tail: Length, units: Units) -> String {
    let dropped = if tail > Length::ZERO {
        let cut = units.show_short(tail);
        format!("a dropped one is cut {cut} long and its tail laid into the core")
    } else {
        "a dropped one is cut flush too".to_owned()
    };
    format!("An added thread’s loose end is trimmed flush; {dropped}.")
}

/// Which of a pair drives.
pub(crate) fn pair(train: Train) -> &'static str {
    if train.is_pair() {
        "Of a pair of gears the one that drives stands first: 21/39 is 21 driving 39."
    } else {
        ""
    }
}

/// What is braided before the tip.
pub(crate) fn lead_in(lead_in: Length, units: Units) -> String {
    format!(
        "Braid {} of lead-in first; the tip is where it ends, and there the counting begins.",
        units.show_position(lead_in)
    )
}

/// How far the machine has run since the row before: length, circuits, and turns of the handle where there is one.
pub(crate) fn since(event: &Event, work: &Work, units: Units) -> String {
    let turns = event.circuits * work.handle_turns;
    let by_hand = if turns > 0.0 {
        format!(", {turns:.0} handle turns")
    } else {
        format!(", {}", show::minutes(event.circuits / work.speed))
    };
    format!(
        "{} after the last: {:.1} circuits{by_hand}",
        units.show_position(event.since),
        event.circuits
    )
}
