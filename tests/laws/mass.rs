//! Masses add up, double and mirror.

use proptest::prelude::*;
use taperwright::base::units::{Angle, Length, LinearDensity, Mass};
use taperwright::braid::stretch::Stretch;
use taperwright::braid::taper::Part;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::starts::Start;
use taperwright::plan::bobbins::Bobbin;
use taperwright::plan::{Notice, Plan, SectionWeight};

use crate::designs::{design, parsed, usual};
use crate::likely::likely;
use crate::lines::{any_design, cases, some_of, usual_design};

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
        prop_assume!(one.events[0].wheels == two.events[0].wheels);
        prop_assert!((two.bare_mass / one.bare_mass - 2.0).abs() < 2e-3);
    }

    /// Sections are without gap or overlap, so their masses, as planned and as drawn, make the whole.
    #[test]
    fn the_sections_weigh_the_whole(design in prop_oneof![any_design().boxed(), likely().boxed()]) {
        let plan = Plan::of(&design);
        let whole = plan.line.mass(Length::ZERO, plan.length);
        same(plan.sections.iter().map(|section| section.mass).sum(), whole);
        same(plan.total_mass, whole);
        prop_assert_eq!(plan.sections[0].section.from, Length::ZERO);
        prop_assert_eq!(plan.sections[plan.sections.len() - 1].section.to, plan.length);
        for pair in plan.sections.windows(2) {
            prop_assert_eq!(pair[0].section.to, pair[1].section.from);
        }
        // But for what the maker's lines weigh over what is calculated, dressing only adds.
        let weighed = design.materials().weighed.min(1.0);
        prop_assert!(plan.bare_mass * weighed <= plan.total_mass);
    }

    /// Wherever a line is cut, its two parts weigh what the whole does, before and after dressing; thread and circuits
    /// are as much. Dressing only adds.
    #[test]
    fn a_line_cut_anywhere_weighs_the_whole(design in likely(), cuts in proptest::collection::vec(0.0_f64..1.0, 2)) {
        let line = Plan::of(&design).line;
        let end = line.length();
        let (a, b) = (end * cuts[0].min(cuts[1]), end * cuts[0].max(cuts[1]));
        let thirds = [(Length::ZERO, a), (a, b), (b, end)];
        let sum = |of: &dyn Fn((Length, Length)) -> f64| thirds.iter().map(|&third| of(third)).sum::<f64>();
        let whole = (Length::ZERO, end);
        let parts: [&dyn Fn((Length, Length)) -> f64; 4] = [
            &|(from, to)| line.mass(from, to).kilograms(),
            &|(from, to)| line.bare_mass(from, to).kilograms(),
            &|(from, to)| line.thread(from, to).metres(),
            &|(from, to)| line.circuits(from, to),
        ];
        for part in parts {
            // Each end of a part is summed by its own rule of quadrature.
            prop_assert!((sum(part) / part(whole) - 1.0).abs() < 1e-9);
        }
        for (from, to) in thirds {
            prop_assert!(line.bare_mass(from, to) <= line.mass(from, to));
            prop_assert!(line.bare_mass(from, to) >= Mass::ZERO);
        }
    }

    /// The drawing weighs the same from both ends, in total and section by section. The braid does not: the angle
    /// follows late, and tails lie after their drops.
    #[test]
    fn a_drawing_weighs_the_same_from_both_ends(design in any_design()) {
        let (there, back) = (Plan::of(&design), Plan::of(&mirrored(&design)));
        prop_assert_eq!(there.sections.len(), back.sections.len());
        let whole = drawn(&there);
        for (a, b) in there.sections.iter().zip(back.sections.iter().rev()) {
            // The grid of positions is exact only to the last bit.
            let slack = whole * 1e-12;
            prop_assert!((a.drawn - b.drawn).abs() <= a.drawn * 1e-9 + slack, "{:?} {:?}", a, b);
        }
    }

    /// As drawn and as braided agree to what whole threads and gears leave open: half a thread of eight, and a degree.
    #[test]
    fn whole_threads_follow_the_drawing(design in usual_design()) {
        let plan = Plan::of(&design);
        let drawn = drawn(&plan);
        prop_assert!((plan.total_mass / drawn - 1.0).abs() < 0.085, "{} g", drawn.grams());
    }

    /// The mass between two places is the integral of the mass per length that the line has at every place, here by
    /// the midpoint rule in many small steps: fine ones while the angle moves, as long a step as is left where it rests.
    #[test]
    fn the_mass_is_the_integral_of_the_mass_per_length(design in prop_oneof![any_design().boxed(), likely().boxed()]) {
        let plan = Plan::of(&design);
        let (mut dressed, mut bare) = (0.0, 0.0);
        for stretch in plan.line.stretches() {
            let moving = stretch.length().min(stretch.convergence.lag() * 25.0);
            let fine = moving / f64::from(STEPS);
            for step in 0..STEPS {
                let at = stretch.from() + fine * (f64::from(step) + 0.5);
                let station = plan.line.station_in(stretch, at);
                dressed += (fine * station.dressed.linear_density).kilograms();
                bare += (fine * station.braid.linear_density).kilograms();
            }
            let rest = stretch.length() - moving;
            let station = plan.line.station_in(stretch, stretch.to());
            dressed += (rest * station.dressed.linear_density).kilograms();
            bare += (rest * station.braid.linear_density).kilograms();
        }
        let offs = [dressed / plan.total_mass.kilograms() - 1.0, bare / plan.bare_mass.kilograms() - 1.0];
        let largest = offs.map(f64::abs).into_iter().fold(0.0, f64::max);
        // Where the angle leaps by tens of degrees, as on no line that could be braided, four samples are less exact.
        let allowed = if largest_leap(&plan) <= 10.0 { 1e-4 } else { 3e-2 };
        prop_assert!(largest <= allowed, "{:?} with a leap of {}°", offs, largest_leap(&plan));
    }

    /// Nothing is lost between bobbin and line: the yarn on all bobbins, less lead-in and allowances, is the bare line.
    /// Crimp and angle are in both, tails too.
    #[test]
    fn the_yarn_on_the_bobbins_is_the_bare_line(design in prop_oneof![any_design().boxed(), likely().boxed()]) {
        let plan = Plan::of(&design);
        let end = design.thread().end;
        let take_up = plan.line.stretches()[0].steady.take_up;
        let begins = |bobbin: &Bobbin| bobbin.enters == Length::ZERO;
        let lead_in = design.lead_in() * take_up;
        let in_the_line = |bobbin: &Bobbin| {
            let waste = design.thread_allowance() * f64::from(bobbin.engagements);
            let lead_in = if begins(bobbin) { lead_in } else { Length::ZERO };
            (bobbin.length - waste - lead_in) * (end * f64::from(bobbin.ends))
        };
        let yarn: Mass = plan.bobbins.iter().map(in_the_line).sum();
        prop_assert!((yarn / plan.bare_mass - 1.0).abs() <= 1e-6, "{} g for {} g", yarn.grams(), plan.bare_mass.grams());
        let wound: Mass = plan.bobbins.iter().map(|bobbin| bobbin.length * (end * f64::from(bobbin.ends))).sum();
        same(plan.yarn.mass, wound);
        let plied: Mass = plan.plying.iter().map(|kind| kind.mass).sum();
        same(plied, wound * (1.0 + design.setting(Setting::PlyingAllowance) / 100.0));
    }

    /// With the finest and the heaviest yarn of its label a line weighs less and more; of one number on the label, the
    /// same.
    #[test]
    fn the_head_lies_within_the_range_of_the_label(design in prop_oneof![any_design().boxed(), likely().boxed()]) {
        let plan = Plan::of(&design);
        prop_assert_eq!(plan.head_range.is_some(), plan.head_mass.is_some());
        if let (Some(range), Some(head)) = (plan.head_range, plan.head_mass) {
            if design.label_spread() > 0.0 {
                prop_assert!(range.low < head && head < range.high, "{:?} {} g", range, head.grams());
            } else {
                same(range.low, head);
                same(range.high, head);
            }
        }
    }
}

