//! The first hint: told to a newcomer beside the drawing, gone for good with the first change or once it is closed, and there
//! again when asked for.

use super::gesture::{Hand, Pointer};
use super::harness::on_the_page;
use super::memory::dragged;
use super::page::Page;
use super::views::SIZES;

const HINT: &str = "[data-intro]";

/// Whether the hint covers a control point, and whether it lies within the window.
const LIES_WELL: &str = r"
    const hint = document.querySelector('[data-intro]').getBoundingClientRect();
    const covers = [...document.querySelectorAll('[data-point]')].some((point) => {
        const { x, y, width, height } = point.getBoundingClientRect();
        const at = document.elementFromPoint(x + width / 2, y + height / 2);
        return !!at?.closest('[data-intro]');
    });
    const isInside = hint.left >= 0 && hint.top >= 0 && hint.right <= innerWidth && hint.bottom <= innerHeight;
    return !covers && isInside;";

async fn stays_away(page: &Page) {
    page.until_gone(HINT).await;
    page.reload().await;
    assert_eq!(page.matching(HINT).await, 0, "it came back by itself");
}

#[test]
fn the_hint_leaves_with_the_first_change_and_stays_away() {
    on_the_page(async |page| {
        page.until_there(HINT).await;
        page.reload().await;
        page.until_there(HINT).await;
        // A drag that is broken off is no change.
        let mut hand = Hand::take(page, Pointer::Finger, 2).await;
        hand.glide((0.0, -30.0));
        hand.taken_away();
        page.until_drawn().await;
        page.until_there(HINT).await;
        dragged(page).await;
        stays_away(page).await;
    });
}

#[test]
fn the_hint_is_closed_and_comes_back_when_it_is_asked_for() {
    on_the_page(async |page| {
        page.press("intro-done").await;
        stays_away(page).await;
        page.go_to("weigh").await;
        page.press("intro-again").await;
        page.until_there(HINT).await;
        let place = "return document.documentElement.dataset.place;";
        assert_eq!(page.ask::<String>(place, vec![]).await, "draw");
        assert_eq!(page.matching(".over.shown").await, 0);
        page.press("intro-done").await;
        stays_away(page).await;
    });
}

/// It says what to do: what is drawn as a ring is dragged.
#[test]
fn the_hint_names_what_is_dragged_and_what_follows() {
    on_the_page(async |page| {
        let words = page.words_of(HINT).await;
        for word in ["ring", "rag", "class"] {
            assert!(words.contains(word), "“{words}” says nothing of {word}");
        }
    });
}

#[test]
fn the_hint_leaves_every_point_to_the_hand() {
    on_the_page(async |page| {
        for size in SIZES {
            page.take_size(size).await;
            assert!(page.ask::<bool>(LIES_WELL, vec![]).await, "{size:?}");
        }
    });
}
