//! A browser of its own: a session with a new profile, and what Chromium can do beyond the standard of all browsers.

use std::fs;
use std::path::{Path, PathBuf};

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};

use super::harness::program;
use super::http;

/// Nothing of the machine's own, and no way out of it.
const FLAGS: [&str; 13] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    // A window that another one covers works on as if it were seen.
    "--disable-background-timer-throttling",
    "--disable-backgrounding-occluded-windows",
    "--disable-renderer-backgrounding",
    // Sheets slide for a moment: tests look at where they end.
    "--force-prefers-reduced-motion",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
];

/// A viewport, in CSS pixels.
pub(super) type Size = (u32, u32);

/// A running browser with an empty profile.
pub(super) struct Session {
    /// What the standard of all browsers offers.
    pub(super) client: Client,
    port: u16,
    id: String,
    folder: PathBuf,
    /// Whether another test may have it afterwards.
    pub(super) is_shared: bool,
}

impl Session {
    /// Starts a browser that keeps all it has in a new folder.
    pub(super) async fn begin(port: u16, folder: PathBuf) -> Self {
        Self::begin_with(port, folder, &[]).await
    }

    /// The same, with more switches for the browser; the last of a kind counts.
    pub(super) async fn begin_with(port: u16, folder: PathBuf, flags: &[String]) -> Self {
        fs::create_dir_all(&folder).expect("a folder for the profile can be made");
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities(&folder, flags))
            .connect(&format!("http://127.0.0.1:{port}"))
            .await
            .expect("the browser starts");
        let id = client.session_id().await.expect("the session answers");
        let session = Self {
            client,
            port,
            id: id.expect("a session that began has a name"),
            folder,
            is_shared: false,
        };
        session.forget_own_requests().await;
        session
    }

    /// What the browser asked for before it comes to the site is nobody's business here.
    async fn forget_own_requests(&self) {
        self.leave_page().await;
        self.log("performance");
    }

    async fn leave_page(&self) {
        let left = self.client.goto("about:blank").await;
        left.expect("the browser leaves its page");
    }

    /// Removes every trace of the test that used it, which was at this origin: everything kept for the origin, permissions,
    /// downloads, notes; and all windows, with everything that was set for them.
    pub(super) async fn clean(&self, origin: &str) {
        self.leave_page().await;
        let all = json!({"origin": origin, "storageTypes": "all"});
        self.cdp("Storage.clearDataForOrigin", &all);
        self.cdp("Browser.resetPermissions", &json!({}));
        self.renew_windows().await;
        self.remove_downloads();
        self.log("browser");
        self.log("performance");
    }

    /// One new window in place of all others.
    async fn renew_windows(&self) {
        let client = &self.client;
        let old = client.windows().await.expect("there are windows");
        let new = client.new_window(true).await.expect("a window opens");
        for window in old {
            let there = client.switch_to_window(window).await;
            there.expect("an old window is there");
            client.close_window().await.expect("an old window closes");
        }
        let there = client.switch_to_window(new.handle).await;
        there.expect("the new window is there");
        self.cdp("Page.bringToFront", &json!({}));
    }

    fn remove_downloads(&self) {
        let entries = fs::read_dir(&self.folder).expect("the folder can be read");
        let files = entries.flatten().filter(|entry| entry.path().is_file());
        for file in files {
            fs::remove_file(file.path()).expect("a file can be removed");
        }
    }

    /// Loads the page again.
    pub(super) async fn reload(&self) {
        self.client.refresh().await.expect("the page reloads");
    }

    /// Ends the browser.
    pub(super) async fn close(self) {
        self.client.close().await.expect("the browser closes");
    }

    /// Where the browser puts what it downloads.
    pub(super) fn downloads(&self) -> &Path {
        &self.folder
    }

    /// Runs a command of the browser's own protocol.
    pub(super) fn cdp(&self, command: &str, params: &Value) -> Value {
        self.ask(
            "goog/cdp/execute",
            &json!({"cmd": command, "params": params}),
        )
    }

    /// What came into a log since it was asked last.
    pub(super) fn log(&self, kind: &str) -> Vec<Value> {
        match self.ask("se/log", &json!({ "type": kind })) {
            Value::Array(entries) => entries,
            other => panic!("the log {kind} is no list: {other}"),
        }
    }

    /// Gives the page a viewport of exactly this size.
    pub(super) fn resize(&self, (width, height): Size) {
        let metrics =
            json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false});
        self.cdp("Emulation.setDeviceMetricsOverride", &metrics);
    }

    /// Lets the page write and read the clipboard, as a person at the browser may.
    pub(super) fn allow_clipboard(&self, origin: &str) {
        let permissions = ["clipboardReadWrite", "clipboardSanitizedWrite"];
        self.cdp(
            "Browser.grantPermissions",
            &json!({"origin": origin, "permissions": permissions}),
        );
    }

    fn ask(&self, path: &str, body: &Value) -> Value {
        let path = format!("/session/{}/{path}", self.id);
        let answer = http::post(self.port, &path, &body.to_string());
        let answer = answer.expect("the driver answers");
        let mut answer: Value = serde_json::from_str(&answer).expect("the driver answers in JSON");
        let value = answer["value"].take();
        assert!(value.get("error").is_none(), "{path} {body}: {value}");
        value
    }
}

fn capabilities(folder: &Path, flags: &[String]) -> Map<String, Value> {
    let mut args: Vec<String> = FLAGS.iter().map(ToString::to_string).collect();
    args.extend_from_slice(flags);
    let profile = folder.join("profile");
    args.push(format!("--user-data-dir={}", profile.display()));
    let options = json!({
        "binary": program("chromium"),
        "args": args,
        "prefs": {
            "download.default_directory": folder,
            "download.prompt_for_download": false,
            // 4 stands for opening the addresses listed; the browser's own first page would take its time.
            "session.restore_on_startup": 4,
            "session.startup_urls": ["about:blank"],
        },
    });
    let logs = json!({"browser": "ALL", "performance": "ALL"});
    let all = [("goog:chromeOptions", options), ("goog:loggingPrefs", logs)];
    all.map(|(name, value)| (name.to_owned(), value))
        .into_iter()
        .collect()
}
