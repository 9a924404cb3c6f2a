//! Dressing steps on a whole line: amounts, warnings, ready recipes.

use taperwright::base::choice::Choice as _;
use taperwright::base::units::{Mass, Volume};
use taperwright::braid::recipe::{Caution, DraftStep, Heat, ReadyRecipe, StepKind, StepValue};
use taperwright::braid::track::Pattern;
use taperwright::braid::yarn::Fibre;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft};
use taperwright::plan::{Plan, StepReport, StepWarning};

use crate::designs::{parsed, usual};
use crate::row::agree;

fn changed(change: impl FnOnce(&mut Draft)) -> Design {
    let mut draft = usual().draft().clone();
    change(&mut draft);
    parsed(draft)
}

fn warnings(design: &Design, kind: StepKind) -> Vec<StepWarning> {
    let reports = Plan::of(design).dressing;
    let of_kind = reports
        .into_iter()
        .filter(|report| report.step.kind == kind);
    of_kind.flat_map(|report| report.warnings).collect()
}

fn report(plan: &Plan, kind: StepKind) -> &StepReport {
    let mut of_kind = plan
        .dressing
        .iter()
        .filter(|report| report.step.kind == kind);
    of_kind.next().expect("the recipe has such a step")
}

/// Common practice, no source: fine single-hand lines some seven days at 40 to 50 °C, stout two-handed lines some ten hours
/// at 80 °C, weeks of daylight afterwards, sealing varnish thinned one to one, further coats for rougher patterns.
#[test]
fn ready_recipes_are_common_practice() {
    let warm = |ready: ReadyRecipe| {
        let steps = ready.steps();
        let warm = steps.iter().find(|step| step.kind == StepKind::Warm);
        warm.map(|step| (step.hours / 24.0, step.celsius))
    };
    let (days, celsius) = warm(ReadyRecipe::Fine).expect("it is warmed");
    assert_eq!(days, 7.0);
    assert!((40.0..=50.0).contains(&celsius));
    assert_eq!(warm(ReadyRecipe::Stout), Some((10.0 / 24.0, 80.0)));
    for ready in [ReadyRecipe::Fine, ReadyRecipe::Stout, ReadyRecipe::Rough] {
        let steps = ready.steps();
        let hours_of = |kind| {
            steps
                .iter()
                .find(|step| step.kind == kind)
                .map(|step| step.hours)
        };
        assert!(hours_of(StepKind::Daylight) >= Some(14.0 * 24.0));
        let varnish = steps.iter().find(|step| step.kind.is_varnish());
        assert_eq!(varnish.map(|step| step.solvent_percent), Some(50.0));
        assert_eq!(steps.last().map(|step| step.kind), Some(StepKind::Weigh));
    }
    let coats = Pattern::ALL
        .iter()
        .map(|&pattern| ReadyRecipe::usual_coats(pattern));
    assert_eq!(coats.collect::<Vec<_>>(), [1, 2, 3]);
}

/// Analytic: of 150 ml in the jar, what is not taken is left; thinned one to one by mass, varnish of 0.93 and solvent of
/// 0.78 share the volume as 0.78 to 0.93.
#[test]
fn amounts_for_line_and_jar() {
    let plan = Plan::of(&usual());
    let oil = report(&plan, StepKind::OilVacuum).coat.expect("oil");
    agree(oil.poured.volume().millilitres(), 150.0, 1e-9);
    agree(oil.poured.oil.mass.grams(), 150.0 * 0.93, 1e-9);
    let voids = plan.bare_mass.grams() / 1.34 * 0.45 / 0.55;
    agree(oil.taken.volume().millilitres(), 0.9 * voids, 1e-9);
    let left = oil.left().volume().millilitres();
    agree(left, 150.0 - 0.9 * voids, 1e-9);
    let varnish = report(&plan, StepKind::VarnishVacuum)
        .coat
        .expect("varnish");
    let parts = varnish.poured;
    agree(parts.varnish.mass.grams(), parts.solvent.mass.grams(), 1e-9);
    agree(
        parts.varnish.volume / Volume::from_millilitres(1.0) * 0.93,
        parts.solvent.volume.millilitres() * 0.78,
        1e-9,
    );
    agree(
        varnish.evaporates.grams(),
        varnish.taken.mass().grams() * (1.0 - 0.26),
        1e-9,
    );
}

