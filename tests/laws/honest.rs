//! What is said of a plan is true of its line.
//!
//! Sources: none needed. What is said is compared with the line itself, looked at in small steps.

use taperwright::base::units::show::Units;
use taperwright::base::units::{Angle, Length};
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::edit::finder::{Finder, Unmet};
use taperwright::edit::starts::Start;
use taperwright::paper::words;
use taperwright::plan::layout::stops::Crowding;
use taperwright::plan::{AngleCause, GearFault, Notice, OutsideParts, Plan};

use crate::designs::parsed;
use crate::likely::unpinned;
use crate::lines::some_of;

/// Places at which a line is looked at are this far apart.
const STEP: Length = Length::from_millimetres(1.0);

/// The ready weight-forward line of so many ends on a machine with the gears 20 to 40, its belly level at 0.9892 mm from 5.0763 m.
fn weight_forward(ends: u32) -> Design {
    let mut draft = Start::WeightForward.design().draft().clone();
    draft.settings.set(Setting::EndsPerThread, f64::from(ends));
    draft.gears = (20..=40).map(f64::from).collect();
    draft.points[2].at_m = 5.0763;
    draft.points[2].diameter_mm = 0.9892;
    draft.points[3].diameter_mm = 0.9892;
    parsed(draft)
}

/// What of a line is outside the tolerance: for good, and while it settles.
#[derive(Debug, Default)]
struct Outside {
    lasting: Length,
    settling: Length,
    worst: Angle,
}

fn outside(design: &Design, plan: &Plan) -> Outside {
    let (target, tolerance) = (design.target_angle(), design.angle_tolerance());
    let mut found = Outside::default();
    let mut at = STEP / 2.0;
    while at < plan.length {
        let stretch = plan.line.stretch_at(at);
        let off = (stretch.angle_at(at) - target).abs();
        if off > tolerance {
            let is_lasting = (stretch.steady.angle - target).abs() > tolerance;
            let part = if is_lasting {
                &mut found.lasting
            } else {
                &mut found.settling
            };
            *part += STEP;
            found.worst = found.worst.max(off);
        }
        at += STEP;
    }
    found
}

fn lasting(plan: &Plan) -> Option<(OutsideParts, AngleCause)> {
    plan.notices.iter().find_map(|notice| match notice {
        Notice::AngleOff { parts, cause } => Some((*parts, *cause)),
        _ => None,
    })
}

fn settling(plan: &Plan) -> Option<OutsideParts> {
    plan.notices.iter().find_map(|notice| match notice {
        Notice::AngleSettling(parts) => Some(*parts),
        _ => None,
    })
}

/// The running line is too thin for the smallest gear: sixteen metres stay at 39.7°. No comfort is given.
#[test]
fn an_angle_that_stays_off_is_not_called_settling() {
    let design = weight_forward(14);
    let plan = Plan::of(&design);
    let (parts, cause) = lasting(&plan).expect("the angle stays off");
    let found = outside(&design, &plan);
    assert!(
        (parts.length - found.lasting).abs() < STEP * 4.0,
        "{parts:?}, {found:?}"
    );
    assert!(parts.length.metres() > 15.5 && (parts.angle.degrees() - 39.7).abs() < 0.1);
    let AngleCause::NoWheelsOwned {
        buy: Some(buy),
        fault: GearFault::AllTooFast,
    } = cause
    else {
        panic!("{cause:?}");
    };
    let words: Vec<String> = plan
        .notices
        .iter()
        .map(|notice| words::notice(notice, Units::default()))
        .collect();
    let said = words.iter().find(|words| words.contains("stays outside"));
    let said = said.expect("it is said");
    for word in [
        "16.",
        "39.7°",
        "slowest gear",
        &buy.wheels.to_string(),
        "more ends",
    ] {
        assert!(said.contains(word), "{word}: {said}");
    }
    // The way out is one: with that gear nothing lasting is left on the running line.
    let mut draft = design.draft().clone();
    draft.gears.push(f64::from(buy.wheels.teeth()));
    assert!(lasting(&Plan::of(&parsed(draft))).is_none());
}

/// On that machine the search found 7 to 13 threads of 17 ends best, though the maker never braids with fewer than 8, and though
/// most of the line then stays off the angle.
#[test]
fn what_the_search_recommends_can_be_braided() {
    let design = weight_forward(12);
    let found = Finder::new(&design).finish();
    let (recommended, others): (Vec<_>, Vec<_>) =
        found.iter().partition(|plan| plan.is_recommended());
    assert!(!recommended.is_empty() && !others.is_empty());
    let fewest = design.supply().fewest;
    assert!(found.iter().all(|plan| plan.threads.0 >= fewest));
    let is_off = |unmet: &Unmet| matches!(unmet, Unmet::AngleOff { .. });
    assert!(others.iter().any(|plan| plan.unmet.iter().any(is_off)));
}

/// A new line of the maker's own keeps the maker's ends where they do, and otherwise is one that can be braided well.
#[test]
fn a_line_begun_on_the_makers_machine_is_one_that_is_recommended() {
    for ends in [10, 12] {
        let workshop = weight_forward(ends);
        let line = Start::WeightForward
            .on(&workshop, Start::WeightForward.class())
            .expect("there is one");
        let plan = Plan::of(&line);
        assert!(lasting(&plan).is_none(), "{:?}", plan.notices);
        assert!(plan.threads_min() >= workshop.supply().fewest);
    }
}

