//! Nothing is lost between jar and line, whatever the recipe.

use proptest::prelude::*;
use taperwright::base::units::Mass;
use taperwright::braid::dressing::Materials;
use taperwright::braid::recipe::StepKind;
use taperwright::design::settings::Setting;
use taperwright::paper::words::ledger::{Change, Hundredths, ShownLedger, hundredths};
use taperwright::plan::{Plan, StepReport};

use crate::lines::{any_design, cases};

fn near(one: Mass, other: Mass) -> bool {
    (one.grams() - other.grams()).abs() <= 1e-9 * one.grams().abs().max(1.0)
}

/// A line between two steps.
#[derive(Clone, Copy)]
struct State {
    mass: Mass,
    /// What such lines weigh over what is calculated; 1 until something went on.
    weighed: f64,
    grease: f64,
    /// What its wet coats will gain by drying; negative where they lose.
    drying: Mass,
}

impl State {
    /// After a step, its mass left as it was.
    fn after(self, report: &StepReport, materials: &Materials) -> Self {
        let kind = report.step.kind;
        let mut next = self;
        if let Some(coat) = &report.coat {
            next.drying = next.drying + coat.gained - coat.evaporates;
        }
        if kind.dries() {
            next.drying = Mass::ZERO;
        }
        if report.coat.is_some() || kind == StepKind::Grease {
            next.weighed = materials.weighed;
        }
        if kind == StepKind::Grease {
            next.grease = materials.grease;
        }
        next
    }
}

/// Whether a sum in words is right: `24.33 g + 2.33 g varnish − 0.10 g evaporates = 26.56 g`.
fn adds_up(words: &str) -> bool {
    let Some((sum, total)) = words.split_once('=') else {
        return true;
    };
    let number = |text: &str| -> i64 {
        let digits: String = text.chars().filter(char::is_ascii_digit).collect();
        digits.parse().expect("a number of hundredths")
    };
    let spaced = sum.replace('\u{2212}', "+ -");
    let parts = spaced.split('+').map(|part| {
        let sign = if part.contains('-') { -1 } else { 1 };
        sign * number(part)
    });
    parts.sum::<i64>() == number(total)
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
        let greased = plan.dressing.iter().rev().find(|report| report.step.kind == StepKind::Grease);
        let share = greased.map_or(0.0, |_| design.materials().grease);
        let is_dressed = plan.dressing.iter().any(|report| report.coat.is_some() || report.step.kind == StepKind::Grease);
        let factor = if is_dressed { weighed * (1.0 + share) } else { 1.0 };
        prop_assert!(near(on_the_line * factor, plan.total_mass), "{} {}", (on_the_line * factor).grams(), plan.total_mass.grams());
    }

    /// The ledger closes at every step, begins where the last ended, and ends with the line as planned; wet a line weighs what it
    /// weighed before and what it took up.
    #[test]
    fn the_ledger_closes(design in any_design()) {
        let plan = Plan::of(&design);
        let materials = design.materials();
        let mut now = State { mass: plan.bare_mass, weighed: 1.0, grease: 0.0, drying: Mass::ZERO };
        for report in &plan.dressing {
            let ledger = &report.ledger;
            prop_assert!(near(ledger.before, now.mass), "{ledger:?}");
            let change = ledger.taken + ledger.gained - ledger.evaporates;
            prop_assert!(near(now.mass + change + ledger.grease + ledger.corrected, ledger.after), "{ledger:?}");
            let taken = report.coat.map_or(Mass::ZERO, |coat| coat.taken.mass());
            prop_assert_eq!(ledger.taken, taken);
            let next = now.after(report, &materials);
            // What is calculated, weighed as the maker's lines weigh.
            let bare_of_both = now.mass / ((1.0 + now.grease) * now.weighed);
            let (weighed, grease) = (next.weighed, now.grease);
            let corrected = bare_of_both * ((1.0 + grease) * (weighed - now.weighed))
                + change * ((1.0 + grease) * weighed - 1.0);
            let off = (ledger.corrected - corrected).grams().abs();
            prop_assert!(off <= 1e-9 * ledger.after.grams().max(1.0), "{ledger:?} {}", corrected.grams());
            if weighed == 1.0 && grease == 0.0 && report.coat.is_some() {
                prop_assert!(near(ledger.after, ledger.before + taken));
            }
            now = State { mass: ledger.after, ..next };
        }
        let dry = now.mass + now.drying * ((1.0 + now.grease) * now.weighed);
        prop_assert!(near(dry, plan.total_mass), "{} {}", dry.grams(), plan.total_mass.grams());
        let is_wet = plan.dressing.last().is_some_and(|report| report.is_wet);
        prop_assert!(is_wet || near(now.mass, plan.total_mass));
    }

    /// The figures shown add up as they stand, each is the same wherever it stands, and none is off by more than two hundredths.
    #[test]
    fn the_ledger_closes_as_it_is_shown(design in any_design()) {
        let plan = Plan::of(&design);
        let mut before = hundredths(plan.bare_mass);
        for report in &plan.dressing {
            let ledger = ShownLedger::of(report);
            prop_assert_eq!(ledger.before, before);
            let changes: Hundredths = ledger.changes.iter().map(|change| change.1).sum();
            prop_assert_eq!(ledger.before + changes, ledger.after);
            before = ledger.after;
            let exact = |change| match change {
                Change::Oil => report.coat.map_or(0.0, |coat| coat.taken.oil.mass.grams()),
                Change::Varnish => report.coat.map_or(0.0, |coat| coat.taken.varnish.mass.grams()),
                Change::Solvent => report.coat.map_or(0.0, |coat| coat.taken.solvent.mass.grams()),
                Change::Gained => report.ledger.gained.grams(),
                Change::Grease => report.ledger.grease.grams(),
                Change::Corrected => report.ledger.corrected.grams(),
                Change::Evaporates => -report.ledger.evaporates.grams(),
            };
            for &(change, shown) in &ledger.changes {
                let off = shown as f64 / 100.0 - exact(change);
                prop_assert!(off.abs() <= 0.03, "{change:?} {off}");
            }
            for words in [ledger.words(), ledger.short()] {
                prop_assert!(adds_up(&words), "{words}");
            }
        }
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