/// The varnish step of the example, by hand: thinned one to one, of what it takes 26 % is solids and the rest evaporates. Wet the
/// line weighs all of it, and dry it weighs the solids more than before.
#[test]
fn varnish_weighs_while_it_is_wet() {
    let plan = Plan::of(&usual());
    let at = |kind: StepKind| {
        let steps = plan.dressing.iter();
        steps.into_iter().position(|it| it.step.kind == kind)
    };
    let varnish = at(StepKind::VarnishVacuum).expect("the line is varnished");
    let taken = plan.dressing[varnish].coat.expect("varnish").taken.mass();
    let wet = &plan.dressing[varnish].ledger;
    agree(wet.after.grams(), (wet.before + taken).grams(), 1e-12);
    let dries = plan.dressing[varnish..]
        .iter()
        .find(|report| report.step.kind.dries());
    let dry = &dries.expect("it dries").ledger;
    assert_eq!(dry.before, wet.after);
    agree(dry.evaporates.grams(), 0.74 * taken.grams(), 1e-9);
    agree(dry.after.grams(), (wet.before + taken * 0.26).grams(), 1e-9);
    let coat = plan.dressing[varnish].coat.expect("varnish");
    assert_eq!(coat.dry, dry.after);
    // More than a film and a filling of solids: what evaporates is the larger part.
    assert!(wet.after > dry.after * 1.1, "{wet:?}");
}

/// Wet oil weighs what was taken; dried it is a tenth more; the oiled line is a round section, φ of silk and the rest oil.
#[test]
fn mass_after_each_step() {
    let plan = Plan::of(&usual());
    let oil = report(&plan, StepKind::OilVacuum);
    let coat = oil.coat.expect("oil");
    agree(
        oil.ledger.after.grams(),
        (plan.bare_mass + coat.taken.mass()).grams(),
        1e-12,
    );
    let dry = report(&plan, StepKind::Warm);
    agree(
        dry.ledger.after.grams(),
        (plan.bare_mass + coat.taken.mass() * 1.1).grams(),
        1e-12,
    );
    assert!(oil.is_wet && !dry.is_wet);
    // 0.55 of 1.34, and of the rest nine tenths of 0.93 that gain a tenth.
    agree(
        dry.bulk_density.grams_per_cubic_centimetre(),
        0.55 * 1.34 + 0.45 * 0.9 * 0.93 * 1.1,
        1e-12,
    );
    let weigh = report(&plan, StepKind::Weigh);
    agree(weigh.ledger.after.grams(), plan.total_mass.grams(), 1e-12);
    assert_eq!(weigh.head.map(Mass::grams), plan.head_mass.map(Mass::grams));
    assert_eq!(weigh.diameter, plan.belly.dressed.diameter);
}

#[test]
fn the_usual_recipe_warns_of_nothing_on_a_smooth_braid() {
    let design = changed(|draft| {
        draft.pattern = Pattern::Diamond;
        draft.settings.set(Setting::HornGears, 16.0);
    });
    for report in Plan::of(&design).dressing {
        assert_eq!(report.warnings, [], "{}", report.step.kind.name());
    }
}

#[test]
fn rougher_braids_usually_take_more_coats() {
    let few = StepWarning::FewCoats { has: 1, usual: 2 };
    assert_eq!(warnings(&usual(), StepKind::OilVacuum), [few]);
    let two = changed(|draft| draft.recipe = ReadyRecipe::Rough.steps());
    assert_eq!(warnings(&two, StepKind::Oil), []);
}

