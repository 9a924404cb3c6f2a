//! The second format of files and links: before recipes, bench books, and varnish as it is in its tin. It is only read.
//!
//! A line was then oiled once and sealed with varnish thinned one to one, whose density and solids were set thinned. It
//! weighs what it weighed: the steps get the vacuum their fills need.

use serde::{Deserialize, Deserializer, de::Error as _};

use super::wire::Line;
use crate::base::bounded::number_table as numbers;
use crate::braid::recipe::{DraftStep, ReadyRecipe, StepKind, StepValue};
use crate::braid::takeoff::Train;
use crate::braid::threads::Build;
use crate::braid::track::Pattern;
use crate::braid::yarn::{Condition, Fibre};
use crate::design::machine::Mounted;
use crate::design::pin::DraftPin;
use crate::design::settings::{Setting, Settings};
use crate::design::{self, DraftPoint};

/// How many settings that format had: the first of today's.
const SETTINGS: usize = 42;
/// The share of solvent meant by its default.
const ONE_TO_ONE: f64 = 50.0;
/// The least pressure a step can name, millibars.
const BEST_VACUUM: f64 = 1.0;

/// The key a setting had.
pub(super) const fn key(setting: Setting) -> &'static str {
    match setting {
        Setting::VarnishDensity => "varnish_density_g_cm3",
        Setting::VarnishSolids => "varnish_solids_percent",
        setting => setting.key(),
    }
}

/// Today's settings of those where varnish was set as thinned, and the recipe that makes of them what was then made.
pub(super) fn dressed(mut settings: Settings) -> (Settings, Vec<DraftStep>) {
    let thinned = [Setting::VarnishDensity, Setting::VarnishSolids].map(|one| settings.get(one));
    let tin = in_tin(thinned, settings.get(Setting::SolventDensity));
    let is_thinned = tin.is_some();
    let [density, solids] = tin.unwrap_or(thinned);
    settings.set(Setting::VarnishDensity, density);
    settings.set(Setting::VarnishSolids, solids);
    let mut steps = ReadyRecipe::Fine.steps();
    for step in &mut steps {
        let (fill, without_vacuum) = match step.kind {
            StepKind::OilVacuum => (settings.get(Setting::OilFill), StepKind::Oil),
            StepKind::VarnishVacuum => (settings.get(Setting::VarnishFill), StepKind::Varnish),
            _ => continue,
        };
        *step = filling(*step, fill, without_vacuum, &settings);
        step.set(
            StepValue::SolventShare,
            if is_thinned { ONE_TO_ONE } else { 0.0 },
        );
    }
    (settings, steps)
}

/// Density and solids in the tin of varnish that has these once thinned one to one, where there is such a varnish.
fn in_tin([density, solids]: [f64; 2], solvent: f64) -> Option<[f64; 2]> {
    let tin = 1.0 / (2.0 / density - 1.0 / solvent);
    let rules = [Setting::VarnishDensity, Setting::VarnishSolids].map(Setting::rule);
    let values = [tin, 2.0 * solids];
    let fits =
        |(rule, value): (&crate::base::rule::Rule, f64)| (rule.low..=rule.high).contains(&value);
    rules.iter().zip(values).all(fits).then_some(values)
}

/// The step with a vacuum that lets in this fill, in percent; without one where none would do.
fn filling(
    mut step: DraftStep,
    fill: f64,
    without_vacuum: StepKind,
    settings: &Settings,
) -> DraftStep {
    let bound = (1.0 - fill / 100.0) * settings.get(Setting::AirPressure);
    let mbar = (bound * 10.0).floor() / 10.0;
    if mbar < BEST_VACUUM {
        return DraftStep::usual(without_vacuum);
    }
    step.set(StepValue::Millibar, step.mbar.min(mbar));
    step
}

/// A design of that format's files.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Draft {
    name: String,
    notes: String,
    #[serde(with = "crate::base::choice")]
    fibre: Fibre,
    #[serde(with = "crate::base::choice")]
    condition: Condition,
    #[serde(with = "crate::base::choice")]
    build: Build,
    #[serde(with = "crate::base::choice")]
    pattern: Pattern,
    mounted: Mounted,
    #[serde(with = "crate::base::choice")]
    train: Train,
    gears: Vec<f64>,
    #[serde(deserialize_with = "values")]
    settings: Settings,
    pins: Vec<DraftPin>,
    points: Vec<DraftPoint>,
}

fn values<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Settings, D::Error> {
    let old = &Setting::ALL[..SETTINGS];
    let keys: Vec<&str> = old.iter().map(|&setting| key(setting)).collect();
    let values = values_of(&keys, deserializer)?;
    let mut settings = Settings::default();
    for (&setting, value) in old.iter().zip(values) {
        settings.set(setting, value);
    }
    Ok(settings)
}

/// The numbers under these keys, in their order: every one must be there, and nothing else.
pub(super) fn values_of<'de, D: Deserializer<'de>>(
    keys: &[&str],
    deserializer: D,
) -> Result<Vec<f64>, D::Error> {
    let mut given = numbers(deserializer)?;
    let values = keys.iter().map(|&key| {
        let missing = || D::Error::custom(format!("the setting “{key}” is missing"));
        given.remove(key).ok_or_else(missing)
    });
    let values: Vec<f64> = values.collect::<Result<_, _>>()?;
    match given.pop_first() {
        None => Ok(values),
        Some((key, _)) => Err(D::Error::custom(format!(
            "the setting “{key}” is not known to this version"
        ))),
    }
}

impl From<Draft> for design::Draft {
    fn from(old: Draft) -> Self {
        let (settings, recipe) = dressed(old.settings);
        Self {
            name: old.name,
            notes: old.notes,
            fibre: old.fibre,
            condition: old.condition,
            build: old.build,
            pattern: old.pattern,
            mounted: old.mounted,
            train: old.train,
            gears: old.gears,
            settings,
            pins: old.pins,
            recipe,
            workshop: String::new(),
            learned: None,
            points: old.points,
        }
    }
}

/// The draft of a link of that format.
pub(super) fn draft(line: Line) -> Option<design::Draft> {
    (line.settings().len() == SETTINGS).then_some(())?;
    let mut settings = Settings::default();
    for (setting, &quanta) in Setting::ALL.into_iter().zip(line.settings()) {
        settings.set(setting, setting.rule().value(quanta));
    }
    let (settings, recipe) = dressed(settings);
    Some(design::Draft {
        recipe,
        ..line.draft(&settings)?
    })
}