/// Level stretches of the drawing, longer than what stops at their ends are moved by tails and the late angle.
fn level_stretches(design: &Design, plan: &Plan) -> Vec<(Length, Length)> {
    let lag = plan
        .line
        .stretches()
        .iter()
        .map(|stretch| stretch.convergence.lag());
    let reach = design.buried_tail() * 2.0
        + lag.fold(Length::ZERO, Length::max) * 6.0
        + design.least_spacing();
    let taper = design.taper();
    let points = taper.points();
    let (mut found, mut index) = (Vec::new(), 0);
    while index + 1 < points.len() {
        let (first, last) = taper.level_run(index);
        let end = |at: usize, by: Length| {
            if at == 0 || at == points.len() - 1 {
                points[at].at
            } else {
                points[at].at + by
            }
        };
        let (from, to) = (end(first, reach), end(last, reach * -1.0));
        if from < to && first < last {
            found.push((from, to));
        }
        index = last.max(index + 1);
    }
    found
}

/// A level stretch has one count of threads from end to end. Stops that a crowd pushes along do not count.
#[track_caller]
fn level_stretches_have_one_count(design: &Design, plan: &Plan) -> usize {
    let stretches = level_stretches(design, plan);
    let stops = &plan.layout.stops;
    let nearest = design.least_spacing() + Length::from_micrometres(2.0);
    let is_pushed = |index: usize| {
        let is_near = |other: usize| (stops[other].at - stops[index].at).abs() <= nearest;
        (index > 0 && is_near(index - 1)) || (index + 1 < stops.len() && is_near(index + 1))
    };
    for &(from, to) in &stretches {
        let within = |index: &usize| from < stops[*index].at && stops[*index].at < to;
        let found: Vec<_> = (0..stops.len())
            .filter(within)
            .filter(|&index| !is_pushed(index))
            .collect();
        assert!(
            found.is_empty(),
            "from {from:?} to {to:?}: {found:?} of {stops:?}\n{design:?}"
        );
    }
    stretches.len()
}

#[test]
fn a_level_running_line_has_one_count_of_threads() {
    for ends in [12, 14, 17] {
        let mut draft = weight_forward(ends).draft().clone();
        draft.settings.set(Setting::FewestThreads, 7.0);
        let design = parsed(draft);
        let plan = Plan::of(&design);
        assert_eq!(level_stretches_have_one_count(&design, &plan), 3);
        let running = plan.sections.last().expect("a running line");
        let levels = &plan.layout.staircase.yarn;
        let half = levels
            .windows(2)
            .map(|pair| 0.5 * (pair[1] - pair[0]) / pair[0])
            .fold(0.0, f64::max);
        assert!(running.off().abs() <= half, "{} of {half}", running.off());
    }
}

/// No notice contradicts its plan; no stop is made for less than it is worth, at an end or for a swelling.
#[test]
fn what_is_said_of_likely_lines_is_true() {
    let (mut off, mut settled, mut level) = (0, 0, 0);
    for design in some_of(&unpinned(), 10_000) {
        let plan = Plan::of(&design);
        level += level_stretches_have_one_count(&design, &plan);
        stops_are_worth_their_work(&design, &plan);
        // Looking at every millimetre of every line would take minutes.
        if plan.length.metres() > 6.0 {
            continue;
        }
        let found = outside(&design, &plan);
        let pairs = [
            (lasting(&plan).map(|(parts, _)| parts), found.lasting),
            (settling(&plan), found.settling),
        ];
        for (said, found) in pairs {
            let count = said.map_or(0, |parts| parts.count) + plan.line.stretches().len();
            let said = said.map_or(Length::ZERO, |parts| parts.length);
            assert!(
                (said - found).abs() <= STEP * (count as f64 + 1.0),
                "{said:?}, {found:?}: {design:?}"
            );
        }
        off += usize::from(found.lasting > Length::ZERO);
        settled += usize::from(found.settling > Length::ZERO);
    }
    println!("{off} stay off, {settled} settle, {level} level stretches");
    assert!(
        off > 100 && settled > 100 && level > 1_000,
        "{off}, {settled}, {level}"
    );
}

#[track_caller]
fn stops_are_worth_their_work(design: &Design, plan: &Plan) {
    let (layout, loads) = (&plan.layout, design.supply());
    let levels: Vec<f64> = loads
        .levels()
        .iter()
        .map(|&level| loads.load(level).yarn)
        .collect();
    let Some((first, last)) = layout.stops.first().zip(layout.stops.last()) else {
        return;
    };
    let is_close = |crowding: &Crowding| matches!(crowding, Crowding::Close { .. });
    if layout.crowdings.iter().any(is_close) {
        return;
    }
    // Wheels fitted beside a stop move it a little afterwards.
    let price = design.stop_price() * 0.5;
    let threads = (levels[first.after()] - levels[layout.first]).abs();
    assert!(
        first.at * threads >= price,
        "the first stop at {:?}: {design:?}",
        first.at
    );
    let before = layout
        .stops
        .iter()
        .rev()
        .nth(1)
        .map_or(layout.first, taperwright::plan::layout::stops::Stop::after);
    let threads = (levels[last.after()] - levels[before]).abs();
    assert!(
        (plan.length - last.at) * threads >= price,
        "the last stop at {:?}: {design:?}",
        last.at
    );
}
