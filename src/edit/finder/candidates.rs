//! The thread plans that are tried.

use crate::braid::threads::{Build, Supply};
use crate::design::Design;
use crate::plan::layout::Ground;

/// About how many counts of threads are tried.
const COUNTS: u32 = 16;
/// Most ends of a thread that are tried.
const MOST_ENDS: u32 = 500;
/// Fewest threads that are tried: with three the braid often falls apart.
const FEWEST: u32 = 4;

/// Thread plans whose thinnest and thickest levels come near what the drawing calls for.
pub(super) fn candidates(design: &Design, ground: &Ground) -> Vec<Supply> {
    let carriers = design.track().carriers();
    let ends = |diameter| ground.staircase.wanted(diameter) * f64::from(ground.supply.light);
    let wanted = (ends(ground.taper.thinnest()), ends(ground.taper.thickest()));
    let mut candidates = Vec::new();
    // On large machines not every count is tried: the steps between them are small enough.
    let counts = (FEWEST..=carriers)
        .rev()
        .step_by(carriers.div_ceil(COUNTS) as usize);
    for most in counts {
        for full in near(wanted.1 / f64::from(most)) {
            let threads =
                |ends: f64| whole((ends / f64::from(full)).round()).clamp(FEWEST, carriers);
            let used = (threads(wanted.0), threads(wanted.1));
            candidates.push(supply(Build::MoreThreads, used, (full, full + 1)));
            for light in near(wanted.0 / f64::from(most)).filter(|&light| light < full) {
                candidates.push(supply(Build::HeavierThreads, (most, most), (light, full)));
            }
            for fewest in (FEWEST..most).step_by(most.div_ceil(COUNTS) as usize) {
                let light = whole((wanted.0 / f64::from(fewest)).round().max(1.0));
                if light < full {
                    candidates.push(supply(Build::Both, (fewest, most), (light, full)));
                }
            }
        }
    }
    candidates
}

fn supply(build: Build, (fewest, most): (u32, u32), (light, heavy): (u32, u32)) -> Supply {
    Supply {
        build,
        fewest,
        most,
        light,
        heavy: heavy.min(MOST_ENDS),
    }
}

/// The whole numbers of ends around a value.
fn near(wish: f64) -> impl Iterator<Item = u32> {
    let middle = whole(wish.round());
    (middle.saturating_sub(1)..=middle + 1).filter(|&ends| (1..MOST_ENDS).contains(&ends))
}

/// The value is bounded, so nothing is lost.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(value: f64) -> u32 {
    value.clamp(0.0, f64::from(2 * MOST_ENDS)) as u32
}
