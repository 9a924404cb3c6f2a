//! Tapers keep the mass they are drawn with.

use proptest::prelude::*;
use taperwright::braid::taper::Part;
use taperwright::braid::threads::Build;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::plan::{Plan, SectionWeight};

use crate::designs::{parsed, point, usual};
use crate::lines::{cases, some_of};

/// A double taper such as makers draw, with stops as close as the drawing asks: sizes of tip and belly in threads, and
/// the lengths of its two tapers in decimetres.
fn double_taper() -> impl Strategy<Value = Design> {
    let build = proptest::sample::select(vec![Build::MoreThreads, Build::Both]);
    (
        build,
        82_u32..=100,
        130_u32..=158,
        20_u32..=50,
        20_u32..=50,
        0_u32..=2,
    )
        .prop_map(|(build, tip, belly, front, rear, tails)| {
            let mut draft = usual().draft().clone();
            draft.build = build;
            draft.settings.set(Setting::HeavierEnds, 18.0);
            draft.settings.set(Setting::LeastSpacing, 1.0);
            draft
                .settings
                .set(Setting::BuriedTail, f64::from(tails) * 25.0);
            let staircase = Plan::of(&parsed(draft.clone())).staircase;
            let size = |tenths: u32| staircase.diameter(f64::from(tenths) / 10.0).millimetres();
            let (front, rear) = (f64::from(front) / 10.0, f64::from(rear) / 10.0);
            let (tip, belly) = (size(tip), size(belly));
            let rows = [
                (0.0, tip),
                (0.15, tip),
                (front, belly),
                (18.0, belly),
                (18.0 + rear, tip),
                (18.2 + rear, tip),
            ];
            draft.points = rows.map(|(at, size)| point(at, size)).to_vec();
            parsed(draft)
        })
}

fn tapers(plan: &Plan) -> impl Iterator<Item = &SectionWeight> {
    let is_taper = |section: &&SectionWeight| {
        matches!(section.section.part, Part::FrontTaper | Part::RearTaper)
    };
    plan.sections.iter().filter(is_taper)
}

proptest! {
    #![proptest_config(cases(150))]

    /// Whole threads leave as much above the drawing as below it along a taper, and stops stand where the gears, the late
    /// angle and the tails need them for that: to a hundredth of its mass.
    #[test]
    fn a_taper_has_the_mass_it_is_drawn_with(design in double_taper()) {
        let plan = Plan::of(&design);
        prop_assert_eq!(tapers(&plan).count(), 2);
        for taper in tapers(&plan) {
            prop_assert!(taper.off().abs() <= 0.01, "{:?} is {:+.2} % off", taper, taper.off() * 100.0);
        }
    }
}

/// On the whole, tapers come out neither heavy nor light.
#[test]
fn tapers_are_not_heavy_or_light_on_the_whole() {
    let offs: Vec<f64> = some_of(&double_taper(), 60)
        .iter()
        .flat_map(|design| {
            tapers(&Plan::of(design))
                .map(SectionWeight::off)
                .collect::<Vec<_>>()
        })
        .collect();
    let mean = offs.iter().sum::<f64>() / offs.len() as f64;
    assert!(mean.abs() < 0.003, "{:+.2} % on the whole", mean * 100.0);
}
