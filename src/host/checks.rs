//! Every check of the project.
//!
//! The site is built while the sources are checked and the tests compiled, since neither alone keeps two processors busy. They
//! use different folders of cargo, so they do not wait for each other. One run reports all failures.

use super::project::{Project, finish};
use super::{Outcome, rust};
use std::env;
use std::fs::{self, File};
use std::path::PathBuf;
use std::process::Child;
use std::time::Instant;

/// Checks that take neither site nor browser: what is checked, and the words for cargo. Lints and documentation have their
/// whole lines in `.cargo/config.toml`.
const SOURCES: [(&str, &str); 6] = [
    ("layout of the code", "fmt --check"),
    ("lints, native", "lint"),
    ("lints, browser", "lint-page"),
    ("lints, photographs", "lint-photo"),
    ("documentation", "docs"),
    ("compiling the tests", COMPILE),
];
const COMPILE: &str = "test --locked --no-run";
const TEST: &str = "test --locked --no-fail-fast";

/// Runs all checks. The filter narrows the tests of `cargo test`, nothing else.
///
/// # Errors
/// The lines that repeat what failed.
pub(crate) fn run(project: &Project, filter: &[String]) -> Outcome {
    let start = Instant::now();
    rust::ensure_components(project)?;
    rust::ensure_target(project)?;
    let site = Preparation::start(project)?;
    let mut failed = Vec::new();
    for (title, words) in SOURCES {
        let mut cargo = project.cargo(words);
        note(title, &format!("cargo {words}"), &mut failed, || {
            finish(&mut cargo)
        });
    }
    note(
        "site, browser and tools",
        "cargo run -- prepare",
        &mut failed,
        || site.finish(),
    );
    let is_ready = !failed
        .iter()
        .any(|line| line.ends_with(COMPILE) || line.ends_with("prepare"));
    if is_ready {
        let words = filter.iter().map(|word| quoted(word));
        let line: Vec<String> = std::iter::once(format!("cargo {TEST}"))
            .chain(words)
            .collect();
        let mut cargo = project.cargo(TEST);
        note("tests", &line.join(" "), &mut failed, || {
            finish(cargo.args(filter))
        });
    }
    let minutes = start.elapsed().as_secs_f64() / 60.0;
    println!("\n{minutes:.1} minutes.");
    verdict(&failed, is_ready)
}

/// Runs a check, says how long it took, and notes its line if it failed.
fn note(title: &str, line: &str, failed: &mut Vec<String>, check: impl FnOnce() -> Outcome) {
    println!("\n== {title}");
    let start = Instant::now();
    let outcome = check();
    let seconds = start.elapsed().as_secs_f64();
    match outcome {
        Ok(()) => println!("   passed in {seconds:.1} s"),
        Err(reason) => {
            println!("   FAILED after {seconds:.1} s. {reason}");
            failed.push(line.to_owned());
        }
    }
}

fn verdict(failed: &[String], are_tested: bool) -> Outcome {
    if failed.is_empty() {
        println!("All checks passed.");
        return Ok(());
    }
    let skipped = if are_tested {
        ""
    } else {
        " The tests did not run."
    };
    let lines = failed.join("\n    ");
    Err(format!(
        "{} of the checks failed.{skipped} To repeat them:\n\n    {lines}",
        failed.len()
    ))
}

/// `cargo run -- prepare`, running beside the checks. What it says is kept in a file, and shown if it fails.
struct Preparation {
    process: Child,
    said: PathBuf,
}

impl Preparation {
    fn start(project: &Project) -> Outcome<Self> {
        let trouble = |error| format!("The site cannot be prepared: {error}.");
        fs::create_dir_all(project.tools()).map_err(trouble)?;
        let said = project.tools().join("prepare.log");
        let log = File::create(&said).map_err(trouble)?;
        let mut command = project.command(env::current_exe().map_err(trouble)?);
        command
            .arg("prepare")
            .stdout(log.try_clone().map_err(trouble)?)
            .stderr(log);
        let process = command.spawn().map_err(trouble)?;
        println!("Meanwhile the site is built. Progress: {}", said.display());
        Ok(Self { process, said })
    }

    fn finish(mut self) -> Outcome {
        let status = self.process.wait().map_err(|error| error.to_string())?;
        if status.success() {
            return Ok(());
        }
        println!("{}", fs::read_to_string(&self.said).unwrap_or_default());
        Err("The reason is above.".into())
    }
}

/// The word as a shell takes it for one word.
fn quoted(word: &str) -> String {
    let is_plain = |letter: char| letter.is_ascii_alphanumeric() || "-_=./:,".contains(letter);
    if !word.is_empty() && word.chars().all(is_plain) {
        return word.into();
    }
    format!("'{}'", word.replace('\'', r"'\''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failing_check_does_not_keep_the_others_from_being_reported() {
        let mut failed = Vec::new();
        note("one", "cargo one", &mut failed, || Err("No.".into()));
        note("two", "cargo two", &mut failed, || Ok(()));
        note("three", "cargo three", &mut failed, || Err("No.".into()));
        assert_eq!(failed, ["cargo one", "cargo three"]);
        let verdict = verdict(&failed, false).unwrap_err();
        assert!(verdict.starts_with("2 of the checks failed. The tests did not run."));
        assert!(verdict.ends_with("\n\n    cargo one\n    cargo three"));
    }

    #[test]
    fn lines_can_be_pasted_into_a_shell() {
        let words = ["laws::", "two words", "*", "it's"].map(quoted);
        assert_eq!(words, ["laws::", "'two words'", "'*'", r"'it'\''s'"]);
    }
}
