//! Storage that is blocked, absent, full, half there, or cleared under the page's hands: the line stays on the bench, it is said
//! at once and in words what is not kept, all can be saved as a file, and nothing that was kept is harmed.

use std::fs;

use serde_json::{Value, json};
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Document as _, Shelf, Writer};

#[path = "../common/storage_scripts.rs"]
mod storage_scripts;

use storage_scripts::{EMPTY, FILL, TAKE_AWAY};

use super::files::saved;
use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::{Page, Storage};
use super::state::State;
use super::sudden::until_on_the_disk;
use super::tabs::{leave, turn_to, two_tabs};

/// What a browser does whose settings forbid storage. Source: HTML Standard, section 12.2.2, "localStorage getter steps".
const NO_STORAGE: &str = "
    Object.defineProperty(window, 'localStorage', {
        get() { throw new DOMException('forbidden', 'SecurityError'); },
    });";
/// A browser without storage of its own accord.
const NULL_STORAGE: &str = "Object.defineProperty(window, 'localStorage', { value: null });";
/// Without the database.
const NO_DATABASE: &str = "Object.defineProperty(window, 'indexedDB', { value: undefined });";
/// A database that refuses, and one that never answers.
const REFUSING_DATABASE: &str =
    "IDBFactory.prototype.open = () => { throw new DOMException('no', 'UnknownError'); };";
const SILENT_DATABASE: &str = "IDBFactory.prototype.open = () => ({});";
/// A database that opens and then takes nothing.
const UNWILLING_DATABASE: &str = "IDBDatabase.prototype.transaction = () => { throw new DOMException('no', 'InvalidStateError'); };";

/// A database that answers only once the page has opened without it; half a second later the document says so. At the next
/// opening it answers at once.
const LATE_DATABASE: &str = "
    if (!sessionStorage.late) {
        sessionStorage.late = 'true';
        const { getAllKeys } = IDBObjectStore.prototype;
        IDBObjectStore.prototype.getAllKeys = function () {
            const [asked, late] = [getAllKeys.call(this), {}];
            asked.onsuccess = () => setTimeout(() => {
                Object.assign(late, { result: asked.result, readyState: 'done' });
                late.onsuccess?.();
                setTimeout(() => { document.documentElement.dataset.answered = ''; }, 500);
            }, 4000);
            return late;
        };
    }";
const HAS_ANSWERED: &str = "return 'answered' in document.documentElement.dataset;";
/// Whether the database holds a copy.
const IS_COPIED: &str = "
    const done = arguments[arguments.length - 1];
    indexedDB.open('taperwright').onsuccess = ({ target: { result: database } }) => {
        database.transaction('states').objectStore('states').count().onsuccess = ({ target }) => {
            database.close();
            done(target.result > 0);
        };
    };";
/// Whether the database can be deleted, as another tab may want to. Source: Indexed Database API 3.0, section 4.1, "blocked" is
/// fired where a connection stays open after "versionchange".
const DELETE_DATABASE: &str = "
    const done = arguments[arguments.length - 1];
    const request = indexedDB.deleteDatabase('taperwright');
    request.onsuccess = () => done(true);
    request.onblocked = request.onerror = () => done(false);";

/// Damages the newest states of the first line: so many of them, as a disk or a hand might.
const DAMAGE: &str = "
    const [count] = arguments;
    const revision = (key) => parseInt(key.split('/')[3], 10);
    const states = Object.keys(localStorage).filter((key) => key.startsWith('taperwright/line/1/'));
    states.sort((one, other) => revision(other) - revision(one));
    for (const key of states.slice(0, count)) localStorage.setItem(key, `${localStorage.getItem(key).slice(0, -40)}x`);
    return states.length;";
