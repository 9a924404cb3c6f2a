//! What the page holds before and after much work.

use super::desk::Desk;
use super::heap::{DRAGS, UNDONE, before_and_after};
use crate::table::Row;

/// Rows for memory.
pub(crate) async fn rows(desk: &Desk) -> Vec<Row> {
    let page = desk.page("").await;
    page.go("").await;
    let (before, after) = before_and_after(&page).await;
    page.leave().await;
    let row = |what: &str, before: f64, after: f64| {
        let grown = 100.0 * (after / before - 1.0);
        let what = format!("{what} after {DRAGS} drags and {UNDONE} steps back");
        Row::exact(
            what,
            "±10 %",
            format!("{grown:+.1} % ({before:.0} to {after:.0})"),
        )
    };
    vec![
        row(
            "bytes of the browser's objects",
            before.objects,
            after.objects,
        ),
        row(
            "bytes of the program's memory",
            before.program,
            after.program,
        ),
        row("nodes of the document", before.nodes, after.nodes),
    ]
}
