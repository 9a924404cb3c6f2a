//! Under which terms the crates stand that this program is built with, and which of them reach the reader's browser; and under
//! which the typeface stands that goes with the page.
//!
//! Asked is cargo itself, about the locked versions (`cargo metadata`); the words are those of the SPDX list of licences, the
//! form of an expression is that of SPDX 2.3, annex D (from memory). What is known of weaknesses of a crate is not looked up:
//! see DEVELOPERS.md.
#![cfg(not(target_arch = "wasm32"))]

mod expression;

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde_json::Value;

use expression::allows;

/// Licences that ask for no more than that they be named, each usual among crates.
const ALLOWED: [&str; 10] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "Unicode-3.0",
    "CC0-1.0",
    "Unlicense",
];

/// Crates under other terms, each with the reason why it may stay.
const EXCEPTIONS: [(&str, &str, &str); 3] = [
    (
        "xxhash-rust",
        "BSL-1.0",
        "a hash within a macro, run by the compiler only; the Boost licence asks for nothing where only machine code is given on",
    ),
    (
        "webdriver",
        "MPL-2.0",
        "words of the protocol that steers the browser in tests; in nothing that is given on, and not changed here",
    ),
    (
        "webpki-roots",
        "CDLA-Permissive-2.0",
        "a list of who may vouch for hosts, for the check of a host; in nothing that is given on, and not changed here",
    ),
];

/// Every crate in the page, with its licence, in order.
const PAGE: &str = include_str!("page.txt");

/// What cargo says of the crates for a platform.
fn metadata(platform: &str) -> Value {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--offline", "--locked", "--format-version", "1"])
        .args(["--filter-platform", platform])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo can be started");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "`cargo fetch --locked` first? {said}"
    );
    serde_json::from_slice(&output.stdout).expect("cargo writes JSON")
}

const BROWSER: &str = "wasm32-unknown-unknown";

/// The platform this test was built for, as rustc calls it.
fn host() -> String {
    let output = Command::new("rustc")
        .arg("-vV")
        .output()
        .expect("rustc can be started");
    let said = String::from_utf8(output.stdout).expect("rustc writes text");
    let line = said.lines().find_map(|line| line.strip_prefix("host: "));
    line.expect("rustc says what it runs on").to_owned()
}

fn list<'a>(tree: &'a Value, key: &str) -> &'a [Value] {
    tree[key].as_array().map_or(&[], Vec::as_slice)
}

fn text<'a>(tree: &'a Value, key: &str) -> &'a str {
    tree[key].as_str().unwrap_or_default()
}

/// Whether a crate may be used under these terms.
fn may_stay(name: &str, licence: &str) -> bool {
    let is_excepted = EXCEPTIONS
        .iter()
        .any(|(other, terms, _)| (*other, *terms) == (name, licence));
    is_excepted || allows(licence, &ALLOWED)
}

#[test]
fn every_crate_stands_under_terms_we_can_keep() {
    for platform in [BROWSER.to_owned(), host()] {
        let metadata = metadata(&platform);
        let packages = list(&metadata, "packages");
        assert!(packages.len() > 100, "{} crates", packages.len());
        for package in packages {
            let (name, licence) = (text(package, "name"), text(package, "license"));
            assert!(may_stay(name, licence), "{name}: “{licence}”");
        }
    }
}

/// An exception nobody needs any more is to go.
#[test]
fn every_exception_is_needed() {
    let all = [metadata(BROWSER), metadata(&host())];
    for (name, licence, reason) in EXCEPTIONS {
        let mut packages = all.iter().flat_map(|metadata| list(metadata, "packages"));
        let is_it =
            |package: &Value| (text(package, "name"), text(package, "license")) == (name, licence);
        assert!(packages.any(is_it), "{name}");
        assert!(!allows(licence, &ALLOWED) && !reason.is_empty(), "{name}");
    }
}

/// Names and licences of the crates that are linked into the page: what macros and build scripts need is not among them.
fn page() -> BTreeSet<String> {
    let metadata = metadata(BROWSER);
    let packages: BTreeMap<&str, &Value> = list(&metadata, "packages")
        .iter()
        .map(|package| (text(package, "id"), package))
        .collect();
    let nodes: BTreeMap<&str, &Value> = list(&metadata["resolve"], "nodes")
        .iter()
        .map(|node| (text(node, "id"), node))
        .collect();
    let runs_elsewhere = |id: &str| {
        list(packages[id], "targets")
            .iter()
            .any(|target| target["kind"] == serde_json::json!(["proc-macro"]))
    };
    let mut todo = vec![text(&metadata["resolve"], "root")];
    let mut seen = BTreeSet::new();
    while let Some(id) = todo.pop() {
        if runs_elsewhere(id) || !seen.insert(id) {
            continue;
        }
        let is_linked = |dependency: &&Value| {
            list(dependency, "dep_kinds")
                .iter()
                .any(|kind| kind["kind"].is_null())
        };
        todo.extend(
            list(nodes[id], "deps")
                .iter()
                .filter(is_linked)
                .map(|dependency| text(dependency, "pkg")),
        );
    }
    let row = |id: &&str| {
        format!(
            "{} {}",
            text(packages[*id], "name"),
            text(packages[*id], "license")
        )
    };
    seen.iter().map(row).collect()
}

#[test]
fn every_crate_in_the_page_is_listed() {
    let (now, listed) = (
        page(),
        PAGE.lines().map(str::to_owned).collect::<BTreeSet<_>>(),
    );
    let new: Vec<_> = now.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&now).collect();
    assert!(
        new.is_empty() && gone.is_empty(),
        "new in the page: {new:?}; no longer in it: {gone:?}. Where that is meant: `cargo test --test licences list -- --ignored`"
    );
}

/// The licence asks that its text goes wherever the typeface goes. Source: SIL Open Font License 1.1, condition 2.
#[test]
fn each_typeface_goes_with_its_licence() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let read = |path: &str| std::fs::read_to_string(root.join(path));
    let page = read("index.html").expect("there is a page");
    let copied = |name: &str| page.contains(&format!("rel=\"copy-file\" href=\"style/{name}\""));
    let files = std::fs::read_dir(root.join("style")).expect("there are sheets");
    let names = files
        .flatten()
        .filter_map(|file| file.file_name().into_string().ok());
    let typefaces: Vec<String> = names
        .filter_map(|name| Some(name.strip_suffix(".woff2")?.to_owned()))
        .collect();
    assert!(!typefaces.is_empty(), "no typeface is found");
    for name in typefaces {
        let licence = format!("{name}.license.txt");
        let text = read(&format!("style/{licence}")).expect("its licence lies beside it");
        assert!(
            text.contains("SIL Open Font License, Version 1.1"),
            "{name}"
        );
        assert!(text.starts_with("Copyright"), "{name} says not whose it is");
        assert!(
            copied(&format!("{name}.woff2")) && copied(&licence),
            "{name}"
        );
    }
}

#[test]
#[ignore = "writes into the sources, after a wanted change of what is in the page"]
fn list_what_is_in_the_page() {
    let rows: Vec<String> = page().into_iter().collect();
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/licences/page.txt");
    std::fs::write(path, rows.join("\n") + "\n").expect("the list can be written");
}
