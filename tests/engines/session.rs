//! A browser of an engine, steered by nothing but the standard of all browsers.

use std::path::Path;

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::json;

use super::driver::Driver;
use super::engine::Engine;
use super::harness::{PATIENCE, PAUSE, REMEDY, until};
use super::http;

/// How often a driver is started that finds its port taken.
const STARTS: u32 = 5;

/// A window, in CSS pixels.
pub(super) type Size = (u32, u32);

/// A running browser with an empty profile, and its driver.
pub(super) struct Session {
    /// What the standard of all browsers offers.
    pub(super) client: Client,
    id: String,
    driver: Driver,
    /// Another job has it afterwards.
    pub(super) is_shared: bool,
}

impl Session {
    /// Starts driver and browser.
    pub(super) async fn begin(engine: Engine) -> Self {
        for _ in 0..STARTS {
            let mut driver = Driver::start(engine);
            if let Some(client) = connected(engine, &mut driver).await {
                let id = client.session_id().await.expect("the session answers");
                return Self {
                    client,
                    id: id.expect("a session that began has a name"),
                    driver,
                    is_shared: true,
                };
            }
        }
        panic!("The driver of {engine:?} ends as soon as it starts. {REMEDY}");
    }

    /// Gives the window this size, with all that stands around the page.
    pub(super) fn resize(&self, (width, height): Size) {
        let path = format!("/session/{}/window/rect", self.id);
        let size = json!({ "width": width, "height": height }).to_string();
        let answer = http::post(self.driver.port, &path, &size);
        let answer = answer.expect("the driver answers");
        assert!(!answer.contains("\"error\""), "{answer}");
    }

    /// Leaves the site, whose address no other job has.
    pub(super) async fn clean(&self) {
        let left = self.client.goto("about:blank").await;
        left.expect("the browser leaves its page");
    }

    /// Loads the page again, as a person does: the request of the standard passes the worker by in Firefox.
    pub(super) async fn reload(&self) {
        let script = "window.isStale = true; location.reload();";
        let asked = self.client.execute(script, vec![]).await;
        asked.expect("the page reloads");
        until("the page is another one", async || {
            // Between two pages there is none to ask.
            let script = "return !window.isStale && document.readyState === 'complete';";
            let is_new = self.client.execute(script, vec![]).await.ok()?;
            is_new.as_bool()?.then_some(())
        })
        .await;
    }

    /// Ends the browser.
    pub(super) async fn close(self) {
        self.client.close().await.expect("the browser closes");
    }

    /// There is no folder that both engines download to.
    pub(super) fn downloads(&self) -> &Path {
        unimplemented!("jobs in several engines save no files")
    }
}

/// A browser, once the driver listens; nothing if the driver gives up first.
async fn connected(engine: Engine, driver: &mut Driver) -> Option<Client> {
    let deadline = std::time::Instant::now() + PATIENCE;
    loop {
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(engine.capabilities())
            .connect(&format!("http://127.0.0.1:{}", driver.port))
            .await;
        match client {
            Ok(client) => return Some(client),
            Err(_) if driver.has_ended() => return None,
            Err(error) => assert!(
                std::time::Instant::now() < deadline,
                "The browser of {engine:?} does not start: {error}. {REMEDY}"
            ),
        }
        tokio::time::sleep(PAUSE).await;
    }
}
