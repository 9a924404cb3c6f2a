//! The table itself.

use super::{Figure, Group, Value};
use crate::plan::Plan;
use crate::taper::Part;
use crate::units::Length;
use crate::units::show::{self, Units};

const fn figure(
    key: &'static str,
    name: &'static str,
    group: Group,
    value: fn(&Plan, Units) -> Value,
    how: &'static str,
) -> Figure {
    Figure {
        key,
        name,
        group,
        how,
        value,
    }
}

/// Every figure, in the order shown.
pub const FIGURES: [Figure; 23] = [
    figure(
        "head-mass",
        "first 30 ft",
        Group::Weight,
        |plan, _| plan.head_mass.map_or_else(too_short, Value::mass),
        "Mass per metre times length, summed over 9.144 m from the end of the level tip; of a tip longer than 6 in the rest is weighed too. This is what decides the class. gr: grains, 1 grain = 0.0648 g. Source: AFFTA fly line weight standard; the 6 in from memory.",
    ),
    figure(
        "tip-mass",
        "level tip",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::LevelTip]),
        "The level stretch at the tip, dressed.",
    ),
    figure(
        "front-mass",
        "front taper",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::FrontTaper]),
        "From the level tip to the first place of the full diameter, dressed.",
    ),
    figure(
        "belly-mass",
        "belly",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::Belly]),
        "From the first to the last place of the full diameter, dressed.",
    ),
    figure(
        "rear-mass",
        "all behind the belly",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::RearTaper, Part::RearTip, Part::RunningLine]),
        "Everything behind the belly: rear taper, then rear tip or running line, dressed.",
    ),
    figure(
        "rear-taper-mass",
        "rear taper alone",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::RearTaper]),
        "From the last place of the full diameter to the level end, dressed.",
    ),
    figure(
        "rear-end-mass",
        "rear tip or running line",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::RearTip, Part::RunningLine]),
        "The level stretch at the rear, dressed: a rear tip up to 1 m, a running line when longer. The 1 m is our own convention.",
    ),
    figure(
        "total-mass",
        "whole line",
        Group::Weight,
        |plan, _| Value::mass(plan.total_mass),
        "All parts together. Dressed mass per metre = thread + dried oil + varnish + film + grease, each from the voids and surface of the braid; see the dressing settings for every share and its source.",
    ),
    figure(
        "bare-mass",
        "whole line, bare",
        Group::Weight,
        |plan, _| Value::mass(plan.bare_mass),
        "The braid before dressing: threads × thread size × (1 + crimp) ÷ cos(angle). Geometry.",
    ),
    figure(
        "head-bare-mass",
        "first 30 ft, bare",
        Group::Weight,
        |plan, _| plan.head_bare_mass.map_or_else(too_short, Value::mass),
        "The same 9.144 m before dressing: weigh them off the machine, and you know early whether braid and plan agree.",
    ),
    figure(
        "length",
        "length",
        Group::Size,
        |plan, units| Value::position(plan.length, units),
        "From the tip to the last point of the drawing.",
    ),
    figure(
        "tip-diameter",
        "tip diameter",
        Group::Size,
        |plan, units| Value::diameter(plan.tip_diameter, units),
        "As whole threads make it: d = √(4 × bare mass per metre ÷ (π × fibre density × share of fibre in the section)), and twice the film of varnish. Geometry; the share of fibre is a setting, which a measured swatch of yours would make sure.",
    ),
    figure(
        "belly-diameter",
        "belly diameter",
        Group::Size,
        |plan, units| Value::diameter(plan.belly.dressed.diameter, units),
        "In the middle of the belly, reckoned as at the tip. It differs from the drawing by up to half a thread.",
    ),
    figure(
        "threads-min",
        "fewest threads",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.threads_min())),
        "The whole number nearest to what the thinnest place of the drawing calls for, at the target angle.",
    ),
    figure(
        "threads-max",
        "most threads",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.threads_max())),
        "The whole number nearest to what the thickest place of the drawing calls for, at the target angle.",
    ),
    figure(
        "angle-worst",
        "worst braid angle",
        Group::Braid,
        |plan, _| worst_angle(plan),
        "The angle farthest from the target. Angle, diameter and lay are solved together: the gear fixes the lay L drawn in one carrier circuit, and tan(angle) = π × path diameter ÷ L. Geometry. The machine is taken to follow a gear at once.",
    ),
    figure(
        "gear-changes",
        "gear changes",
        Group::Braid,
        |plan, _| Value::count(count(plan.gear_changes())),
        "For every thread count the gear you own that comes nearest to the target angle; a change wherever two neighbours differ.",
    ),
    figure(
        "crossings",
        "crossings in the belly",
        Group::Braid,
        crossings,
        "Crossings along one rib = threads ÷ (2 × lay). Count them under a loupe along one line of crossings. Geometry.",
    ),
    figure(
        "cover",
        "cover in the belly",
        Group::Braid,
        |plan, _| cover(plan),
        "Share of the surface covered: 2F − F² with F = threads × thread width ÷ (2π × path diameter × cos(angle)); at F = 1 and above the threads touch. Geometry, the same as for braided cable screens.",
    ),
    figure(
        "longest-float",
        "longest float",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.longest_float)),
        "The most crossings in a row that a thread stays on one side, with any number of threads on this line. Simulated for every thread and every crossing of a circuit.",
    ),
    figure(
        "yarn-length",
        "thread on all bobbins",
        Group::Yarn,
        |plan, units| long(plan.yarn.thread, units),
        "For each carrier the engaged length × (1 + crimp) ÷ cos(angle), and the allowance for each time it comes in. Geometry.",
    ),
    figure(
        "end-length",
        "filament end in it",
        Group::Yarn,
        |plan, units| long(plan.yarn.ends, units),
        "Thread length × ends per thread: what plying takes from the cones.",
    ),
    figure(
        "yarn-mass",
        "mass of thread",
        Group::Yarn,
        |plan, _| yarn_mass(plan),
        "Thread length × ends × size of an end. Yarn entered as raw loses its gum before braiding; the mass to buy is larger by that.",
    ),
];

fn too_short() -> Value {
    Value {
        si: None,
        text: "line too short".to_owned(),
    }
}

fn worst_angle(plan: &Plan) -> Value {
    let worst = plan.worst_angle;
    Value::angle(
        worst.angle,
        format!(
            "{} ({:.1}° off)",
            show::angle(worst.angle),
            worst.off.degrees()
        ),
    )
}

fn crossings(plan: &Plan, units: Units) -> Value {
    let per_metre = plan.belly.fit.braid.crossings_per_metre();
    Value {
        si: Some(per_metre),
        text: format!("{} of rib", units.show_crossings(per_metre)),
    }
}

fn cover(plan: &Plan) -> Value {
    let cover = plan.belly.fit.braid.cover();
    let text = if cover >= 1.0 {
        "full, threads touch".to_owned()
    } else {
        format!("{:.0} %", cover * 100.0)
    };
    Value {
        si: Some(cover),
        text,
    }
}

fn long(length: Length, units: Units) -> Value {
    Value {
        si: Some(length.metres()),
        text: units.show_yarn(length, 0),
    }
}

fn yarn_mass(plan: &Plan) -> Value {
    let yarn = plan.yarn;
    let text = if yarn.bought > yarn.mass {
        format!(
            "{} ({} to buy, raw)",
            show::grams(yarn.mass),
            show::grams(yarn.bought)
        )
    } else {
        show::grams(yarn.mass)
    };
    Value {
        si: Some(yarn.mass.kilograms()),
        text,
    }
}

fn count(count: usize) -> f64 {
    count as f64
}
