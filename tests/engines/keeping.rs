//! Lines come by a link and by a file, and what is kept outlasts a storage that is full or was emptied.

use std::fs;

use serde_json::json;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::keep::share::{file, link};
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, Shelf, Writer};

#[path = "../common/storage_scripts.rs"]
mod storage_scripts;

use storage_scripts::{EMPTY, FILL, TAKE_AWAY};

use super::everything::everything;
use super::gesture::{Pointer, dragged};
use super::harness::until;
use super::page::{Page, Storage};
use super::pool::in_both_engines;
use super::shed::Shed;

in_both_engines!(shared, design_file, backup, full, emptied);

/// The states that the database holds.
const COPIED: &str = "
    const done = arguments[arguments.length - 1];
    const request = indexedDB.open('taperwright');
    request.onerror = () => done([]);
    request.onsuccess = ({ target: { result: database } }) => {
        database.transaction('states').objectStore('states').getAllKeys().onsuccess = ({ target }) => {
            database.close();
            done(target.result.map(String));
        };
    };";

/// Another line than the example.
fn other() -> Design {
    let named = Edit::Name("Weir".to_owned());
    let named = named.apply(&demo()).expect("a name can be given");
    let thicker = Edit::Set(Setting::EndsPerThread, 15.0);
    thicker.apply(&named).expect("a count can be set")
}

/// A line that comes by a link is only looked at until a copy is kept; then it stands beside the own one.
async fn shared(_: &mut Shed, page: &Page) {
    let (_, own) = dragged(page, Pointer::Mouse).await;
    let before = page.storage().await;
    let fragment = link::encode(&other()).expect("short");
    page.go(&format!("#{fragment}")).await;
    page.until_there("[data-action=keep-copy]").await;
    assert!(page.state().await.shows(&other()));
    // The same from the beginning, as by a tap on the link.
    page.reload().await;
    page.until_there("[data-action=keep-copy]").await;
    assert_eq!(page.storage().await, before, "looking alone changed it");
    page.press("keep-copy").await;
    until("both lines are kept", async || {
        (page.kept_numbers().await == [1, 2]).then_some(())
    })
    .await;
    assert_eq!(page.kept_line(1).await, Some(own));
    assert_eq!(page.kept_line(2).await, Some(other()));
    page.reload().await;
    assert!(page.state().await.shows(&other()));
}

/// A file of one line opens as that line; another file is refused in words, and changes nothing.
async fn design_file(shed: &mut Shed, page: &Page) {
    let text = file::write(&other());
    let strange = r#"{"format": "a recipe", "version": 1}"#;
    choose(page, shed, "open-file", strange).await;
    let said = file::read(strange).expect_err("it is none").to_string();
    page.until_said(&said).await;
    assert!(page.storage().await.is_empty());
    choose(page, shed, "open-file", &text).await;
    page.until_state("the line of the file is shown", |now| now.shows(&other()))
        .await;
    assert_eq!(page.kept().await, Some(other()));
}

/// A backup is restored beside what is there, once.
async fn backup(shed: &mut Shed, page: &Page) {
    let (_, own) = dragged(page, Pointer::Mouse).await;
    let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("memory can be read");
    let kept = shelf.keep_new(Id(1000), &other(), None);
    kept.expect("memory has room");
    let text = everything(&shelf.into_store().0);
    for said in ["1 restored.", "1 already here, unchanged."] {
        page.press("my-lines").await;
        page.until_there(".kept [data-action=save-everything]")
            .await;
        choose(page, shed, "open-everything", &text).await;
        page.until_said(said).await;
        page.press("my-lines-close").await;
    }
    assert_eq!(page.kept_numbers().await, [1, 2]);
    assert_eq!(page.kept_line(1).await, Some(own));
    assert_eq!(page.kept_line(2).await, Some(other()));
}

/// Chooses a file with this text.
async fn choose(page: &Page, shed: &Shed, action: &str, text: &str) {
    let path = shed.file("chosen.json");
    fs::write(&path, text).expect("a file can be written");
    let path = path.to_str().expect("a name made here is text");
    let chosen = page.control(action).await.send_keys(path).await;
    chosen.expect("the file is chosen");
}

/// Where the engine's own storage is full the page says so, throws nothing away and goes on; with room again it keeps by itself.
async fn full(_: &mut Shed, page: &Page) {
    set_ends(page, "13").await;
    page.run(FILL, vec![]).await;
    let before = own(page).await;
    set_ends(page, "14").await;
    page.until_said("The browser’s storage is full.").await;
    page.until_said("Not saved").await;
    assert_eq!(own(page).await, before, "something was thrown away");
    page.run(EMPTY, vec![]).await;
    set_ends(page, "16").await;
    page.until_said("Saved in this browser").await;
    let kept = page.kept().await.expect("it is kept");
    assert_eq!(kept.draft().settings.get(Setting::EndsPerThread), 16.0);
}

/// Lines that were taken out of the storage come back from the engine's database.
async fn emptied(_: &mut Shed, page: &Page) {
    let (_, design) = dragged(page, Pointer::Mouse).await;
    until("the database has a copy", async || {
        let states = own(page).await.into_keys();
        let copied: Vec<String> = page.ask_later(COPIED, vec![]).await;
        let mut states = states.filter(|key| key.starts_with("taperwright/line/"));
        states.all(|key| copied.contains(&key)).then_some(())
    })
    .await;
    page.run(TAKE_AWAY, vec![json!(0)]).await;
    page.reload().await;
    page.until_state("the line is back", |now| now.shows(&design))
        .await;
    assert_eq!(page.kept().await, Some(design));
}

/// What is kept of the page's own.
async fn own(page: &Page) -> Storage {
    let mut texts = page.storage().await;
    texts.retain(|key, _| key.starts_with("taperwright/"));
    texts
}

/// Sets how many ends a thread has, and waits until the plan is that.
async fn set_ends(page: &Page, ends: &str) {
    page.enter("ends_per_thread", ends).await;
    page.until_state("the plan follows", |now| {
        now.events.iter().all(|row| row.ends == ends)
    })
    .await;
}
