//! The engaged threads of one direction: where each is on the unrolled surface, and how wide.

use core::f64::consts::PI;

use super::surface::Surface;
use crate::braid::track::Direction;
use crate::paper::chart::ring::MountedCarrier;

/// One engaged thread: where it is, and how far it and its share of the surface reach to either side, in radians.
#[derive(Clone, Copy)]
pub(super) struct Strand {
    pub(super) place: u32,
    pub(super) room: (f64, f64),
    pub(super) half: (f64, f64),
}

impl Surface<'_> {
    /// The engaged threads of a direction, in track order.
    pub(super) fn strands(&self, way: Direction) -> Vec<Strand> {
        let on = |one: &&MountedCarrier| one.carrier.direction == way && one.is_engaged();
        let mut engaged: Vec<_> = self.mounted.iter().filter(on).collect();
        engaged.sort_unstable_by_key(|one| one.place);
        let count = engaged.len();
        let strand = |(index, one): (usize, &&MountedCarrier)| {
            let before = engaged[(index + count - 1) % count];
            let after = engaged[(index + 1) % count];
            let room = (self.half_way(before, one), self.half_way(one, after));
            let half = self.half_width(one.ends.unwrap_or_default());
            Strand {
                place: one.place,
                room,
                // Threads that touch press one another narrower; none lies over its neighbour of the same direction.
                half: (half.min(room.0), half.min(room.1)),
            }
        };
        engaged.iter().enumerate().map(strand).collect()
    }

    /// Half the turn from one thread to the next of its direction.
    fn half_way(&self, from: &MountedCarrier, to: &MountedCarrier) -> f64 {
        let places = self.ring.places_each_way;
        let apart = (to.place + places - from.place) % places;
        let apart = if apart == 0 { places } else { apart };
        PI * f64::from(apart) / f64::from(places)
    }

    /// Half the turn that a thread of `ends` ends covers, w/(D cos α). Analytic.
    fn half_width(&self, ends: u32) -> f64 {
        let wider = (f64::from(ends) / f64::from(self.thread_ends)).sqrt();
        wider * (self.thread_width / self.path_diameter) / self.angle.radians().cos()
    }
}
