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
        Notice::AngleOff { .. } => "Angle outside tolerance",
        Notice::AngleSettling(_) => "Angle settling",
        Notice::Jammed { .. } => "Jams",
        Notice::TooOpen { .. } => "Too open",
        Notice::BobbinTooSmall { .. } => "Bobbin too small",
        Notice::PinDropped(_) => "Pin not used",
        Notice::Crowded(_) => "Stops too close",
        Notice::LeftOut { .. } => "Change left out",
        Notice::Restless { .. } => "Angle unsteady",
        Notice::LeadInShort { .. } => "Lead-in too short",
        Notice::SectionOff(_) => "Weight off the drawing",
    }
}

/// Why the line does not weigh what its drawing does.
pub fn why_not_as_drawn(notices: &[Notice]) -> &'static str {
    let is_out =
        |notice: &Notice| matches!(notice, Notice::TooThick { .. } | Notice::TooThin { .. });
    if notices.iter().any(is_out) {
        "not enough carriers for this thickness"
    } else {
        "only whole threads can be used"
    }
}

/// The warnings among some notices: a line with one of them should not be braided as it is.
pub fn warnings(notices: &[Notice]) -> impl Iterator<Item = &Notice> {
    notices.iter().filter(|notice| is_grave(notice))
}

/// Whether a line with such a notice should not be braided as it is.
fn is_grave(notice: &Notice) -> bool {
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
            "No set of carriers was found that holds together with {threads} threads. These would never pass both \
             over and under: {}. Do not braid this. Change the fewest threads, or the machine.",
            super::carriers(carriers.iter().copied())
        ),
        Notice::TooThick {
            wanted,
            most,
            possible,
        } => format!(
            "The drawing needs {wanted:.1} threads where it is thickest. There are at most {}, which make {}. Draw \
             it thinner, or ply more ends to a thread.",
            trimmed(*most, 1),
            units.show_diameter_short(*possible)
        ),
        Notice::TooThin {
            wanted,
            fewest,
            possible,
        } => format!(
            "The drawing needs {wanted:.1} threads where it is thinnest. You braid with at least {}, which make {}. \
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
            "From {} to {} the threads have no room beside each other, even as round threads. They would fill {:.0} \
             % of the way round. Ply fewer ends, use fewer threads, or choose a smaller target angle.",
            units.show_position(*from),
            units.show_position(*to),
            cover_factor * 100.0
        ),
        Notice::TooOpen { from, to, cover } => format!(
            "From {} to {} the threads cover only {:.0} % of the surface. Use more threads, or choose a larger \
             target angle. The limit is “least cover” in the settings of the machine.",
            units.show_position(*from),
            units.show_position(*to),
            cover * 100.0
        ),
        Notice::BobbinTooSmall { bobbins, first, at } => format!(
            "{} not hold the thread of the whole line. {} with {} ends is empty first, at {}. Wind a second bobbin \
             for it and join there, or use larger bobbins.",
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
            "{} the next before the angle is steady, the first at {}. The angle needs {} after a change; the angle \
             shown includes this. A longer taper, or fewer and heavier threads, would help.",
            if *stops == 1 {
                "One stop is followed by".to_owned()
            } else {
                format!("{stops} stops are followed by")
            },
            units.show_position(*at),
            units.show_position(*needed)
        ),
        Notice::LeadInShort { lead_in, needed } => format!(
            "The lead-in of {} is too short: the angle needs {} to be steady. The plan assumes a steady angle at the \
             tip. Set a longer lead-in in the settings of the threads.",
            units.show_position(*lead_in),
            units.show_position(*needed)
        ),
        Notice::SectionOff(section) => section_off(section),
    }
}

fn crowded(crowd: &Crowding, units: Units) -> String {
    match crowd {
        Crowding::Together { at, changes } => format!(
            "{changes} changes would be closer than your least distance. They are made at one stop, at {}.",
            units.show_position(*at)
        ),
        // Said in a notice of its own, once for all.
        Crowding::LeftOut { into, .. } => left_out(&[into.change.at], units),
        Crowding::Close { at, apart } => format!(
            "The stop at {} and the next are only {} apart, less than your least distance. There is no room to move \
             them.",
            units.show_position(*at),
            units.show_position(*apart)
        ),
    }
}

fn left_out(places: &[Length], units: Units) -> String {
    let shown: Vec<String> = places.iter().map(|&at| units.show_position(at)).collect();
    let (asks, them) = match places.len() {
        1 => ("a change", "It is"),
        _ => ("changes", "They are"),
    };
    format!(
        "At {} the drawing asks for {asks} of threads too short to be worth the work. {them} left out. To braid it, \
         draw the place longer, or avoid stops less.",
        shown.join(", ")
    )
}

fn section_off(section: &SectionWeight) -> String {
    let why = match section.why_off {
        Some(WhyOff::Spacing) => "changes there could not be placed where the drawing needs them",
        Some(WhyOff::OutOfReach) => "there are not enough carriers for this thickness",
        Some(WhyOff::Pins) => "your pins there change it",
        Some(WhyOff::WholeThreads) | None => "only whole threads and whole teeth can be used",
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
        Why::Held => "another of your pins already fixes it".to_owned(),
        Why::NoSuchChange => "the line no longer has this change there".to_owned(),
        Why::OutOfOrder { from, to } => format!(
            "its neighbours leave it room only from {} to {}",
            units.show_position(*from),
            units.show_position(*to)
        ),
        Why::LeftOut => "the swelling there is shorter than your least distance".to_owned(),
        Why::NoSuchTread => "no part of the line has so many threads now".to_owned(),
        Why::NotEngaged => "that carrier has no thread where threads are swapped".to_owned(),
        Why::NotItsTurn => {
            "heavier threads alternate, and it is the other direction’s turn".to_owned()
        }
        Why::NotOwned => "your gears cannot do it".to_owned(),
        Why::Carrier(GivenUp::NotMounted) => "this carrier is not mounted".to_owned(),
        Why::Carrier(GivenUp::StepNotOnLine) => "the line no longer has this step".to_owned(),
        Why::Carrier(GivenUp::Twice) => "another pin fixes that step or that carrier".to_owned(),
        Why::Carrier(GivenUp::Unbalanced) => {
            "one direction would have two threads more than the other".to_owned()
        }
        Why::Carrier(GivenUp::FallsApart(loose)) => format!(
            "the braid would fall apart: {} would be loose",
            carriers(loose.iter().copied())
        ),
    };
    format!("Your pin is not used: {what}. Reason: {why}. Remove the pin below, or set it again.")
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}
