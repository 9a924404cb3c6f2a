//! A host that answers with something else than the file, or with half of it, and says that all is well: nothing of that is kept
//! or opened, and where a first visit gets it, the page says so and heals as soon as the host has.
//!
//! What such hosts send: a page in place of every address they do not know, as hosts of single-page programs are told to; a
//! proxy's own page; files of an upload that broke off.

use std::fs;
use std::path::PathBuf;

use serde_json::json;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::until;
use super::memory::dragged;
use super::page::Page;
use super::shed::{Shed, in_a_shed};

/// How a file comes.
#[derive(Clone, Copy, Debug)]
enum Fault {
    /// A web page in its place.
    WebPage,
    /// Cut off in the middle.
    Half,
}

/// Files of a build, by what their names begin with, and how their names end.
const FILES: [(&str, &str); 8] = [
    ("style-", ".css"),
    ("boot-", ".js"),
    ("offline-", ".js"),
    ("taperwright-", ".js"),
    ("taperwright-", ".wasm"),
    ("later-", ".wasm"),
    ("photo-", ".js"),
    ("photo-", ".wasm"),
];

/// A file of the site that is sent with a fault until it is mended.
struct Spoilt {
    path: PathBuf,
    whole: Vec<u8>,
}

impl Spoilt {
    fn new(shed: &Shed, (start, end): (&str, &str), fault: Fault) -> Self {
        let entries = fs::read_dir(shed.dist()).expect("the site can be read");
        let mut paths = entries.map(|entry| entry.expect("an entry").path());
        let is_it = |path: &PathBuf| {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            name.starts_with(start) && name.ends_with(end)
        };
        let path = paths.find(is_it).expect("the site has such a file");
        let whole = fs::read(&path).expect("it can be read");
        let sent = match fault {
            Fault::WebPage => {
                b"<!DOCTYPE html><title>Sign in</title><p>Welcome to the network.".to_vec()
            }
            Fault::Half => whole[..whole.len() / 2].to_vec(),
        };
        fs::write(&path, sent).expect("it can be written");
        Self { path, whole }
    }

    fn mend(self) {
        fs::write(self.path, self.whole).expect("it can be written");
    }
}

/// Every file of a build with either fault, its list and the page too.
fn faults() -> Vec<((&'static str, &'static str), Fault)> {
    let files = || {
        FILES
            .into_iter()
            .chain([("build", ".json"), ("index", ".html")])
    };
    // No file comes twice in a row: each is whole before it is spoilt.
    let with = |fault| files().map(move |file| (file, fault));
    with(Fault::WebPage).chain(with(Fault::Half)).collect()
}

#[test]
fn a_newer_build_that_comes_damaged_is_not_opened() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let build = page.build().await;
        // From here on one file at least is damaged until the end: the browser may look for a new build at any time.
        shed.rebuild("b");
        let mut before: Option<Spoilt> = None;
        for (file, fault) in faults() {
            let spoilt = Spoilt::new(shed, file, fault);
            if let Some(before) = before.replace(spoilt) {
                before.mend();
            }
            // What both builds have in common must not come out of the browser's own cache.
            page.session.cdp("Network.clearBrowserCache", &json!({}));
            page.reload().await;
            assert_eq!(page.build().await, build, "{file:?}, {fault:?}");
            assert_eq!(
                page.matching("[data-unstyled], .broken").await,
                0,
                "{file:?}, {fault:?}"
            );
        }
        dragged(&page).await;
        if let Some(before) = before {
            before.mend();
        }
        // A worker that comes damaged is not taken either: the one that is there goes on.
        let worker = Spoilt::new(shed, ("worker", ".js"), Fault::Half);
        page.reload().await;
        let new = page.until_not(&build).await;
        worker.mend();
        let worker = Spoilt::new(shed, ("worker", ".js"), Fault::WebPage);
        page.reload().await;
        shed.disconnect();
        page.reload().await;
        assert_eq!(page.build().await, new);
        worker.mend();
        page.leave().await;
    });
}

#[test]
fn a_first_visit_that_gets_damaged_files_says_so_and_heals() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        for file in FILES {
            for fault in [Fault::WebPage, Fault::Half] {
                // Nobody has been here yet.
                page.session
                    .client
                    .goto("about:blank")
                    .await
                    .expect("it leaves");
                let all = json!({"origin": page.origin, "storageTypes": "all"});
                page.session.cdp("Storage.clearDataForOrigin", &all);
                page.session.cdp("Network.clearBrowserCache", &json!({}));
                let spoilt = Spoilt::new(shed, file, fault);
                let address = format!("{}/", page.origin);
                page.session
                    .client
                    .goto(&address)
                    .await
                    .expect("it answers");
                let said = said(&page, file).await;
                spoilt.mend();
                match said {
                    Some(control) => page.press_at(control).await,
                    // The page works without, and has asked for it again: a later visit has it.
                    None => page.reload().await,
                }
                ready(&page).await;
                assert_eq!(
                    page.matching("[data-unstyled], .broken").await,
                    0,
                    "{file:?}, {fault:?}"
                );
                let mut hand = Hand::take(&page, Pointer::Mouse, belly()).await;
                hand.glide((9.0, 5.0));
                hand.let_go();
                page.go_to("threads").await;
                page.until_there("[data-shows=threads] [data-event]").await;
            }
        }
        page.leave().await;
    });
}

