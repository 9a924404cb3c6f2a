//! What a visitor loads before the first use, and after it, stays within its budget: the packed copies that the build leaves
//! beside each file.
//! The site in `dist` is weighed; `cargo run -- test` builds it before.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A budget in bytes, packed by Brotli and by gzip. Where the goal is not met, it is the figure of the day and 2 % at most. It
/// goes down with the page, never up for comfort.
pub(crate) struct Limit {
    pub(crate) what: &'static str,
    /// How the name of its file begins and ends.
    name: (&'static str, &'static str),
    /// Whether the first use waits for it.
    is_first: bool,
    /// Goal and budget by Brotli.
    pub(crate) brotli: (u64, u64),
    /// The same by gzip.
    pub(crate) gzip: (u64, u64),
}

pub(crate) const LIMITS: [Limit; 6] = [
    Limit {
        what: "program, for the first use",
        name: ("taperwright-", ".wasm"),
        is_first: true,
        brotli: (450_000, 450_000),
        gzip: (600_000, 600_000),
    },
    Limit {
        what: "program, for what comes later",
        name: ("later-", ".wasm"),
        is_first: false,
        brotli: (350_000, 736_000),
        gzip: (450_000, 913_000),
    },
    Limit {
        what: "script that joins the program to the browser",
        name: ("taperwright-", ".js"),
        is_first: true,
        brotli: (10_000, 11_000),
        gzip: (10_000, 12_450),
    },
    Limit {
        what: "program that reads photographs",
        name: ("photo-", ".wasm"),
        is_first: false,
        brotli: (50_500, 50_500),
        gzip: (57_800, 57_800),
    },
    Limit {
        what: "script of the program that reads photographs",
        name: ("photo-", ".js"),
        is_first: false,
        brotli: (4_500, 4_500),
        gzip: (5_000, 5_000),
    },
    Limit {
        what: "style",
        name: ("style-", ".css"),
        is_first: true,
        brotli: (12_000, 14_600),
        gzip: (12_000, 15_900),
    },
];

/// From the page's address to its first use, the page counted in: the goal.
/// One of them is the typeface, without which nothing waits.
pub(crate) const REQUESTS: usize = 9;

impl Limit {
    /// Bytes of its one file as packed with this ending.
    pub(crate) fn weight(&self, packed: &str) -> u64 {
        let file = self.file().with_added_extension(packed);
        fs::metadata(file).expect("the build packs it").len()
    }

    /// Its one file.
    fn file(&self) -> PathBuf {
        let is_its = |file: &PathBuf| {
            let name = file.file_name().and_then(|name| name.to_str());
            name.is_some_and(|name| name.starts_with(self.name.0) && name.ends_with(self.name.1))
        };
        let found: Vec<PathBuf> = files().into_iter().filter(is_its).collect();
        assert_eq!(found.len(), 1, "{}: {found:?}", self.what);
        found.into_iter().next().unwrap_or_default()
    }
}

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

#[test]
fn every_part_is_within_its_budget_and_no_budget_is_loose() {
    for limit in &LIMITS {
        let what = limit.what;
        for (packed, (goal, budget)) in [("br", limit.brotli), ("gz", limit.gzip)] {
            let bytes = limit.weight(packed);
            println!("{what}.{packed}: {bytes} bytes of {budget}");
            assert!(
                bytes <= budget,
                "{what}.{packed}: {bytes} bytes, {budget} are allowed"
            );
            assert!(
                budget <= goal.max(bytes + bytes / 50),
                "{what}.{packed}: {bytes} bytes, {budget} are allowed: take the budget down"
            );
        }
    }
}

#[test]
fn the_page_asks_at_once_for_what_the_first_use_needs_and_for_no_more() {
    let page = page();
    let loaded = loaded(&page);
    for limit in &LIMITS {
        let file = limit.file();
        let name = file.file_name().and_then(|name| name.to_str());
        let is_asked_for = loaded
            .iter()
            .any(|address| Some(address.trim_start_matches("./")) == name);
        assert_eq!(is_asked_for, limit.is_first, "{}: {loaded:?}", limit.what);
    }
}

#[test]
fn every_text_has_packed_copies_and_they_are_smaller() {
    let texts = ["wasm", "js", "css", "html", "json", "svg", "webmanifest"];
    for ending in texts {
        let files: Vec<PathBuf> = files()
            .into_iter()
            .filter(|file| ends(file, ending))
            .collect();
        assert!(!files.is_empty(), "no .{ending} in the site");
        for file in files {
            let bytes = |file: &Path| fs::metadata(file).expect("it is there").len();
            for packed in ["br", "gz"] {
                let copy = file.with_extension(format!("{ending}.{packed}"));
                assert!(bytes(&copy) < bytes(&file), "{}", copy.display());
            }
        }
    }
}

#[test]
fn few_requests_lead_to_the_first_use() {
    let page = page();
    let loaded = loaded(&page);
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

/// Most bytes of the one typeface: its Latin letters in all weights.
const TYPEFACE: u64 = 35_000;

#[test]
fn one_typeface_comes_along_with_its_licence() {
    let fonts = ["woff", "woff2", "ttf", "otf", "eot"];
    let found: Vec<PathBuf> = files()
        .into_iter()
        .filter(|file| fonts.iter().any(|font| ends(file, font)))
        .collect();
    assert_eq!(found.len(), 1, "{found:?}");
    let bytes = fs::metadata(&found[0]).expect("it is there").len();
    assert!(bytes <= TYPEFACE, "{bytes} bytes");
    let licence = found[0].with_extension("license.txt");
    let words = fs::read_to_string(licence).expect("the licence lies beside it");
    assert!(words.contains("SIL Open Font License"));
}
