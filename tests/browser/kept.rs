//! Everything kept in this browser: found again, opened, renamed, copied, put away and taken back, saved as one file and
//! brought in elsewhere.

use std::fs;

use serde_json::json;
use taperwright::book::Workshop;
use taperwright::days::Day;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::shelf::memory::Memory;
use taperwright::shelf::{Id, LineNumber, MOST_SAVES, Shelf, Writer};

use super::files::saved;
use super::gesture::escape;
use super::harness::{at_a_desk, on_the_page, until};
use super::memory::dragged;
use super::page::Page;

/// The rows that are seen, by name.
const NAMES: &str =
    "return [...document.querySelectorAll('.kept-lines .name')].map((name) => name.textContent);";

/// Puts texts into local storage.
const PUT: &str =
    "for (const [key, text] of Object.entries(arguments[0])) localStorage.setItem(key, text);";

/// Counts how often the browser is asked for lasting storage, from here on.
const COUNT_ASKED: &str = "
    window.asked = 0;
    StorageManager.prototype.persist = async () => { window.asked += 1; return true; };";

/// Opens the sheet.
pub(super) async fn open(page: &Page) {
    page.press("my-lines").await;
    page.until_there(".kept [data-action=save-everything]")
        .await;
}

/// Something that can be pressed in the row of a line.
fn row(number: LineNumber, action: &str) -> String {
    format!(".kept-lines li[data-number='{number}'] [data-action={action}]")
}

/// Puts a kept line on the bench, from the list.
pub(super) async fn fetch(page: &Page, number: LineNumber) {
    open(page).await;
    page.press_at(&row(number, "open-kept")).await;
}

/// Lays a kept line behind the one on the bench, from the list.
pub(super) async fn lay_behind(page: &Page, number: LineNumber) {
    open(page).await;
    unfold(page, number).await;
    page.press_at(&row(number, "lay-behind")).await;
}

async fn unfold(page: &Page, number: LineNumber) {
    let fold = format!(".kept-lines li[data-number='{number}'] summary");
    page.press_at(&fold).await;
    page.until_there(&row(number, "rename")).await;
}

/// The sheet with a line's deeds unfolded, a text that cannot be read, the bin open, and another just put into it.
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
    page.press_at(&row(2, "bin-kept")).await;
    page.press_at(".kept-bin summary").await;
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

fn named(name: &str) -> Design {
    let named = Edit::Name(name.to_owned()).apply(&demo());
    named.expect("a line can have this name")
}

