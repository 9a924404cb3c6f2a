//! Every check of the project. What fails quickly comes first.

use super::project::Project;
use super::step::Step;
use super::{Outcome, access, browser, reckoner, rust, site};
use std::time::Instant;

const LAYOUT: &str = "Some code is not laid out as `cargo fmt` would.";
const LINTS: &str = "The compiler or its lints object to something above.";
const DOCS: &str = "The documentation has an error, such as a link that leads nowhere.";
const TESTS: &str = "A test failed; its name stands above.";
const BENCHES: &str = "A benchmark does not work.";

/// Runs all checks and stops at the first that fails. The filter narrows the tests of `cargo test`, nothing else.
pub(crate) fn run(project: &Project, filter: &[String]) -> Outcome {
    let start = Instant::now();
    rust::ensure_components(project)?;
    rust::ensure_target(project)?;
    let steps = steps(filter);
    let count = steps.len();
    for (place, step) in steps.iter().enumerate() {
        println!("\n== {} of {count}: {}", place + 1, step.title);
        step.run(project)?;
    }
    let seconds = start.elapsed().as_secs_f64();
    println!("\nAll {count} checks passed in {seconds:.1} s.");
    Ok(())
}

fn steps(filter: &[String]) -> Vec<Step> {
    let mut steps = source_steps();
    steps.extend(document_steps().map(Step::without_rustdoc_warnings));
    steps.extend(site_steps());
    steps.extend(test_steps(filter));
    steps
}

fn source_steps() -> Vec<Step> {
    let native = "clippy --locked --all-targets -- -D warnings";
    let page = "clippy --locked --target wasm32-unknown-unknown --all-targets -- -D warnings";
    vec![
        Step::cargo("layout of the code", LAYOUT, "fmt --check"),
        Step::cargo("lints, native", LINTS, native),
        Step::cargo("lints, browser", LINTS, page),
    ]
}

fn document_steps() -> [Step; 2] {
    let native = "doc --locked --no-deps";
    let page = "doc --locked --no-deps --target wasm32-unknown-unknown --document-private-items";
    [
        Step::cargo("documentation, native", DOCS, native),
        Step::cargo("documentation, browser", DOCS, page),
    ]
}

fn site_steps() -> [Step; 4] {
    [
        Step::own("the site", site::build, Some("cargo run -- build")),
        Step::own("a browser to test in", browser::ensure, None),
        Step::own("a searcher of barriers", access::ensure, None),
        Step::own("a second reckoner of plans", reckoner::ensure, None),
    ]
}

/// One pass through each benchmark, unmeasured, shows that it still works.
fn test_steps(filter: &[String]) -> [Step; 2] {
    let benches = "test --locked --bench *";
    [
        Step::cargo("tests", TESTS, "test --locked").with_args(filter),
        Step::cargo("benchmarks, once through", BENCHES, benches),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(filter: &[&str]) -> Vec<Option<String>> {
        let filter: Vec<String> = filter.iter().map(ToString::to_string).collect();
        steps(&filter).iter().map(Step::line).collect()
    }

    #[test]
    fn a_filter_reaches_the_tests_and_changes_nothing_else() {
        let (mut all, narrowed) = (lines(&[]), lines(&["browser", "--", "--nocapture"]));
        let tests = Some("cargo test --locked".to_string());
        let place = all.iter().position(|line| *line == tests).unwrap();
        all[place] = Some("cargo test --locked browser -- --nocapture".into());
        assert_eq!(all, narrowed);
    }

    #[test]
    fn the_site_is_built_before_it_is_tested() {
        let lines = lines(&[]);
        let place = |line: &str| {
            lines
                .iter()
                .position(|other| other.as_deref() == Some(line))
        };
        assert!(place("cargo run -- build").unwrap() < place("cargo test --locked").unwrap());
    }
}
