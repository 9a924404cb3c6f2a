//! A plan is total, repeatable and finite, whatever the design.

use proptest::prelude::*;
use taperwright::base::units::show::Units;
use taperwright::braid::track::Pattern;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft};
use taperwright::paper::figures::{FIGURES, verdict_detail, verdict_title};
use taperwright::plan::Plan;

use crate::designs::{parsed, usual};
use crate::likely::likely;
use crate::lines::{any_design, cases, draft};

/// Every number in the plan, whatever part it stands in, goes through its debug text.
#[track_caller]
fn is_finite(plan: &Plan) {
    let text = format!("{plan:?}");
    assert!(
        text.contains("Length(0.0)"),
        "the text of the plan is not what this test thinks"
    );
    for word in ["NaN", "inf)", "inf,", "inf "] {
        assert!(!text.contains(word), "the plan holds {word}: {text}");
    }
    for figure in FIGURES {
        let value = (figure.value)(plan, Units::Metric);
        assert!(value.si.is_none_or(f64::is_finite), "{}", figure.key);
        assert!(!value.text.is_empty(), "{}", figure.key);
    }
    assert!(!verdict_title(&plan.verdict).is_empty());
    assert!(verdict_detail(plan, Units::Imperial).contains(char::is_numeric));
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn any_design_has_a_finite_plan(design in any_design()) {
        is_finite(&Plan::of(&design));
    }

    #[test]
    fn a_likely_design_has_a_finite_plan(design in likely()) {
        is_finite(&Plan::of(&design));
    }

    #[test]
    fn the_same_design_has_the_same_plan(design in any_design()) {
        let again = parsed(design.draft().clone());
        prop_assert_eq!(Plan::of(&design), Plan::of(&again));
    }

    /// A design parsed is as good as it gets: parsing it again changes nothing.
    #[test]
    fn parsing_twice_is_parsing_once(draft in draft()) {
        let once = parsed(draft);
        prop_assert_eq!(Design::parse(once.draft().clone()), Ok(once));
    }

    /// Values between the steps of their grid are brought onto it, and stay there.
    #[test]
    fn parsing_twice_is_parsing_once_between_the_steps(draft in draft(), off in -0.49_f64..0.49) {
        let mut draft: Draft = draft;
        for setting in Setting::ALL {
            let rule = setting.rule();
            if rule.steps > 1 {
                draft.settings.set(setting, draft.settings.get(setting) + off / f64::from(rule.steps));
            }
        }
        for point in &mut draft.points[1..] {
            (point.at_m, point.diameter_mm) = (point.at_m + off * 1e-4, point.diameter_mm + off * 1e-4);
        }
        let once = parsed(draft);
        prop_assert_eq!(Design::parse(once.draft().clone()), Ok(once));
    }
}

/// A ring with every place mounted and in use; the largest has two slots, the smallest four.
fn with_ring(draft: &mut Draft, horn_gears: f64) {
    draft.pattern = if horn_gears > 32.0 {
        Pattern::Diamond
    } else {
        Pattern::Regular
    };
    let carriers = horn_gears * f64::from(draft.pattern.slots()) / 2.0;
    draft.settings.set(Setting::HornGears, horn_gears);
    draft.settings.set(Setting::MostThreads, carriers);
    let kept = draft.settings.get(Setting::FewestThreads).min(carriers);
    draft.settings.set(Setting::FewestThreads, kept);
}

/// Every setting alone at either end of its range, on an otherwise usual line.
#[test]
fn either_end_of_every_setting_has_a_finite_plan() {
    for setting in Setting::ALL {
        for end in [setting.rule().low, setting.rule().high] {
            let mut draft = usual().draft().clone();
            draft.settings.set(setting, end);
            match setting {
                Setting::LabelLow => draft.settings.set(Setting::LabelHigh, end.max(22.0)),
                Setting::LabelHigh => draft.settings.set(Setting::LabelLow, end.min(20.0)),
                Setting::FibreFraction => draft.settings.set(Setting::ThreadPacking, end.max(70.0)),
                Setting::ThreadPacking => draft.settings.set(Setting::FibreFraction, end.min(55.0)),
                Setting::BobbinFull => draft
                    .settings
                    .set(Setting::BobbinBarrel, end.min(10.0) / 2.0),
                Setting::BobbinBarrel => draft.settings.set(Setting::BobbinFull, 200.0),
                Setting::HornGears => with_ring(&mut draft, end),
                Setting::FewestThreads => with_ring(&mut draft, 32.0),
                Setting::MostThreads => {
                    let kept = draft.settings.get(Setting::FewestThreads).min(end);
                    draft.settings.set(Setting::FewestThreads, kept);
                    draft.settings.set(Setting::HornGears, 32.0);
                }
                _ => {}
            }
            is_finite(&Plan::of(&parsed(draft)));
        }
    }
}

/// The knife's edge half a step outside every range, where rounding decides: what is let in must be in range.
#[test]
fn nothing_is_let_in_that_would_not_be_let_in_again() {
    use taperwright::braid::takeoff::TEETH;
    use taperwright::design::settings::{DIAMETER, POSITION};
    let rules = Setting::ALL
        .map(Setting::rule)
        .into_iter()
        .chain([POSITION, DIAMETER, TEETH]);
    let mut let_in = 0;
    for rule in rules {
        let half = 0.5 / f64::from(rule.steps);
        for edge in [rule.low - half, rule.high + half] {
            for value in [edge.next_down(), edge, edge.next_up()] {
                if let Ok(admitted) = rule.admit(value) {
                    let_in += 1;
                    assert!(
                        (rule.low..=rule.high).contains(&admitted),
                        "{}: {value} became {admitted}",
                        rule.name
                    );
                    assert_eq!(rule.admit(admitted), Ok(admitted));
                }
            }
        }
    }
    assert!(let_in > 0, "no value was near enough to an edge");
}
