//! Everything as one file, out and in again; the reminder of it, lasting storage, and what cannot be read.

use std::fs;

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::{Id, Lookup, MOST_SAVES, Shelf, Writer};

use super::files::saved;
use super::harness::{at_a_desk, on_the_page, until};
use super::kept::{fetch, named, open, press, visited, with_lines};
use super::memory::dragged;

/// Counts how often the browser is asked for lasting storage, from here on.
const COUNT_ASKED: &str = "
    window.asked = 0;
    StorageManager.prototype.persist = async () => { window.asked += 1; return true; };";

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
        maker.until_said("Never backed up; 3 changes").await;
        maker.press("save-everything").await;
        let path = saved(&maker, "json").await;
        maker.until_said("no changes since").await;
        let other = desk.visitor().await;
        dragged(&other).await;
        let own = other.texts_of(1).await;
        for words in ["3 restored.", "3 already here, unchanged."] {
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
        other.until_said("so saved as copies").await;
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
                taperwright::keep::share::file::write(&demo()),
                "not a backup",
            ),
            (
                "half.json",
                r#"{"format": "taperwright backup", "version": 1, "li"#.to_owned(),
                "was cut off",
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
        let Lookup::Kept(mut kept) = shelf.look::<Design>(1) else {
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
        press(page, "[data-action=save-strange]").await;
        let path = saved(page, "txt").await;
        assert_eq!(
            fs::read_to_string(path).ok().as_deref(),
            Some("half a line")
        );
        press(page, "[data-action=discard]").await;
        press(page, "[data-action=discard-no]").await;
        assert!(page.storage().await.contains_key(&key));
        press(page, "[data-action=discard]").await;
        press(page, "[data-action=discard-sure]").await;
        page.until_gone(".kept-strange").await;
        assert!(!page.storage().await.contains_key(&key));
        assert_eq!(page.kept_numbers().await, [1]);
    });
}