#[test]
fn warmth_beyond_the_yarn_is_warned_of() {
    let warm = |celsius: f64, limit: f64, fibre: Fibre| {
        changed(|draft| {
            draft.fibre = fibre;
            draft.settings.set(Setting::WarmLimit, limit);
            draft.recipe[3].celsius = celsius;
        })
    };
    assert_eq!(warnings(&warm(80.0, 0.0, Fibre::Silk), StepKind::Warm), []);
    let of_fibre = StepWarning::TooWarm {
        limit: 60.0,
        is_own: false,
    };
    assert_eq!(
        warnings(&warm(80.0, 0.0, Fibre::Polyethylene), StepKind::Warm),
        [of_fibre]
    );
    let own = StepWarning::TooWarm {
        limit: 70.0,
        is_own: true,
    };
    assert_eq!(
        warnings(&warm(80.0, 70.0, Fibre::Silk), StepKind::Warm),
        [own]
    );
}

#[test]
fn ovens_left_alone_and_solvent_in_them_are_warned_of() {
    let alone = changed(|draft| draft.recipe[3].heat = Heat::OvenAlone);
    assert_eq!(warnings(&alone, StepKind::Warm), [StepWarning::OvenAlone]);
    // The warmth right after the varnish, instead of air.
    let solvent = changed(|draft| {
        let after = draft
            .recipe
            .iter()
            .position(|step| step.kind == StepKind::Air);
        draft.recipe[after.expect("it dries in air")] = DraftStep::usual(StepKind::Warm);
    });
    assert_eq!(
        warnings(&solvent, StepKind::Warm),
        [StepWarning::SolventWet]
    );
}

#[test]
fn coats_that_cannot_be_right_are_warned_of() {
    let plan = |change: &dyn Fn(&mut Vec<DraftStep>)| {
        let design = changed(|draft| {
            draft.pattern = Pattern::Diamond;
            draft.settings.set(Setting::HornGears, 16.0);
            change(&mut draft.recipe);
        });
        warnings(&design, StepKind::OilVacuum)
    };
    let never = plan(&|recipe| recipe.retain(|step| !step.kind.dries()));
    assert_eq!(never, [StepWarning::NeverDries]);
    let twice = plan(&|recipe| {
        let again = recipe[1];
        recipe.insert(2, again);
    });
    assert_eq!(twice, [StepWarning::OnWet]);
    let poor = plan(&|recipe| recipe[1].set(StepValue::Millibar, 506.625));
    assert!(
        matches!(poor[..], [StepWarning::HeldByPressure { bound, wished: 0.9 }] if (bound - 0.5).abs() < 1e-4),
        "{poor:?}"
    );
    let small = changed(|draft| draft.settings.set(Setting::Jar, 2.0));
    assert!(matches!(
        warnings(&small, StepKind::OilVacuum)[0],
        StepWarning::JarTooSmall { .. }
    ));
}

/// Cautions stand at their steps: whatever is oiled, varnished, drawn to a vacuum, warmed or cut names its danger.
#[test]
fn cautions_stand_at_their_steps() {
    for &kind in StepKind::ALL {
        let has = |caution| kind.cautions().contains(&caution);
        assert_eq!(
            has(Caution::Vacuum),
            kind.takes().contains(&StepValue::Millibar),
            "{}",
            kind.name()
        );
        assert_eq!(
            has(Caution::Solvent),
            kind.takes().contains(&StepValue::SolventShare),
            "{}",
            kind.name()
        );
        assert_eq!(
            has(Caution::Heat),
            kind.takes().contains(&StepValue::Celsius),
            "{}",
            kind.name()
        );
        assert!(
            !(kind.is_oil() || kind.is_varnish()) || has(Caution::OilyRags),
            "{}",
            kind.name()
        );
    }
    assert!(
        Caution::DEFERRING.contains("data sheet") && Caution::DEFERRING.contains("local codes")
    );
    assert!(Caution::DEFERRING.contains("licensed practice"));
}
