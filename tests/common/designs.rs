//! Designs made up for tests, through the one door there is: [`Design::parse`].

use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft, DraftPoint};

/// A point of a drawing, from metres and millimetres.
pub(crate) fn point(at_m: f64, diameter_mm: f64) -> DraftPoint {
    DraftPoint { at_m, diameter_mm }
}

/// The demo's draft with these settings and this drawing.
pub(crate) fn draft(settings: &[(Setting, f64)], points: &[(f64, f64)]) -> Draft {
    let mut draft = demo().draft().clone();
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
