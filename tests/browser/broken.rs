//! A program that breaks says so, leaves nothing half-dead to be used, writes nothing more, and gives everything out as a file
//! that can be brought in again.
//!
//! No way into a break is built into the program: what it calls of the browser is spoilt from outside.

#[path = "../common/everything.rs"]
pub(super) mod everything;

use std::fs;

use serde_json::{Value, json};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::book::Workshop;
use taperwright::keep::share::file;
use taperwright::keep::shelf::backup::Imported;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{
    ASIDE_KEY, Document, Id, LINE_KEY, Lookup, Shelf, ShelfEntry, Writer,
};

use super::files::saved;
use super::harness::{at_a_desk, until};
use super::memory::dragged;
use super::page::{Page, Storage};
use super::settings::edited;

/// Nothing can be made any more: what the program next wants to show ends in a panic.
const NO_ELEMENTS: &str =
    "Document.prototype.createElement = () => { throw new Error('spoilt'); };";
/// There is no chance: asking for it throws, and that runs through the program, which cannot know of it.
const NO_CHANCE: &str = "Math.random = undefined;";
/// A field is held on to, so that it can be reached once it is gone from the page.
const HELD: &str = "window.held = document.querySelector('[data-action=ends_per_thread]');";
/// Something is entered into it.
const ENTERED: &str = "
    held.value = arguments[0];
    for (const kind of ['input', 'change']) held.dispatchEvent(new Event(kind, { bubbles: true }));";

/// Breaks the program by a panic, and waits until the page says so.
pub(super) async fn panicked(page: &Page) {
    broken_by(page, NO_ELEMENTS, &["share"]).await;
}

/// Chooses shape and class of another line, and begins it, which gives a number to something new.
const BEGIN_ANOTHER: [&str; 4] = ["new-line", "start", "start-class", "start-begin"];

/// Spoils the page once it is at rest, and breaks the program by these presses.
async fn broken_by(page: &Page, spoil: &str, presses: &[&str]) {
    page.at_rest().await;
    page.run(spoil, vec![]).await;
    for action in presses {
        if *action == "start-begin" {
            page.until_there("[data-made=line]").await;
        }
        page.press(action).await;
    }
    page.until_there(".broken").await;
}

/// The file of everything that the broken page saves.
async fn rescued_text(page: &Page) -> String {
    page.press("rescue").await;
    page.until_said("Saved as “taperwright-").await;
    fs::read_to_string(saved(page, "json").await).expect("the file is text")
}

/// What comes of taking that file in where nothing is.
async fn rescued(page: &Page) -> (Imported, Shelf<Memory>) {
    taken_in(&rescued_text(page).await)
}

fn taken_in(text: &str) -> (Imported, Shelf<Memory>) {
    let mut shelf = Shelf::load(Memory::default(), Writer(9)).expect("it can be read");
    let imported = shelf.import(text).expect("it is a file of everything");
    (imported, shelf)
}

fn first(shelf: &Shelf<Memory>) -> Design {
    match shelf.look::<Design>(1) {
        Lookup::Kept(kept) => kept.work,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_panic_is_told_and_everything_kept_comes_out_as_a_file() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        let (_, design) = dragged(&page).await;
        let storage = page.storage().await;
        panicked(&page).await;
        page.until_said("Saved in this browser, up to your last finished change: 1 line.")
            .await;
        let said: String = page
            .ask(
                "return document.querySelector('[data-said]').textContent;",
                vec![],
            )
            .await;
        assert!(said.contains("panicked at"), "{said}");
        // Nothing of the page is left to be used.
        let left: Vec<String> = page
            .ask(
                "return [...document.querySelectorAll('body *')].filter((it) => it.matches('button, a, input, select, textarea'))
                    .map((it) => it.dataset.action ?? it.outerHTML);",
                vec![],
            )
            .await;
        assert_eq!(left, ["rescue", "load-again", "copy-said"]);
        page.until_focused("[data-action=rescue]").await;
        let (imported, shelf) = rescued(&page).await;
        assert_eq!((imported.added, imported.unreadable), (1, 0));
        assert_eq!(first(&shelf), design);
        assert_eq!(page.storage().await, storage);
        page.press("load-again").await;
        page.until_state("the line is there again", |now| now.shows(&design))
            .await;
        page.leave().await;
    });
}

