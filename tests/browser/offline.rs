//! After one visit the page opens and works without a connection. A bad connection does not hold it up, and where the browser
//! keeps no copies it works as before and says nothing wrong.

use std::fs;
use std::net::{Ipv4Addr, TcpListener};

use serde_json::{Value, json};
use taperwright::design::demo::demo;
use taperwright::keep::share::link;

use super::harness::until;
use super::memory::dragged;
use super::page::Page;
use super::shed::in_a_shed;

/// What is said of the copy, whatever it says.
const SAID: &str = "[data-said=offline]";

#[test]
fn after_a_first_visit_all_works_without_a_connection() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        shed.disconnect();
        page.reload().await;
        assert_eq!(page.matching(SAID).await, 0, "it is said again");
        let (state, design) = dragged(&page).await;
        page.press("card").await;
        page.until_there(".card-desk.shown").await;
        page.press("card-close").await;
        page.reload().await;
        assert_eq!(page.state().await, state);
        assert_eq!(page.kept().await, Some(design));
        let shared = link::encode(&demo()).expect("short");
        page.go(&format!("?by=mail#{shared}")).await;
        page.until_there("[data-action=keep-copy]").await;
        page.go("index.html").await;
        assert_eq!(page.state().await, state);
        page.leave().await;
    });
}

/// It takes no room on the page: it is said in the menu.
#[test]
fn it_is_said_in_the_menu() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        assert!(!page.text().await.contains("offline"), "it is said twice");
        page.press("menu").await;
        page.until_said("Works offline on this device.").await;
        page.assert_untroubled();
        assert!(page.storage().await.is_empty(), "saying it kept something");
        page.leave().await;
    });
}

/// Somebody listens and never answers: no test of how long it takes, but it must not wait for ever.
#[test]
fn a_connection_that_never_answers_does_not_hold_the_page_up() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        shed.disconnect();
        let port = shed.origin.rsplit(':').next().expect("a port");
        let port = port.parse().expect("a number");
        let silent = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).expect("the port is free");
        page.reload().await;
        dragged(&page).await;
        drop(silent);
        page.leave().await;
    });
}

/// Below any folder of any host, and several of them beside each other.
#[test]
fn two_sites_of_one_host_keep_a_copy_each() {
    in_a_shed(async |shed| {
        shed.nest("inner");
        let page = shed.visitor().await;
        page.until_ready().await;
        page.go("inner/").await;
        page.until_ready().await;
        let names = page.caches().await;
        assert_eq!(names.len(), 2, "{names:?}");
        shed.disconnect();
        for rest in ["inner/", ""] {
            page.go(rest).await;
            let address: String = page.ask("return location.href;", vec![]).await;
            assert_eq!(address, format!("{}/{rest}#draw", shed.origin));
        }
        assert_eq!(page.caches().await, names);
        page.leave().await;
    });
}

/// An address of a network at home, without encryption: browsers give such a page no worker.
#[test]
fn on_an_unencrypted_address_the_page_works_and_says_nothing_of_it() {
    in_a_shed(async |shed| {
        let rules = "--host-resolver-rules=MAP shed.test 127.0.0.1 , EXCLUDE 127.0.0.1";
        let session = shed.session(&[rules.to_owned()]).await;
        let origin = shed.origin.replace("127.0.0.1", "shed.test");
        let page = Page::open(session, origin, "").await;
        let has_worker: bool = page
            .ask("return 'serviceWorker' in navigator;", vec![])
            .await;
        assert!(!has_worker, "this address has one after all");
        works_and_is_silent(page).await;
    });
}

#[test]
fn where_workers_are_refused_the_page_works_and_says_nothing_of_it() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let refuse = "navigator.serviceWorker.getRegistration = navigator.serviceWorker.register =
            () => Promise.reject(new DOMException('refused', 'SecurityError'));";
        page.session.cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            &json!({ "source": refuse }),
        );
        page.reload().await;
        works_and_is_silent(page).await;
    });
}

async fn works_and_is_silent(page: Page) {
    dragged(&page).await;
    page.reload().await;
    page.press("share").await;
    page.until_there("[data-code=link]").await;
    assert_eq!(page.matching(SAID).await, 0);
    page.assert_untroubled();
    page.leave().await;
}

/// Whatever the browser asks for, for page or worker, it writes down itself. Source: Chromium's own log of its network.
#[test]
fn nothing_asks_another_host_from_the_first_visit_to_the_last() {
    in_a_shed(async |shed| {
        let log = shed.file("net.json");
        let flag = format!("--log-net-log={}", log.display());
        let page = shed.visitor_with(&[flag]).await;
        page.until_ready().await;
        dragged(&page).await;
        page.press("share").await;
        page.until_there("[data-code=link]").await;
        page.press("share-close").await;
        page.press("card").await;
        page.press("save-card").await;
        page.press("card-close").await;
        page.session.cdp("Page.getAppManifest", &json!({}));
        let build = page.build().await;
        shed.rebuild("b");
        page.back_online().await;
        page.until_there("[data-action=use-newer]").await;
        page.bring("[data-action=use-newer]").await;
        page.press("use-newer").await;
        page.until_not(&build).await;
        shed.disconnect();
        page.reload().await;
        page.assert_untroubled();
        page.leave().await;
        let asked = addresses(&log).await;
        for part in ["/worker.js", "/taperwright.webmanifest", "_bg.wasm"] {
            assert!(
                asked.iter().any(|url| url.ends_with(part)),
                "the log misses {part}"
            );
        }
        let own = [
            format!("{}/", shed.origin),
            format!("blob:{}/", shed.origin),
        ];
        let is_strange = |url: &&String| !own.iter().any(|start| url.starts_with(start));
        let strange: Vec<&String> = asked.iter().filter(is_strange).collect();
        assert!(strange.is_empty(), "{strange:#?}");
    });
}

/// Every address that the page or its worker caused the browser to ask for, by the log. What the browser asks on its own account
/// has no page as its origin.
async fn addresses(log: &std::path::Path) -> Vec<String> {
    let whole = async || {
        let text = fs::read_to_string(log).ok()?;
        serde_json::from_str::<Value>(&text).ok()
    };
    let log = until("the log is written to its end", whole).await;
    let events = log["events"].as_array().expect("a log has events");
    let by_page = |event: &&Value| {
        let initiator = event["params"]["initiator"].as_str();
        initiator.is_some_and(|who| who != "not an origin")
    };
    let asked = events.iter().filter(by_page);
    let mut asked: Vec<String> = asked
        .filter_map(|event| event["params"]["url"].as_str().map(str::to_owned))
        .collect();
    asked.sort();
    asked.dedup();
    asked
}