/// Waits until the page has a whole copy of its own; what came damaged may need another visit.
async fn ready(page: &Page) {
    until("the page has its own copy", async || {
        page.until_not("").await;
        page.until_there("[data-checked]").await;
        let has_copy = "
            const done = arguments[0];
            navigator.serviceWorker.getRegistration().then((registration) => done(Boolean(registration?.active)));";
        let is_there = page.ask_later::<bool>(has_copy, vec![]).await;
        if !is_there {
            page.reload().await;
        }
        is_there.then_some(())
    })
    .await;
}

/// Waits until the page says what is wrong with this file; the control that tries again, where there is one.
async fn said(page: &Page, (start, end): (&str, &str)) -> Option<&'static str> {
    match (start, end) {
        ("offline-" | "photo-", _) => {
            page.until_drawn().await;
            None
        }
        ("style-", _) => {
            page.until_there("[data-unstyled]").await;
            page.until_said(start).await;
            None
        }
        ("boot-", _) => {
            page.until_there("#opening [data-action=load-again]").await;
            Some("#opening [data-action=load-again]")
        }
        ("later-", _) => {
            page.until_there(".messages [data-action=try-again]").await;
            Some(".messages [data-action=try-again]")
        }
        _ => {
            // What came is said, and everything can be saved as a file.
            page.until_said(start).await;
            page.until_there(".broken [data-action=rescue]").await;
            Some("[data-action=load-again]")
        }
    }
}

/// A build whose files are all as they were made, and which does not open on this device.
#[test]
fn a_newer_build_that_does_not_open_gives_way_to_the_one_before() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let (_, design) = dragged(&page).await;
        let build = page.build().await;
        let old = shed.file_of("boot-");
        let whole = fs::read_to_string(shed.dist().join(&old)).expect("it is a text");
        let opens = "const program = await import(address(names.js));";
        assert!(whole.contains(opens));
        let spoilt = whole.replace(opens, "throw new Error('not on this device');");
        put_boot(shed, "boot-000000000000000b.js", &spoilt);
        shed.rebuild("b");
        for visit in 0..3 {
            again(&page).await;
            page.until_said("A new version did not open on this device")
                .await;
            assert_eq!(page.build().await, build, "visit {visit}");
            assert_eq!(page.kept().await.as_ref(), Some(&design));
        }
        // A day later it is tried again, and still does not open.
        let a_day_later = "
            const [done] = arguments;
            (async () => {
                const name = (await caches.keys()).find((name) => name.startsWith('taperwright failed'));
                const cache = await caches.open(name);
                const [build] = await cache.keys();
                const before = Date.now() - 25 * 60 * 60 * 1000;
                await cache.put(build, new Response(String(before)));
            })().then(done);";
        page.ask_later::<()>(a_day_later, vec![]).await;
        again(&page).await;
        page.until_said("A new version did not open on this device")
            .await;
        assert_eq!(page.build().await, build);
        // Another build opens, and nothing is left of the one that did not.
        put_boot(shed, "boot-000000000000000c.js", &whole);
        shed.rebuild("c");
        again(&page).await;
        let new = page.until_not(&build).await;
        until("only the new build is kept", async || {
            let names = page.caches().await;
            (names.len() == 1 && names[0].ends_with(&new)).then_some(())
        })
        .await;
        assert_eq!(page.kept().await.as_ref(), Some(&design));
        page.leave().await;
    });
}

/// Puts another script that opens the program in the place of the one there is, under a name of its own.
fn put_boot(shed: &Shed, name: &str, text: &str) {
    let (dist, old) = (shed.dist(), shed.file_of("boot-"));
    fs::remove_file(dist.join(&old)).expect("it can be removed");
    fs::write(dist.join(name), text).expect("it can be written");
    let page = fs::read_to_string(dist.join("index.html")).expect("the page is text");
    fs::write(dist.join("index.html"), page.replace(&old, name)).expect("it can be written");
}

/// Loads the page again, which may load itself once more after that.
async fn again(page: &Page) {
    let refreshed = page.session.client.refresh().await;
    refreshed.expect("the page reloads");
    page.until_not("").await;
}
