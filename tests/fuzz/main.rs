//! Everything the fuzzer once found worth keeping is put through the same doors again, without a fuzzer.
//!
//! The corpus below `corpus` was made by libFuzzer out of what `seeds.rs` writes, and made small by it: one input for each
//! new way through the program.
//!
//! This folder is also a workspace of its own, for a nightly compiler and `cargo install cargo-fuzz`. Its targets are `link`,
//! `file`, `readings` and `storage`; what must hold is in `harness`.
//!
//! ```sh
//! cd tests/fuzz
//! cargo +nightly fuzz run --fuzz-dir . file -- -dict=words.dict -max_len=16000 -max_total_time=600
//! cargo +nightly fuzz cmin --fuzz-dir . file       # keep the corpus small: at most 300 files and 1 MB in all
//! ```
//!
//! A run leaves what it finds in `artifacts`, which is not kept: once mended, it becomes a file of the corpus.
#![cfg(not(target_arch = "wasm32"))]

mod harness;
mod seeds;

use std::fs;
use std::path::{Path, PathBuf};

fn corpus(target: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/fuzz/corpus")
        .join(target)
}

/// Puts every input of a target through its door; which one it is stands before whatever it says.
fn replay(target: &str, run: fn(&[u8])) {
    let entries = fs::read_dir(corpus(target)).expect("the corpus is part of the project");
    let mut count = 0;
    for entry in entries {
        let path = entry.expect("the folder can be listed").path();
        let bytes = fs::read(&path).expect("the input can be read");
        let outcome = std::panic::catch_unwind(|| run(&bytes));
        assert!(outcome.is_ok(), "{}", path.display());
        count += 1;
    }
    assert!(count >= 10, "only {count} inputs for {target}");
}

#[test]
fn links() {
    replay("link", harness::link::run);
}

#[test]
fn files() {
    replay("file", harness::file::run);
}

#[test]
fn readings() {
    replay("readings", harness::readings::run);
}

#[test]
fn stores() {
    replay("storage", harness::storage::run);
}

/// The corpus stays small enough to travel with the sources.
#[test]
fn the_corpus_is_small() {
    let files = ["link", "file", "readings", "storage"].map(|target| {
        let entries = fs::read_dir(corpus(target)).expect("the corpus is part of the project");
        entries
            .map(|entry| {
                entry
                    .expect("the folder can be listed")
                    .metadata()
                    .expect("it is a file")
                    .len()
            })
            .collect::<Vec<_>>()
    });
    let files = files.concat();
    let bytes: u64 = files.iter().sum();
    assert!(
        files.len() <= 300 && bytes <= 1_000_000,
        "{} files, {bytes} bytes",
        files.len()
    );
}

/// Writes the seeds into the corpus: `cargo test --test fuzz seeds -- --ignored`.
#[test]
#[ignore = "writes a new corpus into the sources"]
fn seeds_are_written() {
    for (target, name, bytes) in seeds::all() {
        let folder = corpus(target);
        fs::create_dir_all(&folder).expect("the folder can be made");
        fs::write(folder.join(format!("seed-{name}")), bytes).expect("the seed can be written");
    }
}
