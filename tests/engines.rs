//! The page's main jobs in the two engines beside Chromium: WebKit, which is what tablets of one maker have, and Firefox.
//! Every promise is tried in Chromium by `tests/browser`; here a smaller set shows that none of them hangs on one engine.
//! Needs the built site, both browsers with their drivers, and Xvfb: `cargo run -- test` sees to all of them.
//!
//! Only the standard of all browsers is spoken (W3C WebDriver), so page and ways about it are those of `tests/browser`, while
//! what steers the browser is of its own. Each engine has one browser, which its jobs use one after the other; each job has a
//! site of its own at a port of its own, so it finds nothing kept. WebKit is here in its own small browser for Linux: the engine of
//! those tablets, without their keyboard, their fingers and their rules on what is kept how long.
//!
//! # What an engine or its driver cannot do
//!
//! | job | engine | reason seen | instead |
//! |---|---|---|---|
//! | drag by a finger | WebKit | its driver turns a finger into a mouse | a test asserts just that |
//! | drag by a pen | both | Firefox: “Unimplemented pointerMove for pointerType pen”; WebKit: a pen neither moves while it is down nor comes up | Chromium |
//! | reload by the standard | Firefox | its driver's “refresh” passes the offline worker by, as only a forced reload does | a script of the test reloads the page |
//! | look at console and requests | both | the standard has no logs of them | a broken or unstyled page is looked for |
//! | block the storage from the start | both | the standard runs no script before those of the page | storage that is full, and lines taken away |
#![cfg(not(target_arch = "wasm32"))]
#![expect(
    clippy::doc_markdown,
    reason = "WebKit and WebDriver are names, not code"
)]

#[expect(
    dead_code,
    reason = "what is shared with the tests in Chromium can do more than is needed here"
)]
mod engines {
    // The workbench. Parts that know no engine are those of the tests in Chromium.
    mod driver;
    mod engine;
    mod gesture;
    mod harness;
    mod pool;
    mod session;
    // The name under which the shared parts know what steers the browser.
    use session as cdp;

    #[path = "../common/everything.rs"]
    mod everything;
    #[path = "../browser/http.rs"]
    mod http;
    #[path = "../browser/page.rs"]
    mod page;
    #[path = "../browser/programs.rs"]
    mod programs;
    #[path = "../photo/render/mod.rs"]
    mod render;
    #[path = "../browser/shed.rs"]
    mod shed;
    #[path = "../browser/state.rs"]
    mod state;
    #[path = "../browser/ways.rs"]
    mod ways;

    // One module for each kind of job.
    mod design;
    mod faults;
    mod keeping;
    mod making;
    mod measuring;
    mod offline;
}
