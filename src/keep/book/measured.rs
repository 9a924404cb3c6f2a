//! A measured number in a book's file: there or not, with twelve digits, and nothing lost that was ever typed.
//!
//! JSON has no word for what is no number; such a value is written as a text, so that it can still be shown and corrected.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Digits kept: far more than any rule or scale has, and few enough that reading and writing never change them.
const DIGITS: usize = 12;

#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum MeasuredValue {
    Number(f64),
    Word(String),
}

/// The value with as many digits as a file keeps.
pub(super) fn kept(value: f64) -> f64 {
    let rounded = format!("{value:.*e}", DIGITS - 1);
    rounded.parse().unwrap_or(value)
}

/// Whether two measured numbers are kept as the same.
pub(super) fn is_same(one: Option<f64>, other: Option<f64>) -> bool {
    let bits = |value: Option<f64>| value.map(|value| kept(value).to_bits());
    bits(one) == bits(other)
}

/// Writes a measured number. With [`deserialize`] for `#[serde(with = "…", default)]`.
///
/// # Errors
/// Those of the serializer.
// Serde hands the field over by reference.
#[allow(clippy::trivially_copy_pass_by_ref, clippy::ref_option)]
pub(super) fn serialize<S: Serializer>(
    value: &Option<f64>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    let written = |value: f64| {
        if value.is_finite() {
            MeasuredValue::Number(kept(value))
        } else {
            MeasuredValue::Word(value.to_string())
        }
    };
    value.map(written).serialize(serializer)
}

/// Reads a measured number.
///
/// # Errors
/// When there is neither a number nor nothing.
pub(super) fn deserialize<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<f64>, D::Error> {
    use serde::de::Error as _;
    match Option::<MeasuredValue>::deserialize(deserializer)? {
        None => Ok(None),
        Some(MeasuredValue::Number(value)) => Ok(Some(kept(value))),
        Some(MeasuredValue::Word(word)) => match word.parse::<f64>() {
            Ok(value) if !value.is_finite() => Ok(Some(value)),
            _ => Err(D::Error::custom(format!(
                "“{word}” is not a measured number"
            ))),
        },
    }
}
