//! Where the page is measured: the site served, a driver, and a browser never used before for every page.

use serde_json::json;

use super::cdp::Session;
use super::page::Page;
use super::programs::{Driver, Server};

/// A server and a driver.
pub(crate) struct Desk {
    server: Server,
    driver: Driver,
}

impl Desk {
    pub(crate) fn open() -> Self {
        Self {
            server: Server::start(),
            driver: Driver::start(),
        }
    }

    /// A page that is not opened yet: a script runs in it before any of its own.
    pub(super) async fn page(&self, script: &str) -> Page {
        let folder = self.driver.new_folder();
        let session = Session::begin_with(self.driver.port, folder, &[]).await;
        let source = json!({ "source": script });
        session.cdp("Page.addScriptToEvaluateOnNewDocument", &source);
        let origin = self.server.origin.clone();
        Page { session, origin }
    }
}
