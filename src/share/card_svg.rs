//! The card as a picture: one A4 page of SVG that any drawing program and browser opens, without scripts or anything fetched
//! from elsewhere.
//!
//! Type is as large as the schedule leaves room for, down to five and a half points; what finds no room even then is counted,
//! and said where it can be found.

mod drawing;
mod lists;
mod measure;
mod sheet;

use super::code::{Code, LARGEST_MM, QUIET};
use super::envelope::stem;
use crate::bobbins::Bobbin;
use crate::days::Day;
use crate::design::Design;
use crate::figures::{FIGURES, Figure, prediction_detail, verdict_detail, verdict_title};
use crate::plan::{Action, Event, Plan};
use crate::recipe::Caution;
use crate::units::show::{self, Units};
use crate::words;
use lists::List;
use measure::{size_for, wrapped};
use sheet::{Anchor, Sheet, Type, bold, plain};

/// Width and height of the page, in millimetres: A4 upright. Source: ISO 216.
pub const PAGE: (f64, f64) = (210.0, 297.0);
/// The margin, in millimetres.
const LEFT: f64 = 11.0;
/// Room between the margins.
const ROOM: f64 = PAGE.0 - 2.0 * LEFT;
/// Where the foot of the page begins: cautions, and the code beside them.
const FOOT: f64 = PAGE.1 - LEFT - LARGEST_MM;
/// Distance of lines, in sizes of the type.
const LINE: f64 = 1.25;
/// Most lines of warnings before the rest is counted.
const MOST_WARNINGS: usize = 8;
/// Figures on the card, by their keys.
const SHOWN: [&str; 12] = [
    "head-mass",
    "head-bare-mass",
    "front-mass",
    "belly-mass",
    "rear-mass",
    "total-mass",
    "bare-mass",
    "length",
    "tip-diameter",
    "belly-diameter",
    "yarn-mass",
    "bobbin-fullest",
];
/// What is always said.
const AT_THE_MACHINE: &str = "Machine at rest before you reach in. Guards stay on.";

/// What a card says beside the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside<'a> {
    /// The day it was made, where it is known.
    pub day: Option<Day>,
    /// The whole link of the line; else why there is none.
    pub link: Result<&'a str, &'a str>,
    /// The reader's units.
    pub units: Units,
}

/// The card of a plan.
pub fn write(design: &Design, plan: &Plan, beside: Beside<'_>) -> String {
    let mut page = Page {
        sheet: Sheet::default(),
        y: LEFT,
        units: beside.units,
    };
    page.head(design, plan, beside.day);
    page.figures(plan);
    page.warnings(plan);
    drawing::put(&mut page.sheet, design, plan, beside.units, page.y);
    page.y += drawing::HEIGHT + 1.0;
    page.rules(design, plan);
    let (schedule, bobbins) = (schedule(plan, beside.units), bobbins(plan, beside.units));
    lists::put(&mut page.sheet, [&schedule, &bobbins], (page.y, FOOT - 2.0));
    page.cautions(design);
    page.code(beside.link);
    page.sheet.finish(PAGE, design.title())
}

/// A name for its file, made from the line's title: letters, digits and dashes only.
pub fn name(design: &Design) -> String {
    format!("{}.card.svg", stem(design.title(), "line"))
}

/// A page that is filled from above.
struct Page {
    sheet: Sheet,
    /// How far down it is filled, in millimetres.
    y: f64,
    units: Units,
}

impl Page {
    /// Sets words in as many lines as they need, and goes on below them.
    fn words(&mut self, set: Type, words: &str) {
        for line in wrapped(words, ROOM, set) {
            self.y += set.size * LINE;
            self.sheet.text((LEFT, self.y), Anchor::Start, set, &line);
        }
    }

