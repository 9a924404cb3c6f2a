//! A desk whose site can be changed, and whose server can be stopped and started again at the same address.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use fantoccini::wd::WindowHandle;
use tempfile::TempDir;

use super::cdp::Session;
use super::harness::{PATIENCE, until, within};
use super::page::Page;
use super::pool;
use super::programs::Server;

// The build's own last step, so that a changed site is finished as every site is.
#[path = "../../src/host/worker.rs"]
mod worker;

/// Longest time for a whole test here: several builds, several starts.
const WHOLE_TEST: Duration = PATIENCE.saturating_mul(9);

/// The desk. Without a server there is no connection to the site.
pub(super) struct Shed {
    server: Option<Server>,
    port: u16,
    /// The site's address, without the slash at its end.
    pub(super) origin: String,
    folder: TempDir,
}

/// Runs a test in a shed of its own, with a copy of the built site.
pub(super) fn in_a_shed(test: impl AsyncFnOnce(&mut Shed)) {
    within(WHOLE_TEST, Box::pin(test(&mut Shed::open())));
}

impl Shed {
    fn open() -> Self {
        let folder = tempfile::tempdir().expect("a folder for the site can be made");
        // What the program knows a project by.
        for name in ["Cargo.toml", "Trunk.toml"] {
            fs::write(folder.path().join(name), "").expect("a file can be written");
        }
        let built = Path::new(env!("CARGO_MANIFEST_DIR")).join("dist");
        copy(&built, &folder.path().join("dist"));
        let server = Server::start_in(folder.path(), 0);
        let origin = server.origin.clone();
        let port = origin.rsplit(':').next().and_then(|port| port.parse().ok());
        Self {
            server: Some(server),
            port: port.expect("an address ends with its port"),
            origin,
            folder,
        }
    }

    /// Somebody who comes for the first time.
    pub(super) async fn visitor(&self) -> Page {
        self.visitor_with(&[]).await
    }

    /// The same, in a browser with more switches.
    pub(super) async fn visitor_with(&self, flags: &[String]) -> Page {
        let session = self.session(flags).await;
        Page::open(session, self.origin.clone(), "").await
    }

    /// A browser that has been nowhere yet.
    pub(super) async fn session(&self, flags: &[String]) -> Session {
        if flags.is_empty() {
            pool::borrow().await
        } else {
            pool::own(flags).await
        }
    }

    /// A file that goes with the shed.
    pub(super) fn file(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The site.
    pub(super) fn dist(&self) -> PathBuf {
        self.file("dist")
    }

    /// The name of the site's file that begins like this.
    pub(super) fn file_of(&self, start: &str) -> String {
        file_of(&self.dist(), start)
    }

    /// Nothing listens at the site's address any more.
    pub(super) fn disconnect(&mut self) {
        self.server = None;
    }

    /// The site is served again, at the same address.
    pub(super) fn connect(&mut self) {
        let server = Server::start_in(self.folder.path(), self.port);
        assert_eq!(server.origin, self.origin, "the port was taken meanwhile");
        self.server = Some(server);
    }

    /// Puts another build in the place of the one served, with one file by another name, as every build has.
    pub(super) fn rebuild(&self, note: &str) {
        let dist = self.dist();
        let old = file_of(&dist, "style-");
        let new = format!("style-{:016x}.css", u64::from(note.as_bytes()[0]));
        fs::rename(dist.join(&old), dist.join(&new)).expect("a file can be renamed");
        let page = fs::read_to_string(dist.join("index.html")).expect("the page is text");
        fs::write(dist.join("index.html"), page.replace(&old, &new)).expect("it can be written");
        worker::finish(&dist).expect("the site can be finished");
    }

    /// Serves a copy of the site put aside under a name.
    pub(super) fn copy_back(&self, name: &str) {
        copy(&self.file(name), &self.dist());
    }

    /// The same site in a folder of its own below the site.
    pub(super) fn nest(&self, name: &str) {
        let inner = self.dist().join(name);
        let aside = self.file("aside");
        copy(&self.dist(), &aside);
        fs::rename(aside, inner).expect("a folder can be moved");
    }
}

/// The file in a folder whose name begins like this.
fn file_of(folder: &Path, start: &str) -> String {
    let entries = fs::read_dir(folder).expect("the folder can be read");
    let names = entries.map(|entry| entry.expect("an entry").file_name());
    let mut names = names.map(|name| name.to_string_lossy().into_owned());
    let found = names.find(|name| name.starts_with(start));
    found.unwrap_or_else(|| panic!("there is no {start}…"))
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir(to).expect("a folder can be made");
    let entries = fs::read_dir(from).expect("`cargo run -- build` has built the site");
    for entry in entries {
        let entry = entry.expect("an entry");
        // A changed site has no packed copies, since they would be those of the site before.
        let ending = entry.path().extension().map(std::ffi::OsStr::to_owned);
        if ending.is_some_and(|ending| ending == "br" || ending == "gz") {
            continue;
        }
        fs::copy(entry.path(), to.join(entry.file_name())).expect("a file can be copied");
    }
}

impl Page {
    /// The build that this page is of.
    pub(super) async fn build(&self) -> String {
        self.ask(
            "return document.querySelector('meta[name=build]').content;",
            vec![],
        )
        .await
    }

    /// Waits until the page is of another build than this, and shows a line.
    pub(super) async fn until_not(&self, build: &str) -> String {
        until("the page is of another build", async || {
            let script = "return document.querySelector('[data-whole]')
                ? document.querySelector('meta[name=build]').content : null;";
            // Between two pages there is none to ask.
            let now = self.session.client.execute(script, vec![]).await.ok()?;
            now.as_str().filter(|now| *now != build).map(str::to_owned)
        })
        .await
    }

    /// Names of all caches of the browser for this origin.
    pub(super) async fn caches(&self) -> Vec<String> {
        let script = "const done = arguments[0]; caches.keys().then(done);";
        let names = self.session.client.execute_async(script, vec![]).await;
        serde_json::from_value(names.expect("the caches answer")).expect("names are texts")
    }

    /// Waits until the copy for use without a connection is there.
    pub(super) async fn until_ready(&self) {
        self.until_there("[data-offline=ready]").await;
    }

    /// Opens the page in one more window, and goes there.
    pub(super) async fn another_window(&self) -> WindowHandle {
        let client = &self.session.client;
        let opened = client.new_window(false).await;
        let window = opened.expect("a window opens").handle;
        self.look_at(&window).await;
        self.session.resize((1180, 820));
        self.go("").await;
        window
    }

    /// The window looked at.
    pub(super) async fn window(&self) -> WindowHandle {
        let window = self.session.client.window().await;
        window.expect("there is a window")
    }

    /// Goes to another window.
    pub(super) async fn look_at(&self, window: &WindowHandle) {
        let gone = self.session.client.switch_to_window(window.clone()).await;
        gone.expect("the window is there");
    }

    /// Has the browser tell the page that there is a connection again, which makes it look for a newer build.
    pub(super) async fn back_online(&self) {
        self.run("dispatchEvent(new Event('online'));", vec![])
            .await;
    }
}
