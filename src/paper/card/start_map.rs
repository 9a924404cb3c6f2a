//! The machine as it stands at the start: the ring of horn gears with the threaded carriers, and the order in which the others
//! come.

use super::blocks::Block;
use super::paper::MARGIN;
use super::sheet::{Anchor, Paint, Placement, Type, bold, plain};
use crate::base::units::Length;
use crate::braid::track::Carrier;
use crate::design::Design;
use crate::paper::chart::ring::{MountedCarrier, Ring};
use crate::paper::chart::track_map::{CarrierMark, HornGear, TrackMap};
use crate::plan::{Action, Plan};

/// Millimetres of a pixel of the map.
const PIXEL: f64 = 0.152;

/// The machine at the start, the same however close the card is set.
pub(super) struct StartMap {
    /// A square, as high as the block.
    pub(super) drawn: Block,
    /// Whether the order stands beside the carriers.
    pub(super) has_order: bool,
}

impl StartMap {
    pub(super) fn of(design: &Design, plan: &Plan) -> Self {
        let track = design.track();
        let start = plan.set_at(Length::ZERO);
        let map = TrackMap::of(Ring::of(&track), &MountedCarrier::all(&track, &start, &[]));
        let mut drawn = Block {
            height: map.side * PIXEL,
            ..Block::default()
        };
        draw(&mut drawn, &map, &firsts(plan));
        let has_order = map.marks.iter().any(|mark| mark.figure_at.is_some());
        Self { drawn, has_order }
    }
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
    let whole = Placement {
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
fn circle(gear: &HornGear) -> String {
    let HornGear { x, y, radius } = gear;
    let (left, across) = (x - radius, 2.0 * radius);
    format!(
        "M{left:.1} {y:.1}a{radius:.1} {radius:.1} 0 1 0 {across:.1} 0a{radius:.1} {radius:.1} 0 1 0 -{across:.1} 0Z"
    )
}

/// A carrier with its number, and beside it where in the order it comes.
fn put(block: &mut Block, map: &TrackMap, mark: &CarrierMark, order: Option<&str>) {
    let is_on = mark.mounted.is_engaged();
    let at = (MARGIN + mark.x * PIXEL, mark.y * PIXEL);
    let place = Placement {
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

/// A text with its middle at a point: figures are some seven tenths as high as their size.
fn centred(block: &mut Block, (x, y): (f64, f64), set: Type, words: &str) {
    let foot = (x, y + set.size * 0.35);
    block.sheet.text(foot, Anchor::Middle, set, words);
}
