//! A machine and a clock of the test's own: the clock stands still until the test moves it, and the machine runs as exactly as the
//! test says.

use serde_json::{Value, json};
use taperwright::plan::run::Run;

use super::at_machine::run_of;
use super::harness::until;
use super::page::Page;

/// A winter morning, 2 January 2027, 10:00 in universal time, in milliseconds.
pub(super) const MORNING: f64 = 1_798_884_000_000.0;

/// Gives every page of the browser the clock, from a moment on, before anything else runs, and loads the page with it.
pub(super) async fn install(page: &Page, first: f64) {
    before_load(
        page,
        &include_str!("fake_clock.js").replace("FIRST", &format!("{first:.0}")),
    );
    page.reload().await;
}

/// A script that runs before everything else of the pages loaded from now on.
pub(super) fn before_load(page: &Page, script: &str) {
    page.session.cdp(
        "Page.addScriptToEvaluateOnNewDocument",
        &json!({ "source": script }),
    );
}

/// Moves both clocks of the page, by seconds.
pub(super) async fn pass(page: &Page, seconds: f64) {
    jump(page, seconds, seconds).await;
}

/// Moves the clock that can be set and the one that only runs, by seconds each.
pub(super) async fn jump(page: &Page, wall: f64, steady: f64) {
    let args: Vec<Value> = vec![json!(1000.0 * wall), json!(1000.0 * steady)];
    page.run("window.moveClock(...arguments);", args).await;
}

/// Seconds to the next stop as the page has them; `None` where it says that it does not know.
pub(super) async fn seconds_left(page: &Page) -> Option<f64> {
    let si = page.attribute_at("[data-clock=next-stop]", "data-si").await;
    si.and_then(|si| si.parse().ok())
}

/// Waits until the page has so many seconds to the next stop, to within a tolerance.
pub(super) async fn until_left(page: &Page, seconds: f64, tolerance: f64) {
    let mut last = None;
    let what = format!("{seconds:.1} s to the stop");
    until(&what, async || {
        let left = seconds_left(page).await;
        let is_near = left.is_some_and(|left| (left - seconds).abs() <= tolerance);
        last = left;
        is_near.then_some(())
    })
    .await;
}

/// Waits until the page says that it does not know.
pub(super) async fn until_unknown(page: &Page) {
    page.until_there("[data-clock=next-stop][data-si='']").await;
}

/// The machine is said to run, or to be stopped.
pub(super) async fn toggle(page: &Page, runs: bool) {
    // A tap soon after another is taken for the same one.
    until("the clock takes the press", async || {
        let wanted = format!("[data-action=run-clock][data-running={runs}]");
        if page.matching(&wanted).await == 0 {
            page.press("run-clock").await;
        }
        (page.matching(&wanted).await > 0).then_some(())
    })
    .await;
}

/// The run as it is kept, once it fulfils a wish.
pub(super) async fn until_run(page: &Page, what: &str, wish: impl Fn(&Run) -> bool) -> Run {
    let book = page
        .until_book(what, |book| run_of(book).is_some_and(&wish))
        .await;
    run_of(&book).expect("a run").clone()
}
