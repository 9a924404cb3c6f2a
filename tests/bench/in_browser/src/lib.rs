//! Times of the core in a browser, built as the page is: for size, for WebAssembly.
//!
//! A browser's clock is coarse on purpose, a tenth of a millisecond or so. Every time is therefore that of a batch, shared out.

use std::hint::black_box;

use taperwright::braid::ladder::LadderCache;
use taperwright::design::Design;
use taperwright::plan::Plan;
use taperwright::keep::share::link;
use taperwright::base::units::Mass;
use wasm_bindgen::prelude::{JsError, wasm_bindgen};

#[wasm_bindgen]
extern "C" {
    /// Milliseconds since the page was opened.
    #[wasm_bindgen(js_namespace = performance)]
    fn now() -> f64;
}

/// Milliseconds that the plan of a line takes, its ladder searched before as within a drag: one for each of `runs` batches of `batch` plans.
///
/// # Errors
/// What is wrong with the line's code.
#[wasm_bindgen]
pub fn plan_times(code: &str, runs: u32, batch: u32) -> Result<Vec<f64>, JsError> {
    let design = design_of(code)?;
    let mut ladders = LadderCache::default();
    Ok(times(runs, batch, || {
        black_box(Plan::with(black_box(&design), &mut ladders));
    }))
}

/// Mass of the first 30 ft of a line in grains, to be held against what a native build says; nothing of a line too short.
///
/// # Errors
/// What is wrong with the line's code.
#[wasm_bindgen]
pub fn head_grains(code: &str) -> Result<Option<f64>, JsError> {
    let head = Plan::of(&design_of(code)?).head_mass;
    Ok(head.map(Mass::grains))
}

fn design_of(code: &str) -> Result<Design, JsError> {
    let decoded = link::decode(code).ok_or_else(|| JsError::new("This is no code of a line."))?;
    decoded.map_err(|problem| JsError::new(&problem.to_string()))
}

/// Mean milliseconds of each batch.
fn times(runs: u32, batch: u32, mut work: impl FnMut()) -> Vec<f64> {
    let mut run = || {
        let begun = now();
        (0..batch.max(1)).for_each(|_| work());
        (now() - begun) / f64::from(batch.max(1))
    };
    (0..runs).map(|_| run()).collect()
}
