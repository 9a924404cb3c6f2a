//! What the first use does not need comes in a second file of the program. Where that does not come, it is said, the rest of the
//! page works, and it can be tried again.

use std::fs;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::until;
use super::shed::in_a_shed;

const AGAIN: &str = "[data-action=try-again]";
/// What is said where a part is missing.
const SAID: &str = "A part of this page did not load.";

#[test]
fn a_second_file_that_does_not_come_is_said_and_comes_when_it_is_tried_again() {
    in_a_shed(async |shed| {
        let file = shed.dist().join(shed.file_of("later-"));
        let aside = shed.file("aside.wasm");
        fs::rename(&file, &aside).expect("a file can be moved");
        let page = shed.visitor().await;
        page.until_there(&format!(".messages {AGAIN}")).await;
        // The drawing works, and what is drawn is kept.
        let mut hand = Hand::take(&page, Pointer::Mouse, belly()).await;
        hand.glide((22.0, 13.0));
        hand.let_go();
        let design = until("the drag is kept", async || page.kept().await).await;
        page.press_at("[data-place=threads]").await;
        page.until_there(&format!("[data-shows=threads] {AGAIN}"))
            .await;
        page.until_said(SAID).await;
        // A sheet that cannot be shown says so, and can be closed.
        page.press("share").await;
        page.until_there(&format!(".share-desk.shown {AGAIN}"))
            .await;
        page.press_at(&format!(".share-desk {AGAIN}")).await;
        page.until_there(&format!(".share-desk.shown {AGAIN}"))
            .await;
        page.press("share-close").await;
        page.until_gone(".share-desk.shown").await;

        fs::rename(&aside, &file).expect("a file can be moved");
        page.press_at(&format!("[data-shows=threads] {AGAIN}"))
            .await;
        page.until_there("[data-shows=threads] [data-event]").await;
        page.until_gone(AGAIN).await;
        page.press("share").await;
        page.until_there(".share-desk.shown").await;
        page.press("share-close").await;
        page.until_state("the line drawn is shown", |state| state.shows(&design))
            .await;
        page.leave().await;
    });
}
