//! The engines, and how the browser of each is started.

use std::path::Path;
use std::sync::LazyLock;

use fantoccini::wd::Capabilities;
use serde_json::json;

use super::driver::Screen;
use super::harness::{REMEDY, program};

/// An engine beside Chromium.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Engine {
    /// WebKit, in its own small browser.
    WebKit,
    /// Firefox.
    Firefox,
}

/// Where Debian puts WebKit's small browser: below the folder of the library, which bears the name of the processor.
const LIBRARIES: &str = "/usr/lib";
const MINI_BROWSERS: [&str; 2] = ["webkit2gtk-4.1/MiniBrowser", "webkit2gtk-4.0/MiniBrowser"];

/// WebKit draws on a screen, so it gets one that nobody sees.
static SCREEN: LazyLock<Screen> = LazyLock::new(Screen::start);

impl Engine {
    /// The program that steers it.
    pub(super) fn driver(self) -> std::path::PathBuf {
        program(match self {
            Self::WebKit => "WebKitWebDriver",
            Self::Firefox => "geckodriver",
        })
    }

    /// The screen that it draws on.
    pub(super) fn display(self) -> Option<&'static str> {
        (self == Self::WebKit).then(|| SCREEN.display.as_str())
    }

    /// What its driver is asked for.
    pub(super) fn capabilities(self) -> Capabilities {
        let (name, options) = match self {
            Self::WebKit => (
                "webkitgtk:browserOptions",
                json!({ "binary": mini_browser(), "args": ["--automation"] }),
            ),
            Self::Firefox => (
                "moz:firefoxOptions",
                json!({
                    "binary": program("firefox-esr"),
                    "args": ["-headless"],
                    "prefs": {
                        // No way out of this machine: a proxy where nobody listens, which addresses of this machine pass by.
                        "network.proxy.type": 1,
                        "network.proxy.http": "127.0.0.1",
                        "network.proxy.http_port": 9,
                        "network.proxy.ssl": "127.0.0.1",
                        "network.proxy.ssl_port": 9,
                        // Sheets slide for a moment: tests look at where they end.
                        "ui.prefersReducedMotion": 1,
                    },
                }),
            ),
        };
        [(name.to_owned(), options)].into_iter().collect()
    }
}

/// WebKit's small browser, which is not on the search path.
fn mini_browser() -> std::path::PathBuf {
    let folders = std::fs::read_dir(LIBRARIES).into_iter().flatten().flatten();
    let mut folders: Vec<_> = folders.map(|folder| folder.path()).collect();
    folders.push(Path::new(LIBRARIES).to_owned());
    let named = |folder: std::path::PathBuf| MINI_BROWSERS.map(|name| folder.join(name));
    let mut all = folders.into_iter().flat_map(named);
    let found = all.find(|file| file.is_file());
    found.unwrap_or_else(|| {
        panic!("WebKit's `MiniBrowser` is not below {LIBRARIES}. On Debian it comes with `webkit2gtk-driver`. {REMEDY}")
    })
}
