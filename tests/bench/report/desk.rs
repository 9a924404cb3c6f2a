//! Where the page is measured: the site served, a driver, and a browser never used before for every page.

use std::cell::Cell;

use serde_json::json;
use tempfile::TempDir;

use super::cdp::Session;
use super::page::Page;
use super::programs::{Driver, Server};

/// A server and a driver.
pub(crate) struct Desk {
    server: Server,
    driver: Driver,
    opened: Cell<u32>,
    folder: TempDir,
}

impl Desk {
    pub(crate) fn open() -> Self {
        Self {
            server: Server::start(),
            driver: Driver::start(),
            opened: Cell::default(),
            folder: tempfile::tempdir().expect("a folder for profiles can be made"),
        }
    }

    /// A page that is not opened yet: a script runs in it before any of its own, and what is named is traced.
    pub(super) async fn page(&self, script: &str, traced: &str) -> Page {
        let number = self.opened.replace(self.opened.get() + 1);
        let folder = self.folder.path().join(format!("visitor-{number}"));
        let session = Session::begin_with(self.driver.port, folder, &[], traced).await;
        let source = json!({ "source": script });
        session.cdp("Page.addScriptToEvaluateOnNewDocument", &source);
        let origin = self.server.origin.clone();
        Page { session, origin }
    }
}
