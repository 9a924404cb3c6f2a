//! What a visitor loads before the first use stays within its budget, packed as web servers pack it: gzip at level 9, by a
//! library, so that every machine counts the same. The site in `dist` is weighed; `cargo run -- test` builds it before.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use flate2::{Compression, write::GzEncoder};

/// Of the program, in bytes. The goal is 150,000; DEVELOPERS.md says where the rest goes. Until it is met, this is the figure of
/// the day and 2 % at most. It goes down with the program, never up for comfort.
pub(crate) const PROGRAM: usize = 845_000;
/// Of the script that joins the program to the browser, in bytes: the goal.
pub(crate) const GLUE: usize = 10_000;
/// Of all sheets of style together, in bytes: the goal.
pub(crate) const STYLE: usize = 12_000;
/// From the page's address to its first use, the page counted in: the goal.
pub(crate) const REQUESTS: usize = 8;

fn site() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("dist")
}

fn files() -> Vec<PathBuf> {
    let entries = fs::read_dir(site()).expect("the site is built: `cargo run -- build`");
    entries
        .map(|entry| entry.expect("an entry").path())
        .collect()
}

fn ends(file: &Path, ending: &str) -> bool {
    file.extension().is_some_and(|its| its == ending)
}

pub(crate) fn page() -> String {
    fs::read_to_string(site().join("index.html")).expect("the site is built: `cargo run -- build`")
}

pub(crate) fn packed(content: &[u8]) -> usize {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    packer.write_all(content).expect("memory takes everything");
    packer.finish().expect("memory takes everything").len()
}

/// The bytes of all files that the page loads and that end like this.
pub(crate) fn weight(ending: &str) -> usize {
    let files: Vec<PathBuf> = files()
        .into_iter()
        .filter(|file| ends(file, ending))
        .collect();
    assert!(!files.is_empty(), "no .{ending} in the site");
    let contents = files
        .iter()
        .map(|file| fs::read(file).expect("it can be read"));
    contents.map(|content| packed(&content)).sum()
}

/// The addresses in the page of what a browser asks for while it opens it.
pub(crate) fn loaded(page: &str) -> BTreeSet<&str> {
    // A device that is asked to put the page among its programs fetches this one, then.
    let elements = page
        .split('<')
        .filter(|element| !element.contains("rel=apple-touch-icon"));
    let addresses = elements.flat_map(|element| {
        let names = [" href=", " src=", " data-js=", " data-wasm="];
        names.into_iter().filter_map(move |name| {
            let value = &element[element.find(name)? + name.len()..];
            value.trim_start_matches('"').split(['"', ' ', '>']).next()
        })
    });
    addresses.collect()
}

/// The script whose address the page gives to the loader.
pub(crate) fn glue(page: &str) -> PathBuf {
    let is_glue = |address: &&&str| {
        address.contains("taperwright-") && address.rsplit('.').next() == Some("js")
    };
    let loaded = loaded(page);
    let name = loaded.iter().find(is_glue).expect("the page names it");
    site().join(name.trim_start_matches("./"))
}

#[track_caller]
fn within(what: &str, bytes: usize, budget: usize) {
    println!("{what}: {bytes} bytes packed, of {budget}");
    assert!(
        bytes <= budget,
        "{what}: {bytes} bytes packed, {budget} are allowed"
    );
}

#[test]
fn the_program_is_within_its_budget() {
    within("program", weight("wasm"), PROGRAM);
}

#[test]
fn the_budget_of_the_program_is_no_looser_than_two_percent() {
    let bytes = weight("wasm");
    assert!(
        PROGRAM <= 150_000.max(bytes + bytes / 50),
        "{bytes} bytes packed: take the budget down"
    );
}

#[test]
fn the_glue_is_within_its_budget() {
    let glue = fs::read(glue(&page())).expect("it can be read");
    within("glue", packed(&glue), GLUE);
}

#[test]
fn the_style_is_within_its_budget() {
    within("style", weight("css"), STYLE);
}

#[test]
fn few_requests_lead_to_the_first_use() {
    let page = page();
    let loaded = loaded(&page);
    println!("{loaded:#?}");
    let requests = loaded.len() + 1;
    assert!(
        requests <= REQUESTS,
        "{requests} requests: the page and {loaded:?}"
    );
    for ending in [".css", ".js", ".wasm", ".svg", ".webmanifest"] {
        assert!(
            loaded.iter().any(|address| address.ends_with(ending)),
            "no {ending} was seen"
        );
    }
}

#[test]
fn no_font_comes_along() {
    let fonts = ["woff", "woff2", "ttf", "otf", "eot"];
    let found: Vec<PathBuf> = files()
        .into_iter()
        .filter(|file| fonts.iter().any(|font| ends(file, font)))
        .collect();
    assert!(found.is_empty(), "{found:?}");
    for sheet in files().iter().filter(|file| ends(file, "css")) {
        let sheet = fs::read_to_string(sheet).expect("it is text");
        assert!(!sheet.contains("@font-face"), "a sheet asks for a font");
    }
}