/// How much a taper may be off its drawing, and by how much it is.
///
/// The drawing and the level on the machine differ by half a jump at most, and stops lie so that what is too much on one side
/// of them is too little on the other. So what is left is what of the first and of the last level lies within the taper: half
/// a jump along it, and the tail and ramp that lie across its end.
fn off_and_allowed(design: &Design, plan: &Plan, section: &SectionWeight) -> (f64, f64) {
    let (from, to) = (section.section.from, section.section.to);
    let stops: Vec<Length> = plan.layout.stops.iter().map(|stop| stop.at).collect();
    let within: Vec<Length> = stops
        .iter()
        .copied()
        .filter(|&at| from < at && at < to)
        .collect();
    let density = |interval: usize| {
        let begin = interval
            .checked_sub(1)
            .map_or(Length::ZERO, |stop| stops[stop]);
        let end = stops.get(interval).copied().unwrap_or(plan.length);
        plan.station((begin + end) / 2.0).dressed.linear_density
    };
    let jump = (0..stops.len()).map(|stop| (density(stop + 1) - density(stop)).abs());
    let jump = jump.fold(LinearDensity::default(), LinearDensity::max);
    let ends = within.first().zip(within.last());
    let along = ends.map_or(to - from, |(&first, &last)| (first - from) + (to - last));
    let across = design.buried_tail() + plan.line.stretch_at(to).convergence.lag();
    let allowed = (along * 0.5 + across) * jump;
    (
        (section.mass - section.drawn).abs().grams(),
        allowed.grams(),
    )
}

