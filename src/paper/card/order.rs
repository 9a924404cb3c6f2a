//! The machine as it stands at the start: the ring of horn gears with the carriers that are threaded, and the order in which
//! the others come; beside it weights, sizes, and what must be known to braid by the schedule.

use super::blocks::Block;
use super::measure::width;
use super::sheet::{Anchor, Paint, Place, Type, bold, plain};
use super::{Level, MARGIN, Matter};
use crate::base::units::Length;
use crate::braid::track::Carrier;
use crate::design::Design;
use crate::paper::chart::ring::{Mounted, Ring};
use crate::paper::chart::track_map::{Gear, Mark, TrackMap};
use crate::paper::figures::{FIGURES, ON_CARD};
use crate::paper::words;
use crate::plan::{Action, Plan};

/// Millimetres of a pixel of the map.
const PIXEL: f64 = 0.152;
/// Room between the map and what stands beside it, in millimetres.
const BESIDE: f64 = 5.0;
/// What the map shows.
const LEGEND: &str = "The machine at the start, from above. Round carriers run clockwise (cw), square ones \
    counter-clockwise (ccw). Black: threaded at the start.";
/// What stands beside the carriers.
const ORDER: &str = "Beside a carrier, the order of its first change: + comes on, − goes off, h gets its heavier thread.";
/// Where that has no room.
const NO_ORDER: &str = "In which order the others come, the schedule says.";

/// The machine at the start, the same however close the card is set.
pub(super) struct Map {
    /// A square, as high as the block.
    drawn: Block,
    /// Whether the order stands beside the carriers.
    has_order: bool,
}

impl Map {
    pub(super) fn of(design: &Design, plan: &Plan) -> Self {
        let track = design.track();
        let start = plan.set_at(Length::ZERO);
        let map = TrackMap::of(Ring::of(&track), &Mounted::all(&track, &start, None));
        let mut drawn = Block {
            height: map.side * PIXEL,
            ..Block::default()
        };
        draw(&mut drawn, &map, &firsts(plan));
        let has_order = map.marks.iter().any(|mark| mark.figure_at.is_some());
        Self { drawn, has_order }
    }
}

/// Map and figures.
pub(super) fn order(matter: &Matter<'_>, level: &Level) -> Block {
    let Map { drawn, has_order } = &matter.map;
    let mut block = drawn.clone();
    let side = block.height;
    let left = MARGIN + side + BESIDE;
    let room = matter.beside.paper.room() - side - BESIDE;
    let mut words = Block::default();
    figures(&mut words, matter, (left, room), plain(level.small));
    words.height += 1.0;
    let legend = [LEGEND, if *has_order { ORDER } else { NO_ORDER }];
    rules(&mut words, matter, level, (left, room), legend);
    words.put(&mut block.sheet, 0.0);
    block.height = words.height.max(side);
    block
}

/// The first change of every carrier, in their order: `+1`, `h2`, `−3`.
fn firsts(plan: &Plan) -> Vec<(Carrier, String)> {
    let mut firsts: Vec<(Carrier, String)> = Vec::new();
    for event in &plan.events {
        let (Some(carrier), Some(sign)) = (event.action.carrier(), sign(&event.action)) else {
            continue;
        };
        if firsts.iter().all(|(other, _)| *other != carrier) {
            firsts.push((carrier, format!("{sign}{}", firsts.len() + 1)));
        }
    }
    firsts
}

const fn sign(action: &Action) -> Option<char> {
    match action {
        Action::Add { .. } => Some('+'),
        Action::Drop { .. } => Some('−'),
        Action::Swap { .. } => Some('h'),
        Action::Start(_) | Action::Gear { .. } | Action::End(_) => None,
    }
}

fn draw(block: &mut Block, map: &TrackMap, firsts: &[(Carrier, String)]) {
    let whole = Place {
        at: (MARGIN, 0.0),
        scale: PIXEL,
        turn: 0.0,
    };
    let sheet = &mut block.sheet;
    let gears: String = map.gears.iter().map(circle).collect();
    sheet.path(whole, Paint::Edged(0xff, 0.9), gears);
    sheet.path(whole, Paint::Line(0.9), map.slots.clone());
    sheet.path(whole, Paint::Line(0.5), map.clockwise.clone());
    sheet.path(whole, Paint::Line(0.5), map.counter_clockwise.clone());
    for mark in &map.marks {
        let order = firsts
            .iter()
            .find(|(carrier, _)| *carrier == mark.mounted.carrier);
        put(block, map, mark, order.map(|(_, words)| words.as_str()));
    }
}

