//! Nothing is lost between jar and line, whatever the recipe.

use proptest::prelude::*;
use taperwright::base::units::Mass;
use taperwright::braid::recipe::StepKind;
use taperwright::design::settings::Setting;
use taperwright::plan::Plan;

use crate::lines::{any_design, cases};

fn near(one: Mass, other: Mass) -> bool {
    (one.grams() - other.grams()).abs() <= 1e-9 * one.grams().abs().max(1.0)
}

proptest! {
    #![proptest_config(cases(100))]

    /// Conservation of mass: what is poured is taken or left; what is taken, and the oxygen it gains, stays or evaporates;
    /// what stays of every coat, and the grease, is what the finished line weighs over the bare one.
    #[test]
    fn what_leaves_the_jars_is_on_the_line_or_named(design in any_design()) {
        let plan = Plan::of(&design);
        let weighed = design.materials().weighed;
        let mut on_the_line = plan.bare_mass;
        for report in &plan.dressing {
            let Some(coat) = &report.coat else { continue };
            prop_assert!(near(coat.taken.mass() + coat.left().mass(), coat.poured.mass()));
            prop_assert!(near(coat.stays + coat.evaporates, coat.taken.mass() + coat.gained));
            for part in [coat.stays, coat.gained, coat.evaporates, coat.taken.oil.mass, coat.taken.varnish.mass, coat.taken.solvent.mass] {
                prop_assert!(part.grams() >= -1e-9, "{part:?}");
            }
            on_the_line += coat.stays;
        }
        let greased = plan.dressing.iter().rev().find(|report| report.grease > Mass::ZERO);
        let share = greased.map_or(0.0, |_| design.materials().grease);
        let is_dressed = plan.dressing.iter().any(|report| report.coat.is_some() || report.step.kind == StepKind::Grease);
        let factor = if is_dressed { weighed * (1.0 + share) } else { 1.0 };
        prop_assert!(near(on_the_line * factor, plan.total_mass), "{} {}", (on_the_line * factor).grams(), plan.total_mass.grams());
    }

    /// Voids are never more than full nor less than empty, no vacuum lets in more than its bound, and the filling stands
    /// between the core and the outermost thread.
    #[test]
    fn voids_hold_what_they_can(design in any_design()) {
        let plan = Plan::of(&design);
        for report in &plan.dressing {
            prop_assert!((-1e-12..=1.0 + 1e-12).contains(&report.filled), "{}", report.filled);
            prop_assert!(report.below.metres() >= -1e-15);
            prop_assert!(report.below <= plan.belly.braid.diameter * 0.5);
            if let Some(coat) = &report.coat {
                prop_assert!(coat.fill <= coat.bound.unwrap_or(1.0));
            }
        }
        prop_assert_eq!(plan.dressing.len(), design.draft().recipe.len());
    }

    /// A better vacuum never makes a lighter line.
    #[test]
    fn a_better_vacuum_fills_more(mbar in 2.0_f64..1000.0, share in 0.1_f64..1.0) {
        let weighs = |mbar: f64| {
            let mut draft = crate::designs::usual().draft().clone();
            draft.settings.set(Setting::OilFill, 100.0);
            for step in &mut draft.recipe {
                if step.kind.is_oil() {
                    step.mbar = mbar;
                }
            }
            Plan::of(&crate::designs::parsed(draft)).total_mass
        };
        prop_assert!(weighs((mbar * share).max(1.0)) >= weighs(mbar) * (1.0 - 1e-12));
    }
}
