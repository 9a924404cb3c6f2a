//! The page opens with the figures that the core gives; a line follows the hand, the keyboard and what is typed.

use serde_json::json;
use taperwright::design::demo::demo;

use super::engine::Engine;
use super::gesture::{Pointer, belly, chord, drag, dragged};
use super::harness::until;
use super::page::Page;
use super::pool::{self, in_both_engines};
use super::shed::Shed;

in_both_engines!(opens, mouse, typing, keyboard);

/// A first visit shows the example with every figure and every row of its schedule as calculated here, keeps nothing, and is
/// asked by nobody to do anything.
async fn opens(_: &mut Shed, page: &Page) {
    assert!(page.state().await.shows(&demo()));
    assert!(page.storage().await.is_empty(), "looking alone kept it");
    assert_eq!(page.matching("[role=alert]:not(:empty)").await, 0);
}

/// A point dragged by the mouse changes the line, which is there again after the page is loaded again.
async fn mouse(_: &mut Shed, page: &Page) {
    kept_after_a_reload(page, Pointer::Mouse).await;
}

async fn kept_after_a_reload(page: &Page, pointer: Pointer) {
    let before = page.state().await;
    let (state, design) = dragged(page, pointer).await;
    assert_ne!(state, before);
    page.reload().await;
    assert_eq!(page.state().await, state);
    assert_eq!(page.kept().await, Some(design));
}

/// The same by a finger, which the page must tell from a mouse.
#[test]
fn finger_firefox() {
    pool::run(Engine::Firefox, async |_, page| {
        listen(page).await;
        drag(page, Pointer::Finger, belly(), (22.0, 13.0)).await;
        until_heard(page, "touch").await;
        kept_after_a_reload(page, Pointer::Finger).await;
    });
}

/// WebKit's driver turns a finger into a mouse: once it does not, the test above belongs to both engines.
#[test]
fn finger_webkit_is_a_mouse() {
    pool::run(Engine::WebKit, async |_, page| {
        listen(page).await;
        drag(page, Pointer::Finger, belly(), (22.0, 13.0)).await;
        until_heard(page, "mouse").await;
    });
}

/// Notes what kind of pointer comes down.
async fn listen(page: &Page) {
    page.point(belly()).await;
    let script = "window.heard = [];
        addEventListener('pointerdown', (event) => window.heard.push(event.pointerType), true);";
    page.run(script, vec![]).await;
}

async fn until_heard(page: &Page, kind: &str) {
    until("a pointer came down", async || {
        let heard: Vec<String> = page.ask("return window.heard;", vec![]).await;
        heard.first().map(|heard| assert_eq!(heard, kind))
    })
    .await;
}

/// What is typed is taken; what cannot be made is refused beside its field.
async fn typing(_: &mut Shed, page: &Page) {
    page.enter("point-size", "0.85").await;
    page.until_state("the belly is thinner", |now| {
        now.si("belly-diameter") < 0.9e-3
    })
    .await;
    page.enter("ends_per_thread", "many").await;
    page.until_there("[data-action=ends_per_thread][aria-invalid=true]")
        .await;
    page.enter("ends_per_thread", "14").await;
    page.until_state("the threads follow", |now| {
        now.events.iter().all(|row| row.ends == "14")
    })
    .await;
}

/// Changes are undone and made again by the keyboard, and what is kept goes along.
async fn keyboard(_: &mut Shed, page: &Page) {
    let (first, _) = dragged(page, Pointer::Mouse).await;
    let (second, design) = dragged(page, Pointer::Mouse).await;
    page.go_to("draw").await;
    // Where a field has the keyboard, these keys are those of the field.
    page.run("document.activeElement?.blur?.();", vec![json!(0)])
        .await;
    chord(page, 'z').await;
    page.until_state("it is undone", |now| *now == first).await;
    chord(page, 'y').await;
    page.until_state("it is made again", |now| *now == second)
        .await;
    page.reload().await;
    assert_eq!(page.kept().await, Some(design));
}
