//! Crossing by crossing, the two threads of each.

use core::f64::consts::{FRAC_PI_2, PI, TAU};

use super::front::{Front, SurfacePoint};
use super::strand::Strand;
use super::surface::{Crossing, MOST_CIRCUITS};
use crate::paper::chart::path::Path;
use crate::paper::chart::ring::Ring;

/// How far a thread that passes below is drawn into its neighbours, in pixels, so that no seam shines through.
const SEAM: f64 = 0.4;
/// Where the areas of either direction and the edges stand among the paths of a level.
const CLOCKWISE: usize = 0;
const COUNTER_CLOCKWISE: usize = 1;
const EDGES: usize = 2;

/// What is drawn with. Levels: below, above.
pub(super) struct BraidDrawing {
    ring: Ring,
    front: Front,
    /// Pixels along the axis for one radian of thread.
    along: f64,
    pub(super) layers: [[Path; 3]; 2],
}

impl BraidDrawing {
    pub(super) fn new(ring: Ring, front: Front, along: f64) -> Self {
        Self {
            ring,
            front,
            along,
            layers: Default::default(),
        }
    }

    /// Draws every visible crossing; returns those whose middle is visible.
    pub(super) fn braid(&mut self, clockwise: &[Strand], others: &[Strand]) -> Vec<Crossing> {
        let each_way = i64::from(self.ring.places_each_way);
        let meetings = self.meetings_in_reach();
        let mut crossings = Vec::new();
        for one in clockwise {
            for &meeting in &meetings {
                let met = (i64::from(one.place) + meeting).rem_euclid(each_way);
                if let Some(other) = others.iter().find(|other| i64::from(other.place) == met) {
                    crossings.extend(self.cross(one, other, meeting));
                }
            }
        }
        crossings
    }

    /// A crossing's share of the surface reaches at most half a circuit to either side: as many meetings as places each way.
    fn meetings_in_reach(&self) -> Vec<i64> {
        let each_way = i64::from(self.ring.places_each_way);
        let circuits = i64::from(MOST_CIRCUITS);
        (-each_way..=each_way * (2 * circuits + 1))
            .take_while(|meeting| self.x_of(meeting - each_way) <= self.front.width)
            .collect()
    }

    /// Pixels from the left to a meeting.
    fn x_of(&self, meeting: i64) -> f64 {
        self.along * PI * meeting as f64 / f64::from(self.ring.places_each_way)
    }

    /// Draws one crossing; returns it if its middle is visible.
    fn cross(&mut self, one: &Strand, other: &Strand, meeting: i64) -> Option<Crossing> {
        let each_way = f64::from(self.ring.places_each_way);
        let round = PI * (2.0 * f64::from(one.place) + meeting as f64) / each_way;
        // Who looks stands at the foot of the map, half-way round from the first place.
        let middle = (self.x_of(meeting), round.rem_euclid(TAU) - PI);
        let is_over = self.ring.clockwise_is_over(one.place, meeting);
        for again in [-TAU, 0.0, TAU] {
            self.cell((middle.0, middle.1 + again), (one, other), is_over);
        }
        let (x, y) = self.front.seen(middle);
        let in_sight = middle.1.abs() <= FRAC_PI_2 && (0.0..=self.front.width).contains(&x);
        in_sight.then_some(Crossing {
            clockwise: one.place,
            counter_clockwise: other.place,
            clockwise_is_over: is_over,
            x,
            y,
        })
    }

    /// Both threads within the share of the surface of one crossing.
    fn cell(
        &mut self,
        middle: SurfacePoint,
        (one, other): (&Strand, &Strand),
        clockwise_is_over: bool,
    ) {
        let seam = SEAM / self.along.hypot(self.front.radius);
        let [of_one, of_other] = if clockwise_is_over {
            [0.0, seam]
        } else {
            [seam, 0.0]
        };
        let along_one = (other.room.0 + of_one, other.room.1 + of_one);
        let along_other = (one.room.0 + of_other, one.room.1 + of_other);
        let level = usize::from(clockwise_is_over);
        let (x, turn) = middle;
        let along = 0.5 * self.along;
        let spot = |(a, b): (f64, f64)| (x + along * (b - a), turn + 0.5 * (a + b));
        let ((left, right), (from, to)) = (one.half, along_one);
        let band = [(-left, -from), (-left, to), (right, to), (right, -from)].map(spot);
        self.lay(band, level, CLOCKWISE);
        let ((left, right), (from, to)) = (other.half, along_other);
        let band = [(-from, -left), (to, -left), (to, right), (-from, right)].map(spot);
        self.lay(band, 1 - level, COUNTER_CLOCKWISE);
    }

    /// Adds a piece of thread to its level; its first two corners, and its last two, are ends of a long side.
    fn lay(&mut self, corners: [SurfacePoint; 4], level: usize, way: usize) {
        let paths = &mut self.layers[level];
        self.front.area(corners, &mut paths[way]);
        self.front.line([corners[0], corners[1]], &mut paths[EDGES]);
        self.front.line([corners[2], corners[3]], &mut paths[EDGES]);
    }
}
