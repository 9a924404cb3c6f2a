//! A newer build is offered, never forced: it comes with the next opening, or when somebody takes it, and never under a hand.

use std::fs;

use fantoccini::wd::WindowHandle;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::until;
use super::memory::dragged;
use super::page::Page;
use super::shed::{Shed, in_a_shed};

const OFFER: &str = "[data-action=use-newer]";
/// Class and weight, which follow a drag.
const CLASS: &str = ".class-button";

#[test]
fn taken_in_one_tab_it_comes_to_the_other_when_nothing_is_under_a_hand() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let (first, old) = (page.window().await, page.build().await);
        let second = page.another_window().await;
        let (_, design) = dragged(&page).await;
        shed.rebuild("b");
        page.back_online().await;
        // Offered in both, forced on neither.
        page.until_there(OFFER).await;
        page.look_at(&first).await;
        page.until_there(OFFER).await;
        assert_eq!(page.build().await, old);
        assert_eq!(page.caches().await.len(), 2, "both builds are there");
        // A hand is on the line in one; the other takes the new version.
        page.look_at(&second).await;
        let resting = page.words_of(CLASS).await;
        let mut hand = Hand::take(&page, Pointer::Mouse, belly()).await;
        hand.glide((-18.0, 9.0));
        let during = until("the drag shows", async || {
            Some(page.words_of(CLASS).await).filter(|words| *words != resting)
        })
        .await;
        page.look_at(&first).await;
        page.bring(OFFER).await;
        page.press("use-newer").await;
        let new = page.until_not(&old).await;
        assert_eq!(page.kept().await.as_ref(), Some(&design));
        assert_eq!(page.caches().await.len(), 2, "an open page lost its build");
        page.look_at(&second).await;
        page.until_said("when you have finished your entry").await;
        assert_eq!(page.build().await, old, "it was not left in peace");
        assert_eq!(page.words_of(CLASS).await, during);
        let kept = page.kept().await;
        hand.let_go();
        assert_eq!(page.until_not(&old).await, new);
        let done = until("the drag is kept", async || {
            page.kept().await.filter(|now| Some(now) != kept.as_ref())
        })
        .await;
        assert_eq!(page.words_of(CLASS).await, during);
        assert!(page.state().await.shows(&done));
        // Nobody is left with the old build.
        let only = until("the old build is put away", async || {
            Some(page.caches().await).filter(|names| names.len() == 1)
        })
        .await;
        assert!(only[0].ends_with(&new), "{only:?}");
        shed.disconnect();
        for window in [&first, &second] {
            page.look_at(window).await;
            page.reload().await;
            assert_eq!(page.build().await, new);
        }
        assert!(page.state().await.shows(&done));
        dragged(&page).await;
        page.leave().await;
    });
}

/// What was typed and not understood is still there to be put right.
#[test]
fn what_is_being_typed_is_left_in_peace() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let (first, old) = (page.window().await, page.build().await);
        let second = page.another_window().await;
        page.enter("point-size", "thick").await;
        page.until_there("[aria-invalid=true]").await;
        taken_elsewhere(shed, &page, &first, &second).await;
        page.until_said("when you have finished your entry").await;
        assert_eq!(page.value("point-size").await, "thick");
        page.enter("point-size", "1.1").await;
        page.until_gone("[aria-invalid=true]").await;
        let design = page.kept().await.expect("the number was entered");
        page.run("document.activeElement.blur();", vec![]).await;
        page.until_not(&old).await;
        assert!(page.state().await.shows(&design));
        page.leave().await;
    });
}

/// Whoever stands at the machine is not thrown out of a sheet.
#[test]
fn a_sheet_stays_open_until_it_is_put_away() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let (first, old) = (page.window().await, page.build().await);
        let second = page.another_window().await;
        page.press("card").await;
        page.until_there(".card-desk.shown").await;
        taken_elsewhere(shed, &page, &first, &second).await;
        assert_eq!(page.matching(".card-desk.shown").await, 1);
        page.press("card-close").await;
        page.until_not(&old).await;
        page.leave().await;
    });
}

/// In the first window a newer build is taken; the second hears of it, has time to act, and is still of the old one.
async fn taken_elsewhere(shed: &Shed, page: &Page, first: &WindowHandle, second: &WindowHandle) {
    let old = page.build().await;
    shed.rebuild("b");
    page.back_online().await;
    page.until_there("[data-offline=newer]").await;
    page.look_at(first).await;
    page.until_there(OFFER).await;
    page.bring(OFFER).await;
    page.press("use-newer").await;
    page.until_not(&old).await;
    page.look_at(second).await;
    page.until_there("[data-offline=taken]").await;
    let while_it_looks_twice = "setTimeout(arguments[0], 1200);";
    let client = &page.session.client;
    let waited = client.execute_async(while_it_looks_twice, vec![]).await;
    waited.expect("the page is still there");
    assert_eq!(page.build().await, old, "it was not left in peace");
}

#[test]
fn opening_the_page_again_gets_the_newest_build() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let mut build = page.build().await;
        for note in ["b", "c"] {
            shed.rebuild(note);
            page.reload().await;
            build = page.until_not(&build).await;
            is_alone(&page, &build).await;
        }
        shed.disconnect();
        page.reload().await;
        assert_eq!(page.build().await, build);
        page.leave().await;
    });
}

/// An earlier build that is served again counts as the newest.
#[test]
fn a_build_taken_back_is_taken_back_for_all() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let first = page.build().await;
        fs::rename(shed.dist(), shed.file("first")).expect("a folder can be moved");
        shed.copy_back("first");
        shed.rebuild("b");
        page.reload().await;
        page.until_not(&first).await;
        fs::remove_dir_all(shed.dist()).expect("a folder can be removed");
        shed.copy_back("first");
        page.reload().await;
        assert_eq!(page.build().await, first);
        shed.disconnect();
        page.reload().await;
        assert_eq!(page.build().await, first);
        page.leave().await;
    });
}

/// In the middle of an upload, or after one that broke off, the page stays what it was, whole.
#[test]
fn half_a_build_is_none() {
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        page.until_ready().await;
        let build = page.build().await;
        shed.rebuild("b");
        let missing = shed
            .dist()
            .join(format!("style-{:016x}.css", u64::from(b'b')));
        let aside = shed.file("aside.css");
        fs::rename(&missing, &aside).expect("a file can be moved");
        page.reload().await;
        assert_eq!(page.build().await, build);
        dragged(&page).await;
        shed.disconnect();
        page.reload().await;
        assert_eq!(page.build().await, build);
        assert_eq!(page.matching(OFFER).await, 0);
        fs::rename(&aside, &missing).expect("a file can be moved");
        shed.connect();
        page.reload().await;
        page.until_not(&build).await;
        page.leave().await;
    });
}

async fn is_alone(page: &Page, build: &str) {
    until("only this build is kept", async || {
        let names = page.caches().await;
        (names.len() == 1 && names[0].ends_with(build)).then_some(())
    })
    .await;
}
