//! What warnings and dangers of dressing are called.

use super::ledger::{Change, Hundredths, ShownLedger, hundredths, shown};
use crate::base::choice::Choice as _;
use crate::base::units::Length;
use crate::base::units::show::{self, Units};
use crate::braid::recipe::{Caution, DraftStep, Heat, StepValue};
use crate::plan::{CoatReport, Mixture, Portion, StepWarning};

/// A warning of a step, and what to do.
pub fn step_warning(warning: &StepWarning) -> String {
    match *warning {
        StepWarning::TooWarm { limit, is_own } => {
            let whose = if is_own {
                "you set for this yarn"
            } else {
                "from memory for this fibre, no source; ask the yarn’s maker, then set it in the settings"
            };
            format!("Too warm: above {limit:.0} °C, {whose}. Set it lower and for longer.")
        }
        StepWarning::OvenAlone => "Never leave an oven unattended with an oiled or varnished line: oil heats itself, vapours catch fire. Stay with it, or use a cupboard that cannot become so hot.".to_owned(),
        StepWarning::SolventWet => "The line may still be wet with solvent. Hang it in air until you can smell no solvent, before you warm it.".to_owned(),
        StepWarning::NeverDries => "Nothing after this step dries it. Add warmth, air or daylight.".to_owned(),
        StepWarning::OnWet => "This would seal in what is still wet. Let the line dry before this step.".to_owned(),
        StepWarning::HeldByPressure { bound, wished } => format!(
            "This vacuum lets in {} at most, not the {} of the settings. The plan uses {}. For more, leave less air in the jar.",
            show::percent(bound),
            show::percent(wished),
            show::percent(bound)
        ),
        StepWarning::JarTooSmall { taken } => format!(
            "The line takes up {}: more than your jar holds by the settings. Use a larger jar.",
            show::millilitres(taken)
        ),
        StepWarning::FewCoats { has, usual } => format!(
            "A braid of this pattern usually needs {usual} coats of oil to be full: rule of thumb, no source. This recipe has {has}. “Oil once more” adds a coat, and weight."
        ),
    }
}

/// A danger in a word or two.
pub const fn danger(caution: Caution) -> &'static str {
    match caution {
        Caution::OilyRags => "oily rags",
        Caution::Vacuum => "vacuum",
        Caution::Solvent => "vapours",
        Caution::Heat => "heat",
        Caution::Dust => "dust",
        Caution::Blades => "blades",
    }
}

/// A small depth: `48 µm`, `1.9 thou`.
pub fn depth(depth: Length, units: Units) -> String {
    match units {
        Units::Metric => format!("{:.0}\u{202f}µm", depth.millimetres() * 1e3),
        Units::Imperial => format!("{:.1}\u{202f}thou", depth.thousandths()),
    }
}

/// The values of a step in a row: `2 h · 100 mbar`; nothing where it takes none.
pub fn step_values(step: &DraftStep) -> String {
    let mut said: Vec<String> = step
        .kind
        .takes()
        .iter()
        .filter_map(|&value| written(value, step.get(value)))
        .collect();
    if step.kind.is_warm() && step.heat != Heat::default() {
        said.push(step.heat.name().to_owned());
    }
    said.join(" · ")
}

fn written(value: StepValue, number: f64) -> Option<String> {
    let trimmed = |decimals| show::trimmed(number, decimals);
    Some(match value {
        StepValue::Hours => show::hours(number),
        StepValue::Celsius => format!("{}\u{202f}°C", trimmed(0)),
        StepValue::Millibar => format!("{}\u{202f}mbar", trimmed(1)),
        StepValue::VarnishShare if number > 0.0 => format!("{} % varnish", trimmed(0)),
        StepValue::SolventShare if number > 0.0 => format!("{} % solvent", trimmed(0)),
        StepValue::VarnishShare | StepValue::SolventShare => return None,
    })
}

/// What a coat pours, what the line takes up of it and what is left, part by part in both measures: `7.9 ml oil (7.34 g)`. What is
/// taken is what the step's ledger says, and what is left is the difference of the figures shown.
pub fn coat_parts(coat: &CoatReport, ledger: &ShownLedger) -> [Vec<String>; 3] {
    let is_wiped = coat.poured == coat.taken;
    let rows = |mixture: &Mixture| {
        [
            (mixture.oil, Change::Oil),
            (mixture.varnish, Change::Varnish),
            (mixture.solvent, Change::Solvent),
        ]
    };
    let taken = |change| ledger.taken(change);
    let poured = |portion: Portion, change| {
        if is_wiped {
            taken(change)
        } else {
            hundredths(portion.mass)
        }
    };
    let words = |(portion, change): (Portion, Change), mass: Hundredths| {
        let volume = show::millilitres(portion.volume);
        (mass > 0).then(|| format!("{volume} {} ({})", change.name(), shown(mass)))
    };
    let parts = |mixture: &Mixture, mass: &dyn Fn(Portion, Change) -> Hundredths| -> Vec<String> {
        let rows = rows(mixture).into_iter();
        rows.filter_map(|row| words(row, mass(row.0, row.1)))
            .collect()
    };
    let all = coat.poured;
    let left = |_: Portion, change: Change| {
        let mut rows = rows(&all).into_iter();
        let all = rows.find(|row| row.1 == change);
        all.map_or(0, |row| poured(row.0, change) - taken(change))
    };
    [
        parts(&coat.poured, &poured),
        parts(&coat.taken, &|_, change| taken(change)),
        parts(&coat.left(), &left),
    ]
}
