//! The page keeps a line from the first finished change on, and gives it back.

use serde_json::json;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::state::State;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::shelf::LINE_KEY;

#[test]
fn a_dragged_line_is_there_again_after_a_reload() {
    on_the_page(async |page| {
        let (dragged, design) = dragged(page).await;
        let storage = page.storage().await;
        page.reload().await;
        assert_eq!(page.state().await, dragged);
        assert_eq!(
            page.storage().await,
            storage,
            "opening alone wrote something"
        );
        assert_eq!(page.kept().await, Some(design));
    });
}

#[test]
fn a_first_visit_keeps_nothing_until_something_changes() {
    on_the_page(async |page| {
        assert!(page.state().await.shows(&demo()));
        page.press("card").await;
        page.press("card-close").await;
        page.reload().await;
        assert!(page.storage().await.is_empty());
        let (_, design) = dragged(page).await;
        assert_ne!(design, demo());
    });
}

/// Whoever finds a text that is no line must be told, must not lose it, and can go on.
#[test]
fn a_kept_text_that_cannot_be_read_is_never_written_over() {
    on_the_page(async |page| {
        let key = format!("{LINE_KEY}1/1-00000000000000aa-00000000");
        let text = "half a line";
        page.run(
            "localStorage.setItem(...arguments);",
            vec![json!(key), json!(text)],
        )
        .await;
        page.reload().await;
        page.until_said("cannot be read").await;
        assert!(page.state().await.shows(&demo()));
        dragged(page).await;
        assert_eq!(
            page.storage().await.get(&key).map(String::as_str),
            Some(text)
        );
    });
}

/// Drags the belly by mouse; returns what the page then shows, and what it keeps.
pub(super) async fn dragged(page: &Page) -> (State, Design) {
    let (before, kept) = (page.state().await, page.kept().await);
    let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
    hand.glide((22.0, 13.0));
    hand.let_go();
    let design = until("the drag is kept", async || {
        page.kept().await.filter(|now| Some(now) != kept.as_ref())
    })
    .await;
    let state = page
        .until_state("the kept line is shown", |state| state.shows(&design))
        .await;
    assert_ne!(state, before);
    (state, design)
}
