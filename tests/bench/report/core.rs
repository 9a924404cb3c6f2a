//! The core by itself: natively, and as the page has it in a browser; how its time grows; and beside what a maker would use.

use std::fs;
use std::hint::black_box;
use std::time::Instant;

use serde::Deserialize;
use taperwright::design::Design;
use taperwright::edit::finder::Finder;
use taperwright::keep::share::link;
use taperwright::plan::Plan;

use super::desk::Desk;
use super::programs::Server;
use crate::against::{self, compare};
use crate::growth::{CARRIERS, POINTS, exponent, of_carriers, of_points};
use crate::table::{Row, Samples, Unit};
use crate::{Effort, in_browser_build};

/// Plans timed at a time, so that the clock's own steps do not matter.
const BATCH: u32 = 20;

/// Seconds that a plan takes natively.
pub(crate) fn native(design: &Design, effort: Effort) -> Samples {
    // Once beforehand: ladders are remembered.
    black_box(Plan::of(design));
    let one = |_| {
        let begun = Instant::now();
        for _ in 0..BATCH {
            black_box(Plan::of(black_box(design)));
        }
        begun.elapsed().as_secs_f64() / f64::from(BATCH)
    };
    Samples::new((0..effort.plans).map(one))
}

/// Rows for growth in control points and in carriers, with the power of points and of events that time grows with.
pub(crate) fn growth(effort: Effort) -> Vec<Row> {
    let by_points = POINTS.map(|count| (count, of_points(count)));
    let by_carriers = CARRIERS.map(|count| (count, of_carriers(count)));
    let mut rows = Vec::new();
    for (what, series) in [("control points", by_points), ("carriers", by_carriers)] {
        let (mut over_size, mut over_events) = (vec![], vec![]);
        for (size, design) in series {
            let events = Plan::of(&design).events.len();
            let samples = native(&design, effort);
            over_size.push((f64::from(size), samples.median()));
            over_events.push((events as f64, samples.median()));
            let name = format!("plan with {size} {what}, {events} events, native");
            rows.push(Row::of(name, "", Unit::Micro, &samples));
        }
        let power = |over: &[(f64, f64)]| format!("{:.2}", exponent(over));
        rows.push(Row::exact(
            format!("it grows as this power of {what}; and of the events"),
            "1",
            format!("{}; {}", power(&over_size), power(&over_events)),
        ));
    }
    rows
}

/// The steps of the finder, each of them between two looks of the page at the hand.
pub(crate) fn finder(name: &str, design: &Design) -> Row {
    let mut finder = Finder::new(design);
    let mut steps = Vec::new();
    let mut goes_on = true;
    while goes_on {
        let begun = Instant::now();
        goes_on = finder.step(1);
        steps.push(begun.elapsed().as_secs_f64());
    }
    let steps = Samples::new(steps);
    Row::at(
        format!("longest step of the search for a thread plan, {name}, native"),
        "",
        Unit::Milli,
        &steps,
        1.0,
    )
}

/// Milliseconds, as the page that times the core tells them.
#[derive(Deserialize)]
struct Told {
    ladder: Vec<f64>,
    plan: Vec<f64>,
    search: Vec<f64>,
    head_grains: f64,
}

/// Rows for the same core as the page has it, in a browser.
pub(crate) async fn in_browser(
    desk: &Desk,
    design: &Design,
    native: &Samples,
    effort: Effort,
) -> Vec<Row> {
    let told = match told(desk, design, effort).await {
        Ok(told) => told,
        Err(reason) => return vec![Row::exact("the core in a browser", "", reason)],
    };
    let head = Plan::of(design)
        .head_mass
        .expect("it is long enough")
        .grains();
    assert!(
        (told.head_grains / head - 1.0).abs() < 1e-9,
        "another plan: {}",
        told.head_grains
    );
    let seconds = |all: Vec<f64>| Samples::new(all.into_iter().map(|one| one * 1e-3));
    let plan = seconds(told.plan);
    vec![
        Row::of(
            "plan of the example, in a browser",
            "300 µs",
            Unit::Micro,
            &plan,
        ),
        Row::one(
            "the same, in a browser over native",
            "",
            Unit::Times,
            plan.median() / native.median(),
        ),
        Row::at(
            "carriers of counts not met before: the longest, in a browser",
            "",
            Unit::Milli,
            &seconds(told.ladder),
            1.0,
        ),
        Row::at(
            "a step of the search, the longest, in a browser",
            "50 ms",
            Unit::Milli,
            &seconds(told.search),
            1.0,
        ),
    ]
}

async fn told(desk: &Desk, design: &Design, effort: Effort) -> Result<Told, String> {
    let folder = tempfile::tempdir().map_err(|error| error.to_string())?;
    let site = folder.path().join("dist");
    fs::create_dir(&site).map_err(|error| error.to_string())?;
    // By these files the server knows a project.
    for name in ["Cargo.toml", "Trunk.toml"] {
        fs::write(folder.path().join(name), "").map_err(|error| error.to_string())?;
    }
    in_browser_build::build(&site)?;
    let server = Server::start_in(folder.path(), 0);
    let page = desk.page("", "").await;
    let code = link::encode(design).map_err(|error| error.to_string())?;
    let rest = format!("index.html?runs={}&batch={BATCH}#{code}", effort.plans);
    let address = format!("{}/{rest}", server.origin);
    let gone = page.session.client.goto(&address).await;
    gone.map_err(|error| error.to_string())?;
    page.until_there("#times[data-state=done], #times[data-state=failed]")
        .await;
    let text: String = page
        .ask(
            "return document.getElementById('times').textContent;",
            vec![],
        )
        .await;
    page.leave().await;
    serde_json::from_str(&text).map_err(|_| text)
}

/// Rows for the script and the workbook that reckon the same plan.
pub(crate) fn beside(design: &Design, native: &Samples, effort: Effort) -> Vec<Row> {
    let plan = Plan::of(design);
    let mut rows = match against::numpy(design, effort.rivals) {
        Err(reason) => vec![Row::exact(
            "the same plan by a script over NumPy",
            "",
            reason,
        )],
        Ok(script) => {
            let times = Samples::new(script.seconds.clone());
            let apart = largest(&compare::with_script(design, &plan, &script));
            rival("a script over NumPy", &times, native, apart)
        }
    };
    rows.extend(match against::workbook(design, effort.rivals) {
        Err(reason) => vec![Row::exact("the same plan by a workbook", "", reason)],
        Ok(book) => {
            let times = Samples::new(book.seconds.clone());
            let apart = largest(&compare::with_workbook(&plan, &book));
            let mut rows = rival("a workbook, one size changed", &times, native, apart);
            rows.push(Row::one(
                "the same with the office suite's start",
                "",
                Unit::Seconds,
                book.whole_seconds,
            ));
            rows
        }
    });
    rows
}

fn largest(differences: &[compare::Difference]) -> String {
    let widest = differences
        .iter()
        .max_by(|a, b| a.relative.total_cmp(&b.relative));
    widest.map_or_else(String::new, |one| {
        format!("{:.1e}, {}", one.relative, one.figure)
    })
}

fn rival(name: &str, times: &Samples, native: &Samples, apart: String) -> Vec<Row> {
    vec![
        Row::of(format!("the same plan by {name}"), "", Unit::Milli, times),
        Row::one(
            format!("{name}, over the core native"),
            "",
            Unit::Times,
            times.median() / native.median(),
        ),
        Row::exact(format!("{name}: largest difference to the core"), "", apart),
    ]
}
