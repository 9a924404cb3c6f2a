//! The numbers of a swatch that is not measured yet, as what is known makes one expect them.

use super::around::Around;
use super::lengths::{CROSSINGS_LENGTH, SWATCH_LENGTH, THREAD_LENGTH};
use crate::base::units::Length;
use crate::keep::book::model::{Model as _, Source, SwatchModel};
use crate::keep::book::swatch::{Swatch, SwatchField};

/// The swatch with the numbers wanted as they are expected, ready for learning; `None` where they teach nothing. Their errors are
/// those of measuring just that.
pub(super) fn expected(
    around: &Around<'_>,
    swatch: &Swatch,
    wanted: &[SwatchField],
) -> Option<SwatchModel> {
    let mut swatch = swatch.clone();
    for &field in wanted {
        let length = match field {
            SwatchField::Length => SWATCH_LENGTH,
            SwatchField::CrossingsOver => CROSSINGS_LENGTH,
            SwatchField::ThreadLength => THREAD_LENGTH,
            _ => Length::from_metres(1.0),
        };
        swatch.set(field, Some(length.metres()));
    }
    let model = SwatchModel::of(around.base, 0, &swatch)?;
    let values = model.expected(&around.at);
    for (&source, value) in model.sources().iter().zip(values) {
        let Source::Swatch(_, field) = source else {
            continue;
        };
        if wanted.contains(&field) {
            let number = as_written(&swatch, field, value);
            swatch.set(field, number);
        }
    }
    SwatchModel::of(around.base, 0, &swatch)
}

/// What is written down where a model expects this: of a lay in millimetres its circuits or crossings.
fn as_written(swatch: &Swatch, field: SwatchField, value: f64) -> Option<f64> {
    let lay = Length::from_millimetres(value).metres();
    match field {
        SwatchField::Circuits => Some(swatch.length_m? / lay),
        SwatchField::Crossings => Some(swatch.threads? * swatch.crossings_over_m? / (2.0 * lay)),
        _ => Some(value),
    }
}