    fn head(&mut self, design: &Design, plan: &Plan, day: Option<Day>) {
        let title = design.title();
        self.words(
            size_for(title, ROOM, 1, &[bold(6.2), bold(5.0), bold(4.2)]),
            title,
        );
        let class = verdict_title(&plan.verdict);
        self.y += 8.2;
        self.sheet
            .text((LEFT, self.y), Anchor::Start, bold(6.2), &class);
        let day = day.map_or_else(String::new, |day| format!(" · {}", day.words_with_year()));
        let made = format!("Taperwright card{day}");
        self.sheet
            .text((PAGE.0 - LEFT, self.y), Anchor::End, plain(2.8), &made);
        self.y += 1.0;
        self.words(plain(2.7), &verdict_detail(plan, self.units));
        if let Some(words) = prediction_detail(plan) {
            self.words(plain(2.7), &words);
        }
        self.y += 1.4;
        self.line();
    }

    fn line(&mut self) {
        self.sheet
            .rule((LEFT, self.y), (PAGE.0 - LEFT, self.y), 0.35);
        self.y += 0.6;
    }

    /// Weights and sizes, in two columns.
    fn figures(&mut self, plan: &Plan) {
        let shown: Vec<&Figure> = FIGURES
            .iter()
            .filter(|figure| SHOWN.contains(&figure.key))
            .collect();
        let lines = shown.len().div_ceil(2);
        let (gap, set) = (6.0, 2.5);
        let room = (ROOM - gap) / 2.0;
        for (index, figure) in shown.into_iter().enumerate() {
            let left = LEFT + (index / lines) as f64 * (room + gap);
            let y = self.y + (index % lines + 1) as f64 * set * LINE;
            self.sheet
                .text((left, y), Anchor::Start, plain(set), figure.name);
            let value = (figure.value)(plan, self.units).text;
            self.sheet
                .text((left + room, y), Anchor::End, bold(set), &value);
        }
        self.y += lines as f64 * set * LINE + 1.2;
        self.line();
    }

    /// What speaks against braiding by the plan.
    fn warnings(&mut self, plan: &Plan) {
        let grave = plan.notices.iter().filter(|notice| words::is_grave(notice));
        let said: Vec<String> = grave
            .map(|notice| words::notice(notice, self.units))
            .collect();
        let set = bold(2.6);
        let mut lines = 0;
        for (index, words) in said.iter().enumerate() {
            let words = format!("▲ {words}");
            lines += wrapped(&words, ROOM, set).len();
            if lines > MOST_WARNINGS {
                let rest = said.len() - index;
                self.words(
                    set,
                    &format!("Before you braid: {rest} more warnings; the page says them."),
                );
                break;
            }
            self.words(set, &words);
        }
    }

    /// What must be known to braid by the schedule.
    fn rules(&mut self, design: &Design, plan: &Plan) {
        if let Some(Action::Start(set)) = plan.events.first().map(|event| &event.action) {
            let start = format!(
                "Threaded at the start: {}. cw is clockwise, ccw counter-clockwise; circuits count from the row before.",
                words::set(set)
            );
            self.words(plain(2.3), &start);
        }
        let lead_in = words::lead_in(design.lead_in(), self.units);
        let tails = words::tails(design.buried_tail(), self.units);
        let pair = words::pair(design.draft().train);
        let rules = format!(
            "{lead_in} {} {tails} {pair} {}",
            words::MEASURING,
            words::NUMBERING
        );
        self.words(plain(2.05), &rules);
        let ply: Vec<String> = plan
            .plying
            .iter()
            .map(|kind| words::ply(kind, self.units))
            .collect();
        self.words(plain(2.3), &format!("To ply: {}.", ply.join("; ")));
    }