/// Whether the browser would ask before the page is left.
const ASKS: &str = "return !dispatchEvent(new Event('beforeunload', { cancelable: true }));";
/// The page goes out of sight.
const HIDDEN: &str = "
    Object.defineProperty(document, 'hidden', { get: () => true, configurable: true });
    document.dispatchEvent(new Event('visibilitychange', { bubbles: true }));
    delete document.hidden;";

/// Loads the page again, with this done to the browser before anything of the page runs.
async fn reload_with(page: &Page, scripts: &[&str]) {
    for source in scripts {
        let source = json!({ "source": source });
        page.session
            .cdp("Page.addScriptToEvaluateOnNewDocument", &source);
    }
    page.reload().await;
}

/// What is kept of the page's own.
async fn own(page: &Page) -> Storage {
    let mut texts = page.storage().await;
    texts.retain(|key, _| key.starts_with("taperwright/"));
    texts
}

async fn asks(page: &Page) -> bool {
    page.ask(ASKS, vec![]).await
}

/// Sets how many ends a thread has, and waits until the plan is that.
async fn set_ends(page: &Page, ends: &str) {
    page.enter("ends_per_thread", ends).await;
    let is_so = |now: &State| now.events.iter().all(|line| line.ends == ends);
    page.until_state("the plan follows", is_so).await;
}

fn ends(design: &Design) -> f64 {
    design.draft().settings.get(Setting::EndsPerThread)
}

async fn kept_ends(page: &Page) -> Option<f64> {
    page.kept_line(1).await.map(|line| ends(&line))
}

/// Lines in the file that the page's own offer saves.
async fn exported(page: &Page) -> Vec<Design> {
    page.press("save-unkept").await;
    page.until_said("Backup saved").await;
    let text = fs::read_to_string(saved(page, "json").await).expect("the file is text");
    let file: Value = serde_json::from_str(&text).expect("the file is whole");
    let mut shelf = Shelf::load(Memory::default(), Writer(9)).expect("it can be read");
    shelf.import(&text).expect("it is a file of everything");
    let lines = file["lines"].as_array().expect("a list").iter();
    lines
        .map(|line| Design::read(line["file"].as_str().expect("text")).expect("a line"))
        .collect()
}

#[test]
fn without_storage_the_page_works_and_says_so_at_once() {
    for scripts in [
        &[NO_STORAGE, NO_DATABASE][..],
        &[NULL_STORAGE],
        &[NO_STORAGE],
    ] {
        on_the_page(async |page| {
            reload_with(page, scripts).await;
            page.until_said("This browser does not let the page save anything.")
                .await;
            page.until_said("Not saved").await;
            assert!(!asks(page).await, "nothing is lost yet");
            set_ends(page, "16").await;
            page.until_said("Save the line as a file before you leave")
                .await;
            assert!(asks(page).await, "the line would be lost");
            let lines = exported(page).await;
            assert_eq!(lines.iter().map(ends).collect::<Vec<_>>(), [16.0]);
            assert!(!asks(page).await, "it is in a file");
            set_ends(page, "15").await;
            assert!(asks(page).await, "the newest change is not");
        });
    }
}

#[test]
fn full_storage_keeps_what_is_there_and_the_line_on_the_bench() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        page.run(FILL, vec![]).await;
        let before = own(page).await;
        set_ends(page, "14").await;
        page.until_said("The browser’s storage is full.").await;
        page.until_said("Not saved").await;
        assert_eq!(own(page).await, before, "something was thrown away");
        assert!(asks(page).await);
        let mut lines: Vec<f64> = exported(page).await.iter().map(ends).collect();
        lines.sort_by(f64::total_cmp);
        assert_eq!(lines, [13.0, 14.0], "what is kept and what is not");
        // It goes on: said again, and still nothing is thrown away.
        set_ends(page, "15").await;
        page.until_said("The browser’s storage is full.").await;
        assert_eq!(own(page).await, before);
        page.run(EMPTY, vec![]).await;
        set_ends(page, "16").await;
        until("the next change is kept by itself", async || {
            (kept_ends(page).await == Some(16.0)).then_some(())
        })
        .await;
        page.until_said("Saved in this browser").await;
        let said = page.text().await;
        assert!(!said.contains("storage is full"), "{said}");
        assert!(!asks(page).await);
        assert_eq!(page.kept_numbers().await, [1]);
    });
}

