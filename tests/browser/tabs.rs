//! Two tabs of one browser on the same line, and on the same book: neither loses what the other did.

use fantoccini::wd::WindowHandle;

use super::book;
use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;

/// A tab that does not hear of the others: as one whose browser tells it late.
const DEAF: &str =
    "addEventListener('storage', (event) => event.stopImmediatePropagation(), true);";

/// Opens a second tab; gives the first and the second.
async fn two_tabs(page: &Page) -> [WindowHandle; 2] {
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

async fn turn_to(page: &Page, tab: &WindowHandle) {
    let turned = page.session.client.switch_to_window(tab.clone()).await;
    turned.expect("the tab is there");
}

async fn leave(page: &Page, tabs: &[WindowHandle; 2]) {
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
        page.run(DEAF, vec![]).await;
        let tabs = two_tabs(page).await;
        page.enter("point-size", "0.95").await;
        let theirs = until("the other tab's is kept", async || {
            let kept = page.kept_line(1).await?;
            (kept.taper().points()[2].diameter.millimetres() < 0.96).then_some(kept)
        })
        .await;
        turn_to(page, &tabs[0]).await;
        page.enter("point-size", "1.2").await;
        std::thread::sleep(std::time::Duration::from_secs(3));
        println!(
            "DBG {} {:#?}",
            page.text().await.chars().take(1500).collect::<String>(),
            page.storage()
                .await
                .iter()
                .map(|(k, v)| (k.clone(), v.chars().take(230).collect::<String>()))
                .collect::<Vec<_>>()
        );
        page.until_said("nothing is lost").await;
        let copy = page.kept_line(2).await.expect("the copy is kept");
        assert!(
            copy.title().contains("another tab changed it"),
            "{}",
            copy.title()
        );
        assert_eq!(copy.taper().points()[2].diameter.millimetres(), 1.2);
        assert_eq!(page.kept_line(1).await, Some(theirs));
        // The copy is open, and is what opens again.
        page.reload().await;
        assert_eq!(page.kept().await, Some(copy));
        leave(page, &tabs).await;
    });
}

#[test]
fn a_book_follows_too_and_parts_where_it_did_not_hear() {
    on_the_page(async |page| {
        book::open(page).await;
        page.press("new-swatch").await;
        page.until_book("the swatch is kept", |book| book.swatches.len() == 1)
            .await;
        let tabs = two_tabs(page).await;
        book::open(page).await;
        page.press("new-swatch").await;
        page.until_book("there are two", |book| book.swatches.len() == 2)
            .await;
        turn_to(page, &tabs[0]).await;
        page.until_said("Another tab changed this workshop").await;
        page.run(DEAF, vec![]).await;
        turn_to(page, &tabs[1]).await;
        page.press("new-swatch").await;
        page.until_book("there are three", |book| book.swatches.len() == 3)
            .await;
        turn_to(page, &tabs[0]).await;
        page.enter("swatch-length", "0.5").await;
        let copy = until("the copy is kept", async || page.kept_book(2).await).await;
        assert!(
            copy.name.contains("another tab changed it"),
            "{}",
            copy.name
        );
        assert_eq!(
            (copy.swatches.len(), copy.swatches[0].length_m),
            (2, Some(0.5))
        );
        assert_eq!(
            page.kept_book(1).await.map(|book| book.swatches.len()),
            Some(3)
        );
        leave(page, &tabs).await;
    });
}
