//! How fast all of it is, in one table: what a visitor loads, how soon the chart can be dragged, what a move costs, how long the
//! core takes and how that grows, what it takes beside a script and a workbook, and whether memory stays.
//!
//! `cargo run -- measure` builds the site and runs this. Called without `--bench`, as the checks do, everything is tried once.
//! Nothing here fails for being slow: what must hold on every machine is counted in tests.

#[cfg(not(target_arch = "wasm32"))]
#[path = "."]
mod browser {
    // The workbench of the browser's tests.
    #[path = "../browser/cdp.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod cdp;
    #[path = "../browser/gesture.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod gesture;
    #[path = "../browser/harness.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod harness;
    #[path = "../browser/heap.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod heap;
    #[path = "../browser/http.rs"]
    mod http;
    #[path = "../browser/page.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod page;
    #[path = "../browser/pool.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod pool;
    #[path = "../browser/programs.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod programs;
    #[path = "../browser/state.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod state;
    #[path = "../browser/watch.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod watch;

    #[path = "report/core.rs"]
    pub(crate) mod core;
    #[path = "report/desk.rs"]
    pub(crate) mod desk;
    #[path = "report/dragging.rs"]
    pub(crate) mod dragging;
    #[path = "report/first_use.rs"]
    pub(crate) mod first_use;
    #[path = "report/memory.rs"]
    pub(crate) mod memory;
    #[path = "report/trace.rs"]
    mod trace;
}

#[cfg(not(target_arch = "wasm32"))]
#[path = "against.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod against;
#[cfg(not(target_arch = "wasm32"))]
#[path = "../budget.rs"]
#[allow(unused, reason = "the tests use more of it")]
mod budget;
#[cfg(not(target_arch = "wasm32"))]
#[path = "growth.rs"]
mod growth;
#[cfg(not(target_arch = "wasm32"))]
#[path = "in_browser_build.rs"]
mod in_browser_build;
#[cfg(not(target_arch = "wasm32"))]
#[path = "report/table.rs"]
mod table;

/// How often everything is measured.
#[cfg(not(target_arch = "wasm32"))]
#[derive(Clone, Copy)]
pub(crate) struct Effort {
    /// Openings of the page of each kind.
    openings: usize,
    /// Drags of each kind.
    drags: usize,
    /// Batches of plans.
    plans: u32,
    /// Runs of script and workbook.
    rivals: u32,
    /// Whether what takes minutes is measured too.
    is_whole: bool,
}

#[cfg(not(target_arch = "wasm32"))]
impl Effort {
    /// For figures to keep.
    const WHOLE: Self = Self {
        openings: 7,
        drags: 4,
        plans: 50,
        rivals: 20,
        is_whole: true,
    };
    /// To see that it works.
    const ONCE: Self = Self {
        openings: 1,
        drags: 1,
        plans: 1,
        rivals: 1,
        is_whole: false,
    };
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    // Cargo says so when it measures, and not when it tests.
    let is_measuring = std::env::args().any(|word| word == "--bench");
    let effort = if is_measuring {
        Effort::WHOLE
    } else {
        Effort::ONCE
    };
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .expect("a runtime starts");
    println!("{}", table::HEAD);
    runtime.block_on(print(effort));
}

#[cfg(not(target_arch = "wasm32"))]
async fn print(effort: Effort) {
    use browser::{core, desk::Desk, dragging, first_use, memory};
    let show = |rows: Vec<table::Row>| rows.iter().for_each(|row| println!("{row}"));
    let example = taperwright::design::demo::demo();
    let forty = growth::forty_points();
    let desk = Desk::open();
    show(loaded());
    show(first_use::rows(&desk, effort.openings).await);
    for throttle in [1.0, 4.0] {
        for (name, design) in [("example", &example), ("40 points", &forty)] {
            show(dragging::rows(&desk, (name, design), throttle, effort.drags).await);
        }
    }
    let native = core::native(&example, effort);
    show(vec![table::Row::of(
        "plan of the example, native",
        "100 µs",
        table::Unit::Micro,
        &native,
    )]);
    show(core::growth(effort));
    show(vec![
        core::finder("example", &example),
        core::finder("40 points", &forty),
    ]);
    if effort.is_whole {
        show(core::in_browser(&desk, &example, &native, effort).await);
        show(core::beside(&example, &native, effort));
        show(memory::rows(&desk).await);
    }
}

/// Rows for what a visitor loads; `tests/budget.rs` holds the site to the same figures.
#[cfg(not(target_arch = "wasm32"))]
fn loaded() -> Vec<table::Row> {
    let page = budget::page();
    let glue = std::fs::read(budget::glue(&page)).expect("it can be read");
    let rows = [
        ("program, packed", "150000", budget::weight("wasm")),
        (
            "script that joins it, packed",
            "10000",
            budget::packed(&glue),
        ),
        ("style, packed", "12000", budget::weight("css")),
    ];
    let requests = budget::loaded(&page).len() + 1;
    let row = |(what, goal, bytes): (&str, &str, usize)| {
        table::Row::exact(what, &format!("{goal} bytes"), format!("{bytes} bytes"))
    };
    let mut rows: Vec<_> = rows.map(row).into_iter().collect();
    rows.push(table::Row::exact(
        "requests to the first use",
        "8",
        requests.to_string(),
    ));
    rows
}

#[cfg(target_arch = "wasm32")]
fn main() {}
