//! The searcher of barriers, axe-core, put into the page by the browser's own protocol: the page's policy stays in force.

use std::fmt::{self, Display, Formatter};
use std::fs;
use std::path::Path;

use serde::Deserialize;
use serde_json::{Value, json};

use super::harness::REMEDY;
use super::page::Page;

/// Where `cargo run -- test` puts it.
const SCRIPT: &str = ".tools/axe/node_modules/axe-core/axe.min.js";

/// The success criteria of WCAG 2.2 at levels A and AA, by the searcher's tags for the version that brought them, and what it
/// calls best practice. The size of targets is off by default there. Of what passes one element for each rule is enough, and
/// quicker.
const SEARCH: &str = "{
    axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        rules: { 'target-size': { enabled: true } },
        resultTypes: ['violations', 'incomplete'],
    }).then(({ violations, incomplete, passes }) => {
        const first = (node) => [...node.any, ...node.all, ...node.none][0];
        const finds = (rules) => rules.flatMap(({ id, nodes }) => nodes.map((node) => ({
            rule: id,
            place: node.target.flat().join(' '),
            summary: node.failureSummary ?? '',
            data: first(node)?.data ?? null,
        })));
        return JSON.stringify({
            violations: finds(violations), undecided: finds(incomplete), passed: passes.map(({ id }) => id),
        });
    });
}";

/// Everything that a search came to.
#[derive(Debug, Deserialize)]
pub(super) struct Search {
    /// Barriers.
    pub(super) violations: Vec<Find>,
    /// What it could not decide.
    pub(super) undecided: Vec<Find>,
    /// Rules that something on the page meets.
    pub(super) passed: Vec<String>,
}

/// One rule at one element.
#[derive(Debug, Deserialize)]
pub(super) struct Find {
    /// The rule.
    pub(super) rule: String,
    /// The element, as a selector.
    pub(super) place: String,
    /// What is wrong, or to be looked at.
    summary: String,
    /// What was measured.
    data: Value,
}

impl Display for Find {
    fn fmt(&self, out: &mut Formatter<'_>) -> fmt::Result {
        write!(out, "{} at {}: {}", self.rule, self.place, self.summary())
    }
}

impl Find {
    /// What is wrong, or to be looked at, in one line.
    pub(super) fn summary(&self) -> String {
        self.summary
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    }

    /// Whether both colours are known and their contrast is too low, so that nothing was left to decide.
    pub(super) fn is_low_contrast(&self) -> bool {
        let number = |key: &str| self.data[key].as_f64();
        let least = self.data["expectedContrastRatio"].as_str();
        let least = least.and_then(|text| text.split(':').next()?.parse().ok());
        let (Some(ratio), Some(least)) = (number("contrastRatio"), least) else {
            return false;
        };
        self.rule == "color-contrast" && 0.0 < ratio && ratio < least
    }
}

/// Searches the page as it is now.
pub(super) fn search(page: &Page) -> Search {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join(SCRIPT);
    let script = fs::read_to_string(&script)
        .unwrap_or_else(|_| panic!("{} is not there. {REMEDY}", script.display()));
    let is_there = evaluate(page, "'axe' in window");
    if is_there != json!(true) {
        evaluate(page, &script);
    }
    let answer = evaluate(page, SEARCH);
    let answer = answer.as_str().expect("the searcher answers in text");
    serde_json::from_str(answer).expect("the searcher answers in JSON")
}

/// Runs a script that the page's policy does not know of.
pub(super) fn evaluate(page: &Page, script: &str) -> Value {
    let params = json!({"expression": script, "awaitPromise": true, "returnByValue": true});
    let mut answer = page.session.cdp("Runtime.evaluate", &params);
    assert!(
        answer.get("exceptionDetails").is_none(),
        "{}",
        answer["exceptionDetails"]
    );
    answer["result"]["value"].take()
}
