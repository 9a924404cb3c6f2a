//! What is dropped on the page opens as by its button, or is answered in words; nothing dropped leads away or changes anything
//! unasked.

use std::fs;
use std::path::PathBuf;

use serde_json::{Value, json};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::book::Workshop;
use taperwright::keep::dropped::DropError;
use taperwright::keep::share::{file, link};
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, Shelf, Writer};

use super::broken::everything::everything;
use super::broken::panicked;
use super::harness::{at_a_desk, on_the_page, until};
use super::memory::dragged;
use super::page::{Page, Spot};
use super::settings::edited;

/// A place on the chart, of a tablet held sideways.
pub(super) const CHART: Spot = (400.0, 400.0);
/// A place on what stands above the chart.
const HEAD: Spot = (400.0, 20.0);

/// What is dragged over the page from elsewhere, in the browser's own protocol.
pub(super) struct Load<'page> {
    page: &'page Page,
    data: Value,
}

impl<'page> Load<'page> {
    pub(super) fn files(page: &'page Page, paths: &[PathBuf]) -> Self {
        let data = json!({"items": [], "files": paths, "dragOperationsMask": 1});
        Self { page, data }
    }

    fn words(page: &'page Page, kind: &str, words: &str) -> Self {
        let items = json!([{"mimeType": kind, "data": words}]);
        let data = json!({"items": items, "files": [], "dragOperationsMask": 1});
        Self { page, data }
    }

    fn send(&self, kind: &str, (x, y): Spot) {
        let event = json!({"type": kind, "x": x, "y": y, "data": self.data});
        self.page.session.cdp("Input.dispatchDragEvent", &event);
    }

    fn over(&self, at: Spot) {
        self.send("dragEnter", at);
        self.send("dragOver", at);
    }

    /// Drops it. Once is enough, however busy the browser is.
    pub(super) fn drop(&self, at: Spot) {
        self.over(at);
        self.send("drop", at);
    }
}

/// A file of this name and text that can be dragged.
fn made(page: &Page, name: &str, text: &str) -> PathBuf {
    let path = page.session.downloads().join(name);
    fs::write(&path, text).expect("a file can be written");
    path
}

fn thicker() -> Design {
    let design = edited(demo(), Edit::ScaleSizes(1.05));
    edited(design, Edit::Name("Line of a friend".to_owned()))
}

fn fragment() -> String {
    link::encode(&thicker()).expect("short")
}

#[test]
fn a_dropped_file_of_everything_is_brought_in_beside_what_is_there() {
    on_the_page(async |page| {
        dragged(page).await;
        let own = page.texts_of(1).await;
        let line = edited(demo(), Edit::Name("Reed Pool".to_owned()));
        let mut shelf = Shelf::load(Memory::default(), Writer(7)).expect("memory can be listed");
        shelf.keep_new(Id(7), &line, None).expect("memory has room");
        let text = everything(&shelf.into_store().0);
        let path = made(page, "everything.json", &text);
        Load::files(page, &[path]).drop(CHART);
        page.until_said("1 restored.").await;
        assert_eq!(page.texts_of(1).await, own);
        assert_eq!(page.kept_line(2).await, Some(line));
    });
}

#[test]
fn a_design_file_dropped_anywhere_opens_beside_the_own_line() {
    on_the_page(async |page| {
        dragged(page).await;
        let own = page.texts_of(1).await;
        let path = made(page, "friend.taper.json", &file::write(&thicker()));
        Load::files(page, &[path]).drop(CHART);
        page.until_state("the dropped line is shown", |now| now.shows(&thicker()))
            .await;
        until("both lines are kept", async || {
            let is_kept = page.kept_numbers().await == [1, 2] && page.texts_of(1).await == own;
            is_kept.then_some(())
        })
        .await;
        assert_eq!(page.kept().await, Some(thicker()));
    });
}

