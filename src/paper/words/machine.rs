//! What yarn and machine a line is made with, in words.

use crate::base::choice::Choice as _;
use crate::base::units::show;
use crate::braid::takeoff::Train;
use crate::design::settings::Setting;
use crate::design::{Design, gears};

/// Yarn and machine in one sentence.
pub fn made_of(design: &Design) -> String {
    let label = |setting| show::trimmed(design.setting(setting), 2);
    let track = design.track();
    format!(
        "Yarn: {}, ends of {}/{} denier. Machine: {} carriers on {} horn gears of {} slots. Target angle {}°, tolerance {}°; {}.",
        design.draft().fibre.name(),
        label(Setting::LabelLow),
        label(Setting::LabelHigh),
        track.carriers(),
        track.horn_gears(),
        track.slots(),
        label(Setting::TargetAngle),
        label(Setting::AngleTolerance),
        train(design),
    )
}

/// How the carriers pull: `Carriers: blue spring, third notch.` Nothing where that is not noted.
pub fn tension(note: &str) -> String {
    if note.is_empty() {
        return String::new();
    }
    let stop = if note.ends_with('.') { "" } else { "." };
    format!("Carriers: {note}{stop}")
}

/// What decides which gear is fitted, in few words: `Gears 16–34 · 45° ± 1.5°`.
pub fn take_off(design: &Design) -> String {
    let number = |setting| show::trimmed(design.setting(setting), 1);
    format!(
        "Gears {} · {}° ± {}°",
        gears::show(&design.draft().gears),
        number(Setting::TargetAngle),
        number(Setting::AngleTolerance)
    )
}

fn train(design: &Design) -> String {
    let teeth = |setting| show::trimmed(design.setting(setting), 2);
    let name = design.draft().train.name();
    match design.draft().train {
        Train::Driver | Train::Driven => {
            format!("{name}, of {} teeth", teeth(Setting::PartnerTeeth))
        }
        Train::FixedCentres => format!("{name}, {} teeth together", teeth(Setting::PairSum)),
        Train::FreePair => name.to_owned(),
    }
}
