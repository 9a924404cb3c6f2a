//! Dragging a control point moves the figures, the class and the schedule, while the hand still holds it.

use taperwright::design::DraftPoint;
use taperwright::design::demo::demo;
use taperwright::edit::snap::{Guide, Snap};

use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot};
use super::state::State;

/// A drag that nobody would call a tremble, in pixels.
const FAR: f64 = 24.0;

#[test]
fn a_mouse_makes_the_belly_thicker_and_thinner() {
    on_the_page(async |page| across(page, Pointer::Mouse).await);
}

#[test]
fn a_finger_makes_the_belly_thicker_and_thinner() {
    on_the_page(async |page| across(page, Pointer::Finger).await);
}

#[test]
fn a_mouse_moves_the_belly_along_the_line() {
    on_the_page(async |page| along(page, Pointer::Mouse).await);
}

#[test]
fn a_finger_moves_the_belly_along_the_line() {
    on_the_page(async |page| along(page, Pointer::Finger).await);
}

/// A finger is broad: a drag sideways keeps the size to the last digit, and one upwards the place, until it means both.
#[test]
fn a_finger_keeps_to_the_direction_it_began_with() {
    on_the_page(async |page| {
        let from = demo().draft().points[belly()];
        let sideways = finger_drag(page, &[(30.0, 9.0)]).await;
        assert_eq!(sideways.diameter_mm.to_bits(), from.diameter_mm.to_bits());
        assert!(sideways.at_m > from.at_m);
        page.press("undo").await;
        page.at_rest().await;
        let upwards = finger_drag(page, &[(9.0, -30.0)]).await;
        assert_eq!(upwards.at_m.to_bits(), from.at_m.to_bits());
        assert!(upwards.diameter_mm > from.diameter_mm);
        let guides = Snap::default().of_finger().guides(&demo());
        let is_guide = |guide: &Guide| {
            // Half a step of the grid of diameters.
            (guide.diameter.millimetres() - upwards.diameter_mm).abs() <= 0.5e-4
        };
        assert!(
            guides.iter().any(is_guide),
            "{} is no whole thread",
            upwards.diameter_mm
        );
        page.press("undo").await;
        page.at_rest().await;
        let both = finger_drag(page, &[(40.0, 0.0), (0.0, -60.0)]).await;
        assert!(both.at_m > from.at_m && both.diameter_mm > from.diameter_mm);
    });
}

/// Drags the belly with a finger, and returns its point as it is kept.
async fn finger_drag(page: &Page, ways: &[Spot]) -> DraftPoint {
    let before = page.kept().await;
    let mut hand = Hand::take(page, Pointer::Finger, belly()).await;
    for &way in ways {
        hand.glide(way);
    }
    hand.let_go();
    let kept = until("the drag is kept", async || {
        page.kept().await.filter(|now| before.as_ref() != Some(now))
    })
    .await;
    kept.draft().points[belly()]
}

/// What nobody sees need not follow every move; but it does once the hand lets go, and as soon as it is seen.
#[test]
fn what_is_out_of_sight_follows_when_the_hand_lets_go_or_when_it_is_seen() {
    on_the_page(async |page| {
        let before = page.state().await;
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        hand.glide((0.0, -FAR));
        until("the class follows", async || {
            let now = page.state().await.figures;
            (now.get("class-off") != before.figures.get("class-off")).then_some(())
        })
        .await;
        assert_eq!(page.state().await.places(), before.places());
        page.run(
            "document.getElementById('schedule').scrollIntoView();",
            vec![],
        )
        .await;
        let seen = page
            .until_state("the schedule follows", |now| {
                now.places() != before.places()
            })
            .await;
        page.run("scrollTo(0, 0);", vec![]).await;
        hand.let_go();
        let kept = until("the drag is kept", async || page.kept().await).await;
        let after = page.state().await;
        assert!(after.shows(&kept));
        assert_eq!(after.places(), seen.places());
    });
}

/// The point where the demo's belly begins.
pub(super) fn belly() -> usize {
    let points = demo().draft().points.clone();
    let thickest = points
        .iter()
        .map(|point| point.diameter_mm)
        .fold(0.0, f64::max);
    let index = points
        .iter()
        .position(|point| point.diameter_mm == thickest);
    index.expect("one of the points is the thickest")
}

async fn across(page: &Page, pointer: Pointer) {
    let [before, up, down] = there_and_back(page, pointer, (0.0, -FAR), "point-size").await;
    let (thicker, thinner) = if up.size > before.size {
        (up, down)
    } else {
        (down, up)
    };
    assert!(thicker.size > before.size && before.size > thinner.size);
    for key in ["head-mass", "total-mass", "yarn-mass"] {
        assert!(thicker.state.si(key) > before.state.si(key), "{key}");
        assert!(before.state.si(key) > thinner.state.si(key), "{key}");
    }
}

async fn along(page: &Page, pointer: Pointer) {
    let [before, right, left] = there_and_back(page, pointer, (FAR, 0.0), "point-at").await;
    assert!(right.size > before.size && before.size > left.size);
    // A belly that begins later leaves more of the head to the thin taper.
    assert!(right.state.si("head-mass") < before.state.si("head-mass"));
    assert!(left.state.si("head-mass") > before.state.si("head-mass"));
    assert!(right.state.places()[1] > left.state.places()[1]);
}

/// What is seen at a moment of a drag.
struct Moment {
    state: State,
    verdict: String,
    /// The number in the field that the drag is about.
    size: f64,
}

/// Drags the belly one way, then as far the other way, and lets go. Returns what was seen before and, with the pointer
/// still down, at both ends.
async fn there_and_back(page: &Page, pointer: Pointer, way: Spot, field: &str) -> [Moment; 3] {
    let before = moment(page, field).await;
    let mut hand = Hand::take(page, pointer, belly()).await;
    hand.glide(way);
    let there = moved(page, &hand, &before, field).await;
    hand.glide((-2.0 * way.0, -2.0 * way.1));
    let back = moved(page, &hand, &there, field).await;
    assert!(
        page.storage().await.is_empty(),
        "kept before it was finished"
    );
    hand.let_go();
    let kept = until("the drag is kept", async || page.kept().await).await;
    assert_eq!(
        page.state().await,
        back.state,
        "letting go changed the line"
    );
    assert!(back.state.shows(&kept), "kept is not what is shown");
    [before, there, back]
}

/// What is seen once the point is under the hand.
async fn moved(page: &Page, hand: &Hand<'_>, before: &Moment, field: &str) -> Moment {
    until("the point is under the hand", async || {
        let (x, y) = page.point(belly()).await;
        ((x - hand.at.0).hypot(y - hand.at.1) < tolerance(hand.pointer)).then_some(())
    })
    .await;
    let now = moment(page, field).await;
    assert_ne!(now.state.si("head-mass"), before.state.si("head-mass"));
    assert_ne!(now.state.places(), before.state.places());
    assert_ne!(now.verdict, before.verdict);
    now
}

/// How far from the hand the point may be, in pixels. A finger moves it to whole threads, and to no more than the machine has.
fn tolerance(pointer: Pointer) -> f64 {
    match pointer {
        Pointer::Mouse | Pointer::Pen => 1.5,
        Pointer::Finger => FAR,
    }
}

async fn moment(page: &Page, field: &str) -> Moment {
    let verdict =
        r"return document.querySelector('[data-figure=class]').closest('section').innerText;";
    Moment {
        state: page.state().await,
        verdict: page.ask(verdict, vec![]).await,
        size: page
            .value(field)
            .await
            .parse()
            .expect("a field for a number"),
    }
}
