//! A made-up line with as many changes of threads as a card is to hold.

use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, DraftPoint};

/// The demo's machine, and a line on it that goes up and down between 8 and 16 threads in this many single changes, a multiple
/// of 8.
pub(crate) fn up_and_down(changes: u32) -> Design {
    let mut draft = demo().draft().clone();
    let swings = changes / 8;
    let point = |index: u32| DraftPoint {
        at_m: f64::from(index) * 3.0,
        diameter_mm: if index.is_multiple_of(2) { 0.83 } else { 1.155 },
    };
    draft.points = (0..=swings).map(point).collect();
    // No swing is too short to be worth its stops.
    draft.settings.set(Setting::StopPrice, 0.0);
    Design::parse(draft).expect("a line that can be drawn")
}
