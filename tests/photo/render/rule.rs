//! A rule with millimetre marks that lies beside the braid.

use super::scene::Rule;

/// How bright the rule and its marks are, in linear light.
const TONES: (f32, f32) = (0.7, 0.04);

/// Brightness of the rule at a place across and along the axis, px; `None` where it does not lie.
pub(crate) fn tone(rule: &Rule, across: f64, along: f64) -> Option<f32> {
    let side = rule.edge_px.signum();
    let inside = ((across - rule.edge_px) * side) / rule.px_per_mm;
    // Breadth, lengths and thickness of the marks, mm: our own choice.
    if !(0.0..=12.0).contains(&inside) {
        return None;
    }
    let place = along / rule.px_per_mm;
    let mark = place.round();
    let length = match mark.rem_euclid(10.0) {
        0.0 => 6.0,
        5.0 => 4.5,
        _ => 3.0,
    };
    let half = 0.09 * rule.px_per_mm;
    let beside = half - (place - mark).abs() * rule.px_per_mm;
    let beyond = (length - inside) * rule.px_per_mm;
    // The share of the pixel that the mark covers.
    let cover = (beside + 0.5).clamp(0.0, 1.0) * (beyond + 0.5).clamp(0.0, 1.0);
    Some(TONES.0 + (TONES.1 - TONES.0) * cover as f32)
}
