//! What the rows of setting up say.

use super::super::step_words::AT_REST;
use crate::base::units::show::Units;
use crate::keep::book::machine_notes::MachineNotes;
use crate::page::view::book::MachineNote;
use crate::paper::words;
use crate::plan::run::{LaterBobbin, Setup, SetupRow};

/// The operation, without a full stop.
pub(super) fn operation(row: SetupRow, setup: &Setup, units: Units) -> String {
    match row {
        SetupRow::Guide => "Fit the former and the guide".to_owned(),
        SetupRow::FirstBobbins => {
            format!("Put on the {} bobbins that begin", setup.first.len())
        }
        SetupRow::LaterBobbins => later(setup),
        SetupRow::Tension => "Check how the carriers pull".to_owned(),
        SetupRow::Thread => format!("Thread {} carriers", setup.first.len()),
        SetupRow::IdleWeights => match setup.idle.len() {
            1 => "Tie up the weight of the idle carrier".to_owned(),
            idle => format!("Tie up the weights of {idle} idle carriers"),
        },
        SetupRow::Gear => format!("Fit the gear {}", setup.wheels),
        SetupRow::LeadIn => setup.lead_in.map_or_else(String::new, |lead_in| {
            format!(
                "Braid {} of lead-in: {:.0}\u{a0}circuits",
                units.show_position(lead_in.length),
                lead_in.circuits
            )
        }),
        SetupRow::Push => "Push the first centimetres together".to_owned(),
        SetupRow::Measure => "Measure angle, crossings and diameter".to_owned(),
    }
}

fn later(setup: &Setup) -> String {
    let waiting = setup.later.iter().filter(|bobbin| bobbin.waits).count();
    match (setup.later.len() - waiting, waiting) {
        (0, 1) => "Have the bobbin for the swap ready".to_owned(),
        (0, waiting) => format!("Have the {waiting} bobbins for swaps ready"),
        (1, _) => "Put on the bobbin that enters later".to_owned(),
        (on, _) => format!("Put on the {on} bobbins that enter later"),
    }
}

/// What the row needs, and how it is done.
pub(super) fn needs(
    row: SetupRow,
    setup: &Setup,
    notes: &MachineNotes,
    units: Units,
) -> Vec<String> {
    let mark = |mark: MachineNote, without: &'static str| match mark.of(notes) {
        "" => without.to_owned(),
        mark => mark.to_owned(),
    };
    let first_mark = mark(MachineNote::FirstMark, "first marking");
    match row {
        SetupRow::Guide => vec![
            "The threads run over the guide and meet in the former. Leave both where they are until the line is done."
                .to_owned(),
        ],
        SetupRow::FirstBobbins => vec![
            format!("Carriers: {}.", words::set(&setup.first)),
            format!("Mark them: {first_mark}."),
        ],
        SetupRow::LaterBobbins => {
            let mut said = later_lists(setup, units);
            let mark = mark(MachineNote::LaterMark, "other marking");
            said.push(format!("Mark them: {mark}."));
            said
        }
        SetupRow::Tension => {
            let note = notes.tension.as_str();
            let noted = (!note.is_empty()).then(|| format!("Your note: {note}."));
            let alike = "All should pull alike.".to_owned();
            noted.into_iter().chain([alike]).collect()
        }
        SetupRow::Thread => vec![format!(
            "{AT_REST} Run each thread of the carriers marked “{first_mark}” through the guide. Tie all of them together where they meet."
        )],
        SetupRow::IdleWeights => vec![
            format!("Carriers: {}.", words::carriers(setup.idle.iter().copied())),
            format!("{AT_REST} A weight that hangs without thread can stop the machine. Free it when its thread enters."),
        ],
        SetupRow::Gear => {
            let pair = words::pair(setup.wheels.train);
            let guard = format!("{AT_REST} Put the guards back before it runs.");
            let pair = (!pair.is_empty()).then(|| pair.to_owned());
            pair.into_iter().chain([guard]).collect()
        }
        SetupRow::LeadIn => Vec::new(),
        SetupRow::Push => vec![
            "Stop the machine first. Push with both hands. What does the braid do?".to_owned(),
        ],
        SetupRow::Measure => vec![expected(setup, units)],
    }
}

/// The bobbins that enter later, with the places where they do: those on carriers, then those beside the machine.
fn later_lists(setup: &Setup, units: Units) -> Vec<String> {
    let mut kinds = setup.first.iter().map(|one| one.1);
    let usual = kinds.next();
    let all = kinds.chain(setup.later.iter().map(|bobbin| bobbin.ends));
    let is_mixed = all.into_iter().any(|ends| Some(ends) != usual);
    let one = |bobbin: &LaterBobbin| {
        let (carrier, at) = (
            words::short(bobbin.carrier),
            units.show_position(bobbin.enters),
        );
        if is_mixed {
            format!("{carrier} with {} ends at {at}", bobbin.ends)
        } else {
            format!("{carrier} at {at}")
        }
    };
    let listed = |waits: bool| {
        let some = setup.later.iter().filter(|bobbin| bobbin.waits == waits);
        some.map(one).collect::<Vec<_>>().join("; ")
    };
    let on = listed(false);
    let beside = listed(true);
    let on = (!on.is_empty()).then(|| format!("Carriers: {on}."));
    let beside = (!beside.is_empty()).then(|| format!("Beside the machine, to swap in: {beside}."));
    on.into_iter().chain(beside).collect()
}

/// The braid that the plan expects on the lead-in.
fn expected(setup: &Setup, units: Units) -> String {
    let braid = &setup.braid;
    format!(
        "The plan expects {}, {} along one rib, and {} bare.",
        crate::base::units::show::angle_at_machine(braid.angle),
        units.show_crossings(braid.crossings_per_metre()),
        units.show_diameter_short(braid.diameter)
    )
}
