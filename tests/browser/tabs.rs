//! Two tabs of one browser on the same line, and on the same book: neither loses what the other did.

use fantoccini::wd::WindowHandle;
use serde_json::json;
use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Document, Lookup, Shelf, Writer};

use super::book;
use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;
use super::swatches::measured;

/// Does to this browser's store what another tab would, unheard: nobody is told of what one's own tab writes.
pub(super) async fn unheard<T: Document>(page: &Page, change: impl FnOnce(&T) -> T) {
    let before = page.storage().await;
    let mut shelf = Shelf::load(Memory(before.clone()), Writer(0xb)).expect("a copy can be read");
    let Lookup::Kept(kept) = shelf.look::<T>(1) else {
        panic!("it is kept");
    };
    let kept = shelf.keep(&kept.seen, &change(&kept.work), None);
    assert_eq!(kept.expect("there is room").parted, None);
    let after = shelf.into_store().0;
    let script = "
        const [gone, texts] = arguments;
        for (const key of gone) localStorage.removeItem(key);
        for (const [key, text] of Object.entries(texts)) localStorage.setItem(key, text);";
    let gone: Vec<_> = before
        .keys()
        .filter(|key| !after.contains_key(*key))
        .collect();
    page.run(script, vec![json!(gone), json!(after)]).await;
}

/// Opens a second tab; gives the first and the second.
pub(super) async fn two_tabs(page: &Page) -> [WindowHandle; 2] {
    let client = &page.session.client;
    let first = client.window().await.expect("there is a tab");
    let second = client
        .new_window(true)
        .await
        .expect("another can be opened");
    let tabs = [first, second.handle];
    turn_to(page, &tabs[1]).await;
    page.go("").await;
    tabs
}

pub(super) async fn turn_to(page: &Page, tab: &WindowHandle) {
    let turned = page.session.client.switch_to_window(tab.clone()).await;
    turned.expect("the tab is there");
}

pub(super) async fn leave(page: &Page, tabs: &[WindowHandle; 2]) {
    turn_to(page, &tabs[1]).await;
    page.session.client.close_window().await.expect("it closes");
    turn_to(page, &tabs[0]).await;
}

#[test]
fn a_tab_follows_what_the_other_changed() {
    on_the_page(async |page| {
        dragged(page).await;
        let tabs = two_tabs(page).await;
        page.enter("point-size", "0.95").await;
        let is_thinner = |now: &super::state::State| now.si("belly-diameter") < 1.0e-3;
        let thinner = page.until_state("the line is thinner", is_thinner).await;
        turn_to(page, &tabs[0]).await;
        page.until_state("the first tab follows", |now| *now == thinner)
            .await;
        page.until_said("Another tab changed this line").await;
        // It goes on from there: one line, not two.
        page.enter("point-size", "0.9").await;
        until("the line is kept", async || {
            let kept = page.kept_line(1).await?;
            (kept.taper().points()[2].diameter.millimetres() < 0.91).then_some(())
        })
        .await;
        assert_eq!(page.kept_numbers().await, [1]);
        leave(page, &tabs).await;
    });
}

#[test]
fn a_tab_that_did_not_hear_keeps_its_own_as_a_copy() {
    on_the_page(async |page| {
        dragged(page).await;
        unheard::<Design>(page, |line| line.renamed("theirs")).await;
        page.enter("point-size", "1.2").await;
        page.until_said("Nothing is lost").await;
        let copy = page.kept_line(2).await.expect("the copy is kept");
        assert!(
            copy.title().contains("another tab changed it"),
            "{}",
            copy.title()
        );
        assert_eq!(copy.draft().points[2].diameter_mm, 1.2);
        let theirs = page.kept_line(1).await.expect("the other's is kept");
        assert_eq!(theirs.title(), "theirs");
        // The copy is open, and is what opens again.
        page.reload().await;
        assert_eq!(page.kept().await, Some(copy));
    });
}

#[test]
fn a_book_follows_what_the_other_wrote_into_it() {
    on_the_page(async |page| {
        book::open(page).await;
        let book = measured(page).await;
        let tabs = two_tabs(page).await;
        book::open(page).await;
        page.enter("workshop-name", "by the other tab").await;
        page.until_book("it is renamed", |book| book.name == "by the other tab")
            .await;
        turn_to(page, &tabs[0]).await;
        page.until_said("Another tab changed this workshop").await;
        page.press("swatch-remove").await;
        let after = page
            .until_book("it goes on", |book| book.swatches.is_empty())
            .await;
        assert_eq!(
            (after.name.as_str(), book.swatches.len()),
            ("by the other tab", 1)
        );
        assert_eq!(page.kept_book(2).await, None);
        leave(page, &tabs).await;
    });
}

#[test]
fn a_book_that_did_not_hear_is_kept_as_a_copy() {
    on_the_page(async |page| {
        book::open(page).await;
        measured(page).await;
        unheard::<Workshop>(page, |book| book.renamed("theirs")).await;
        page.press("swatch-remove").await;
        page.until_said("Nothing is lost").await;
        let copy = page.kept_book(2).await.expect("the copy is kept");
        assert!(
            copy.name.contains("another tab changed it"),
            "{}",
            copy.name
        );
        assert_eq!(copy.swatches.len(), 0);
        let theirs = page.kept_book(1).await.expect("the other's is kept");
        assert_eq!((theirs.name.as_str(), theirs.swatches.len()), ("theirs", 1));
    });
}
