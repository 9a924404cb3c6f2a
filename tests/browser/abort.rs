//! A drag that is broken off leaves everything as it was, to the last digit.

use super::chart::Chart;
use super::drag::belly;
use super::gesture::{Hand, Pointer, escape};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot, Storage};
use super::touch::{beside_the_handles, listen, until_heard};

/// A drag in both directions at once, in pixels.
const WAY: Spot = (30.0, 20.0);

#[test]
fn escape_puts_a_mouse_drag_back() {
    on_the_page(async |page| {
        let (before, mut hand) = halfway(page, Pointer::Mouse).await;
        escape(page).await;
        before.is_back(page).await;
        hand.glide(WAY);
        hand.let_go();
        until_heard(page, "pointerup").await;
        before.is_still_there(page).await;
    });
}

#[test]
fn a_second_finger_beside_the_handles_puts_a_drag_back() {
    on_the_page(async |page| {
        let elsewhere = beside_the_handles(page).await;
        second_finger(page, elsewhere).await;
    });
}

#[test]
fn a_second_finger_on_another_handle_puts_a_drag_back() {
    on_the_page(async |page| {
        let other = page.point(belly() + 1).await;
        second_finger(page, other).await;
    });
}

#[test]
fn a_touch_that_the_system_takes_away_puts_a_drag_back() {
    on_the_page(async |page| {
        let (before, hand) = halfway(page, Pointer::Finger).await;
        hand.taken_away();
        before.is_back(page).await;
        until_heard(page, "pointercancel").await;
        before.is_still_there(page).await;
    });
}

#[test]
fn after_a_drag_put_back_the_next_one_counts() {
    on_the_page(async |page| {
        let (before, hand) = halfway(page, Pointer::Mouse).await;
        escape(page).await;
        before.is_back(page).await;
        hand.let_go();
        let (_, hand) = halfway(page, Pointer::Mouse).await;
        let during = page.chart().await;
        hand.let_go();
        let kept = until("the drag is kept", async || page.kept().await).await;
        assert_eq!(page.chart().await.of_line(), during.of_line());
        assert!(page.state().await.shows(&kept));
    });
}

async fn second_finger(page: &Page, at: Spot) {
    let (before, hand) = halfway(page, Pointer::Finger).await;
    hand.add_finger(at);
    before.is_back(page).await;
    hand.let_go();
    until_heard(page, "pointerup").await;
    before.is_still_there(page).await;
}

/// What was there before a drag.
pub(super) struct Before {
    chart: Chart,
    storage: Storage,
    point: Spot,
}

impl Before {
    pub(super) async fn is_back(&self, page: &Page) {
        page.until_chart("the line is as before", |now| *now == self.chart)
            .await;
        assert_eq!(page.point(belly()).await, self.point);
    }

    async fn is_still_there(&self, page: &Page) {
        assert_eq!(page.chart().await, self.chart);
        assert_eq!(page.storage().await, self.storage);
    }
}

/// A hand that has dragged the belly somewhere and still holds it.
pub(super) async fn halfway(page: &Page, pointer: Pointer) -> (Before, Hand<'_>) {
    listen(page).await;
    let before = Before {
        chart: page.chart().await,
        storage: page.storage().await,
        point: page.point(belly()).await,
    };
    let mut hand = Hand::take(page, pointer, belly()).await;
    hand.glide(WAY);
    page.until_chart("the drag shows", |now| now.head != before.chart.head)
        .await;
    (before, hand)
}
