//! A design as plain SI numbers: metres, kilograms, radians, pascals, shares of 1.

use serde_json::{Value, json};
use taperwright::base::choice::Choice;
use taperwright::base::units::LinearDensity;
use taperwright::braid::recipe::DraftStep;
use taperwright::design::Design;
use taperwright::design::settings::Setting;

const PASCALS_PER_MILLIBAR: f64 = 100.0;

/// What the script is given of a design.
///
/// # Errors
/// Where the maker insists on something: the script has no pins.
pub(crate) fn plain(design: &Design) -> Result<Value, String> {
    if !design.draft().pins.is_empty() {
        return Err("the script has no pins".to_owned());
    }
    let points = design.draft().points.iter();
    Ok(json!({
        "points": points.map(|point| [point.at_m, point.diameter_mm * 1e-3]).collect::<Vec<_>>(),
        "yarn": yarn(design),
        "braid": braid(design),
        "take_off": take_off(design),
        "dressing": dressing(design),
    }))
}

fn yarn(design: &Design) -> Value {
    let thread = design.thread();
    let label = |setting| LinearDensity::from_denier(design.setting(setting)).kilograms_per_metre();
    json!({
        "label_low": label(Setting::LabelLow),
        "label_high": label(Setting::LabelHigh),
        "kept": design.kept_in_degumming(),
        "factor": design.setting(Setting::YarnFactor) / 100.0,
        "fibre_density": thread.fibre_density.kilograms_per_cubic_metre(),
        "ends": design.supply().light,
        "heavier_ends": design.supply().heavy,
        "packing": thread.packing,
        "flattening": thread.flattening,
    })
}

fn braid(design: &Design) -> Value {
    let supply = design.supply();
    json!({
        "build": supply.build.key(),
        "fewest": supply.fewest,
        "most": supply.most,
        "crimp": design.setting(Setting::Crimp) / 100.0,
        "fibre_fraction": design.setting(Setting::FibreFraction) / 100.0,
        "target_angle": design.setting(Setting::TargetAngle).to_radians(),
        "spacing": design.setting(Setting::LeastSpacing) * 1e-3,
        "tail": design.setting(Setting::BuriedTail) * 1e-3,
        "guide_radius": design.setting(Setting::GuideRadius) * 1e-3,
        "lead_in": design.setting(Setting::LeadIn) * 1e-3,
        "allowance": design.setting(Setting::ThreadAllowance),
    })
}

fn take_off(design: &Design) -> Value {
    let take_off = design.take_off();
    json!({
        "train": take_off.train.key(),
        "gears": take_off.gears,
        "partner": take_off.partner,
        "pair_sum": take_off.pair_sum,
        "constant": design.setting(Setting::MachineConstant) * 1e-3,
        "price": design.setting(Setting::GearChangePrice),
        "stop_price": design.setting(Setting::StopPrice),
    })
}

fn dressing(design: &Design) -> Value {
    let density = |setting| design.setting(setting) * 1e3;
    let share = |setting| design.setting(setting) / 100.0;
    let steps = design.draft().recipe.iter().filter_map(step);
    json!({
        "oil_fill": share(Setting::OilFill),
        "oil_density": density(Setting::OilDensity),
        "oil_gain": share(Setting::OilGain),
        "dried_oil_density": density(Setting::DriedOilDensity),
        "varnish_fill": share(Setting::VarnishFill),
        "varnish_density": density(Setting::VarnishDensity),
        "varnish_solids": share(Setting::VarnishSolids),
        "solvent_density": density(Setting::SolventDensity),
        "film_density": density(Setting::FilmDensity),
        "film": design.setting(Setting::Film) * 1e-6,
        "pick_up": share(Setting::VarnishPickUp),
        "grease": share(Setting::Grease),
        "weighed": share(Setting::Weighed),
        "air": design.setting(Setting::AirPressure) * PASCALS_PER_MILLIBAR,
        "steps": steps.collect::<Vec<_>>(),
    })
}

/// A step that changes what the line weighs; nothing of others.
fn step(step: &DraftStep) -> Option<Value> {
    let kind = step.kind;
    let done = match kind {
        _ if kind.is_oil() => "oil",
        _ if kind.is_varnish() => "varnish",
        _ if kind.dries() => "dry",
        taperwright::braid::recipe::StepKind::Grease => "grease",
        _ => return None,
    };
    Some(json!({
        "do": done,
        "pressure": step.pressure().map(|_| step.mbar * PASCALS_PER_MILLIBAR),
        "varnish": step.varnish_percent / 100.0,
        "solvent": step.solvent_percent / 100.0,
    }))
}
