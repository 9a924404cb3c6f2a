//! A cast in the air at one moment: the line from the rod tip round the loop to the fly.

use core::f64::consts::{FRAC_PI_2, PI};

use libm::{atan, cos, sin, tan};

use super::path::Path;
use crate::base::units::Length;
use crate::turnover::Turnover;

/// Heights are drawn this many times larger than lengths: a loop is flat beside the length of a cast.
pub const TALLER: f64 = 2.0;
/// Room round the drawing, in pixels.
const MARGIN: f64 = 14.0;
/// Slices of the loop.
const SLICES: u32 = 32;

/// The paper on which casts are drawn to one scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlightPaper {
    /// Width, in pixels.
    pub width: f64,
    /// Height, in pixels.
    pub height: f64,
    /// Pixels of a metre of length.
    pixels: f64,
    /// How far the rod tip is from the left edge, in pixels.
    tip: f64,
    /// Height of the loop as it begins, metres.
    loop_height: f64,
}

/// A cast at one moment, in pixels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Flight {
    /// The line, as path data.
    pub line: String,
    /// The leader.
    pub leader: String,
    /// Where the rod tip is.
    pub rod_tip: (f64, f64),
    /// Where the fly is.
    pub fly: (f64, f64),
}

impl FlightPaper {
    /// Paper of a width on which all of these casts have room from beginning to end; `None` without a cast.
    pub fn of<'a>(casts: impl Iterator<Item = &'a Turnover>, width: f64) -> Option<Self> {
        let reaches = casts.map(|cast| {
            let radius = cast.loop_radius.metres();
            let leg = leg(cast);
            // To the left the upper leg as the loop begins, to the right all of it turned over.
            [leg, leg + PI * radius, 2.0 * radius]
        });
        let [left, right, loop_height] =
            reaches.reduce(|a, b| [a[0].max(b[0]), a[1].max(b[1]), a[2].max(b[2])])?;
        let pixels = (width - 2.0 * MARGIN).max(1.0) / (left + right);
        Some(Self {
            width,
            height: loop_height * TALLER * pixels + 2.0 * MARGIN,
            pixels,
            tip: MARGIN + left * pixels,
            loop_height,
        })
    }

    /// A cast at a time since its loop began to roll, with a leader of this length.
    pub fn at(&self, cast: &Turnover, leader: Length, seconds: f64) -> Flight {
        // A loop that collapses is not drawn farther.
        let moment = cast.at_time(seconds.min(cast.end().seconds));
        let places = places(cast, moment.rolled.metres(), moment.lean);
        let on_paper = |(x, y): (f64, f64)| {
            let height = y * TALLER * self.pixels;
            (self.tip + x * self.pixels, self.height - MARGIN - height)
        };
        let (mut front, mut back) = (Path::default(), Path::default());
        let mut left = leader.metres();
        for pair in places.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let length = libm::hypot(to.0 - from.0, to.1 - from.1);
            let share = if length > 0.0 { left / length } else { 0.0 };
            let cut = share.clamp(0.0, 1.0);
            let between = (
                from.0 + (to.0 - from.0) * cut,
                from.1 + (to.1 - from.1) * cut,
            );
            if cut > 0.0 {
                stroke(&mut front, on_paper(from), on_paper(between));
            }
            if cut < 1.0 {
                stroke(&mut back, on_paper(between), on_paper(to));
            }
            left -= length;
        }
        Flight {
            line: back.open(),
            leader: front.open(),
            rod_tip: on_paper((0.0, 0.0)),
            fly: on_paper(places[0]),
        }
    }
}

/// Adds a stroke to a path that ends where the stroke begins.
fn stroke(path: &mut Path, from: (f64, f64), to: (f64, f64)) {
    path.to(from.0, from.1);
    path.to(to.0, to.1);
}

/// Length of the upper leg as the loop begins to roll, metres: all of it has rolled at the end.
fn leg(cast: &Turnover) -> f64 {
    cast.at_fly.rolled.metres()
}

/// Places along the line from the fly to the rod tip, in metres forward of the tip and above it. The rod tip is the first and the
/// lower leg is drawn straight to it.
fn places(cast: &Turnover, rolled: f64, lean: f64) -> Vec<(f64, f64)> {
    let radius = cast.loop_radius.metres();
    let round = round(radius, lean);
    let last = round[round.len() - 1];
    // The lower leg has the length that has rolled.
    let begins = rolled - last.0;
    let left = leg(cast) - rolled;
    let top = 2.0 * radius;
    let mut places = vec![(begins - left, top)];
    places.extend(round.iter().map(|(x, y)| (begins + x, top + y)));
    places.push((0.0, 0.0));
    places
}

/// The loop from the upper leg on, that being the origin. A place that began at φ₀ looks to tan φ = tan φ₀ + lean now (see
/// [`crate::turnover`]).
fn round(radius: f64, lean: f64) -> Vec<(f64, f64)> {
    let width = PI / f64::from(SLICES);
    let mut at = (0.0, 0.0);
    let mut places = vec![at];
    for slice in 0..SLICES {
        let start = (f64::from(slice) + 0.5) * width - FRAC_PI_2;
        let direction = atan(tan(start) + lean);
        at.0 -= sin(direction) * radius * width;
        at.1 -= cos(direction) * radius * width;
        places.push(at);
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Plan;
    use crate::turnover::{Cast, Surroundings, turn_over};

    fn cast() -> Turnover {
        let line = Plan::of(&demo()).fly_line().unwrap();
        turn_over(&line, &Cast::default(), &Surroundings::USUAL)
    }

    #[test]
    fn a_half_circle_comes_back_below_its_beginning() {
        let round = round(0.3, 0.0);
        let last = round[round.len() - 1];
        assert!(
            last.0.abs() < 1e-12 && (last.1 + 0.6).abs() < 1e-3,
            "{last:?}"
        );
    }

    #[test]
    fn the_fly_passes_from_one_edge_to_the_other() {
        let cast = cast();
        let paper = FlightPaper::of([&cast].into_iter(), 640.0).unwrap();
        let leader = Cast::default().leader_length();
        let begin = paper.at(&cast, leader, 0.0);
        assert!((begin.fly.0 - MARGIN).abs() < 0.01, "{begin:?}");
        let end = paper.at(&cast, leader, cast.at_fly.seconds);
        assert!(end.fly.0 > 500.0 && end.fly.0 <= 640.0 - MARGIN, "{end:?}");
        assert!(!begin.line.contains("NaN") && !end.leader.contains("NaN"));
    }

    #[test]
    fn without_a_cast_there_is_no_paper() {
        assert_eq!(FlightPaper::of([].into_iter(), 640.0), None);
    }
}
