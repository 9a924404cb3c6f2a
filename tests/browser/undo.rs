//! Every finished change can be undone and made again, to the last digit, and what is kept goes along.

use fantoccini::key::Key;

use super::abort::halfway;
use super::gesture::{Hand, Pointer, chord, escape, strike};
use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;
use super::state::State;

#[test]
fn a_drag_is_undone_and_redone_as_one_change() {
    on_the_page(async |page| {
        let first = page.state().await;
        let (second, _) = dragged(page).await;
        let (third, _) = dragged(page).await;
        for (action, wanted) in [
            ("undo", &second),
            ("undo", &first),
            ("redo", &second),
            ("redo", &third),
        ] {
            page.press(action).await;
            shows_and_keeps(page, wanted).await;
        }
        assert!(!page.control("redo").await.is_enabled().await.unwrap());
        page.press("undo").await;
        shows_and_keeps(page, &second).await;
        // The steps outlast a reload, both ways.
        page.reload().await;
        assert_eq!(page.state().await, second);
        for (action, wanted) in [
            ("redo", &third),
            ("undo", &second),
            ("undo", &first),
            ("redo", &second),
        ] {
            page.press(action).await;
            shows_and_keeps(page, wanted).await;
        }
    });
}

/// Undoing with the hand still on the point takes back what it does, and no more; a slider that has the focus finishes
/// nothing of it.
#[test]
fn undoing_in_the_middle_of_a_drag_breaks_it_off() {
    on_the_page(async |page| {
        let (first, _) = dragged(page).await;
        page.go_to("draw").await;
        let seen = page.seen().await;
        let slider = "document.querySelector('[data-slider=size]').focus();";
        page.run(slider, vec![]).await;
        let mut hand = Hand::take(page, Pointer::Mouse, 3).await;
        hand.glide((0.0, -20.0));
        until("the line follows", async || {
            (page.seen().await != seen).then_some(())
        })
        .await;
        strike(page, Key::Shift).await;
        strike(page, Key::Right).await;
        chord(page, 'z').await;
        until("the drag is broken off", async || {
            (page.seen().await == seen).then_some(())
        })
        .await;
        hand.glide((0.0, -20.0));
        hand.let_go();
        assert_eq!(page.state().await, first);
        shows_and_keeps(page, &first).await;
        assert!(page.control("undo").await.is_enabled().await.unwrap());
    });
}

/// Another tab may have left steps of another state behind, or half a text: there is just nothing to undo then.
#[test]
fn steps_that_are_not_of_this_line_are_no_steps() {
    on_the_page(async |page| {
        let (state, _) = dragged(page).await;
        for text in ["half", "taperwright steps 1\n=AAAAz"] {
            let script = "localStorage.setItem('taperwright/steps/1', arguments[0]);";
            page.run(script, vec![serde_json::json!(text)]).await;
            page.reload().await;
            assert_eq!(page.state().await, state);
            assert!(!page.control("undo").await.is_enabled().await.unwrap());
        }
    });
}

#[test]
fn the_keyboard_undoes_and_redoes_too() {
    on_the_page(async |page| {
        let first = page.state().await;
        let (second, _) = dragged(page).await;
        chord(page, 'z').await;
        shows_and_keeps(page, &first).await;
        chord(page, 'y').await;
        shows_and_keeps(page, &second).await;
    });
}

#[test]
fn a_drag_that_was_broken_off_is_nothing_to_undo() {
    on_the_page(async |page| {
        let (before, hand) = halfway(page, Pointer::Mouse).await;
        escape(page).await;
        before.is_back(page).await;
        hand.let_go();
        assert!(!page.control("undo").await.is_enabled().await.unwrap());
    });
}

async fn shows_and_keeps(page: &Page, wanted: &State) {
    page.until_state("the change is made", |now| now == wanted)
        .await;
    until("the line shown is kept", async || {
        page.kept().await.filter(|design| wanted.shows(design))
    })
    .await;
}
