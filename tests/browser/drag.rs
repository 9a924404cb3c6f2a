//! Dragging a control point moves the figures, the class and the schedule, while the hand still holds it.

use taperwright::design::DraftPoint;
use taperwright::design::demo::demo;
use taperwright::edit::snap::{Guide, Snap};

use super::chart::Chart;
use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot};

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
    assert!(up.size > before.size && before.size > down.size);
    let head = |moment: &Moment| moment.chart.head_grains();
    assert!(head(&up) > head(&before) && head(&before) > head(&down));
    let most = |moment: &Moment| {
        let threads = moment.chart.threads.iter();
        let most = threads
            .map(|cell| cell.value.parse::<u32>().expect("a count"))
            .max();
        most.expect("there are cells")
    };
    assert!(most(&up) > most(&down));
}

async fn along(page: &Page, pointer: Pointer) {
    let [before, right, left] = there_and_back(page, pointer, (FAR, 0.0), "point-at").await;
    assert!(right.size > before.size && before.size > left.size);
    // A belly that begins later leaves more of the head to the thin taper.
    let head = |moment: &Moment| moment.chart.head_grains();
    assert!(right_of(&right) > right_of(&before) && right_of(&before) > right_of(&left));
    assert!(head(&right) < head(&before) && head(&before) < head(&left));
}

/// Where the second stretch of threads begins.
fn right_of(moment: &Moment) -> f64 {
    moment.chart.threads[1].from
}

/// What is seen at a moment of a drag.
struct Moment {
    chart: Chart,
    /// What the bar says of the class.
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
        page.chart().await.of_line(),
        back.chart.of_line(),
        "letting go changed the line"
    );
    assert!(page.state().await.shows(&kept), "kept is not what is shown");
    [before, there, back]
}

/// What is seen once the point is under the hand.
async fn moved(page: &Page, hand: &Hand<'_>, before: &Moment, field: &str) -> Moment {
    page.until_under(belly(), hand.at, tolerance(hand.pointer))
        .await;
    let label = page.words_of("[data-tag]").await;
    let now = moment(page, field).await;
    assert_ne!(now.chart.head, before.chart.head);
    assert_ne!(now.chart.threads, before.chart.threads);
    assert_ne!(now.verdict, before.verdict);
    let threads: Vec<&str> = now
        .chart
        .threads
        .iter()
        .map(|cell| cell.value.as_str())
        .collect();
    assert!(
        threads
            .iter()
            .any(|count| label.contains(&format!("{count} threads"))),
        "the label says “{label}”"
    );
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
        r"return document.querySelector('.shell [data-figure=class]').closest('button').innerText;";
    Moment {
        chart: page.chart().await,
        verdict: page.ask(verdict, vec![]).await,
        size: page
            .value(field)
            .await
            .parse()
            .expect("a field for a number"),
    }
}