/// A line on which nothing keeps a stop from its place: none is pinned or crowded, and the stops of the section have room for
/// their tails and ramps, so that none is held back by its neighbour.
fn is_uncrowded(design: &Design, plan: &Plan, section: &SectionWeight) -> bool {
    let (from, to) = (section.section.from, section.section.to);
    let places: Vec<Length> = plan.stops().map(|stop| stop[0].at).collect();
    let lags = plan
        .line
        .stretches()
        .iter()
        .map(|stretch| stretch.convergence.lag());
    let ramp = lags.fold(Length::ZERO, Length::max) * 3.0;
    let least = (design.buried_tail() + ramp + design.least_spacing()) * 2.0;
    let stops: Vec<Length> = plan.layout.stops.iter().map(|stop| stop.at).collect();
    let near = |pair: &&[Length]| pair[1] > from && pair[0] < to;
    let has_room = stops
        .windows(2)
        .filter(near)
        .all(|pair| pair[1] - pair[0] > least)
        && places.len() > 3;
    let keeps = |notice: &Notice| {
        matches!(
            notice,
            Notice::Crowded(_)
                | Notice::LeftOut { .. }
                | Notice::TooThick { .. }
                | Notice::TooThin { .. }
                | Notice::PinDropped(_)
        )
    };
    has_room
        && !plan.notices.iter().any(keeps)
        && plan.layout.stops.iter().all(|stop| !stop.is_pinned())
}

/// Counted is how often there is something to hold; without, the law would be worth nothing.
#[test]
fn tapers_keep_the_mass_they_are_drawn_with() {
    let mut held = 0;
    for design in some_of(&usual_design(), 4000) {
        let plan = Plan::of(&design);
        let is_taper = |weight: &&SectionWeight| {
            matches!(weight.section.part, Part::FrontTaper | Part::RearTaper)
        };
        for weight in plan
            .sections
            .iter()
            .filter(is_taper)
            .filter(|weight| is_uncrowded(&design, &plan, weight))
        {
            let (off, allowed) = off_and_allowed(&design, &plan, weight);
            assert!(
                off <= allowed,
                "{:?} is {off} g off, not {allowed} g: {design:?}",
                weight.section.part
            );
            held += 1;
        }
    }
    assert!(held > 30, "{held} tapers");
}

/// Of the example and of the weight-forward line, whose wheels stand beside their stops all along the rear taper.
#[test]
fn rear_tapers_weigh_what_is_drawn() {
    for design in [demo(), Start::WeightForward.design()] {
        let plan = Plan::of(&design);
        let is_rear = |weight: &&SectionWeight| weight.section.part == Part::RearTaper;
        let rear = plan.sections.iter().find(is_rear).expect("a rear taper");
        let off = rear.mass / rear.drawn - 1.0;
        assert!(off.abs() < 1e-3, "{}: {off}", design.title());
        let layout = &plan.layout;
        let beside = layout
            .stops
            .iter()
            .zip(&layout.wheels_at)
            .filter(|(stop, at)| stop.at != **at);
        assert!(
            beside.count() > 3,
            "the wheels of {} are fitted at their stops",
            design.title()
        );
    }
}

/// How far from its rest any stretch begins, in degrees.
fn largest_leap(plan: &Plan) -> f64 {
    let leap = |stretch: &Stretch| {
        (stretch.angle_at(stretch.from()) - stretch.steady.angle)
            .degrees()
            .abs()
    };
    plan.line.stretches().iter().map(leap).fold(0.0, f64::max)
}

/// Steps of the midpoint rule while the angle moves.
const STEPS: u32 = 400;

fn drawn(plan: &Plan) -> Mass {
    plan.sections.iter().map(|section| section.drawn).sum()
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
