//! The curves of the chart, as SVG path data.

use core::fmt::Write as _;

use super::scale::Scale;
use crate::design::Design;
use crate::plan::Plan;
use crate::stretch::Stretch;
use crate::units::Length;

/// Half the height of the ticks that end a dimension line, in pixels.
const DIMENSION_TICK: f64 = 6.0;

/// The braided line in whole threads: a closed silhouette with a step at every change.
pub fn silhouette(plan: &Plan, scale: &Scale) -> String {
    outline(&plan.stretches, scale)
}

/// The part of it that is weighed for the class.
pub fn weighed(plan: &Plan, scale: &Scale) -> String {
    let cut = |stretch: &Stretch| stretch.between(plan.head.from, plan.head.to);
    outline(
        &plan.stretches.iter().filter_map(cut).collect::<Vec<_>>(),
        scale,
    )
}

fn outline(stretches: &[Stretch], scale: &Scale) -> String {
    let middle = scale.profile().middle();
    let half = |stretch: &Stretch| scale.half_thickness(stretch.dressed.diameter);
    let mut path = Path::default();
    for stretch in stretches {
        path.level(
            scale.x_of(stretch.from),
            scale.x_of(stretch.to),
            middle - half(stretch),
        );
    }
    for stretch in stretches.iter().rev() {
        path.level(
            scale.x_of(stretch.to),
            scale.x_of(stretch.from),
            middle + half(stretch),
        );
    }
    path.closed()
}

/// The drawn taper: its upper and its lower edge, open at the ends.
pub fn drawing(design: &Design, scale: &Scale) -> String {
    let middle = scale.profile().middle();
    let mut path = Path::default();
    for side in [-1.0, 1.0] {
        path.lift();
        for point in design.taper().points() {
            path.to(
                scale.x_of(point.at),
                middle + side * scale.half_thickness(point.diameter),
            );
        }
    }
    path.open()
}

/// The staircase of threads.
pub fn staircase(plan: &Plan, scale: &Scale) -> String {
    steps(plan, scale, |stretch| {
        scale.y_of_threads(f64::from(stretch.threads))
    })
}

/// The area under the staircase.
pub fn staircase_area(plan: &Plan, scale: &Scale) -> String {
    let foot = scale.staircase().bottom();
    format!(
        "{}V{foot:.1}H{:.1}Z",
        staircase(plan, scale),
        scale.x_of(Length::ZERO)
    )
}

/// The braid angle.
pub fn angle(plan: &Plan, scale: &Scale) -> String {
    steps(plan, scale, |stretch| {
        scale.y_of_angle(stretch.fit.braid.angle)
    })
}

/// Only those stretches whose angle is outside the tolerance.
pub fn angle_outside(plan: &Plan, scale: &Scale) -> String {
    let mut path = Path::default();
    let is_outside = |stretch: &&Stretch| stretch.off(scale.target) > scale.tolerance;
    for stretch in plan.stretches.iter().filter(is_outside) {
        path.lift();
        path.level(
            scale.x_of(stretch.from),
            scale.x_of(stretch.to),
            scale.y_of_angle(stretch.fit.braid.angle),
        );
    }
    path.open()
}

/// A dimension line at height `y` with a tick at either end.
pub fn dimension_line(from: f64, to: f64, y: f64) -> String {
    let (above, below) = (y - DIMENSION_TICK, y + DIMENSION_TICK);
    format!(
        "M{from:.1} {above:.1}V{below:.1}M{from:.1} {y:.1}H{to:.1}M{to:.1} {above:.1}V{below:.1}"
    )
}

fn steps(plan: &Plan, scale: &Scale, y_of: impl Fn(&Stretch) -> f64) -> String {
    let mut path = Path::default();
    for stretch in &plan.stretches {
        path.level(
            scale.x_of(stretch.from),
            scale.x_of(stretch.to),
            y_of(stretch),
        );
    }
    path.open()
}

/// Path data under construction.
#[derive(Default)]
struct Path {
    data: String,
    down: bool,
}

impl Path {
    /// The next point begins a new piece.
    fn lift(&mut self) {
        self.down = false;
    }

    fn to(&mut self, x: f64, y: f64) {
        let letter = if self.down { 'L' } else { 'M' };
        self.down = true;
        // Writing to a string cannot fail.
        let _ = write!(self.data, "{letter}{x:.1} {y:.1}");
    }

    fn level(&mut self, from: f64, to: f64, y: f64) {
        self.to(from, y);
        self.to(to, y);
    }

    fn open(self) -> String {
        self.data
    }

    fn closed(mut self) -> String {
        self.data.push('Z');
        self.data
    }
}
