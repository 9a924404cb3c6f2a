//! Everything kept in this browser: found again, opened, renamed, copied, put away and taken back.

use serde_json::json;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, LineNumber, Shelf, Writer};
use taperwright::plan::days::Day;

use super::gesture::escape;
use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;

/// The rows that are seen, by name.
const NAMES: &str =
    "return [...document.querySelectorAll('.kept-lines .name')].map((name) => name.textContent);";

/// Puts texts into local storage.
const PUT: &str =
    "for (const [key, text] of Object.entries(arguments[0])) localStorage.setItem(key, text);";

/// Opens the sheet.
pub(super) async fn open(page: &Page) {
    page.press("my-lines").await;
    page.until_there(".kept [data-action=save-everything]")
        .await;
}

/// Presses what a selector finds, in the middle of the window: what was done last is told at its foot, and may cover it.
pub(super) async fn press(page: &Page, selector: &str) {
    page.until_there(selector).await;
    page.bring(selector).await;
    page.press_at(selector).await;
}

/// Something that can be pressed in the row of a line.
fn row(number: LineNumber, action: &str) -> String {
    format!(".kept-lines li[data-number='{number}'] [data-action={action}]")
}

/// Puts a kept line on the bench, from the list.
pub(super) async fn fetch(page: &Page, number: LineNumber) {
    open(page).await;
    press(page, &row(number, "open-kept")).await;
}

/// Lays a kept line behind the one on the bench, from the list.
pub(super) async fn lay_behind(page: &Page, number: LineNumber) {
    open(page).await;
    unfold(page, number).await;
    press(page, &row(number, "lay-behind")).await;
}

async fn unfold(page: &Page, number: LineNumber) {
    let fold = format!(".kept-lines li[data-number='{number}'] summary");
    press(page, &fold).await;
    page.until_there(&row(number, "copy-kept")).await;
}

/// The sheet with a line's operations unfolded, a text that cannot be read, the bin open, and another just put into it.
pub(super) async fn with_all_shown(page: &Page) {
    let mut store = with_lines(&["Weir, long", "Reed Pool", "Long Meadow"]).into_store();
    let key = "taperwright/line/9".to_owned();
    store.0.insert(key, "half a line".to_owned());
    let mut shelf = Shelf::load(store, Writer(1)).expect("memory can be read");
    shelf
        .keep_new(Id(7), &Workshop::new("Mill loft".to_owned(), &demo()), None)
        .expect("memory has room");
    visited(page, shelf).await;
    open(page).await;
    page.until_there(".kept-strange").await;
    unfold(page, 2).await;
    press(page, &row(2, "bin-kept")).await;
    press(page, ".kept-bin summary").await;
    unfold(page, 3).await;
}

async fn names(page: &Page) -> Vec<String> {
    page.ask(NAMES, vec![]).await
}

async fn until_named(page: &Page, wanted: &[&str]) {
    until(&format!("the rows are {wanted:?}"), async || {
        (names(page).await == wanted).then_some(())
    })
    .await;
}

pub(super) fn named(name: &str) -> Design {
    let named = Edit::Name(name.to_owned()).apply(&demo());
    named.expect("a line can have this name")
}

/// A shelf with lines of these names, changed a day apart, the last of them last.
pub(super) fn with_lines(names: &[&str]) -> Shelf<Memory> {
    let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("memory can be read");
    for (day, name) in (0..).zip(names) {
        let changed = Day::new(2026, 1, 1).map(|first| first.plus(day));
        let id = Id(1000 + day.unsigned_abs());
        shelf
            .keep_new(id, &named(name), changed)
            .expect("memory has room");
    }
    shelf
}

/// Opens the page with this kept.
pub(super) async fn visited(page: &Page, shelf: Shelf<Memory>) {
    page.run(PUT, vec![json!(shelf.into_store().0)]).await;
    page.reload().await;
}

#[test]
fn a_line_is_found_by_words_of_its_name_and_opened() {
    on_the_page(async |page| {
        visited(
            page,
            with_lines(&["Weir, long", "Reed Pool", "Long Meadow"]),
        )
        .await;
        open(page).await;
        until_named(page, &["Long Meadow", "Reed Pool", "Weir, long"]).await;
        assert_eq!(page.matching(".kept-lines svg path").await, 3);
        let facts = page
            .words_of(".kept-lines li[data-number='1'] .facts")
            .await;
        for fact in ["Class 5", "25.1", "Thu 1 Jan 2026"] {
            assert!(facts.contains(fact), "{facts}");
        }
        page.choose("order", "name").await;
        until_named(page, &["Long Meadow", "Reed Pool", "Weir, long"]).await;
        page.enter("seek", "LONG weir").await;
        until_named(page, &["Weir, long"]).await;
        page.enter("seek", "heron").await;
        page.until_said("No line name contains these words").await;
        page.enter("seek", "weir").await;
        press(page, &row(1, "open-kept")).await;
        page.until_gone(".kept").await;
        until("it is on the bench", async || {
            (page.value("line-name").await == "Weir, long").then_some(())
        })
        .await;
    });
}