/// The same entering keeps a line as long as the program is sound, and nothing any more once it has broken.
#[test]
fn a_broken_program_writes_nothing() {
    at_a_desk(async |desk| {
        for (way, presses) in [
            (NO_ELEMENTS, &BEGIN_ANOTHER[..1]),
            (NO_CHANCE, &BEGIN_ANOTHER),
        ] {
            let page = desk.troublemaker("").await;
            page.seek("[data-action=ends_per_thread]").await;
            page.run(HELD, vec![]).await;
            page.run(ENTERED, vec![json!("13")]).await;
            until("it is kept", async || {
                (!page.storage().await.is_empty()).then_some(())
            })
            .await;
            broken_by(&page, way, presses).await;
            let storage = page.storage().await;
            page.run(ENTERED, vec![json!("17")]).await;
            page.run(
                "for (const kind of ['visibilitychange', 'pagehide']) dispatchEvent(new Event(kind));",
                vec![],
            )
            .await;
            assert_eq!(page.storage().await, storage, "{way}");
            page.leave().await;
        }
    });
}

#[test]
fn an_error_through_the_program_is_told_too_and_others_errors_are_not() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        let others = "
            setTimeout(() => { throw new Error('of another script'); });
            Promise.reject(new Error('of another script'));
            dispatchEvent(new ErrorEvent('error', { message: 'no more is known' }));";
        page.run(others, vec![]).await;
        dragged(&page).await;
        assert_eq!(page.matching(".broken").await, 0);
        page.run("localStorage.clear();", vec![]).await;
        page.reload().await;
        broken_by(&page, NO_CHANCE, &BEGIN_ANOTHER).await;
        let said: String = page
            .ask(
                "return document.querySelector('[data-said]').textContent;",
                vec![],
            )
            .await;
        assert!(
            said.contains("not a function") && said.contains(".wasm"),
            "{said}"
        );
        page.leave().await;
    });
}

#[test]
fn a_program_that_does_not_open_gives_the_lines_out_all_the_same() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        let (_, design) = dragged(&page).await;
        let source = "WebAssembly.instantiateStreaming = WebAssembly.instantiate = async () => { throw new Error('no wasm here'); };";
        page.session.cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            &json!({ "source": source }),
        );
        page.session.client.refresh().await.expect("it reloads");
        page.until_there(".broken").await;
        page.until_said("Taperwright could not open").await;
        let (imported, shelf) = rescued(&page).await;
        assert_eq!(imported.added, 1);
        assert_eq!(first(&shelf), design);
        // Where nothing is kept the loader makes the database, whole: the program would take an empty one for its own.
        let all = json!({ "origin": page.origin, "storageTypes": "local_storage,indexeddb" });
        page.session.cdp("Storage.clearDataForOrigin", &all);
        page.session.client.refresh().await.expect("it reloads");
        page.until_said("Nothing of yours is saved in this browser.")
            .await;
        let stores = "const request = indexedDB.open('taperwright');
            request.onsuccess = () => arguments[0]([...request.result.objectStoreNames]);";
        let stores: Vec<String> = page.ask_later(stores, vec![]).await;
        assert_eq!(stores, ["states"]);
        page.leave().await;
    });
}

/// Everything there can be in a browser's storage: the page's file is the one the format describes, item for item, and brings in
/// the same.
#[test]
fn the_file_of_the_broken_page_holds_everything_there_is() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        let storage = all_sorts();
        page.run(
            "for (const [key, text] of Object.entries(arguments[0])) localStorage.setItem(key, text);",
            vec![json!(storage)],
        )
        .await;
        page.run(
            "localStorage.setItem('taperwright/line/half', 'half of a letter: \\ud800');",
            vec![],
        )
        .await;
        panicked(&page).await;
        let text = rescued_text(&page).await;
        let (imported, from_page) = taken_in(&text);
        let mut storage = storage;
        storage.insert(
            format!("{LINE_KEY}half"),
            "half of a letter: \u{fffd}".to_owned(),
        );
        let described = everything::everything(&storage);
        assert_eq!(items(&text), items(&described));
        let (wanted, from_shelf) = taken_in(&described);
        assert_eq!(imported, wanted);
        let shelf = Shelf::load(Memory(storage), Writer(8)).expect("it can be read");
        assert_eq!(told::<Design>(&from_page), opened(&shelf));
        assert_eq!(told::<Design>(&from_page), told::<Design>(&from_shelf));
        assert_eq!(told::<Workshop>(&from_page), told::<Workshop>(&from_shelf));
        assert_eq!(asides(from_page), asides(from_shelf));
        page.leave().await;
    });
}

