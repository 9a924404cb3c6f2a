//! A finger beside the handles is the page's, as everywhere else, and never bends the line.

use serde_json::json;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot};

/// Farther from any handle than a finger is thick, in pixels.
const BESIDE: f64 = 60.0;

/// Notes what pointers do anywhere on the page.
const LISTEN: &str = r"
    window.heard = [];
    for (const kind of ['pointerdown', 'pointerup', 'pointercancel']) {
        addEventListener(kind, () => window.heard.push(kind), true);
    }";

#[test]
fn a_finger_beside_the_handles_changes_nothing() {
    on_the_page(async |page| {
        let before = page.chart().await;
        listen(page).await;
        let mut hand = Hand::press(page, Pointer::Finger, beside_the_handles(page).await);
        hand.glide((10.0, -90.0));
        hand.let_go();
        until_over(page).await;
        assert_eq!(page.chart().await, before);
        assert!(page.storage().await.is_empty());
    });
}

/// Near a ring, and not on it, in pixels: a fingertip that aims beside it, or hits it with its edge.
const NEAR: Spot = (12.0, 16.0);

#[test]
fn a_swipe_that_begins_near_a_ring_changes_nothing() {
    on_the_page(async |page| {
        let before = page.chart().await;
        for way in [(8.0, -90.0), (-8.0, 40.0)] {
            let (x, y) = page.point(belly()).await;
            listen(page).await;
            let mut hand = Hand::press(page, Pointer::Finger, (x + NEAR.0, y + NEAR.1));
            hand.glide(way);
            hand.let_go();
            until_over(page).await;
            assert_eq!(page.chart().await, before);
            assert!(page.storage().await.is_empty());
        }
    });
}

/// Waits until a finger is gone: lifted, or taken by the browser to scroll.
async fn until_over(page: &Page) {
    until("the finger is gone", async || {
        let script = "return window.heard.some((kind) => kind !== 'pointerdown') || null;";
        page.ask::<Option<bool>>(script, vec![]).await
    })
    .await;
}

#[test]
fn a_finger_that_rests_near_a_ring_holds_it() {
    on_the_page(async |page| {
        let before = page.state().await;
        let (x, y) = page.point(belly()).await;
        let mut hand = Hand::press(page, Pointer::Finger, (x + NEAR.0, y + NEAR.1));
        page.until_there(&format!("[data-held-point='{}']", belly()))
            .await;
        hand.glide((0.0, -40.0));
        hand.let_go();
        let kept = until("the drag is kept", async || page.kept().await).await;
        let state = page
            .until_state("the line is thicker", |now| now.shows(&kept))
            .await;
        assert!(state.si("head-mass") > before.si("head-mass"));
        page.until_gone("[data-held-point]").await;
        let scrolled: f64 = page.ask("return scrollY;", vec![]).await;
        assert!(scrolled.abs() < 1.0, "the page scrolled by {scrolled}");
    });
}

/// A finger that only taps near a ring chooses its point, and moves nothing.
#[test]
fn a_tap_near_a_ring_chooses_its_point() {
    on_the_page(async |page| {
        let before = page.chart().await;
        let other = belly() + 1;
        let (x, y) = page.point(other).await;
        Hand::press(page, Pointer::Finger, (x + NEAR.0, y + NEAR.1)).let_go();
        page.until_said(&format!("Point {} of", other + 1)).await;
        assert_eq!(page.chart().await, before);
        assert!(page.storage().await.is_empty());
    });
}

/// A place on the drawing that the elements there agree is no handle.
pub(super) async fn beside_the_handles(page: &Page) -> Spot {
    let script = r"
        const drawing = document.querySelector('[data-point]').ownerSVGElement.getBoundingClientRect();
        const points = [...document.querySelectorAll('[data-point]')].map((p) => p.getBoundingClientRect());
        const [x, away] = [drawing.x + drawing.width / 2, arguments[0]];
        for (let y = drawing.y + away; y < drawing.bottom; y += 5) {
            const near = points.some((p) => Math.hypot(p.x + p.width / 2 - x, p.y + p.height / 2 - y) < away);
            if (!near && document.elementFromPoint(x, y)?.closest('svg')) return [x, y];
        }
        return null;";
    let spot: Option<Spot> = page.ask(script, vec![json!(BESIDE)]).await;
    spot.expect("the drawing has room beside its handles")
}

/// Starts to note what pointers do.
pub(super) async fn listen(page: &Page) {
    page.run(LISTEN, vec![]).await;
}

/// Waits until a pointer has done something since the page listens.
pub(super) async fn until_heard(page: &Page, kind: &str) {
    until(&format!("a {kind} is heard"), async || {
        let script = "return window.heard.includes(arguments[0]) || null;";
        page.ask::<Option<bool>>(script, vec![json!(kind)]).await
    })
    .await;
}
