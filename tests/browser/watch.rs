//! What a page must never do: complain in the console, break, or ask another host for anything.

use serde_json::{Value, json};

use super::cdp::Session;
use super::harness::{at_a_desk, until};
use super::page::Page;

/// What the browser noted since it was asked last.
#[derive(Debug, Default)]
pub(super) struct Notes {
    /// Warnings, errors and uncaught exceptions.
    pub(super) console: Vec<String>,
    /// Addresses asked for.
    pub(super) requests: Vec<String>,
}

impl Notes {
    /// Takes the notes out of the browser's logs.
    pub(super) fn take(session: &Session) -> Self {
        let console = session.log("browser");
        let network = session.log("performance");
        Self {
            console: console.iter().filter_map(complaint).collect(),
            requests: network.iter().filter_map(request).collect(),
        }
    }

    /// Addresses elsewhere than at the page's own origin.
    pub(super) fn strangers(&self, origin: &str) -> Vec<&str> {
        let own = [
            format!("{origin}/"),
            format!("blob:{origin}/"),
            "data:".to_owned(),
        ];
        let is_strange = |url: &&String| !own.iter().any(|start| url.starts_with(start));
        let strange = self.requests.iter().filter(is_strange);
        strange.map(String::as_str).collect()
    }

    /// Panics when there was trouble, or when the notes cannot be complete.
    pub(super) fn assert_untroubled(&self, origin: &str) {
        assert!(
            self.console.is_empty(),
            "the console says {:#?}",
            self.console
        );
        let strangers = self.strangers(origin);
        assert!(
            strangers.is_empty(),
            "requests left the page's origin: {strangers:#?}"
        );
        let is_program = |url: &String| url.contains("_bg.wasm");
        assert!(
            self.requests.iter().any(is_program),
            "the notes miss the page's own program, so they prove nothing: {:#?}",
            self.requests
        );
    }
}

impl Page {
    /// What the browser noted since the last look. A test that looks for itself answers for what it finds.
    pub(super) fn notes(&self) -> Notes {
        Notes::take(&self.session)
    }

    /// Panics when the page ever complained, broke, or asked another host for anything.
    pub(super) fn assert_untroubled(&self) {
        self.notes().assert_untroubled(&self.origin);
    }
}

/// An entry of the console that is more than talk.
fn complaint(entry: &Value) -> Option<String> {
    let level = entry["level"].as_str().unwrap_or_default();
    let is_talk = ["INFO", "DEBUG", "FINE"].contains(&level);
    (!is_talk).then(|| format!("{level}: {}", entry["message"]))
}

/// The address in a note that a request goes out.
fn request(entry: &Value) -> Option<String> {
    let note: Value = serde_json::from_str(entry["message"].as_str()?).ok()?;
    let note = &note["message"];
    let address = match note["method"].as_str()? {
        "Network.requestWillBeSent" => &note["params"]["request"]["url"],
        "Network.webSocketCreated" => &note["params"]["url"],
        _ => return None,
    };
    address.as_str().map(str::to_owned)
}

/// Trouble, and a word of it that the notes must hold.
const TROUBLE: [(&str, &str); 5] = [
    (
        "console.warn('a warning made here');",
        "a warning made here",
    ),
    ("console.error('an error made here');", "an error made here"),
    (
        "setTimeout(() => { throw new Error('an exception made here'); });",
        "an exception made here",
    ),
    (
        "Promise.reject(new Error('a rejection made here'));",
        "a rejection made here",
    ),
    ("fetch('missing.txt');", "missing.txt"),
];

/// A request to elsewhere, and its address.
const LEAVING: (&str, &str) = (
    "fetch('http://127.0.0.1:9/elsewhere').catch(() => {});",
    "http://127.0.0.1:9/elsewhere",
);

/// Every test ends with a look at the notes. Here trouble is made on purpose, to see that none of it escapes them.
#[test]
fn no_trouble_escapes_the_notes() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        page.assert_untroubled();
        page.session
            .cdp("Page.setBypassCSP", &json!({ "enabled": true }));
        page.reload().await;
        for (script, word) in TROUBLE {
            page.run(script, vec![]).await;
            until_noted(&page, |notes| holds(&notes.console, word)).await;
        }
        page.run(LEAVING.0, vec![]).await;
        let leaves = |notes: &Notes| notes.strangers(&page.origin).contains(&LEAVING.1);
        until_noted(&page, leaves).await;
    });
}

/// The page's own policy stops what would leave, and says so.
#[test]
fn the_policy_lets_nothing_leave_the_origin() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        page.assert_untroubled();
        page.run(LEAVING.0, vec![]).await;
        let is_stopped = |notes: &Notes| holds(&notes.console, "Content Security Policy");
        until_noted(&page, is_stopped).await;
    });
}

async fn until_noted(page: &Page, wish: impl Fn(&Notes) -> bool) {
    until("the notes tell", async || wish(&page.notes()).then_some(())).await;
}

fn holds(console: &[String], word: &str) -> bool {
    console.iter().any(|said| said.contains(word))
}
