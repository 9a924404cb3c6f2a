//! A plan by itself: natively, and as the page has it in a browser.

use std::fs;
use std::hint::black_box;
use std::time::Instant;

use serde::Deserialize;
use taperwright::base::units::Mass;
use taperwright::braid::ladder::LadderCache;
use taperwright::design::Design;
use taperwright::keep::share::link;
use taperwright::plan::Plan;

use super::desk::Desk;
use super::programs::Server;
use crate::in_browser_build;
use crate::table::{Row, Samples, Unit};

/// Batches of plans.
const RUNS: u32 = 50;
/// Plans timed at a time, so that the clock's own steps do not matter.
const BATCH: u32 = 20;

/// Rows for the plan of a design, with the goals natively and in a browser.
pub(crate) async fn rows(
    desk: &Desk,
    (name, design): (&str, &Design),
    goals: [&str; 2],
) -> Vec<Row> {
    let what = format!("plan, {name}, native");
    let native = Row::of(what, goals[0], Unit::Micro, &native(design));
    let what = format!("plan, {name}, in a browser");
    let in_browser = match in_browser(desk, design).await {
        Ok(times) => Row::of(what, goals[1], Unit::Micro, &times),
        Err(reason) => Row::exact(what, goals[1], reason),
    };
    vec![native, in_browser]
}

/// Seconds that a plan takes natively.
fn native(design: &Design) -> Samples {
    // Once beforehand, so that the ladder is in the cache, as within a drag.
    let mut ladders = LadderCache::default();
    black_box(Plan::with(design, &mut ladders));
    let one = move |_| {
        let begun = Instant::now();
        for _ in 0..BATCH {
            black_box(Plan::with(black_box(design), &mut ladders));
        }
        begun.elapsed().as_secs_f64() / f64::from(BATCH)
    };
    Samples::new((0..RUNS).map(one))
}

/// What the page that times plans writes: milliseconds, and a figure to compare.
#[derive(Deserialize)]
struct Timed {
    plan: Vec<f64>,
    head_grains: f64,
}

/// Seconds that a plan takes in a browser.
async fn in_browser(desk: &Desk, design: &Design) -> Result<Samples, String> {
    let timed = timed(desk, design).await?;
    let head = Plan::of(design).head_mass.map_or(f64::NAN, Mass::grains);
    let apart = (timed.head_grains / head - 1.0).abs();
    assert!(apart < 1e-9, "another plan: {}", timed.head_grains);
    Ok(Samples::new(timed.plan.into_iter().map(|one| one * 1e-3)))
}

async fn timed(desk: &Desk, design: &Design) -> Result<Timed, String> {
    let folder = tempfile::tempdir().map_err(|error| error.to_string())?;
    let site = folder.path().join("dist");
    fs::create_dir(&site).map_err(|error| error.to_string())?;
    // By these files the server knows a project.
    for name in ["Cargo.toml", "Trunk.toml"] {
        fs::write(folder.path().join(name), "").map_err(|error| error.to_string())?;
    }
    in_browser_build::build(&site)?;
    let server = Server::start_in(folder.path(), 0);
    let page = desk.page("").await;
    let code = link::encode(design).map_err(|error| error.to_string())?;
    let rest = format!("index.html?runs={RUNS}&batch={BATCH}#{code}");
    let went = page
        .session
        .client
        .goto(&format!("{}/{rest}", server.origin))
        .await;
    went.map_err(|error| error.to_string())?;
    page.until_there("#times[data-state=done], #times[data-state=failed]")
        .await;
    let script = "return document.getElementById('times').textContent;";
    let text: String = page.ask(script, vec![]).await;
    page.leave().await;
    serde_json::from_str(&text).map_err(|_| text)
}
