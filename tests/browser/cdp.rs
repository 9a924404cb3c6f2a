//! A browser of its own: a session with a new profile, and what Chromium can do beyond the standard of all browsers.

use std::fs;
use std::path::{Path, PathBuf};

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};

use super::harness::program;
use super::http;

/// Nothing of the machine's own, and no way out of it.
const FLAGS: [&str; 9] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
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
}

impl Session {
    /// Starts a browser that keeps all it has in a new folder.
    pub(super) async fn begin(port: u16, folder: PathBuf) -> Self {
        Self::begin_with(port, folder, &[], "").await
    }

    /// The same, with more switches for the browser; the last of a kind counts. What is to be traced of its work is named
    /// as its protocol does; it then comes with the log of performance.
    pub(super) async fn begin_with(
        port: u16,
        folder: PathBuf,
        flags: &[String],
        traced: &str,
    ) -> Self {
        fs::create_dir_all(&folder).expect("a folder for the profile can be made");
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities(&folder, flags, traced))
            .connect(&format!("http://127.0.0.1:{port}"))
            .await
            .expect("the browser starts");
        let id = client.session_id().await.expect("the session answers");
        let session = Self {
            client,
            port,
            id: id.expect("a session that began has a name"),
            folder,
        };
        session.forget_own_requests().await;
        session
    }

    /// What the browser asked for before it comes to the site is nobody's business here.
    async fn forget_own_requests(&self) {
        let left = self.client.goto("about:blank").await;
        left.expect("the browser leaves its own page");
        self.log("performance");
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
        let answer = http::request(self.port, "POST", &path, &body.to_string());
        let answer = answer.expect("the driver answers");
        let mut answer: Value = serde_json::from_str(&answer).expect("the driver answers in JSON");
        let value = answer["value"].take();
        assert!(value.get("error").is_none(), "{path} {body}: {value}");
        value
    }
}

fn capabilities(folder: &Path, flags: &[String], traced: &str) -> Map<String, Value> {
    let mut args: Vec<String> = FLAGS.iter().map(ToString::to_string).collect();
    args.extend_from_slice(flags);
    let profile = folder.join("profile");
    args.push(format!("--user-data-dir={}", profile.display()));
    let mut options = json!({
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
    if !traced.is_empty() {
        options["perfLoggingPrefs"] = json!({"traceCategories": traced, "enableNetwork": false});
    }
    let logs = json!({"browser": "ALL", "performance": "ALL"});
    let all = [("goog:chromeOptions", options), ("goog:loggingPrefs", logs)];
    all.map(|(name, value)| (name.to_owned(), value))
        .into_iter()
        .collect()
}
