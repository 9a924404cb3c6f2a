//! Designs made up for tests, through the one door there is: [`Design::parse`].

use taperwright::base::units::METRES_PER_FOOT;
use taperwright::braid::recipe::ReadyRecipe;
use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::Build;
use taperwright::braid::track::Pattern;
use taperwright::braid::yarn::{Condition, Fibre};
use taperwright::design::machine::Mounted;
use taperwright::design::settings::{Setting, Settings};
use taperwright::design::{Design, Draft, DraftPoint};

/// A point of a drawing, from metres and millimetres.
pub(crate) fn point(at_m: f64, diameter_mm: f64) -> DraftPoint {
    DraftPoint { at_m, diameter_mm }
}

/// The double taper most tests begin with: 16 threads of 12 ends in the belly, 8 at the tip, invented.
///
/// It stands here, not in the crate, so that the demo can change without the tests changing what they say.
#[allow(dead_code, reason = "not every test crate needs it")]
pub(crate) fn usual() -> Design {
    let drawing = [
        (0.0, 0.76),
        (0.5, 0.76),
        (8.5, 1.075),
        (74.0, 1.075),
        (82.0, 0.76),
        (82.5, 0.76),
    ];
    let mut settings = Settings::default();
    settings.set(Setting::MachineConstant, 3.2);
    parsed(Draft {
        name: "Double taper".to_owned(),
        notes: String::new(),
        fibre: Fibre::Silk,
        condition: Condition::AsBraided,
        build: Build::MoreThreads,
        pattern: Pattern::Regular,
        mounted: Mounted::default(),
        train: Train::Driver,
        gears: (15..=30).map(f64::from).collect(),
        settings,
        pins: Vec::new(),
        recipe: ReadyRecipe::Fine.steps(),
        workshop: String::new(),
        learned: None,
        original: None,
        points: drawing
            .map(|(feet, size)| point(feet * METRES_PER_FOOT, size))
            .to_vec(),
    })
}

/// The usual draft with these settings and this drawing.
pub(crate) fn draft(settings: &[(Setting, f64)], points: &[(f64, f64)]) -> Draft {
    let mut draft = usual().draft().clone();
    for &(setting, value) in settings {
        draft.settings.set(setting, value);
    }
    draft.points = points.iter().map(|&(at, size)| point(at, size)).collect();
    draft
}

/// The design of such a draft, which must be valid.
#[track_caller]
pub(crate) fn design(settings: &[(Setting, f64)], points: &[(f64, f64)]) -> Design {
    parsed(draft(settings, points))
}

/// The design of a draft that must be valid.
#[track_caller]
pub(crate) fn parsed(draft: Draft) -> Design {
    Design::parse(draft).unwrap_or_else(|refusal| panic!("refused: {refusal}"))
}
