//! A finger beside the handles scrolls the page, as everywhere else, and never bends the line.

use serde_json::json;

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
fn a_finger_beside_the_handles_scrolls_and_changes_nothing() {
    on_the_page(async |page| {
        let before = page.state().await;
        listen(page).await;
        let mut hand = Hand::press(page, Pointer::Finger, beside_the_handles(page).await);
        hand.glide((10.0, -90.0));
        until("the page scrolls", async || {
            let scrolled: f64 = page.ask("return scrollY;", vec![]).await;
            (scrolled > 0.0).then_some(())
        })
        .await;
        hand.let_go();
        until_heard(page, "pointercancel").await;
        assert_eq!(page.state().await, before);
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