#[test]
fn while_something_is_dragged_the_page_says_what_it_takes() {
    on_the_page(async |page| {
        let path = made(page, "a.json", "{}");
        let load = Load::files(page, &[path]);
        assert_eq!(page.matching("[data-dropping]").await, 0);
        let words = "a line, a bench book, a backup, or a link";
        until("the page says what it takes", async || {
            // A browser says again and again that something is still over the page.
            load.over(CHART);
            let is_there = page.matching("[data-dropping=true]").await > 0;
            (is_there && page.text().await.contains(words)).then_some(())
        })
        .await;
        // Taken away without a word, as some browsers have it.
        page.until_gone("[data-dropping]").await;
        load.drop(CHART);
        page.until_gone("[data-dropping]").await;
    });
}

#[test]
fn a_bench_book_dropped_is_laid_open() {
    on_the_page(async |page| {
        let workshop = Workshop::new("Mill, lot B".to_owned(), &demo());
        let text = taperwright::keep::book::file::write(&workshop);
        let path = made(page, "mill.bench.json", &text);
        Load::files(page, &[path]).drop(CHART);
        page.until_there("[data-shows=weigh] .book").await;
        page.until_book("the book is kept", |book| *book == workshop)
            .await;
    });
}

#[test]
fn what_opens_nothing_is_answered_and_changes_nothing() {
    on_the_page(async |page| {
        dragged(page).await;
        let (state, storage) = (page.state().await, page.storage().await);
        let line = file::write(&thicker());
        let two = [made(page, "one.json", &line), made(page, "two.json", &line)];
        let shopping = made(page, "shopping.txt", "bread, silk");
        let damaged = line.replace("\"gears\"", "\"gaers\"");
        let broken = made(page, "broken.json", &damaged);
        let why = file::read(&damaged).expect_err("damaged").to_string();
        let loads = [
            (Load::files(page, &two), DropError::Several(2).to_string()),
            (
                Load::files(page, &[shopping]),
                DropError::Unknown.to_string(),
            ),
            (Load::files(page, &[broken]), why),
            (
                Load::words(page, "text/plain", "bread, silk"),
                DropError::NoLink.to_string(),
            ),
            (
                Load::words(page, "text/uri-list", "http://127.0.0.1:9/elsewhere"),
                DropError::NoLink.to_string(),
            ),
        ];
        for (load, said) in loads {
            page.run(
                "document.querySelector('.message button')?.click();",
                vec![],
            )
            .await;
            page.until_gone(".message").await;
            load.drop(CHART);
            page.until_said(&said).await;
            assert_eq!(page.state().await, state, "{said}");
            assert_eq!(page.storage().await, storage, "{said}");
            is_at_home(page).await;
        }
    });
}

/// Moved onto another part of the page and let go at once, it is the page's all the same. What the page leaves to the browser, that
/// opens in a window of its own, and this page is hidden.
#[test]
fn what_is_let_go_where_it_just_came_is_answered() {
    on_the_page(async |page| {
        let part = "return document.elementsFromPoint(...arguments)[0].outerHTML;";
        let mut parts = Vec::new();
        for (x, y) in [CHART, HEAD] {
            parts.push(page.run(part, vec![json!(x), json!(y)]).await);
        }
        assert_ne!(parts[0], parts[1], "these are one part");
        let address = "http://127.0.0.1:9/elsewhere";
        let load = Load::words(page, "text/uri-list", address);
        load.over(CHART);
        load.send("drop", HEAD);
        page.until_said(&DropError::NoLink.to_string()).await;
        is_at_home(page).await;
    });
}

/// A broken page opens nothing, but still leaves nothing to the browser.
#[test]
fn nothing_dropped_on_a_broken_page_leads_away() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        panicked(&page).await;
        let left = "return ['dragenter', 'dragover', 'drop'].filter((kind) =>
            document.body.dispatchEvent(new DragEvent(kind, { bubbles: true, cancelable: true })));";
        let left: Vec<String> = page.ask(left, vec![]).await;
        assert!(left.is_empty(), "left to the browser: {left:?}");
        page.leave().await;
    });
}

