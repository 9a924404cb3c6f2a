//! Masses add up, double and mirror.

use proptest::prelude::*;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::plan::Plan;
use taperwright::units::{Angle, Length, Mass};

use crate::designs::{design, parsed, usual};
use crate::lines::{any_design, cases, usual_design};

#[track_caller]
fn same(a: Mass, b: Mass) {
    assert!(
        (a - b).abs() <= a.max(b) * 1e-9,
        "{} g is not {} g",
        a.grams(),
        b.grams()
    );
}

/// A level line on which all carriers run, whatever the drawing wants.
fn level(settings: &[(Setting, f64)]) -> Plan {
    let all = [(Setting::FewestThreads, 16.0)];
    Plan::of(&design(
        &[&all, settings].concat(),
        &[(0.0, 1.0), (25.0, 1.0)],
    ))
}

/// The design seen from its other end.
fn mirrored(design: &Design) -> Design {
    let mut draft = design.draft().clone();
    let length = draft.points[draft.points.len() - 1].at_m;
    draft.points.reverse();
    for point in &mut draft.points {
        point.at_m = length - point.at_m;
    }
    parsed(draft)
}

proptest! {
    #![proptest_config(cases(100))]

    /// At one angle and one thread count, twice the ends are twice the mass before dressing.
    #[test]
    fn twice_the_ends_weigh_twice_as_much(threads in 3_u32..=64, degrees in 15.0_f64..=70.0, ends in 1.0_f64..=250.0) {
        let braiding = |ends: f64| {
            let design = design(&[(Setting::EndsPerThread, ends.round())], &[(0.0, 1.0), (25.0, 1.0)]);
            design.braiding().at_angle(threads, Angle::from_degrees(degrees))
        };
        let (one, two) = (braiding(ends.round()), braiding(2.0 * ends.round()));
        prop_assert!((two.linear_density / one.linear_density - 2.0).abs() < 1e-12);
    }

    /// Through the whole plan: a thicker thread on the same gear would close the angle, so the machine constant grows
    /// with the braid, by √2. It is kept to 1 µm, which is worth less than 1 part in 1000 of mass here.
    #[test]
    fn twice_the_ends_weigh_twice_as_much_in_a_plan(ends in 4_u32..=60, constant in 2.0_f64..=6.0) {
        let plan = |ends: u32, constant: f64| level(&[
            (Setting::EndsPerThread, f64::from(ends)),
            (Setting::MachineConstant, constant * f64::from(ends).sqrt() / 12.0_f64.sqrt()),
        ]);
        let (one, two) = (plan(ends, constant), plan(2 * ends, constant));
        prop_assume!(one.stretches[0].fit.gear == two.stretches[0].fit.gear);
        prop_assert!((two.bare_mass / one.bare_mass - 2.0).abs() < 2e-3);
    }

    /// Sections are without gap or overlap, so their masses, as planned and as drawn, make the whole.
    #[test]
    fn the_sections_weigh_the_whole(design in any_design()) {
        let plan = Plan::of(&design);
        let whole: Mass = plan.stretches.iter().map(|s| (s.to - s.from) * s.dressed.linear_density).sum();
        same(plan.sections.iter().map(|section| section.mass).sum(), whole);
        same(plan.total_mass, whole);
        prop_assert_eq!(plan.sections[0].section.from, Length::ZERO);
        prop_assert_eq!(plan.sections[plan.sections.len() - 1].section.to, plan.length);
        for pair in plan.sections.windows(2) {
            prop_assert_eq!(pair[0].section.to, pair[1].section.from);
        }
        prop_assert!(plan.bare_mass <= plan.total_mass);
    }

    /// From both ends, in total and section by section. A diameter exactly half a thread between two levels would
    /// round up from either side; the threads it takes then stand on a stretch of no length, which weighs nothing.
    #[test]
    fn a_line_weighs_the_same_from_both_ends(design in any_design()) {
        let (there, back) = (Plan::of(&design), Plan::of(&mirrored(&design)));
        same(there.total_mass, back.total_mass);
        same(there.bare_mass, back.bare_mass);
        prop_assert_eq!(there.sections.len(), back.sections.len());
        for (a, b) in there.sections.iter().zip(back.sections.iter().rev()) {
            // The grid of positions is exact only to the last bit, and a short section may hang on one boundary.
            let slack = there.total_mass * 1e-12;
            prop_assert!((a.mass - b.mass).abs() <= a.mass * 1e-9 + slack, "{:?} {:?}", a, b);
            prop_assert!((a.drawn - b.drawn).abs() <= a.drawn * 1e-9 + slack, "{:?} {:?}", a, b);
        }
    }

    /// As drawn and as braided agree to what whole threads and gears leave open: half a thread of eight, and a degree.
    #[test]
    fn whole_threads_follow_the_drawing(design in usual_design()) {
        let plan = Plan::of(&design);
        prop_assert_eq!(&plan.notices, &vec![]);
        let drawn: Mass = plan.sections.iter().map(|section| section.drawn).sum();
        prop_assert!((plan.total_mass / drawn - 1.0).abs() < 0.085, "{} g", drawn.grams());
    }
}

/// A larger angle needs more yarn. The line is level and braided by the same sixteen threads throughout; the take-off
/// has one gear, and its constant is set to the lay that draws each angle, to 1 µm.
#[test]
fn a_larger_angle_needs_more_yarn() {
    let braiding = usual().braiding();
    let yarn = |degrees: f64| {
        let lay = braiding
            .at_angle(16, Angle::from_degrees(degrees))
            .lay
            .millimetres();
        let mut draft = design(&[], &[(0.0, 1.0), (25.0, 1.0)]).draft().clone();
        for (setting, value) in [
            (Setting::FewestThreads, 16.0),
            (Setting::TargetAngle, degrees),
            (Setting::MachineConstant, lay),
        ] {
            draft.settings.set(setting, value);
        }
        draft.gears = vec![40.0];
        let plan = Plan::of(&parsed(draft));
        assert!(
            plan.worst_angle.off.degrees() < 0.1,
            "the lay does not draw {degrees}°"
        );
        plan.yarn
    };
    let yarns: Vec<_> = (15..=69).map(|degrees| yarn(f64::from(degrees))).collect();
    for pair in yarns.windows(2) {
        assert!(pair[0].thread < pair[1].thread && pair[0].mass < pair[1].mass);
    }
}
