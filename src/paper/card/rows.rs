//! The rows of schedule and bobbins.

use super::lists::List;
use super::spacing::Columns;
use crate::base::units::show::{self, Units};
use crate::paper::words;
use crate::plan::bobbins::Bobbin;
use crate::plan::{Action, Event, Plan};

/// Place of the gear among the cells of a row.
const GEAR: usize = 2;

/// A row for each thing to do; a change of gear stands with the change of threads made at the same stop.
pub(super) fn schedule(plan: &Plan, units: Units, columns: Columns) -> List {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut before: Option<&Event> = None;
    for event in &plan.events {
        let together =
            before.filter(|before| before.at == event.at && before.action.is_of_threads());
        match (&event.action, together, rows.last_mut()) {
            (Action::Gear { to, .. }, Some(_), Some(row)) => row[GEAR] = to.to_string(),
            _ => rows.push(row(event, units, columns)),
        }
        before = Some(event);
    }
    let mut head = vec!["at", "do", "gear", "on"];
    head.extend((columns >= Columns::All).then_some("angle"));
    head.extend((columns >= Columns::Crossings).then(|| units.show_crossings_unit()));
    head.push("circuits");
    List {
        title: "At the machine",
        head,
        rows,
        ticked: true,
    }
}

fn row(event: &Event, units: Units, columns: Columns) -> Vec<String> {
    let is_fitted = matches!(event.action, Action::Start(_) | Action::Gear { .. });
    let wheels = if is_fitted {
        event.wheels.to_string()
    } else {
        String::new()
    };
    let mut cells = vec![
        units.show_position(event.at),
        operation(event),
        wheels,
        event.threads().to_string(),
    ];
    cells.extend((columns >= Columns::All).then(|| show::angle_at_machine(event.angle)));
    cells.extend(
        (columns >= Columns::Crossings).then(|| units.show_crossings_number(event.crossings)),
    );
    cells.push(format!("{:.0}", event.circuits));
    cells
}

/// What to do, in few words; the carriers of the start stand on the map.
fn operation(event: &Event) -> String {
    match event.action {
        Action::Add { carrier, .. } => format!("Add {}", words::short(carrier)),
        Action::Drop { carrier, .. } => format!("Drop {}", words::short(carrier)),
        Action::Swap { carrier, to, .. } => format!("Swap {}, {to} ends", words::short(carrier)),
        Action::Gear { .. } => "Gear only".to_owned(),
        Action::Start(_) => "Start".to_owned(),
        Action::End(_) => "End".to_owned(),
    }
}

/// A row for each bobbin.
pub(super) fn bobbins(plan: &Plan, units: Units) -> List {
    let row = |bobbin: &Bobbin| {
        vec![
            words::short(bobbin.carrier),
            format!("{} ends", bobbin.ends),
            units.show_yarn(bobbin.length, 1),
            show::grams(bobbin.mass),
        ]
    };
    List {
        title: "Bobbins",
        head: vec!["carrier", "thread", "wind", "weighs"],
        rows: plan.bobbins.iter().map(row).collect(),
        ticked: false,
    }
}
