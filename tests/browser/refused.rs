//! What was typed and refused is shown before its sheet is closed or its place is left: nothing typed is thrown away unseen.

use taperwright::page::places::Place;

use super::gesture::escape;
use super::harness::on_the_page;
use super::places::{history, is_at, tap};

#[test]
fn what_was_refused_in_a_sheet_is_shown_before_it_is_closed() {
    on_the_page(async |page| {
        page.press("workshop-sheet").await;
        page.enter("ends_per_thread", "many").await;
        page.until_there("[data-action=ends_per_thread][aria-invalid=true]")
            .await;
        for way in ["button", "escape"] {
            page.press("workshop-sheet-close").await;
            if way == "escape" {
                // The first takes back what was typed in the field, where the keyboard is now.
                escape(page).await;
                page.until_gone("[aria-invalid=true]").await;
                page.until_there(".over.shown").await;
            } else {
                page.until_focused("[data-action=ends_per_thread]").await;
                assert_eq!(page.value("ends_per_thread").await, "many");
                assert_eq!(page.matching(".over.shown").await, 1);
            }
        }
    });
}

#[test]
fn what_was_refused_at_braid_is_shown_before_it_is_left() {
    on_the_page(async |page| {
        page.go_to("braid").await;
        page.press("run-begin").await;
        page.unfold("mishaps").await;
        page.enter("mishap-skipped", "many").await;
        let wrong = "[data-action=mishap-skipped][aria-invalid=true]";
        page.until_there(wrong).await;
        tap(page, Place::Dress).await;
        page.until_focused(wrong).await;
        is_at(page, Place::Braid).await;
        history(page, -1).await;
        page.until_focused(wrong).await;
        is_at(page, Place::Braid).await;
        page.enter("mishap-skipped", "").await;
        page.until_gone(wrong).await;
        tap(page, Place::Dress).await;
        is_at(page, Place::Dress).await;
    });
}
