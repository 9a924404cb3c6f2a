//! The thread plans that are tried.

use crate::braid::threads::{Build, Supply};
use crate::design::Design;
use crate::plan::layout::Ground;

/// About how many counts of threads are tried.
const COUNTS: u32 = 16;
/// Most ends of a thread that are tried.
const MOST_ENDS: u32 = 500;

/// Thread plans whose thinnest and thickest levels come near what the drawing calls for, within the fewest and the most
/// threads that the maker braids with.
pub(super) fn candidates(design: &Design, ground: &Ground) -> Vec<Supply> {
    let Supply { fewest, most, .. } = design.supply();
    let ends = |diameter| ground.staircase.wanted(diameter) * f64::from(ground.supply.light);
    let wanted = (ends(ground.taper.thinnest()), ends(ground.taper.thickest()));
    let mut candidates = Vec::new();
    // On large machines not every count is tried: the steps between them are small enough.
    let counts = (fewest..=most)
        .rev()
        .step_by((most - fewest + 1).div_ceil(COUNTS) as usize);
    for count in counts {
        for full in near(wanted.1 / f64::from(count)) {
            candidates.push(supply(Build::MoreThreads, (fewest, most), (full, full + 1)));
            for light in near(wanted.0 / f64::from(count)).filter(|&light| light < full) {
                candidates.push(supply(Build::HeavierThreads, (count, most), (light, full)));
            }
            let light = whole((wanted.0 / f64::from(fewest)).round().max(1.0));
            if light < full {
                candidates.push(supply(Build::Both, (fewest, count), (light, full)));
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
