//! The page's promises, kept in a real browser. Needs the built site, Chromium with its driver, poppler
//! and axe-core: `cargo run -- test` sees to all of them.
#![cfg(not(target_arch = "wasm32"))]

mod browser {
    // The workbench: programs started, a browser steered, a page read.
    mod arrange;
    mod axe;
    mod cdp;
    mod chart;
    mod fake_clock;
    mod gesture;
    mod harness;
    mod http;
    mod look;
    mod page;
    mod paper;
    mod pool;
    mod programs;
    mod scan;
    mod shed;
    mod state;
    mod views;
    mod watch;
    mod ways;

    #[path = "../photo/render/mod.rs"]
    mod render;
    #[path = "../common/up_and_down.rs"]
    mod up_and_down;

    // One module for each promise.
    mod abort;
    mod access;
    mod at_machine;
    mod book;
    mod broken;
    mod card;
    mod cautions;
    mod checks;
    mod clock;
    mod codes;
    mod compare;
    mod constant;
    mod contrast;
    mod days;
    mod drag;
    mod dressing;
    mod drops;
    mod everything;
    mod faults;
    mod fields;
    mod figures;
    mod files;
    mod finding;
    mod focus;
    mod heap;
    mod heavier;
    mod hostile;
    mod icons;
    mod install;
    mod intro;
    mod kept;
    mod keys;
    mod later;
    mod layout;
    mod looks;
    mod machine;
    mod matching;
    mod measured;
    mod memory;
    mod newer;
    mod offline;
    mod one_screen;
    mod photo;
    mod photo_used;
    mod pins;
    mod places;
    mod questions;
    mod random_edits;
    mod range;
    mod reach;
    mod refused;
    mod ring;
    mod saving;
    mod screens;
    mod settings;
    mod setup;
    mod share;
    mod sheets;
    mod signals;
    mod sketching;
    mod stand;
    mod starts;
    mod states;
    mod strip;
    mod sudden;
    mod swatches;
    mod tabs;
    mod tag;
    mod touch;
    mod touched;
    mod trains;
    mod trouble;
    mod turnover;
    mod undo;
    mod units;
    mod weighed;
    mod wind;
    mod words;
    mod work;
    mod zoom;
}
