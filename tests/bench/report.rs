//! The figures that the project has goals for, in one table: what a visitor loads, how soon the chart can be dragged, what a move
//! of a drag costs, how long a plan takes natively and in the browser, and whether memory stays.
//!
//! `cargo run -- measure` runs this. Nothing here fails for being slow: what must hold on every machine is counted in tests.

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
    #[path = "../browser/ways.rs"]
    #[allow(unused, reason = "the tests use more of it")]
    mod ways;

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
}

#[cfg(not(target_arch = "wasm32"))]
#[path = "../budget.rs"]
#[allow(unused, reason = "the tests use more of it")]
mod budget;
#[cfg(not(target_arch = "wasm32"))]
#[path = "growth.rs"]
#[allow(dead_code, reason = "other benches use more of it")]
mod growth;
#[cfg(not(target_arch = "wasm32"))]
#[path = "in_browser_build.rs"]
mod in_browser_build;
#[cfg(not(target_arch = "wasm32"))]
#[path = "report/table.rs"]
mod table;

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .expect("a runtime starts");
    println!("{}", table::HEAD);
    runtime.block_on(print());
}

#[cfg(not(target_arch = "wasm32"))]
async fn print() {
    use browser::{core, desk::Desk, dragging, first_use, memory};
    let show = |rows: Vec<table::Row>| rows.iter().for_each(|row| println!("{row}"));
    let example = taperwright::design::demo::demo();
    let forty = growth::forty_points();
    let desk = Desk::open();
    show(budget::LIMITS.iter().flat_map(loaded).collect());
    let requests = budget::loaded(&budget::page()).len() + 1;
    let goal = budget::REQUESTS.to_string();
    show(vec![table::Row::exact(
        "requests to the first use",
        &goal,
        requests.to_string(),
    )]);
    show(first_use::rows(&desk).await);
    for throttle in [1.0, 4.0] {
        for (name, design) in [("example", &example), ("40 points", &forty)] {
            for size in dragging::TABLET {
                show(dragging::rows(&desk, (name, design), size, throttle).await);
            }
        }
    }
    let thousand = growth::of_points(1000);
    let [upright, _] = dragging::TABLET;
    show(dragging::rows(&desk, ("1,000 points", &thousand), upright, 1.0).await);
    show(core::rows(&desk, ("example", &example), ["60 µs", "150 µs"]).await);
    show(core::rows(&desk, ("1,000 points", &thousand), ["2 ms", ""]).await);
    show(memory::rows(&desk).await);
}

/// Rows for what a visitor loads; `tests/budget.rs` holds the site to the same figures.
#[cfg(not(target_arch = "wasm32"))]
fn loaded(limit: &budget::Limit) -> Vec<table::Row> {
    let row = |(packing, ending, (goal, budget)): (&str, &str, (u64, u64))| {
        let what = format!("{}, {packing}", limit.what);
        let bytes = format!("{} bytes", limit.weight(ending));
        table::Row::exact(what, &format!("{goal} bytes; budget {budget}"), bytes)
    };
    vec![
        row(("Brotli", "br", limit.brotli)),
        row(("gzip", "gz", limit.gzip)),
    ]
}

#[cfg(target_arch = "wasm32")]
fn main() {}
