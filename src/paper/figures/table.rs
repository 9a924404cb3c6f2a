//! The table itself.

use super::values::{
    circuits, count, cover, crossings, density, force, fullest, long, one_gear, percent, rear_head,
    time, too_short, worst_angle, yarn_mass,
};
use super::{Figure, Group, Value};
use crate::base::units::show::Units;
use crate::braid::taper::Part;
use crate::plan::Plan;

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

/// The figures on the card, where room is short: what is wanted at the machine and at the scales.
pub const ON_CARD: [&str; 16] = [
    "head-mass",
    "head-bare-mass",
    "front-mass",
    "belly-mass",
    "rear-mass",
    "total-mass",
    "bare-mass",
    "length",
    "tip-diameter",
    "belly-diameter",
    "longest-float",
    "break-dry",
    "circuits",
    "braiding-time",
    "end-length",
    "yarn-mass",
];

/// Every figure, in the order shown.
pub const FIGURES: [Figure; 37] = [
    figure(
        "head-mass",
        "first 30 ft",
        Group::Weight,
        |plan, _| plan.head_mass.map_or_else(too_short, Value::mass),
        "Mass per metre × length, added up over 9.144 m from the end of the level tip. A tip longer than 6 in is weighed from 6 in on. This decides the class. gr: grains, 1 grain = 0.0648 g. The 6 in is from memory. Source: AFFTA fly line weight standard.",
    ),
    figure(
        "head-mass-low",
        "30 ft with the finest yarn",
        Group::Weight,
        |plan, _| {
            plan.head_range
                .map_or_else(too_short, |range| Value::mass(range.low))
        },
        "The first 30 ft with yarn at the fine end of its label. Threads, gears and places stay the same. Everything else is recalculated, angle and diameter too.",
    ),
    figure(
        "head-mass-high",
        "30 ft with the heaviest yarn",
        Group::Weight,
        |plan, _| {
            plan.head_range
                .map_or_else(too_short, |range| Value::mass(range.high))
        },
        "The same with yarn at the heavy end of its label. Weigh a length of your yarn and type its size as one number: then both are equal.",
    ),
    figure(
        "rear-head-mass",
        "30 ft from the rear",
        Group::Weight,
        |plan, _| rear_head(plan),
        "The first 30 ft from the other end, weighed the same way. Only for a line that ends in a tip, such as a double taper.",
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
        "From the level tip to the first place of full diameter, dressed.",
    ),
    figure(
        "belly-mass",
        "belly",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::Belly]),
        "From the first to the last place of full diameter, dressed.",
    ),
    figure(
        "rear-mass",
        "everything after the belly",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::RearTaper, Part::RearTip, Part::RunningLine]),
        "Rear taper, then rear tip or running line, dressed.",
    ),
    figure(
        "rear-taper-mass",
        "rear taper only",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::RearTaper]),
        "From the last place of full diameter to the level end, dressed.",
    ),
    figure(
        "rear-end-mass",
        "rear tip or running line",
        Group::Weight,
        |plan, _| Value::part(plan, &[Part::RearTip, Part::RunningLine]),
        "The level stretch at the rear, dressed. Up to 1 m it is called a rear tip, if longer a running line. The 1 m is our own choice.",
    ),
    figure(
        "total-mass",
        "whole line",
        Group::Weight,
        |plan, _| Value::mass(plan.total_mass),
        "All parts together. Dressed mass per metre = thread + dried oil + varnish + film + grease. Each follows from the voids and the surface of the braid. The dressing settings give every share and its source.",
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
        "The same 9.144 m before dressing. Weigh them off the machine to see early whether braid and plan agree.",
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
        "Size with whole threads: d = √(4 × bare mass per metre ÷ (π × fibre density × solid share of the braid)). Twice the varnish film is added. Geometry. The solid share is a setting; a measured swatch gives your value.",
    ),
    figure(
        "belly-diameter",
        "belly diameter",
        Group::Size,
        |plan, units| Value::diameter(plan.belly.dressed.diameter, units),
        "In the middle of the belly, calculated as at the tip. It differs from the drawing by up to half a thread.",
    ),
    figure(
        "diameter-error",
        "diameter difference from the drawing",
        Group::Size,
        |plan, _| percent(plan.diameter_error, 1),
        "Root mean square of the difference between made and drawn diameter along the line, in percent.",
    ),
    figure(
        "bulk-density",
        "density, dressed",
        Group::Size,
        |plan, _| density(plan.bulk_density(), "sinks unless greased", "floats"),
        "Mass of the belly ÷ volume of its round section, compared with water at 1.0 g/cm³. A greased line floats on the surface tension of water, whatever it weighs.",
    ),
    figure(
        "bare-bulk-density",
        "density, bare",
        Group::Size,
        |plan, _| {
            density(
                plan.belly.braid.bulk_density(),
                "sinks",
                "floats until it soaks",
            )
        },
        "The same before dressing, with air in the voids.",
    ),
    figure(
        "threads-min",
        "fewest threads",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.threads_min())),
        "The whole number nearest to what the thinnest place of the drawing needs at the target angle.",
    ),
    figure(
        "threads-max",
        "most threads",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.threads_max())),
        "The whole number nearest to what the thickest place of the drawing needs at the target angle.",
    ),
    figure(
        "angle-worst",
        "worst braid angle",
        Group::Braid,
        |plan, _| worst_angle(plan),
        "The angle farthest from the target. Angle, diameter and lay are solved together. The gear sets the lay L, drawn in one carrier circuit: tan(angle) = π × path diameter ÷ L. After a change the angle follows over about the distance from the guide to the braid. Source: kinematic equation of Du & Popper, J. Text. Inst. 85, 1994.",
    ),
    figure(
        "gear-changes",
        "gear changes",
        Group::Braid,
        |plan, _| Value::count(count(plan.gear_changes())),
        "The gears with the least squared angle error along the line, each change at the cost you set. Found by dynamic programming over the settled angles. From a large number of pairs only about 128 are compared.",
    ),
    figure(
        "thread-changes",
        "threads added, dropped, swapped",
        Group::Braid,
        |plan, _| Value::count(count(plan.thread_changes())),
        "Every change of one carrier between tip and end.",
    ),
    figure(
        "one-gear",
        "with one gear throughout",
        Group::Braid,
        one_gear,
        "The single gear with the least squared angle error if it is never changed. The figure shows its greatest angle error.",
    ),
    figure(
        "crossings",
        "crossings in the belly",
        Group::Braid,
        crossings,
        "Crossings along one rib = threads ÷ (2 × lay). Count them under a loupe along one rib. Geometry.",
    ),
    figure(
        "cover",
        "cover in the belly",
        Group::Braid,
        |plan, _| cover(plan),
        "Share of the surface covered: 2F − F². F = threads × thread width ÷ (2π × path diameter × cos(angle)). At F = 1 and above the threads touch. Geometry, the same as for braided cable screens.",
    ),
    figure(
        "longest-float",
        "longest float",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.interlacings.longest_float)),
        "The most crossings in a row for which a thread stays on one side. All thread counts of this line are included. Simulated for every thread and every crossing of a circuit.",
    ),
    figure(
        "widest-gap",
        "widest gap",
        Group::Braid,
        |plan, _| Value::count(f64::from(plan.interlacings.widest_gap)),
        "The widest step between neighbouring engaged carriers of one direction, in places of the ring. All thread counts of this line are included. 1 means every place.",
    ),
    figure(
        "break-dry",
        "breaking force, dry",
        Group::Braid,
        |plan, units| force(plan.strength.dry, plan, units),
        "Efficiency × tenacity × size of all threads × cos(angle), at the weakest place. Polypropylene and polyethylene are from memory. The efficiency is a setting. Knots and wear reduce it much. Source: tenacity from Morton & Hearle, Tables 13.1–13.2.",
    ),
    figure(
        "break-wet",
        "breaking force, wet",
        Group::Braid,
        |plan, units| force(plan.strength.wet, plan, units),
        "The dry force × the share of strength the fibre has when wet. Silk 82 %, between published figures; all others from memory.",
    ),
    figure(
        "circuits",
        "carrier circuits",
        Group::Braid,
        |plan, _| circuits(plan),
        "Length taken off ÷ take-off in one circuit, lead-in included.",
    ),
    figure(
        "braiding-time",
        "time the machine runs",
        Group::Braid,
        |plan, _| time(plan),
        "Circuits ÷ circuits per minute, a setting. The time for stops is extra.",
    ),
    figure(
        "yarn-length",
        "thread on all bobbins",
        Group::Yarn,
        |plan, units| long(plan.yarn.thread, units),
        "For each bobbin: engaged length × (1 + crimp) ÷ cos(angle), at the calculated angle. Added are its tails, the lead-in before the tip, and the allowance for each start. Geometry.",
    ),
    figure(
        "end-length",
        "ends, total length",
        Group::Yarn,
        |plan, units| long(plan.yarn.ends, units),
        "Thread length × its ends, plus the allowance for plying. This is the length plying takes from the cones.",
    ),
    figure(
        "yarn-mass",
        "mass of thread",
        Group::Yarn,
        |plan, _| yarn_mass(plan),
        "Thread length × ends × size of an end. The mass to buy includes the allowance for plying. Yarn entered as raw loses its gum before braiding, so more is needed.",
    ),
    figure(
        "bobbin-fullest",
        "fullest bobbin",
        Group::Yarn,
        |plan, _| fullest(plan),
        "The largest mass of thread on any one bobbin.",
    ),
];
