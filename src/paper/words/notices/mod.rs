//! What the maker should know before braiding, in words: what is wrong, and what to do.

mod angle;

use super::{carrier, carriers, pin};
use crate::base::units::Length;
use crate::base::units::show::{self, Units, trimmed};
use crate::braid::ladder::GivenUp;
use crate::plan::layout::pins::{DroppedPin, Why};
use crate::plan::layout::stops::Crowding;
use crate::plan::{Notice, SectionWeight, WhyOff};

/// The heading of a notice; the page shows the whole of it before the schedule.
pub fn heading(notice: &Notice) -> &'static str {
    match notice {
        Notice::Unsound { .. } => "Falls apart",
        Notice::TooThick { .. } => "Too thick",
        Notice::TooThin { .. } => "Too thin",
        Notice::AngleOff { .. } => "Angle off",
        Notice::AngleSettling(_) => "Angle settling",
        Notice::Jammed { .. } => "Jams",
        Notice::TooOpen { .. } => "Too open",
        Notice::BobbinTooSmall { .. } => "Bobbin too small",
        Notice::PinDropped(_) => "Pin not kept",
        Notice::Crowded(_) => "Stops too close",
        Notice::LeftOut { .. } => "Left out",
        Notice::Restless { .. } => "Angle unsteady",
        Notice::LeadInShort { .. } => "Lead-in short",
        Notice::SectionOff(_) => "Off the drawing",
    }
}

/// Why the line does not weigh what its drawing does.
pub fn why_not_as_drawn(notices: &[Notice]) -> &'static str {
    let is_out =
        |notice: &Notice| matches!(notice, Notice::TooThick { .. } | Notice::TooThin { .. });
    if notices.iter().any(is_out) {
        "the threads there are do not reach the drawing"
    } else {
        "threads come whole"
    }
}

/// Whether a line with such a notice should not be braided as it is.
pub fn is_grave(notice: &Notice) -> bool {
    !matches!(
        notice,
        Notice::AngleSettling(_)
            | Notice::Crowded(_)
            | Notice::LeftOut { .. }
            | Notice::Restless { .. }
            | Notice::SectionOff(_)
            | Notice::PinDropped(_)
    )
}

/// A notice in full: what is wrong, and what to do.
pub fn notice(notice: &Notice, units: Units) -> String {
    match notice {
        Notice::Unsound { threads, carriers } => format!(
            "With {threads} threads no set of carriers was found that holds: {} would never pass both over and under. Do \
             not braid so; change the fewest threads, or the machine.",
            super::carriers(carriers.iter().copied())
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
        Notice::AngleOff { parts, cause } => angle::off(parts, cause, units),
        Notice::AngleSettling(parts) => angle::settling(parts, units),
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
        Notice::LeftOut { places } => left_out(places, units),
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

fn crowded(crowd: &Crowding, units: Units) -> String {
    match crowd {
        Crowding::Together { at, changes } => format!(
            "{changes} changes would come closer than your least distance; they are made at one stop, at {}.",
            units.show_position(*at)
        ),
        // Said in a notice of its own, once for all.
        Crowding::LeftOut { into, .. } => left_out(&[into.change.at], units),
        Crowding::Close { at, apart } => format!(
            "The stop at {} and the next are only {} apart, less than your least distance, since there is no room to move \
             them.",
            units.show_position(*at),
            units.show_position(*apart)
        ),
    }
}

fn left_out(places: &[Length], units: Units) -> String {
    let shown: Vec<String> = places.iter().map(|&at| units.show_position(at)).collect();
    let (asks, them) = match places.len() {
        1 => ("a change", "it is"),
        _ => ("changes", "they are"),
    };
    format!(
        "At {} the drawing asks for {asks} of threads too short to be worth the work; {them} left out. If you want it made, \
         draw the place longer, or lower the price of a stop.",
        shown.join(", ")
    )
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
        section.section.part.name(),
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

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}
