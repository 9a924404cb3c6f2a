//! Edits of settings that change more than one value.

use crate::base::units::text::Unit;
use crate::base::units::{Length, Pressure};
use crate::braid::recipe::StepValue;
use crate::braid::takeoff::{TakeOff, Train};
use crate::braid::threads::{Build, Supply};
use crate::braid::track::Track;
use crate::braid::vacuum;
use crate::design::parameters::Parameter;
use crate::design::pin::DraftPin;
use crate::design::refusal::{Place, Refusal};
use crate::design::settings::Setting;
use crate::design::{Design, Draft, machine};
use crate::plan::layout::Ground;

/// Sets a number. A new ring gets a carrier on every place, since a list of places belongs to one ring.
pub(super) fn set(draft: &mut Draft, setting: Setting, value: f64) {
    let is_another = draft.settings.get(setting) != value;
    draft.settings.set(setting, value);
    // A number that makes no ring is refused later.
    if setting == Setting::HornGears
        && is_another
        && value.fract() == 0.0
        && Track::new(setting.rule().quanta(value), draft.pattern.slots()).is_some()
    {
        machine::mount_every_place(draft);
    }
}

/// Chooses how the line is made thicker. A heavier thread that is not set yet, or too light for the drawing, gets the fewest
/// ends with which all carriers together reach the thickest place.
pub(super) fn set_build(draft: &mut Draft, design: &Design, build: Build) {
    draft.build = build;
    let ground = Ground::of(design);
    let supply = Supply {
        build,
        ..ground.supply
    };
    let light = f64::from(supply.light);
    let wanted = ground.staircase.wanted(ground.taper.thickest()) * light;
    let threads = supply.levels().last().map_or(1, |level| level.threads);
    let needed = (wanted / f64::from(threads)).ceil().max(light + 1.0);
    let is_enough = f64::from(supply.heavy) >= needed;
    if build != Build::MoreThreads && !is_enough {
        let most = Setting::HeavierEnds.rule().high;
        draft.settings.set(Setting::HeavierEnds, needed.min(most));
    }
}

pub(super) fn set_supply(draft: &mut Draft, supply: Supply) {
    draft.build = supply.build;
    let counts = [
        (Setting::FewestThreads, supply.fewest),
        (Setting::MostThreads, supply.most),
        (Setting::EndsPerThread, supply.light),
        (Setting::HeavierEnds, supply.heavy),
    ];
    for (setting, count) in counts {
        draft.settings.set(setting, f64::from(count));
    }
}

/// Chooses a train. Where the gears owned make no pair of the sum set, it becomes the one that most of them make.
pub(super) fn set_train(draft: &mut Draft, design: &Design, train: Train) {
    draft.train = train;
    let take_off = TakeOff {
        train,
        ..design.take_off()
    };
    if train == Train::FixedCentres && take_off.choices().is_empty() {
        let sum = take_off.likeliest_pair_sum();
        draft.settings.set(
            Setting::PairSum,
            sum.map_or(draft.settings.get(Setting::PairSum), f64::from),
        );
    }
}

/// Replaces a pin, or adds one at the end.
pub(super) fn put_pin(draft: &mut Draft, pin: DraftPin, replaces: Option<usize>) {
    match replaces.and_then(|index| draft.pins.get_mut(index)) {
        Some(old) => *old = pin,
        None => draft.pins.push(pin),
    }
}

/// Removes what was learnt where yarn or values were changed by hand: it holds for the yarn it was learnt from and for the learnt
/// values only.
pub(super) fn forget_learned(draft: &mut Draft, design: &Design) {
    let before = design.draft();
    if draft.learned != before.learned {
        return;
    }
    let is_other = |setting: Setting| draft.settings.get(setting) != before.settings.get(setting);
    let of_yarn = [
        Setting::LabelLow,
        Setting::LabelHigh,
        Setting::DegummingLoss,
    ];
    let values = Parameter::ALL.map(Parameter::setting);
    let has_changed = of_yarn.into_iter().chain(values).any(is_other);
    if has_changed || (draft.fibre, draft.condition) != (before.fibre, before.condition) {
        draft.learned = None;
    }
}

/// Sets the pressure in the jar of a step by what a gauge shows.
pub(super) fn set_gauge(
    draft: &mut Draft,
    design: &Design,
    index: usize,
    mbar: f64,
) -> Result<(), Refusal> {
    let (air, rule) = (design.air(), StepValue::Millibar.rule());
    let left = vacuum::absolute(Pressure::from_millibars(mbar), air).millibars();
    if rule.admit(left).is_err() {
        return Err(Refusal::OutsideRange {
            place: Place::Step(index),
            what: "the gauge reading".to_owned(),
            value: mbar,
            range: (rule.low - air.millibars(), 0.0),
            unit: rule.unit,
        });
    }
    if let Some(step) = draft.recipe.get_mut(index) {
        step.set(StepValue::Millibar, left);
    }
    Ok(())
}

/// Sets the pressure of the air by the height above the sea.
pub(super) fn set_height(draft: &mut Draft, metres: f64) -> Result<(), Refusal> {
    let (setting, rule) = (Setting::AirPressure, Setting::AirPressure.rule());
    let height_at = |mbar| vacuum::height_of(Pressure::from_millibars(mbar)).metres();
    let range = (height_at(rule.high).ceil(), height_at(rule.low).floor());
    if !(range.0..=range.1).contains(&metres) {
        return Err(Refusal::OutsideRange {
            place: Place::Setting(setting),
            what: "your height above sea level".to_owned(),
            value: metres,
            range,
            unit: Unit::Metre,
        });
    }
    let air = vacuum::air_at(Length::from_metres(metres));
    draft.settings.set(setting, air.millibars());
    Ok(())
}
