//! Where everything on the map is.

use core::f64::consts::{PI, TAU};

use super::marks::{CarrierMark, HornGear, MarkSize};
use crate::braid::track::Direction;
use crate::paper::chart::path::Path;
use crate::paper::chart::ring::{INSTANT, MountedCarrier, Ring};

/// Least side of the map, in pixels: a phone of 320 less its margins.
const LEAST_SIDE: f64 = 300.0;
/// Greatest swing of a track to either side of the middle, as a share of the ring's radius.
const MOST_SWING: f64 = 0.55;
/// Least swing where carriers stand on it, so that many find room beside each other.
const LEAST_SWING: f64 = 0.15;
/// A gear's body, as a share of the distance to where it touches the next.
const BODY: f64 = 0.78;
/// Pieces in which the track over one slot is drawn.
const PIECES: u32 = 6;
/// Most places with room for the ends beside each carrier.
const MOST_WITH_ENDS: u32 = 32;
/// Room from the rim of a mark to the far side of its ends, in pixels.
const ENDS_ROOM: f64 = 24.0;
/// Space left between two marks, in pixels.
const APART: f64 = 2.0;

/// The measures of the map.
#[derive(Clone, Copy)]
pub(super) struct MapLayout {
    ring: Ring,
    pub(super) size: MarkSize,
    swing: f64,
    radius: f64,
    pub(super) middle: f64,
}

/// Both directions.
const WAYS: [Direction; 2] = [Direction::Clockwise, Direction::CounterClockwise];

impl MapLayout {
    pub(super) fn of(ring: Ring) -> Self {
        let mut layout = Self {
            ring,
            size: MarkSize::of(ring.places()),
            swing: swing(ring),
            radius: 1.0,
            middle: 0.0,
        };
        layout.radius = layout.fitting_radius();
        let farthest = layout
            .rooms()
            .map(|(share, room)| share * layout.radius + room);
        let track = layout.radius * (1.0 + layout.swing) + 1.0;
        layout.middle = farthest.fold(track.max(LEAST_SIDE / 2.0), f64::max).ceil();
        layout
    }

    /// The radius at which no two marks touch, or the larger one that fills the least side.
    fn fitting_radius(&self) -> f64 {
        let spots: Vec<_> = self.places().map(|place| self.spot(place)).collect();
        let apart = |&(x, y): &(f64, f64), &(u, v): &(f64, f64)| (x - u).hypot(y - v);
        let pairs = spots.iter().enumerate();
        let nearest = pairs
            .flat_map(|(index, one)| spots[..index].iter().map(move |other| apart(one, other)))
            .fold(f64::MAX, f64::min);
        let filling = self
            .rooms()
            .map(|(share, room)| (LEAST_SIDE / 2.0 - room) / share)
            .fold(f64::MAX, f64::min);
        filling.max((2.0 * self.size.reach + APART) / nearest)
    }

    fn places(&self) -> impl Iterator<Item = (Direction, u32)> + use<> {
        let each_way = self.ring.places_each_way;
        WAYS.into_iter()
            .flat_map(move |way| (0..each_way).map(move |place| (way, place)))
    }

    /// How far out each place is, as a share of the radius, and the room its mark needs beyond, in pixels.
    fn rooms(&self) -> impl Iterator<Item = (f64, f64)> {
        let labels = self.ring.places() <= MOST_WITH_ENDS;
        self.places().map(move |(way, place)| {
            let outwards = self.outwards((way, place));
            let room = if labels && outwards <= 0.0 {
                self.size.radius + ENDS_ROOM
            } else {
                self.size.reach + 1.0
            };
            (1.0 + self.swing * outwards, room)
        })
    }

    /// Which side of the middle a place is; sines close to 0 count as 0.
    fn outwards(&self, (way, place): (Direction, u32)) -> f64 {
        let outwards = self.ring.outwards(way, self.ring.step_of(way, place));
        if outwards.abs() < 1e-9 { 0.0 } else { outwards }
    }