/// Before it goes out of sight, perhaps for good, the page tries once more what it could not keep.
#[test]
fn what_could_not_be_kept_is_tried_again_when_the_page_is_put_away() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        page.run(FILL, vec![]).await;
        set_ends(page, "14").await;
        page.until_said("The browser’s storage is full.").await;
        page.run(HIDDEN, vec![]).await;
        assert_eq!(kept_ends(page).await, Some(13.0));
        page.run(EMPTY, vec![]).await;
        page.run(HIDDEN, vec![]).await;
        assert_eq!(kept_ends(page).await, Some(14.0));
        assert!(!asks(page).await);
    });
}

#[test]
fn what_is_being_typed_is_taken_when_the_page_is_put_away() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        let script = "
            const [field] = document.querySelectorAll('[data-action=ends_per_thread]');
            field.focus();
            field.value = '14';
            field.dispatchEvent(new Event('input', { bubbles: true }));";
        page.seek("[data-action=ends_per_thread]").await;
        page.run(script, vec![]).await;
        assert_eq!(kept_ends(page).await, Some(13.0));
        page.run(HIDDEN, vec![]).await;
        assert_eq!(kept_ends(page).await, Some(14.0));
        // Nothing is written where nothing was changed.
        let storage = page.storage().await;
        page.run(HIDDEN, vec![]).await;
        page.run("dispatchEvent(new Event('pagehide'));", vec![])
            .await;
        assert_eq!(page.storage().await, storage);
    });
}

#[test]
fn full_storage_harms_neither_of_two_tabs() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        let tabs = two_tabs(page).await;
        page.run(FILL, vec![]).await;
        let before = own(page).await;
        set_ends(page, "14").await;
        page.until_said("The browser’s storage is full.").await;
        turn_to(page, &tabs[0]).await;
        assert_eq!(page.value("ends_per_thread").await, "13");
        assert_eq!(own(page).await, before);
        page.run(EMPTY, vec![]).await;
        turn_to(page, &tabs[1]).await;
        set_ends(page, "15").await;
        until("it is kept", async || {
            (kept_ends(page).await == Some(15.0)).then_some(())
        })
        .await;
        assert!(!asks(page).await);
        turn_to(page, &tabs[0]).await;
        page.until_said("Another tab changed this line").await;
        assert_eq!(page.value("ends_per_thread").await, "15");
        assert_eq!(page.kept_numbers().await, [1]);
        leave(page, &tabs).await;
    });
}

/// The database is only the second copy: without it, whatever ails it, everything is kept all the same.
#[test]
fn without_its_database_the_page_keeps_everything() {
    for database in [
        NO_DATABASE,
        REFUSING_DATABASE,
        SILENT_DATABASE,
        UNWILLING_DATABASE,
    ] {
        on_the_page(async |page| {
            reload_with(page, &[database]).await;
            let (_, design) = dragged(page).await;
            assert!(!asks(page).await);
            page.reload().await;
            page.until_state("the line is there", |now| now.shows(&design))
                .await;
            set_ends(page, "14").await;
            until_kept(page, 14.0).await;
        });
    }
}

async fn until_copied(page: &Page) {
    until("the database has a copy", async || {
        let is_copied = page.ask_later::<bool>(IS_COPIED, vec![]);
        is_copied.await.then_some(())
    })
    .await;
}

async fn until_kept(page: &Page, ends: f64) {
    until("it is kept", async || {
        (kept_ends(page).await == Some(ends)).then_some(())
    })
    .await;
}

