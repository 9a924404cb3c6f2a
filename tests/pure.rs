//! The core computes and nothing else: no browser, clock, files, network or threads. What it says depends on the design
//! alone, so that it can be tested without a browser and drawn again on every move of a pointer.
#![cfg(not(target_arch = "wasm32"))]

use std::fs;
use std::path::{Path, PathBuf};

/// The floors that may know the world, and the two front doors.
const WORLDLY: [&str; 4] = ["page", "host", "main.rs", "lib.rs"];

/// Words that give the world away, as whole words.
const FORBIDDEN: [&str; 16] = [
    "leptos",
    "web_sys",
    "js_sys",
    "wasm_bindgen",
    "std::time",
    "std::fs",
    "std::net",
    "std::env",
    "std::io",
    "std::process",
    "println!",
    "dbg!",
    "Instant",
    "SystemTime",
    "std::thread",
    "thread_local",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every Rust file under a folder of the sources.
fn files_under(folder: &Path, found: &mut Vec<PathBuf>) {
    let entries =
        fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    for entry in entries {
        let path = entry.expect("the folder can be listed").path();
        if path.is_dir() {
            files_under(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

/// The core's files: all but those of the worldly rooms.
fn core_files() -> Vec<PathBuf> {
    let sources = root().join("src");
    let mut found = Vec::new();
    files_under(&sources, &mut found);
    found.retain(|path| {
        let inside = path
            .strip_prefix(&sources)
            .expect("found below the sources");
        let floor = inside.iter().next().map(|first| first.to_string_lossy());
        !floor.is_some_and(|floor| WORLDLY.contains(&floor.as_ref()))
    });
    found
}

/// Code as it counts: comments may speak of anything.
fn code_of(text: &str) -> String {
    let code = |line: &str| line.split("//").next().unwrap_or_default().to_owned();
    text.lines().map(code).collect::<Vec<_>>().join("\n")
}

/// Whether a word stands in a text as a word, not as a part of another.
fn holds(text: &str, word: &str) -> bool {
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    text.match_indices(word).any(|(at, _)| {
        let before = text[..at].chars().next_back().is_some_and(is_part);
        let after = text[at + word.len()..].chars().next().is_some_and(is_part);
        !before && !after
    })
}

/// The forbidden words of a source text; `use std::{fs, …}` is a group in which the words stand apart.
fn given_away(text: &str) -> Vec<&'static str> {
    let code = code_of(text);
    let in_group = |word: &str| {
        let module = word.strip_prefix("std::");
        let groups = code
            .split("std::{")
            .skip(1)
            .filter_map(|rest| rest.split(';').next());
        module.is_some_and(|module| groups.into_iter().any(|group| holds(group, module)))
    };
    FORBIDDEN
        .into_iter()
        .filter(|word| holds(&code, word) || in_group(word))
        .collect()
}

#[test]
fn the_core_knows_no_world() {
    let files = core_files();
    for file in [
        "plan/mod.rs",
        "braid/track/mod.rs",
        "design/mod.rs",
        "keep/share/link.rs",
        "keep/shelf/mod.rs",
        "paper/chart/paths.rs",
    ] {
        assert!(
            files.contains(&root().join("src").join(file)),
            "{file} was not looked at"
        );
    }
    assert!(
        files.len() >= 25,
        "only {} files were looked at",
        files.len()
    );
    for path in files {
        let text = fs::read_to_string(&path).expect("a source file is text");
        assert!(!text.trim().is_empty(), "{} is empty", path.display());
        assert_eq!(given_away(&text), Vec::<&str>::new(), "{}", path.display());
    }
}

/// The test above must see what it looks for.
#[test]
fn the_world_is_recognised() {
    let rows = [
        ("use std::time::Duration;", vec!["std::time"]),
        ("use std::{fmt, fs};", vec!["std::fs"]),
        (
            "use std::{\n    collections::BTreeMap,\n    env,\n};",
            vec!["std::env"],
        ),
        ("let now = Instant::now();", vec!["Instant"]),
        ("leptos::view! {}", vec!["leptos"]),
        ("std::thread::spawn(run)", vec!["std::thread"]),
        ("// Instant coffee, std::fs", vec![]),
        ("struct Instantly; let thread = self.thread();", vec![]),
        ("use std::collections::BTreeMap;", vec![]),
    ];
    for (text, words) in rows {
        assert_eq!(given_away(text), words, "{text}");
    }
}

#[test]
fn unsafe_code_is_forbidden() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).expect("the crate has a manifest");
    let lints = manifest
        .split("[lints.rust]")
        .nth(1)
        .expect("the manifest has lints");
    let table = lints.split("\n[").next().unwrap_or_default();
    assert!(
        table
            .lines()
            .any(|line| line.trim() == "unsafe_code = \"forbid\""),
        "{table}"
    );
}