    fn spot(&self, (way, place): (Direction, u32)) -> (f64, f64) {
        let step = self.ring.step_of(way, place);
        self.at(
            self.angle(step),
            1.0 + self.swing * self.outwards((way, place)),
        )
    }

    /// The angle of a step, clockwise from the top.
    fn angle(&self, step: f64) -> f64 {
        TAU * step / f64::from(self.ring.places())
    }

    /// The place at an angle from the top, at this share of the radius.
    fn at(&self, angle: f64, share: f64) -> (f64, f64) {
        let (sine, cosine) = angle.sin_cos();
        let out = self.radius * share;
        (self.middle + out * sine, self.middle - out * cosine)
    }

    pub(super) fn mark(&self, mounted: MountedCarrier) -> CarrierMark {
        let way = mounted.carrier.direction;
        let place = (way, mounted.place);
        let (x, y) = self.spot(place);
        let angle = self.angle(self.ring.step_of(way, mounted.place));
        let backwards = way == Direction::CounterClockwise;
        let has_room = self.ring.places() <= MOST_WITH_ENDS;
        CarrierMark {
            mounted,
            x,
            y,
            heading: angle.to_degrees() + if backwards { 180.0 } else { 0.0 },
            figure_at: has_room.then(|| self.figure_at(place, angle)),
        }
    }

    /// A figure beside a mark stands towards the middle of the gear, or outside the ring where two gears touch.
    fn figure_at(&self, place: (Direction, u32), angle: f64) -> (f64, f64) {
        let outwards = self.outwards(place);
        let inwards = if outwards > 0.0 { -1.0 } else { 1.0 };
        // Figures are wider than high.
        let off = self.size.radius + 8.0 + 4.0 * angle.sin().abs();
        let share = 1.0 + self.swing * outwards + inwards * off / self.radius;
        self.at(angle, share)
    }

    pub(super) fn gear(&self, gear: u32) -> HornGear {
        let (x, y) = self.at(self.gear_angle(gear), 1.0);
        HornGear {
            x,
            y,
            radius: BODY * self.radius * self.swing.min(touching(self.ring)),
        }
    }

    fn gear_angle(&self, gear: u32) -> f64 {
        let half = f64::from(self.ring.slots / 2);
        self.angle((f64::from(gear) + 0.5) * half - INSTANT)
    }

    /// A stroke from every gear's body towards each of its slots.
    pub(super) fn slots(&self) -> String {
        let mut path = Path::default();
        for index in 0..self.ring.horn_gears {
            let gear = self.gear(index);
            for slot in 0..self.ring.slots {
                let turn = self.gear_angle(index)
                    + TAU * (f64::from(slot) + 0.5 * self.odd()) / f64::from(self.ring.slots);
                let (sine, cosine) = turn.sin_cos();
                for out in [0.62, 1.0] {
                    let out = out * gear.radius;
                    path.to(gear.x + out * sine, gear.y - out * cosine);
                }
                path.lift();
            }
        }
        path.open()
    }

    /// 1 where a gear's slots stand to either side of straight out, 0 where one of them stands straight out.
    fn odd(&self) -> f64 {
        f64::from(self.ring.slots / 2 % 2)
    }

    pub(super) fn track(&self, way: Direction) -> String {
        let mut path = Path::default();
        for piece in 0..PIECES * self.ring.places() {
            let step = f64::from(piece) / f64::from(PIECES);
            let share = 1.0 + self.swing * self.ring.outwards(way, step);
            let (x, y) = self.at(self.angle(step), share);
            path.to(x, y);
        }
        path.shut();
        path.open()
    }
}

/// Radius of gears that touch their neighbours, as a share of the ring's. Analytic.
fn touching(ring: Ring) -> f64 {
    (PI / f64::from(ring.horn_gears)).sin()
}

fn swing(ring: Ring) -> f64 {
    // Gears of two slots hold carriers where they touch only: a wider swing would bring none of them apart.
    let least = if ring.slots > 2 { LEAST_SWING } else { 0.0 };
    touching(ring).clamp(least, MOST_SWING)
}
