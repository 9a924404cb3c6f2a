//! The curves of the chart, as SVG path data.

use super::finish::Finish;
use super::path::Path;
use super::scale::Scale;
use crate::base::units::Length;
use crate::braid::stretch::{BraidedLine, Station, Stretch};
use crate::braid::taper::Taper;
use crate::design::Design;
use crate::plan::Plan;

/// Half the height of the ticks that end a dimension line, in pixels.
const DIMENSION_TICK: f64 = 6.0;

/// The braided line in whole threads, as it really gets thicker and thinner: a closed silhouette with a step at every
/// change; finished.
pub fn silhouette(plan: &Plan, scale: &Scale) -> String {
    silhouette_at(plan, scale, Finish::Finished)
}

/// The same bare, oiled or finished.
pub fn silhouette_at(plan: &Plan, scale: &Scale, finish: Finish) -> String {
    outline(plan, scale, finish, (Length::ZERO, plan.length))
}

/// The part of it that is weighed for the class.
pub fn weighed(plan: &Plan, scale: &Scale, finish: Finish) -> String {
    outline(
        plan,
        scale,
        finish,
        (plan.head.from, plan.head.to.min(plan.length)),
    )
}

fn outline(plan: &Plan, scale: &Scale, finish: Finish, (from, to): (Length, Length)) -> String {
    let middle = scale.profile().middle();
    let dressing = finish.dressing(&plan.line.process().dressing);
    let half = |station: &Station| scale.half_thickness(dressing.diameter(station.braid.diameter));
    let edge: Vec<(f64, f64)> = places(&plan.line)
        .filter(|(_, at)| from <= *at && *at <= to)
        .map(|(stretch, at)| {
            let station = plan.line.station_in(stretch, at);
            (scale.x_of(at), half(&station))
        })
        .collect();
    let ends = [from, to].map(|at| (scale.x_of(at), half(&plan.station(at))));
    let edge: Vec<_> = core::iter::once(ends[0])
        .chain(edge)
        .chain([(ends[1].0, half(&plan.line.station_before(to)))])
        .collect();
    halves(&edge, middle, scale)
}

/// A silhouette of these edges, closed: in one piece, or in two with the cut along the axis between them.
fn halves(edge: &[(f64, f64)], middle: f64, scale: &Scale) -> String {
    let mut path = Path::default();
    let cut = scale.half_cut();
    if cut == 0.0 {
        for &(x, half) in edge {
            path.to(x, middle - half);
        }
        for &(x, half) in edge.iter().rev() {
            path.to(x, middle + half);
        }
        return path.closed();
    }
    let (Some(first), Some(last)) = (edge.first(), edge.last()) else {
        return String::new();
    };
    for side in [-1.0, 1.0] {
        for &(x, half) in edge {
            path.to(x, middle + side * half);
        }
        path.to(last.0, middle + side * cut);
        path.to(first.0, middle + side * cut);
        path.shut();
    }
    path.open()
}

/// Shares of a step at which a curve that approaches its steady state is drawn.
const DRAWN_AT: [f64; 5] = [0.75, 0.5, 0.3, 0.15, 0.05];

/// The places at which a line is drawn: both ends of every stretch, and between them where it is not yet steady.
pub(super) fn places(line: &BraidedLine) -> impl Iterator<Item = (&Stretch, Length)> {
    line.stretches().iter().flat_map(|stretch| {
        places_within(stretch, stretch.from(), stretch.to()).map(move |at| (stretch, at))
    })
}

/// The places at which a part of a stretch is drawn.
fn places_within(stretch: &Stretch, from: Length, to: Length) -> impl Iterator<Item = Length> {
    let inner = move |left: f64| {
        let at = stretch.from() + stretch.convergence.braided_until(left);
        let is_bent = !stretch.convergence.is_steady() && from < at && at < to;
        is_bent.then_some(at)
    };
    let inner = DRAWN_AT.into_iter().filter_map(inner);
    core::iter::once(from).chain(inner).chain([to])
}

/// The drawn taper: its upper and its lower edge, open at the ends. A slope that a hand draws across a break bends where the scale
/// does.
pub fn drawing(design: &Design, scale: &Scale) -> String {
    edges_of(&design.taper(), scale)
}

/// The same of any taper.
pub fn edges_of(taper: &Taper, scale: &Scale) -> String {
    let middle = scale.profile().middle();
    let bends = scale.folds.iter().flat_map(|fold| [fold.from, fold.to]);
    let bends = bends.filter(|at| *at < taper.length());
    let mut places: Vec<Length> = taper.points().iter().map(|point| point.at).collect();
    places.extend(bends);
    places.sort_unstable_by(|a, b| a.metres().total_cmp(&b.metres()));
    let mut path = Path::default();
    for side in [-1.0, 1.0] {
        path.lift();
        for &at in &places {
            let half = scale.half_thickness(taper.diameter_at(at));
            path.to(scale.x_of(at), middle + side * half);
        }
    }
    path.open()
}

/// The staircase of threads, in standard threads: a heavier one counts as more than one.
pub fn staircase(plan: &Plan, scale: &Scale) -> String {
    let mut path = Path::default();
    for stretch in plan.line.stretches() {
        let y = scale.y_of_threads(stretch.piece.load.yarn);
        path.level(scale.x_of(stretch.from()), scale.x_of(stretch.to()), y);
    }
    path.open()
}

/// The area under the staircase.
pub fn area_below(staircase: &str, scale: &Scale) -> String {
    let foot = scale.staircase().bottom();
    format!("{staircase}V{foot:.1}H{:.1}Z", scale.x_of(Length::ZERO))
}

/// The braid angle as it really comes.
pub fn angle(plan: &Plan, scale: &Scale) -> String {
    angle_of(&plan.line, scale)
}

/// The braid angle if one choice of gears were fitted throughout.
pub fn angle_with_one_gear(plan: &Plan, scale: &Scale) -> String {
    angle_of(&plan.one_gear, scale)
}

fn angle_of(line: &BraidedLine, scale: &Scale) -> String {
    let mut path = Path::default();
    for (stretch, at) in places(line) {
        path.to(scale.x_of(at), scale.y_of_angle_held(stretch.angle_at(at)));
    }
    path.open()
}

/// Only those parts whose angle is outside the tolerance.
pub fn angle_outside(plan: &Plan, scale: &Scale) -> String {
    let mut path = Path::default();
    for stretch in plan.line.stretches() {
        for (from, to) in stretch.outside(scale.target, scale.tolerance) {
            path.lift();
            for at in places_within(stretch, from, to) {
                path.to(scale.x_of(at), scale.y_of_angle_held(stretch.angle_at(at)));
            }
        }
    }
    path.open()
}

/// What lies between those parts and the tolerance they leave, closed.
pub fn area_outside(plan: &Plan, scale: &Scale) -> String {
    let mut path = Path::default();
    for stretch in plan.line.stretches() {
        for (from, to) in stretch.outside(scale.target, scale.tolerance) {
            let middle = stretch.angle_at((from + to) / 2.0);
            let bound = if middle > scale.target {
                scale.target + scale.tolerance
            } else {
                scale.target - scale.tolerance
            };
            for at in places_within(stretch, from, to) {
                path.to(scale.x_of(at), scale.y_of_angle_held(stretch.angle_at(at)));
            }
            path.to(scale.x_of(to), scale.y_of_angle_held(bound));
            path.to(scale.x_of(from), scale.y_of_angle_held(bound));
            path.shut();
        }
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
