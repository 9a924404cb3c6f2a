//! A desk for one test: its own server, its own driver, and a browser with an empty profile for every visitor.

use std::cell::{Cell, RefCell};
use std::env;
use std::path::PathBuf;
use std::rc::Rc;
use std::time::{Duration, Instant};

use tempfile::TempDir;

use super::cdp::Session;
use super::page::Page;
use super::programs::{Driver, Server, kill_all_with};

/// Longest wait for a state to come about; ample for a busy machine, and never waited out when all is well.
pub(super) const PATIENCE: Duration = Duration::from_secs(20);
/// Pause between two looks.
pub(super) const PAUSE: Duration = Duration::from_millis(15);
/// Longest time for a whole test.
pub(super) const WHOLE_TEST: Duration = Duration::from_secs(150);
/// What to type when something is missing.
pub(super) const REMEDY: &str =
    "`cargo run -- test` installs what is missing and builds the site first.";

/// A server and a driver. They end in this order, and the folder goes when no browser is left to write into it.
pub(super) struct Desk {
    server: Server,
    driver: Driver,
    pages: RefCell<Vec<Rc<Page>>>,
    opened: Cell<u32>,
    folder: TempDir,
}

/// Runs a test at a desk of its own, and afterwards asks every page it opened for trouble.
pub(super) fn at_a_desk(test: impl AsyncFnOnce(&Desk)) {
    at_a_desk_for(WHOLE_TEST, test);
}

/// The same with a longest time of its own, for a test as long as somebody asks for.
pub(super) fn at_a_desk_for(longest: Duration, test: impl AsyncFnOnce(&Desk)) {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .expect("a runtime starts");
    let whole = async {
        let desk = Desk::open();
        test(&desk).await;
        desk.close().await;
    };
    let in_time = runtime.block_on(async { tokio::time::timeout(longest, whole).await });
    assert!(in_time.is_ok(), "not finished after {longest:?}");
}

/// Runs a test on the page as a first visitor sees it.
pub(super) fn on_the_page(test: impl AsyncFnOnce(&Page)) {
    at_a_desk(async |desk| test(&*desk.visitor().await).await);
}

/// Looks again and again until there is something to see.
pub(super) async fn until<T>(what: &str, mut look: impl AsyncFnMut() -> Option<T>) -> T {
    let deadline = Instant::now() + PATIENCE;
    loop {
        if let Some(seen) = look().await {
            return seen;
        }
        assert!(Instant::now() < deadline, "in vain waited until {what}");
        tokio::time::sleep(PAUSE).await;
    }
}

/// A program of this machine.
pub(super) fn program(name: &str) -> PathBuf {
    let path = env::var_os("PATH").unwrap_or_default();
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    let found = env::split_paths(&path)
        .map(|folder| folder.join(&file))
        .find(|file| file.is_file());
    found.unwrap_or_else(|| panic!("`{name}` is not on this machine. {REMEDY}"))
}

impl Desk {
    fn open() -> Self {
        Self {
            server: Server::start(),
            driver: Driver::start(),
            pages: RefCell::default(),
            opened: Cell::default(),
            folder: tempfile::tempdir().expect("a folder for profiles can be made"),
        }
    }

    /// Somebody who comes to the page for the first time, with a browser never used before.
    pub(super) async fn visitor(&self) -> Rc<Page> {
        self.visitor_by("").await
    }

    /// The same, coming by a link; what stands behind the site's address is given.
    pub(super) async fn visitor_by(&self, rest: &str) -> Rc<Page> {
        let page = Rc::new(self.troublemaker(rest).await);
        self.pages.borrow_mut().push(Rc::clone(&page));
        page
    }

    /// The same, but nobody asks this page for trouble in the end: it makes some on purpose.
    pub(super) async fn troublemaker(&self, rest: &str) -> Page {
        let number = self.opened.replace(self.opened.get() + 1);
        let folder = self.folder.path().join(format!("visitor-{number}"));
        let session = Session::begin(self.driver.port, folder).await;
        Page::open(session, self.server.origin.clone(), rest).await
    }

    /// The browser of a page killed on the spot, as by an empty battery, and opened anew on what it left on the disk.
    pub(super) async fn after_sudden_death(&self, page: Page) -> Page {
        let folder = page.session.downloads().to_owned();
        kill_all_with(&folder);
        drop(page);
        let session = Session::begin(self.driver.port, folder).await;
        Page::open(session, self.server.origin.clone(), "").await
    }

    async fn close(&self) {
        for page in self.pages.take() {
            page.assert_untroubled();
            page.leave().await;
        }
    }
}