/// The newest state alone, and all there are.
#[test]
fn a_damaged_state_is_restored_from_the_second_copy_and_that_is_said() {
    on_the_page(async |page| {
        for (damaged, ends) in [(1, 15.0), (2, 18.0)] {
            set_ends(page, &(ends + 1.0).to_string()).await;
            set_ends(page, &ends.to_string()).await;
            until_kept(page, ends).await;
            until_on_the_disk(page).await;
            let before = own(page).await;
            let there: usize = page.ask(DAMAGE, vec![json!(damaged)]).await;
            assert_eq!(there, 2);
            assert_ne!(own(page).await, before);
            page.reload().await;
            page.until_said("It has been restored whole from a second copy.")
                .await;
            assert_eq!(own(page).await, before);
            assert_eq!(kept_ends(page).await, Some(ends));
            // What was done before can still be undone.
            page.press("undo").await;
            until_kept(page, ends + 1.0).await;
        }
    });
}

#[test]
fn a_line_taken_away_while_it_is_open_opens_as_it_was_last_saved() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        set_ends(page, "14").await;
        until_kept(page, 14.0).await;
        until_on_the_disk(page).await;
        page.run(TAKE_AWAY, vec![]).await;
        set_ends(page, "15").await;
        until_kept(page, 15.0).await;
        until_on_the_disk(page).await;
        for _ in 0..2 {
            page.reload().await;
            assert_eq!(page.value("ends_per_thread").await, "15");
            assert_eq!(page.kept_numbers().await, [1]);
        }
    });
}

#[test]
fn a_database_that_answers_late_changes_nothing_under_the_open_page() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        until_copied(page).await;
        page.run("localStorage.clear();", vec![]).await;
        reload_with(page, &[LATE_DATABASE]).await;
        let open = own(page).await;
        assert_eq!(kept_ends(page).await, None, "the page opened without");
        until("the database has answered", async || {
            let has_answered = page.ask::<bool>(HAS_ANSWERED, vec![]);
            has_answered.await.then_some(())
        })
        .await;
        assert_eq!(own(page).await, open);
        page.reload().await;
        until_kept(page, 13.0).await;
    });
}

#[test]
fn a_tab_that_wants_to_delete_the_database_need_not_wait_for_the_page() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        until_copied(page).await;
        assert!(page.ask_later::<bool>(DELETE_DATABASE, vec![]).await);
        set_ends(page, "14").await;
        until_kept(page, 14.0).await;
        until_copied(page).await;
    });
}

#[test]
fn a_line_whose_storage_another_tab_cleared_is_kept_again() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        let tabs = two_tabs(page).await;
        page.run("localStorage.clear();", vec![]).await;
        turn_to(page, &tabs[0]).await;
        page.until_said("This line is no longer saved in this browser")
            .await;
        assert!(asks(page).await, "it is on this page only");
        set_ends(page, "14").await;
        until("it is kept again", async || {
            (!asks(page).await).then_some(())
        })
        .await;
        let kept = page.kept().await.expect("it is kept");
        assert_eq!(ends(&kept), 14.0);
        leave(page, &tabs).await;
    });
}

/// As by the browser's own “clear site data”, which tells no page.
#[test]
fn a_line_whose_storage_the_browser_cleared_is_kept_again() {
    on_the_page(async |page| {
        set_ends(page, "13").await;
        let all = json!({ "origin": page.origin, "storageTypes": "local_storage,indexeddb" });
        page.session.cdp("Storage.clearDataForOrigin", &all);
        until("it is cleared", async || {
            page.storage().await.is_empty().then_some(())
        })
        .await;
        set_ends(page, "14").await;
        until("it is kept", async || {
            page.kept()
                .await
                .filter(|line| ends(line) == 14.0)
                .map(|_| ())
        })
        .await;
        set_ends(page, "15").await;
        page.reload().await;
        assert_eq!(page.value("ends_per_thread").await, "15");
    });
}
