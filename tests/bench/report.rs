//! How fast all of it is, in one table: what a visitor loads, how soon the chart can be dragged, what a move costs, how long the
//! core takes and how that grows, what it takes beside a script and a workbook, and whether memory stays.
//!
//! `cargo run -- measure` builds the site and runs this. Called without `--bench`, as the checks do, everything is tried once.
//! Nothing here fails for being slow: what must hold on every machine is counted in tests.

#[cfg(not(target_arch = "wasm32"))]
mod browser {
    // The workbench of the browser's tests.
    #[path = "../../browser/cdp.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod cdp;
    #[path = "../../browser/gesture.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod gesture;
    #[path = "../../browser/harness.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod harness;
    #[path = "../../browser/heap.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod heap;
    #[path = "../../browser/http.rs"]
    mod http;
    #[path = "../../browser/page.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod page;
    #[path = "../../browser/programs.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod programs;
    #[path = "../../browser/state.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod state;
    #[path = "../../browser/watch.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod watch;

    #[path = "../report/desk.rs"]
    pub(crate) mod desk;
    #[path = "../report/dragging.rs"]
    pub(crate) mod dragging;
    #[path = "../report/first_use.rs"]
    pub(crate) mod first_use;
    #[path = "../report/memory.rs"]
    pub(crate) mod memory;
    #[path = "../report/trace.rs"]
    mod trace;
}

#[cfg(not(target_arch = "wasm32"))]
#[path = "report/table.rs"]
mod table;
