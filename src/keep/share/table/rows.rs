//! The schedule and the bobbins as tables.

use super::csv::{Cell, Table};
use crate::base::units::show::{self, Units};
use crate::base::units::{Angle, Length};
use crate::design::Design;
use crate::keep::share::envelope::stem;
use crate::paper::words;
use crate::plan::bobbins::Bobbin;
use crate::plan::{Action, Event, Plan};

/// The columns of the schedule. A pair of gears has a column for each wheel, since a spreadsheet reads 10/12 as a day.
const SCHEDULE: [&str; 17] = [
    "Line",
    "Row",
    "What",
    "What to do",
    "At (m)",
    "At, as shown",
    "Since the row before (m)",
    "Carrier circuits since the row before",
    "Carriers",
    "Ends of the thread",
    "Threads from here on",
    "Driving gear (teeth)",
    "Driven gear (teeth)",
    "Braid angle settles at (°)",
    "Braid angle off the target (°)",
    "Crossings along one rib (1/m)",
    "Pinned",
];

/// The columns of the bobbins.
const BOBBINS: [&str; 11] = [
    "Line",
    "Bobbin",
    "Carrier",
    "Ends of the thread",
    "Times it is added",
    "First added at (m)",
    "Thread to wind (m)",
    "Thread to wind, as shown",
    "Mass of it (g)",
    "Length of ends for it, plying included (m)",
    "Too small: empty at (m)",
];

/// The schedule, a row for each thing to do, in order of length. Words stand in the reader's units, numbers in those of the
/// heads.
pub fn schedule(design: &Design, plan: &Plan, units: Units) -> Table {
    let target = design.target_angle();
    let row = |(index, event)| {
        let mut row = vec![Cell::text(design.title()), count(index + 1)];
        row.extend(what(event, units));
        row.extend(machine(event, target));
        row
    };
    Table {
        head: &SCHEDULE,
        rows: plan.events.iter().enumerate().map(row).collect(),
    }
}

/// What is done, where, and how long after the last.
fn what(event: &Event, units: Units) -> [Cell; 6] {
    [
        Cell::text(words::event_key(&event.action)),
        Cell::text(words::operation(event)),
        metres(event.at),
        Cell::text(units.show_position(event.at)),
        metres(event.since),
        Cell::Number(event.circuits),
    ]
}

/// Who is concerned, and what the machine is and makes from there on.
fn machine(event: &Event, target: Angle) -> [Cell; 9] {
    let pinned = if event.is_pinned() { "yes" } else { "no" };
    [
        carriers(&event.action),
        Cell::Number(f64::from(event.ends)),
        Cell::Number(f64::from(event.threads())),
        Cell::Number(f64::from(event.wheels.driver)),
        Cell::Number(f64::from(event.wheels.driven)),
        Cell::Number(event.angle.degrees()),
        Cell::Number(event.angle.degrees() - target.degrees()),
        Cell::Number(event.crossings),
        Cell::text(pinned),
    ]
}

fn carriers(action: &Action) -> Cell {
    match action {
        Action::Start(set) | Action::End(set) => Cell::text(words::set(set)),
        _ => action
            .carrier()
            .map_or(Cell::Empty, |carrier| Cell::text(words::carrier(carrier))),
    }
}

/// The bobbins, in the order in which they enter. Lead-in, tails and the maker's allowance are counted in.
pub fn bobbins(design: &Design, plan: &Plan, units: Units) -> Table {
    let row = |(index, bobbin)| {
        let mut row = vec![Cell::text(design.title()), count(index + 1)];
        row.extend(wound(bobbin, plan, units));
        row
    };
    Table {
        head: &BOBBINS,
        rows: plan.bobbins.iter().enumerate().map(row).collect(),
    }
}

fn wound(bobbin: &Bobbin, plan: &Plan, units: Units) -> [Cell; 9] {
    let (length, mass) = (units.show_yarn(bobbin.length, 1), show::grams(bobbin.mass));
    [
        Cell::text(words::carrier(bobbin.carrier)),
        Cell::Number(f64::from(bobbin.ends)),
        Cell::Number(f64::from(bobbin.engagements)),
        metres(bobbin.enters),
        metres(bobbin.length),
        Cell::Text(format!("{length}, {mass}")),
        Cell::Number(bobbin.mass.grams()),
        Cell::maybe(filament_end(bobbin, plan)),
        Cell::maybe(bobbin.runs_out.map(Length::metres)),
    ]
}

/// Metres of end from the cones for a bobbin: its share of what is plied of its kind.
fn filament_end(bobbin: &Bobbin, plan: &Plan) -> Option<f64> {
    let kind = plan.plying.iter().find(|kind| kind.ends == bobbin.ends)?;
    Some(bobbin.length / kind.thread * kind.yarn.metres())
}

fn metres(length: Length) -> Cell {
    Cell::Number(length.metres())
}

/// A place in a list, from 1.
fn count(place: usize) -> Cell {
    Cell::Number(place as f64)
}

/// A name for the file of the schedule, made from the line's title: letters, digits and dashes only.
pub fn schedule_name(design: &Design) -> String {
    format!("{}.schedule.csv", stem(design.title(), "line"))
}

/// A name for the file of the bobbins.
pub fn bobbins_name(design: &Design) -> String {
    format!("{}.bobbins.csv", stem(design.title(), "line"))
}