/// A circle as path data. Source: SVG 1.1, elliptical arcs.
fn circle(gear: &Gear) -> String {
    let Gear { x, y, radius } = gear;
    let (left, across) = (x - radius, 2.0 * radius);
    format!(
        "M{left:.1} {y:.1}a{radius:.1} {radius:.1} 0 1 0 {across:.1} 0a{radius:.1} {radius:.1} 0 1 0 -{across:.1} 0Z"
    )
}

/// A carrier with its number, and beside it where in the order it comes.
fn put(block: &mut Block, map: &TrackMap, mark: &Mark, order: Option<&str>) {
    let is_on = mark.mounted.is_engaged();
    let at = (MARGIN + mark.x * PIXEL, mark.y * PIXEL);
    let place = Place {
        at,
        scale: PIXEL,
        turn: mark.heading,
    };
    let fill = if is_on { 0x00 } else { 0xff };
    let outline = map.size.outline(mark.mounted.carrier.direction);
    block.sheet.path(place, Paint::Edged(fill, 1.2), outline);
    let size = map.size.number * PIXEL;
    let set = Type {
        white: is_on,
        ..bold(size)
    };
    let number = (mark.mounted.carrier.number + 1).to_string();
    centred(block, at, set, &number);
    if let (Some((x, y)), Some(words)) = (mark.figure_at, order) {
        let set = Type {
            size: size * 0.95,
            ..plain(size)
        };
        centred(block, (MARGIN + x * PIXEL, y * PIXEL), set, words);
    }
}

/// A text with its middle at a spot: figures are some seven tenths as high as their size.
fn centred(block: &mut Block, (x, y): (f64, f64), set: Type, words: &str) {
    let foot = (x, y + set.size * 0.35);
    block.sheet.text(foot, Anchor::Middle, set, words);
}

/// Weights and sizes, in two columns where names and values have room beside each other.
fn figures(block: &mut Block, matter: &Matter<'_>, (left, room): (f64, f64), set: Type) {
    let heavy = Type { bold: true, ..set };
    let rows: Vec<(&str, String)> = FIGURES
        .iter()
        .filter(|figure| ON_CARD.contains(&figure.key))
        .map(|figure| {
            (
                figure.name,
                (figure.value)(matter.plan, matter.beside.units).text,
            )
        })
        .collect();
    let gap = 5.0;
    let half = (room - gap) / 2.0;
    let needs = |(name, value): &(&str, String)| width(name, set) + width(value, heavy) + 1.5;
    let (columns, column) = if rows.iter().all(|row| needs(row) <= half) {
        (2, half)
    } else {
        (1, room)
    };
    let lines = rows.len().div_ceil(columns);
    let pitch = set.size * 1.3;
    for (index, (name, value)) in rows.iter().enumerate() {
        let left = left + (index / lines) as f64 * (half + gap);
        let y = (index % lines + 1) as f64 * pitch - set.size * 0.3;
        let end = (left + column, y);
        block.sheet.text((left, y), Anchor::Start, set, name);
        block.sheet.text(end, Anchor::End, heavy, value);
    }
    block.height += lines as f64 * pitch;
}

/// What must be known to braid by the schedule.
fn rules(
    block: &mut Block,
    matter: &Matter<'_>,
    level: &Level,
    place: (f64, f64),
    legend: [&str; 2],
) {
    let (design, plan, units) = (matter.design, matter.plan, matter.beside.units);
    block.words(plain(level.small), place, &words::made_of(design));
    if let Some(Action::Start(set)) = plan.events.first().map(|event| &event.action) {
        let start = format!("Threaded at the start: {}.", words::set(set));
        block.words(bold(level.small), place, &start);
    }
    let ply: Vec<String> = plan
        .plying
        .iter()
        .map(|kind| words::ply(kind, units))
        .collect();
    let ply = format!(
        "To ply: {}. {} for leading in and waste are counted in each time a thread comes in; so are tails and lead-in.",
        ply.join("; "),
        units.show_yarn(design.thread_allowance(), 1)
    );
    block.words(plain(level.small), place, &ply);
    let columns = format!(
        "In the schedule, on: threads engaged from there; {}: crossings along one rib; circuits count from the row before.",
        units.show_crossings_unit()
    );
    let said = [
        legend.join(" "),
        words::lead_in(design.lead_in(), units),
        words::MEASURING.to_owned(),
        words::tails(design.buried_tail(), units),
        words::pair(design.draft().train).to_owned(),
        columns,
        words::NUMBERING.to_owned(),
    ];
    let said: Vec<String> = said.into_iter().filter(|words| !words.is_empty()).collect();
    block.words(plain(level.small * 0.93), place, &said.join(" "));
}
