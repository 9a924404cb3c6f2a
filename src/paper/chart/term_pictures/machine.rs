//! Parts of the machine, and how the angle follows it.

use super::layer::{Ink, TermLayer};
use super::pen::{PenPoint, arc, circle, layer, piece};

/// Two wheels that touch, with their slots and the carriers in three of these; either the wheels or the carriers are meant.
pub(super) fn wheels(gears: bool) -> Vec<TermLayer> {
    const RADIUS: f64 = 32.0;
    let middles = [(80.0 - RADIUS, 50.0), (80.0 + RADIUS, 50.0)];
    let slot = |middle: PenPoint, turn: f64| {
        vec![at(middle, RADIUS - 10.0, turn), at(middle, RADIUS, turn)]
    };
    let slots = middles.map(|middle| [0.125, 0.375, 0.625, 0.875].map(|turn| slot(middle, turn)));
    let carriers = [(0, 0.375), (0, 0.875), (1, 0.125)];
    let dots = carriers.map(|(wheel, turn)| circle(at(middles[wheel], RADIUS, turn), 8.0));
    let (wheel, dot) = if gears {
        (Ink::Strong, Ink::Body)
    } else {
        (Ink::Line, Ink::Dot)
    };
    vec![
        layer(wheel, &middles.map(|middle| circle(middle, RADIUS))),
        layer(wheel, &slots.concat()),
        layer(Ink::Dot, &middles.map(|middle| circle(middle, 3.0))),
        layer(dot, &dots),
    ]
}

/// A place on a circle; turns clockwise from the right.
fn at(middle: PenPoint, radius: f64, turn: f64) -> PenPoint {
    arc(middle, radius, turn, turn)[0]
}

/// Places of one direction on the ring of the drawing.
const PLACES: usize = 8;
/// Those that are idle.
const IDLE: [usize; 2] = [5, 6];

/// A ring with two neighbours idle, and the step from the engaged place before them to the one after.
pub(super) fn gap() -> Vec<TermLayer> {
    let middle = (80.0, 52.0);
    let turn = |place: usize| place as f64 / PLACES as f64;
    let mark = |place: usize| circle(at(middle, 32.0, turn(place)), 6.0);
    let of = |idle: bool| (0..PLACES).filter(move |place| IDLE.contains(place) == idle);
    let step = arc(middle, 46.0, turn(IDLE[0] - 1), turn(IDLE[1] + 1));
    vec![
        piece(Ink::Line, &circle(middle, 32.0)),
        layer(Ink::Dot, &of(false).map(mark).collect::<Vec<_>>()),
        layer(Ink::Body, &of(true).map(mark).collect::<Vec<_>>()),
        piece(Ink::Strong, &step),
    ]
}

/// Threads that meet on the left, and the braid that runs from there over a roller and down.
pub(super) fn take_off() -> Vec<TermLayer> {
    let (middle, radius) = ((112.0, 60.0), 26.0);
    let top = middle.1 - radius;
    let mut braid = vec![(36.0, top)];
    braid.extend(arc(middle, radius, -0.25, 0.0));
    braid.push((middle.0 + radius, 96.0));
    let arrow = [(66.0, top - 8.0), (78.0, top - 16.0), (66.0, top - 24.0)];
    let threads = [10.0, top, 58.0].map(|y| vec![(6.0, y), (36.0, top)]);
    vec![
        piece(Ink::Body, &circle(middle, radius - 2.0)),
        piece(Ink::Dot, &circle(middle, 3.0)),
        layer(Ink::Line, &threads),
        piece(Ink::Strong, &braid),
        layer(
            Ink::Line,
            &[vec![(46.0, top - 16.0), (78.0, top - 16.0)], arrow.to_vec()],
        ),
    ]
}

/// The angle over the length: dashed as a gear would have it, solid as it comes.
pub(super) fn lag() -> Vec<TermLayer> {
    let (before, after, change) = (74.0, 26.0, 52.0);
    let creep = |step: u32| {
        let way = f64::from(step) * 4.0;
        (change + way, after + (before - after) * (-way / 26.0).exp())
    };
    let mut angle = vec![(12.0, before)];
    angle.extend((0..=24).map(creep));
    let wanted = [
        (12.0, before),
        (change, before),
        (change, after),
        (148.0, after),
    ];
    vec![
        piece(Ink::Line, &[(12.0, 8.0), (12.0, 90.0), (152.0, 90.0)]),
        piece(Ink::Soft, &wanted),
        piece(Ink::Strong, &angle),
    ]
}
