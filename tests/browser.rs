//! The page's promises, kept in a real browser. Needs the built site, Chromium with its driver and poppler:
//! `cargo run -- test` sees to all of them.
#![cfg(not(target_arch = "wasm32"))]

mod browser {
    // The workbench: programs started, a browser steered, a page read.
    mod cdp;
    mod gesture;
    mod harness;
    mod http;
    mod page;
    mod paper;
    mod programs;
    mod state;
    mod watch;

    // One module for each promise.
    mod abort;
    mod card;
    mod constant;
    mod drag;
    mod fields;
    mod figures;
    mod files;
    mod finding;
    mod heavier;
    mod intro;
    mod layout;
    mod looks;
    mod machine;
    mod matching;
    mod memory;
    mod pins;
    mod range;
    mod ring;
    mod settings;
    mod share;
    mod strip;
    mod touch;
    mod trains;
    mod undo;
    mod units;
    mod words;
    mod work;
}