#[test]
fn a_link_dropped_is_a_preview() {
    on_the_page(async |page| {
        dragged(page).await;
        let storage = page.storage().await;
        // From whatever site: only what it carries counts, and nobody is asked for it.
        let link = format!("http://127.0.0.1:9/taperwright/#{}", fragment());
        Load::words(page, "text/uri-list", &link).drop(CHART);
        page.until_state("the line is shown", |now| now.shows(&thicker()))
            .await;
        page.until_there("[data-action=keep-copy]").await;
        assert_eq!(page.storage().await, storage, "looking alone kept it");
        is_at_home(page).await;
    });
}

#[test]
fn a_link_cut_off_is_answered_and_leaves_the_line() {
    on_the_page(async |page| {
        let (state, cut) = (page.state().await, fragment());
        let cut = format!("#{}", &cut[..cut.len() - 5]);
        let said = link::decode(&cut).expect("a link").expect_err("cut off");
        Load::words(page, "text/plain", &cut).drop(CHART);
        page.until_said(&said.to_string()).await;
        assert_eq!(page.state().await, state);
    });
}

#[test]
fn what_is_dropped_while_the_card_lies_there_is_seen() {
    on_the_page(async |page| {
        page.press("card").await;
        page.until_there(".card-desk.shown").await;
        let path = made(page, "friend.taper.json", &file::write(&thicker()));
        Load::files(page, &[path]).drop(CHART);
        page.until_gone(".card-desk.shown").await;
        page.until_state("the dropped line is shown", |now| now.shows(&thicker()))
            .await;
    });
}

#[test]
fn words_dropped_into_a_field_are_its_own() {
    on_the_page(async |page| {
        let state = page.state().await;
        page.seek("[data-action=compare-link]").await;
        let spot = "const { left, top, width, height } =
            document.querySelector('[data-action=compare-link]').getBoundingClientRect();
            return [left + width / 2, top + height / 2];";
        let at: Spot = page.ask(spot, vec![]).await;
        let words = format!("#{}", fragment());
        let load = Load::words(page, "text/plain", &words);
        load.over(at);
        assert_eq!(page.matching("[data-dropping]").await, 0);
        load.drop(at);
        until("the field has it", async || {
            (page.value("compare-link").await == words).then_some(())
        })
        .await;
        assert_eq!(page.count("keep-copy").await, 0, "it was opened besides");
        assert_eq!(page.seen().await.figures["class"], state.figures["class"]);
        assert!(page.storage().await.is_empty(), "something was kept");
    });
}

#[test]
fn what_is_dragged_on_the_page_itself_is_left_alone() {
    on_the_page(async |page| {
        let state = page.state().await;
        page.run(
            "document.body.dispatchEvent(new DragEvent('dragstart', { bubbles: true }));",
            vec![],
        )
        .await;
        let load = Load::words(page, "text/plain", &format!("#{}", fragment()));
        load.over(CHART);
        assert_eq!(page.matching("[data-dropping]").await, 0);
        load.send("drop", CHART);
        page.run(
            "document.body.dispatchEvent(new DragEvent('dragend', { bubbles: true }));",
            vec![],
        )
        .await;
        assert_eq!(page.state().await, state);
        // The next thing from elsewhere is taken again, and only then is it sure that the first was not still on its way.
        load.drop(CHART);
        page.until_there("[data-action=keep-copy]").await;
    });
}

/// The page is still where it was, and in front: nothing has opened in another window.
async fn is_at_home(page: &Page) {
    let address: String = page.ask("return location.href;", vec![]).await;
    assert_eq!(address, format!("{}/#draw", page.origin));
    let windows = page.session.client.windows().await;
    assert_eq!(windows.expect("there are windows").len(), 1);
    let is_seen: bool = page
        .ask("return document.visibilityState === 'visible';", vec![])
        .await;
    assert!(is_seen, "something else is in front");
}