/// The items of a file of everything, in order of their texts.
fn items(text: &str) -> [Vec<String>; 3] {
    let file: Value = serde_json::from_str(text).expect("the file is JSON");
    ["lines", "workshops", "unreadable"].map(|list| {
        let items = file[list].as_array().expect("a list");
        let mut items: Vec<String> = items.iter().map(Value::to_string).collect();
        items.sort();
        items
    })
}

/// Names of the lines a shelf opens, in order, what two tabs wrote at the same moment counted for two.
fn opened(shelf: &Shelf<Memory>) -> Vec<(String, bool)> {
    let mut shelf = shelf.clone();
    for entry in shelf.list::<Design>().expect("it can be read") {
        shelf
            .settle::<Design>(entry.number)
            .expect("memory has room");
    }
    let mut named = told::<Design>(&shelf);
    named.retain(|(name, _)| !name.is_empty());
    for (name, _) in &mut named {
        *name = name.replace(" (copy: another tab changed it)", "");
    }
    named.sort();
    named
}

/// Lines of two states and of one, in the bin, of an unreleased version, of two tabs at the same moment, half, and of a newer version;
/// a workshop besides.
fn all_sorts() -> Storage {
    let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("it can be read");
    let day = taperwright::plan::days::Day::parse("2026-11-27").ok();
    let named = |name: &str| edited(demo(), Edit::Name(name.to_owned()));
    let twice = shelf
        .keep_new(Id(1), &named("once \u{1f41f} “x” \\ é"), day)
        .expect("room");
    shelf
        .keep(&twice.seen, &named("twice"), None)
        .expect("room");
    let binned = shelf
        .keep_new(Id(2), &named("in the bin"), day)
        .expect("room");
    shelf.delete::<Design>(&binned.seen, day).expect("room");
    let both = shelf.keep_new(Id(3), &named("base"), day).expect("room");
    let before = shelf.clone().into_store().0;
    shelf
        .keep(&both.seen, &named("one tab"), day)
        .expect("room");
    let mut other = Shelf::load(Memory(before), Writer(2)).expect("it can be read");
    other
        .keep(&both.seen, &named("other tab"), day)
        .expect("room");
    shelf
        .keep_new(Id(4), &Workshop::new("Mill".to_owned(), &demo()), day)
        .expect("room");
    let mut texts = shelf.into_store().0;
    texts.extend(other.into_store().0);
    texts.insert(format!("{LINE_KEY}7"), file::write(&named("as before")));
    texts.insert(
        format!("{LINE_KEY}8/5-00000000000000aa-00000000"),
        "half a li".to_owned(),
    );
    let newer = "taperwright kept 2\nsomething else\n\n{}";
    texts.insert(
        format!("{LINE_KEY}9/6-00000000000000aa-00000000"),
        newer.to_owned(),
    );
    texts.insert(
        format!("{ASIDE_KEY}00000000000000aa"),
        "a text from elsewhere".to_owned(),
    );
    texts
}

/// What a list tells, in order of names.
fn told<T: Document>(shelf: &Shelf<Memory>) -> Vec<(String, bool)> {
    let entries = shelf.list::<T>().expect("it can be read").into_iter();
    let name = |entry: &ShelfEntry| entry.name.clone().unwrap_or_default();
    let plain = |name: String| name.replace(" (from a file)", "");
    let mut told: Vec<_> = entries
        .map(|entry| (plain(name(&entry)), entry.is_binned))
        .collect();
    told.sort();
    told
}

/// Texts that could not be read, in order.
fn asides(shelf: Shelf<Memory>) -> Vec<String> {
    let texts = shelf.into_store().0.into_iter();
    let mut texts: Vec<String> = texts
        .filter(|(key, _)| key.starts_with(ASIDE_KEY))
        .map(|(_, text)| text)
        .collect();
    texts.sort();
    texts
}