#[test]
fn of_a_thousand_lines_some_are_drawn_and_each_is_found() {
    on_the_page(async |page| {
        let names: Vec<String> = (1..=1000).map(|number| format!("Pool {number}")).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        visited(page, with_lines(&names)).await;
        open(page).await;
        assert_eq!(
            page.attribute_at("[data-found]", "data-found")
                .await
                .as_deref(),
            Some("1000")
        );
        assert_eq!(page.matching(".kept-lines li").await, 24);
        press(page, "[data-action=more-lines]").await;
        until("more are drawn", async || {
            (page.matching(".kept-lines li").await == 48).then_some(())
        })
        .await;
        page.enter("seek", "pool 777").await;
        until_named(page, &["Pool 777"]).await;
    });
}

#[test]
fn the_line_on_the_bench_is_put_into_the_bin_and_taken_back() {
    on_the_page(async |page| {
        visited(page, with_lines(&["Weir"])).await;
        dragged(page).await;
        let before = page.state().await;
        let kept = page.texts_of(1).await;
        open(page).await;
        unfold(page, 1).await;
        press(page, &row(1, "bin-kept")).await;
        page.until_there("[data-action=take-back]").await;
        until_named(page, &[]).await;
        assert_eq!(page.texts_of(1).await, kept, "nothing is gone");
        // The example takes its place meanwhile: the sheet, with the way back, stays open over it.
        let name = "return document.querySelector('.line-name .name').textContent;";
        until("the example is there", async || {
            let name: String = page.ask(name, vec![]).await;
            (name == demo().title()).then_some(())
        })
        .await;
        page.press("take-back").await;
        until_named(page, &["Weir"]).await;
        page.until_state("it is back on the bench", |now| *now == before)
            .await;
        // Also after a reload, out of the bin.
        open(page).await;
        unfold(page, 1).await;
        press(page, &row(1, "bin-kept")).await;
        until_named(page, &[]).await;
        page.reload().await;
        assert!(page.state().await.shows(&demo()));
        open(page).await;
        press(page, ".kept-bin summary").await;
        press(page, "[data-action=restore]").await;
        until_named(page, &["Weir"]).await;
        assert_eq!(page.texts_of(1).await, kept);
    });
}

#[test]
fn the_bin_is_emptied_only_by_a_second_word() {
    on_the_page(async |page| {
        visited(page, with_lines(&["Weir", "Reed Pool"])).await;
        open(page).await;
        unfold(page, 2).await;
        press(page, &row(2, "bin-kept")).await;
        press(page, ".kept-bin summary").await;
        press(page, "[data-action=empty-bin]").await;
        press(page, "[data-action=empty-bin-no]").await;
        assert_eq!(page.kept_numbers().await, [1, 2]);
        press(page, "[data-action=empty-bin]").await;
        press(page, "[data-action=empty-bin-sure]").await;
        until("it is gone for good", async || {
            (page.kept_numbers().await == [1]).then_some(())
        })
        .await;
        page.until_gone(".kept-bin").await;
        assert!(
            page.storage()
                .await
                .keys()
                .all(|key| !key.contains("/bin/"))
        );
    });
}

#[test]
fn a_line_is_renamed_and_copied_from_the_list() {
    on_the_page(async |page| {
        visited(page, with_lines(&["Weir", "Reed Pool"])).await;
        open(page).await;
        // The one on the bench has its name at the head of the sheet, another in its row.
        unfold(page, 2).await;
        assert_eq!(page.matching(&row(2, "rename")).await, 0);
        unfold(page, 1).await;
        let (own, other) = ("Reed Pool, third try", "Heron Weir");
        page.enter("line-name", own).await;
        page.enter_at(&row(1, "rename"), other).await;
        for (number, name) in [(2, own), (1, other)] {
            until("it has the name", async || {
                (page.kept_line(number).await?.title() == name).then_some(())
            })
            .await;
        }
        unfold(page, 1).await;
        press(page, &row(1, "copy-kept")).await;
        page.until_said("“Heron Weir (copy)” is saved.").await;
        let copy = page.kept_line(3).await.map(|copy| copy.title().to_owned());
        assert_eq!(copy.as_deref(), Some("Heron Weir (copy)"));
        // What cannot be a name is said at its field, and what was typed stays.
        unfold(page, 3).await;
        let long = "x".repeat(10_000);
        page.enter_at(&row(3, "rename"), &long[..300]).await;
        page.until_there(".kept-lines li[data-number='3'] [aria-invalid=true]")
            .await;
        escape(page).await;
    });
}

#[test]
fn a_workshop_is_copied_and_put_into_the_bin_and_taken_back() {
    on_the_page(async |page| {
        let mut shelf = with_lines(&["Weir"]);
        let book = Workshop::new("Mill loft".to_owned(), &demo());
        shelf.keep_new(Id(7), &book, None).expect("memory has room");
        visited(page, shelf).await;
        open(page).await;
        let row =
            |number: u32, what: &str| format!(".kept-books li[data-number='{number}'] {what}");
        press(page, &row(1, "summary")).await;
        press(page, "[data-action=copy-workshop]").await;
        page.until_there(&row(2, ".name")).await;
        let copy = page.kept_book(2).await.map(|book| book.name);
        assert_eq!(copy.as_deref(), Some("Mill loft (copy)"));
        press(page, &row(1, "[data-action=bin-workshop]")).await;
        page.until_gone(&row(1, ".name")).await;
        page.press("take-back").await;
        page.until_there(&row(1, "[aria-current]")).await;
        press(page, &row(2, "[data-action=open-workshop]")).await;
        until("its book is open", async || {
            (page.value("workshop-name").await == "Mill loft (copy)").then_some(())
        })
        .await;
    });
}
