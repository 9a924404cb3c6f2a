//! A line saved as a file opens again as the same line, here or anywhere; what is no such file says so.

use std::fs;
use std::path::PathBuf;

use taperwright::keep::share::file;

use super::harness::{at_a_desk, on_the_page, until};
use super::memory::dragged;
use super::page::Page;

#[test]
fn a_saved_file_opens_as_the_same_line_in_another_browser() {
    at_a_desk(async |desk| {
        let maker = desk.visitor().await;
        let (saved, design) = dragged(&maker).await;
        let path = save(&maker).await;
        let text = fs::read_to_string(&path).expect("the saved file is there");
        assert_eq!(file::read(&text), Ok(design.clone()));
        let other = desk.visitor().await;
        assert_ne!(other.state().await, saved);
        open(&other, &path).await;
        other
            .until_state("the opened line is shown", |now| *now == saved)
            .await;
        assert_eq!(other.kept().await, Some(design));
    });
}

#[test]
fn an_opened_file_becomes_a_line_beside_the_own_one() {
    on_the_page(async |page| {
        let path = save(page).await;
        dragged(page).await;
        let own = page.texts_of(1).await;
        let demo = taperwright::design::demo::demo();
        open(page, &path).await;
        page.until_state("the opened line is shown", |now| now.shows(&demo))
            .await;
        until("both lines are kept", async || {
            let is_kept = page.kept_numbers().await == [1, 2] && page.texts_of(1).await == own;
            is_kept.then_some(())
        })
        .await;
    });
}

#[test]
fn a_damaged_file_says_so_and_changes_nothing() {
    on_the_page(async |page| {
        dragged(page).await;
        let path = save(page).await;
        let text = fs::read_to_string(&path).expect("the saved file is there");
        let (state, storage) = (page.state().await, page.storage().await);
        for (name, damaged) in damages(&text) {
            let path = path.with_file_name(name);
            fs::write(&path, &damaged).expect("a file can be written");
            open(page, &path).await;
            let said = file::read(&damaged).expect_err(name).to_string();
            page.until_said(&said).await;
            assert_eq!(page.state().await, state, "{name}");
            assert_eq!(page.storage().await, storage, "{name}");
        }
    });
}

/// Ways in which a file goes bad, each with a name.
fn damages(text: &str) -> [(&'static str, String); 4] {
    [
        ("half.json", text[..text.len() / 2].to_owned()),
        (
            "other.json",
            r#"{"format": "a recipe", "version": 1}"#.to_owned(),
        ),
        ("misspelt.json", text.replace("\"gears\"", "\"gaers\"")),
        (
            "impossible.json",
            text.replace("\"horn_gears\": 8.0", "\"horn_gears\": 7.0"),
        ),
    ]
}

/// Saves the line on the page; returns where the file is.
async fn save(page: &Page) -> PathBuf {
    page.press("save-file").await;
    saved(page, "json").await
}

/// Where the file is that is being saved, by the end of its name. The browser reserves the name with an empty file and moves
/// the written one there, so a file that holds something is whole.
pub(super) async fn saved(page: &Page, end: &str) -> PathBuf {
    until("the file is saved", async || {
        let files = fs::read_dir(page.session.downloads()).expect("the folder is there");
        let mut paths = files.flatten().map(|file| file.path());
        paths.find(|path| {
            let named = path.extension().is_some_and(|found| found == end);
            named && fs::metadata(path).is_ok_and(|file| file.len() > 0)
        })
    })
    .await
}

async fn open(page: &Page, path: &std::path::Path) {
    let path = path.to_str().expect("a name made here is text");
    let sent = page.control("open-file").await.send_keys(path).await;
    sent.expect("the file is chosen");
}