/// A shelf with lines of these names, changed a day apart, the last of them last.
fn with_lines(names: &[&str]) -> Shelf<Memory> {
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
async fn visited(page: &Page, shelf: Shelf<Memory>) {
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
        page.until_said("No line has these words").await;
        page.enter("seek", "weir").await;
        page.press_at(&row(1, "open-kept")).await;
        until("it is on the bench", async || {
            (page.value_at(".title input").await == "Weir, long").then_some(())
        })
        .await;
        assert_eq!(page.matching(".kept").await, 0, "the sheet is put away");
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
        page.press("more-lines").await;
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
        page.press_at(&row(1, "bin-kept")).await;
        page.until_there("[data-action=take-back]").await;
        until_named(page, &[]).await;
        assert_eq!(page.texts_of(1).await, kept, "nothing is gone");
        // The example takes its place meanwhile.
        page.until_state("the example is there", |now| now.shows(&demo()))
            .await;
        page.press("take-back").await;
        until_named(page, &["Weir"]).await;
        page.until_state("it is back on the bench", |now| *now == before)
            .await;
        // Also after a reload, out of the bin.
        unfold(page, 1).await;
        page.press_at(&row(1, "bin-kept")).await;
        until_named(page, &[]).await;
        page.reload().await;
        assert!(page.state().await.shows(&demo()));
        open(page).await;
        page.press_at(".kept-bin summary").await;
        page.press("restore").await;
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
        page.press_at(&row(2, "bin-kept")).await;
        page.press_at(".kept-bin summary").await;
        page.press("empty-bin").await;
        page.press("empty-bin-no").await;
        assert_eq!(page.kept_numbers().await, [1, 2]);
        page.press("empty-bin").await;
        page.press("empty-bin-sure").await;
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
        // The one on the bench, and another.
        for (number, name) in [(2, "Reed Pool, third try"), (1, "Heron Weir")] {
            unfold(page, number).await;
            page.enter_at(&row(number, "rename"), name).await;
            until("it has the name", async || {
                (page.kept_line(number).await?.title() == name).then_some(())
            })
            .await;
        }
        unfold(page, 1).await;
        page.press_at(&row(1, "copy-kept")).await;
        page.until_said("“Heron Weir (copy)” is kept.").await;
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
fn everything_is_saved_as_one_file_and_brought_in_elsewhere() {
    at_a_desk(async |desk| {
        let maker = desk.visitor().await;
        let mut shelf = with_lines(&["Weir", "Reed Pool"]);
        shelf
            .keep_new(Id(7), &Workshop::new("Mill loft".to_owned(), &demo()), None)
            .expect("memory has room");
        visited(&maker, shelf).await;
        open(&maker).await;
        maker
            .until_said("Never yet saved as one file; 3 changes")
            .await;
        maker.press("save-everything").await;
        let path = saved(&maker, "json").await;
        maker.until_said("nothing has changed since").await;
        let other = desk.visitor().await;
        dragged(&other).await;
        let own = other.texts_of(1).await;
        for words in ["3 came in.", "3 already here, just so."] {
            open(&other).await;
            let path = path.to_str().expect("a name made here is text");
            let chosen = other.control("open-everything").await.send_keys(path).await;
            chosen.expect("the file is chosen");
            other.until_said(words).await;
            other.press("my-lines-close").await;
        }
        assert_eq!(other.texts_of(1).await, own, "the own line was touched");
        for number in [1, 2] {
            let here = other.kept_line(number + 1).await;
            assert_eq!(here, maker.kept_line(number).await);
        }
        // A change here, and the file once more: both are kept.
        fetch(&other, 2).await;
        let title = "[data-action=my-lines]";
        other.until_there(title).await;
        dragged(&other).await;
        open(&other).await;
        let chosen = other.control("open-everything").await;
        let path = path.to_str().expect("a name made here is text");
        chosen.send_keys(path).await.expect("the file is chosen");
        other.until_said("so both are kept").await;
        until("the one of the file lies beside", async || {
            let beside = other.kept_line(4).await?;
            (beside.title() == "Weir (from a file)").then_some(())
        })
        .await;
    });
}

#[test]
fn a_file_that_is_none_of_everything_says_so_and_changes_nothing() {
    on_the_page(async |page| {
        visited(page, with_lines(&["Weir"])).await;
        let storage = page.storage().await;
        let folder = page.session.downloads();
        for (name, text, said) in [
            (
                "line.json",
                taperwright::share::file::write(&demo()),
                "not a file of everything",
            ),
            (
                "half.json",
                r#"{"format": "taperwright backup", "version": 1, "li"#.to_owned(),
                "not a file of everything",
            ),
            (
                "newer.json",
                r#"{"format": "taperwright backup", "version": 9}"#.to_owned(),
                "format 9",
            ),
            (
                "bad.json",
                r#"{"format": "taperwright backup", "version": 1, "lines": 3}"#.to_owned(),
                "damaged",
            ),
        ] {
            fs::create_dir_all(folder).expect("a folder can be made");
            let path = folder.join(name);
            fs::write(&path, text).expect("a file can be written");
            open(page).await;
            let path = path.to_str().expect("a name made here is text").to_owned();
            let chosen = page.control("open-everything").await.send_keys(&path).await;
            chosen.expect("the file is chosen");
            page.until_said(said).await;
            page.press("my-lines-close").await;
        }
        assert_eq!(page.storage().await, storage);
    });
}

#[test]
fn the_page_reminds_of_saving_everything_when_it_is_time() {
    on_the_page(async |page| {
        let mut shelf = with_lines(&["Weir"]);
        let taperwright::shelf::Found::Kept(mut kept) = shelf.look::<Design>(1) else {
            panic!("it is kept");
        };
        for turn in 1..MOST_SAVES - 1 {
            let next = shelf.keep(&kept.seen, &named(&format!("Weir {turn}")), None);
            *kept = next.expect("memory has room").kept;
        }
        visited(page, shelf).await;
        assert_eq!(page.matching("[data-action=due]").await, 0);
        dragged(page).await;
        page.press("due").await;
        page.press("save-everything").await;
        saved(page, "json").await;
        page.press("my-lines-close").await;
        page.until_gone("[data-action=due]").await;
    });
}

#[test]
fn lasting_storage_is_asked_for_after_the_first_save_and_no_more() {
    on_the_page(async |page| {
        page.run(COUNT_ASKED, vec![]).await;
        assert_eq!(page.ask::<u32>("return window.asked;", vec![]).await, 0);
        dragged(page).await;
        until("it is asked for", async || {
            (page.ask::<u32>("return window.asked;", vec![]).await == 1).then_some(())
        })
        .await;
        page.enter("point-size", "0.95").await;
        until("the change is kept", async || {
            let kept = page.kept().await?;
            (kept.taper().points()[2].diameter.millimetres() < 1.0).then_some(())
        })
        .await;
        assert_eq!(page.ask::<u32>("return window.asked;", vec![]).await, 1);
    });
}

#[test]
fn what_cannot_be_read_is_listed_saved_and_taken_away_only_by_a_second_word() {
    on_the_page(async |page| {
        let mut store = with_lines(&["Weir"]).into_store();
        let key = "taperwright/line/9".to_owned();
        store.0.insert(key.clone(), "half a line".to_owned());
        let shelf = Shelf::load(store, Writer(1)).expect("memory can be read");
        visited(page, shelf).await;
        open(page).await;
        page.until_there(".kept-strange").await;
        let words = page.words_of(".kept-strange li").await;
        assert!(words.contains("Line 9"), "{words}");
        page.press("save-strange").await;
        let path = saved(page, "txt").await;
        assert_eq!(
            fs::read_to_string(path).ok().as_deref(),
            Some("half a line")
        );
        page.press("discard").await;
        page.press("discard-no").await;
        assert!(page.storage().await.contains_key(&key));
        page.press("discard").await;
        page.press("discard-sure").await;
        page.until_gone(".kept-strange").await;
        assert!(!page.storage().await.contains_key(&key));
        assert_eq!(page.kept_numbers().await, [1]);
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
        page.press_at(&row(1, "summary")).await;
        page.press("copy-workshop").await;
        page.until_there(&row(2, ".name")).await;
        let copy = page.kept_book(2).await.map(|book| book.name);
        assert_eq!(copy.as_deref(), Some("Mill loft (copy)"));
        page.press_at(&row(1, "[data-action=bin-workshop]")).await;
        page.until_gone(&row(1, ".name")).await;
        page.press("take-back").await;
        page.until_there(&row(1, "[aria-current]")).await;
        page.press_at(&row(2, "[data-action=open-workshop]")).await;
        until("its book is open", async || {
            (page.value("workshop-name").await == "Mill loft (copy)").then_some(())
        })
        .await;
    });
}