    /// What can hurt, at the machine and in the steps of this line's dressing; in the foot, left of the code.
    fn cautions(&mut self, design: &Design) {
        let room = ROOM - LARGEST_MM - 5.0;
        let is_met = |caution: &&Caution| {
            let steps = &design.draft().recipe;
            **caution == Caution::Blades
                || steps
                    .iter()
                    .any(|step| step.kind.cautions().contains(*caution))
        };
        let met = Caution::ALL
            .iter()
            .filter(is_met)
            .map(|caution| caution.words());
        let all: Vec<&str> = [AT_THE_MACHINE]
            .into_iter()
            .chain(met)
            .chain([Caution::DEFERRING])
            .collect();
        let words = all.join(" ");
        let lines = |set: &&Type| {
            wrapped(&words, room, **set).len() as f64 * set.size * LINE <= LARGEST_MM - 1.0
        };
        let sizes = [plain(2.5), plain(2.3), plain(2.1), plain(1.94)];
        let set = *sizes.iter().find(lines).unwrap_or(&sizes[3]);
        self.sheet.rule((LEFT, FOOT), (LEFT + room, FOOT), 0.35);
        self.y = FOOT;
        for line in wrapped(&words, room, set) {
            self.y += set.size * LINE;
            self.sheet.text((LEFT, self.y), Anchor::Start, set, &line);
        }
    }

    /// The link as a code in the lower right corner, or why there is none.
    fn code(&mut self, link: Result<&str, &str>) {
        let left = PAGE.0 - LEFT - LARGEST_MM;
        let said = match link.map(Code::of) {
            Ok(Ok(code)) => {
                let (side, quiet) = (code.module_mm(), f64::from(QUIET));
                let transform = format!(
                    "translate({:.3} {:.3}) scale({side:.5})",
                    left + quiet * side,
                    FOOT + quiet * side
                );
                return self
                    .sheet
                    .path(&transform, "shape-rendering=\"crispEdges\"", &code.path());
            }
            Ok(Err(too_long)) => too_long.to_string(),
            Err(said) => said.to_owned(),
        };
        let mut y = FOOT;
        for line in wrapped(&said, LARGEST_MM, plain(2.3)) {
            y += 2.3 * LINE;
            self.sheet.text((left, y), Anchor::Start, plain(2.3), &line);
        }
    }
}

/// A row for each thing to do; a change of gear stands with the change of threads made at the same stop.
fn schedule(plan: &Plan, units: Units) -> List {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut before: Option<&Event> = None;
    for event in &plan.events {
        let together =
            before.filter(|before| before.at == event.at && before.action.is_of_threads());
        match (&event.action, together, rows.last_mut()) {
            (Action::Gear { to, .. }, Some(_), Some(row)) => row[2] = to.to_string(),
            _ => rows.push(row(event, units)),
        }
        before = Some(event);
    }
    List {
        title: "At the machine",
        head: vec!["at", "do", "gear", "threads", "circuits"],
        rows,
        ticked: true,
        elsewhere: "open the line by its code or link, or save its schedule as a table.",
    }
}

fn row(event: &Event, units: Units) -> Vec<String> {
    let is_fitted = matches!(event.action, Action::Start(_) | Action::Gear { .. });
    vec![
        units.show_position(event.at),
        deed(event),
        if is_fitted {
            event.wheels.to_string()
        } else {
            String::new()
        },
        event.threads().to_string(),
        show::trimmed(event.circuits, 1),
    ]
}

/// What to do, in few words; the carriers of the start stand above the list.
fn deed(event: &Event) -> String {
    match event.action {
        Action::Add { carrier, .. } => format!("Add {}", words::short(carrier)),
        Action::Drop { carrier, .. } => format!("Drop {}", words::short(carrier)),
        Action::Swap { carrier, to, .. } => format!("Swap {}, {to} ends", words::short(carrier)),
        Action::Gear { .. } => "Gear only".to_owned(),
        Action::Start(_) => "Start".to_owned(),
        Action::End(_) => "End".to_owned(),
    }
}

fn bobbins(plan: &Plan, units: Units) -> List {
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
        elsewhere: "open the line by its code or link, or save its bobbins as a table.",
    }
}
