//! A host that sends something else than a file of the newer build, or half of it, and says that all is well: that build is not
//! opened. `tests/browser/faults.rs` tries every file in Chromium; what is tried here stands for the kinds of them.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, SystemTime};

use super::gesture::{Pointer, dragged};
use super::harness::until;
use super::page::Page;
use super::pool::in_both_engines;
use super::shed::Shed;

in_both_engines!(style, script, program, list, whole_page, worker);

/// Files that the page names, by what their names begin with, and how their names end.
const STYLE: (&str, &str) = ("style-", ".css");
const SCRIPT: (&str, &str) = ("boot-", ".js");
const PROGRAM: (&str, &str) = ("taperwright-", ".wasm");
/// What comes in place of a file.
const WEB_PAGE: &[u8] = b"<!DOCTYPE html><title>Sign in</title><p>Welcome to the network.";

/// A file of the site that is sent with a fault until it is mended.
struct Spoilt {
    path: PathBuf,
    whole: Vec<u8>,
}

impl Spoilt {
    fn new(shed: &Shed, (start, end): (&str, &str), is_half: bool) -> Self {
        let path = file_of(shed, start, end);
        let whole = fs::read(&path).expect("it can be read");
        let sent = if is_half {
            &whole[..whole.len() / 2]
        } else {
            WEB_PAGE
        };
        write(&path, sent);
        Self { path, whole }
    }

    fn mend(self) {
        write(&self.path, &self.whole);
    }
}

/// Writes a file that is newer than any before: a browser asks only for what changed since it has a file, in whole seconds.
fn write(path: &Path, bytes: &[u8]) {
    static WRITTEN: AtomicU64 = AtomicU64::new(1);
    fs::write(path, bytes).expect("it can be written");
    let later = Duration::from_secs(WRITTEN.fetch_add(1, Ordering::Relaxed));
    let file = fs::File::options().write(true).open(path);
    let dated = file.and_then(|file| file.set_modified(SystemTime::now() + later));
    dated.expect("a file can be dated");
}

/// A sheet of style.
async fn style(shed: &mut Shed, page: &Page) {
    refused(shed, page, STYLE, false).await;
}

/// A script.
async fn script(shed: &mut Shed, page: &Page) {
    refused(shed, page, SCRIPT, true).await;
}

/// The program itself.
async fn program(shed: &mut Shed, page: &Page) {
    refused(shed, page, PROGRAM, true).await;
}

/// The list of the build's files.
async fn list(shed: &mut Shed, page: &Page) {
    refused(shed, page, ("build", ".json"), false).await;
}

/// The page that names all others.
async fn whole_page(shed: &mut Shed, page: &Page) {
    refused(shed, page, ("index", ".html"), true).await;
}

/// The build that is there goes on and keeps what is changed, as often as the page is loaded; once the file comes whole, the newer
/// build opens with that.
async fn refused(shed: &mut Shed, page: &Page, file: (&str, &str), is_half: bool) {
    page.until_ready().await;
    let build = page.build().await;
    // The newer build is never seen whole: nothing listens while it takes the place of the other.
    shed.disconnect();
    rename_files(shed);
    shed.rebuild("b");
    let spoilt = Spoilt::new(shed, file, is_half);
    shed.connect();
    for _ in 0..2 {
        page.reload().await;
        assert_eq!(page.build().await, build);
        assert_eq!(page.matching("[data-unstyled], .broken").await, 0);
    }
    let (_, design) = dragged(page, Pointer::Mouse).await;
    spoilt.mend();
    until("the newer build is opened", async || {
        page.reload().await;
        (page.build().await != build).then_some(())
    })
    .await;
    assert_eq!(page.kept().await, Some(design));
}

/// A worker that comes damaged does not take the place of the one that is there, which goes on: it brings the newer build, and
/// opens it without a connection.
async fn worker(shed: &mut Shed, page: &Page) {
    page.until_ready().await;
    let build = page.build().await;
    shed.disconnect();
    rename_files(shed);
    shed.rebuild("b");
    let half = Spoilt::new(shed, ("worker", ".js"), true);
    shed.connect();
    page.reload().await;
    let new = page.until_not(&build).await;
    half.mend();
    Spoilt::new(shed, ("worker", ".js"), false);
    page.reload().await;
    shed.disconnect();
    page.reload().await;
    assert_eq!(page.build().await, new);
}

/// Gives the files that the page names other names, as a build does whose files are all others: so none comes out of the browser's
/// own cache, which the standard cannot empty.
fn rename_files(shed: &Shed) {
    let index = shed.dist().join("index.html");
    let mut page = fs::read_to_string(&index).expect("the page is text");
    for (start, end) in &[SCRIPT, PROGRAM] {
        let old = file_of(shed, start, end);
        let old_name = old.file_name().expect("a file has a name");
        let old_name = old_name.to_string_lossy().into_owned();
        let new_name = format!("{start}{:016x}{end}", 0xb);
        page = page.replace(&old_name, &new_name);
        fs::rename(&old, old.with_file_name(new_name)).expect("a file can be renamed");
    }
    fs::write(index, page).expect("it can be written");
}

/// The site's file whose name begins and ends like this.
fn file_of(shed: &Shed, start: &str, end: &str) -> PathBuf {
    let entries = fs::read_dir(shed.dist()).expect("the site can be read");
    let mut paths = entries.map(|entry| entry.expect("an entry").path());
    let is_it = |path: &PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with(start) && name.ends_with(end)
    };
    paths.find(is_it).expect("the site has such a file")
}
