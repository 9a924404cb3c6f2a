//! From the page's address to a chart that can be dragged.

use serde_json::{Value, json};

use super::desk::Desk;
use super::harness::until;
use super::page::Page;
use crate::table::{Row, Samples, Unit};

/// Notes when handles are there, and when the frame that shows them was drawn and a finger would be answered: as urgently as a
/// task can be given, since what fingers do comes before the timers by which the rest of the page is built. A first line is seen
/// before that: the silhouette in the page itself.
const NOTE: &str = r"
    new MutationObserver((_, observer) => {
        if (!document.querySelector('[data-point]')) return;
        observer.disconnect();
        const note = () => { window.usable = performance.now(); };
        requestAnimationFrame(() => scheduler.postTask(note, { priority: 'user-blocking' }));
    }).observe(document, { subtree: true, childList: true });";

/// Milliseconds to the silhouette and to the first use.
const READ: &str = r"
    const seen = performance.getEntriesByName('first-contentful-paint')[0]?.startTime;
    const [entry] = performance.getEntriesByType('navigation');
    return window.usable && seen ? [seen, window.usable, entry.workerStart] : null;";

/// Openings of each kind.
const OPENINGS: usize = 7;

/// Rows for the first and for a later visit.
pub(crate) async fn rows(desk: &Desk) -> Vec<Row> {
    let mut rows = Vec::new();
    for (throttle, [goal, goal_again]) in [(1.0, ["300 ms", "150 ms"]), (4.0, ["800 ms", "400 ms"])]
    {
        let (mut cold, mut warm) = (Vec::new(), Vec::new());
        for _ in 0..OPENINGS {
            let page = desk.page(NOTE).await;
            cold.push(opened(&page, throttle).await);
            page.until_there("[data-offline=ready]").await;
            let again = opened(&page, throttle).await;
            assert!(again[2] > 0.0, "it did not come from the page's own copy");
            warm.push(again);
            page.leave().await;
        }
        let times = throttled(throttle);
        let of = |all: &[[f64; 3]], which: usize| Samples::new(all.iter().map(|one| one[which]));
        rows.push(Row::of(
            format!("a line is seen, first visit{times}"),
            "",
            Unit::Milli,
            &of(&cold, 0),
        ));
        rows.push(Row::of(
            format!("the chart can be dragged, first visit{times}"),
            goal,
            Unit::Milli,
            &of(&cold, 1),
        ));
        rows.push(Row::of(
            format!("the same from the page's own copy{times}"),
            goal_again,
            Unit::Milli,
            &of(&warm, 1),
        ));
    }
    rows
}

/// How a row names a slower processor.
pub(super) fn throttled(times: f64) -> String {
    if times > 1.0 {
        format!(", processor {times} × slower")
    } else {
        String::new()
    }
}

/// Goes to the page with a processor so many times slower; seconds.
async fn opened(page: &Page, throttle: f64) -> [f64; 3] {
    throttle_to(page, throttle);
    page.go("").await;
    let times = until("the chart can be dragged", async || {
        let answer: Value = page.ask(READ, vec![]).await;
        serde_json::from_value::<[f64; 3]>(answer).ok()
    })
    .await;
    throttle_to(page, 1.0);
    times.map(|milliseconds| milliseconds * 1e-3)
}

/// Makes the page's processor so many times slower.
pub(super) fn throttle_to(page: &Page, times: f64) {
    let rate = json!({ "rate": times });
    page.session.cdp("Emulation.setCPUThrottlingRate", &rate);
}
