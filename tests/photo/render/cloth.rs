//! Pictures that show no braid: flat things a maker may photograph by mistake. Lengths are in diameters.

use super::noise::{Dice, smooth};
use super::scene::{Scene, Subject};

/// Brightness of a flat subject at a place across and along the picture's axis, 0 to about 1.
pub(crate) fn brightness(scene: &Scene, across: f64, along: f64, dice: &mut Dice) -> f32 {
    // As many threads to a diameter as the braid would show.
    let count = f64::from(scene.threads) / 4.0;
    let (across, along) = (across * count, along * count);
    match scene.subject {
        Subject::Speckle => dice.between(0.0, 1.0) as f32,
        Subject::Stripes => stripes(across, along, scene.seed as u32),
        Subject::Knit => knit(across, along, scene.seed as u32),
        Subject::Cloth => cloth(across, along, scene.seed as u32),
        Subject::Plain | Subject::Braid | Subject::Rope => 0.5,
    }
}

fn stripes(across: f64, along: f64, seed: u32) -> f32 {
    let wave = 0.5 + 0.35 * (across * 2.0 * std::f64::consts::PI).sin() as f32;
    wave * (1.0 + 0.15 * smooth(across * 6.0, along * 6.0, seed))
}

/// A flat weave: warp on top where row and column are both even or both odd.
fn cloth(across: f64, along: f64, seed: u32) -> f32 {
    let (column, row) = (across.floor(), along.floor());
    let (right, down) = (across - column - 0.5, along - row - 0.5);
    let is_warp = (column + row).rem_euclid(2.0) < 1.0;
    let (beside, ahead) = if is_warp {
        (right, down)
    } else {
        (down, right)
    };
    let roundness =
        (1.0 - (beside / 0.5).powi(2)).max(0.0).sqrt() * (1.0 - 0.5 * (ahead / 0.5).powi(2));
    let streaks = if is_warp {
        smooth(across * 9.0, along, seed)
    } else {
        smooth(across, along * 9.0, seed)
    };
    (0.15 + 0.6 * roundness) as f32 * (1.0 + 0.25 * streaks)
}

/// Columns of loops, each a V of two leaning strokes.
fn knit(across: f64, along: f64, seed: u32) -> f32 {
    let column = across.floor();
    let side = across - column - 0.5;
    // Both strokes of a loop rise from the middle of its column outwards.
    let rise = along + 1.1 * side.abs();
    let stroke = (rise - rise.floor() - 0.5) / 0.5;
    let bar = (1.0 - stroke * stroke).max(0.0).sqrt();
    let edge = 1.0 - (2.0 * side.abs() - 0.5).abs().powi(2);
    let streaks = smooth(rise * 8.0, side * 3.0 + column * 5.0, seed);
    (0.1 + 0.65 * bar * edge) as f32 * (1.0 + 0.2 * streaks)
}
