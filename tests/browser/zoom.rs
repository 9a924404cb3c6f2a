//! Looking closer, and folding: by wheel, by two fingers, by buttons; what is drawn and what is grabbed stay together.

use serde_json::json;
use taperwright::design::demo::demo;

use super::drag::belly;
use super::gesture::{Hand, Pointer, escape, pinch, wheel};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot};

/// Notes whether the chart takes a turn of the wheel for itself.
const LISTEN: &str =
    "addEventListener('wheel', (event) => { window.taken = event.defaultPrevented; });";

/// Points whose rings are seen.
const SEEN: &str = r"
    return [...document.querySelectorAll('[data-point]')].filter((point) => point.getBoundingClientRect().width > 0)
        .map((point) => Number(point.dataset.point));";

#[test]
fn buttons_look_closer_along_and_back() {
    on_the_page(async |page| {
        let whole = page.per_metre().await;
        assert!(!page.control("zoom-whole").await.is_enabled().await.unwrap());
        for _ in 0..3 {
            page.press("zoom-in").await;
        }
        // Each press looks 1.6 times closer.
        let closer = until_closer(page, |now| now > whole * 3.0).await;
        assert!(
            (closer / whole / 1.6_f64.powi(3) - 1.0).abs() < 1e-6,
            "{whole} to {closer}"
        );
        assert!(
            seen(page).await.contains(&belly()),
            "the chosen point is out of sight"
        );
        assert!(!seen(page).await.contains(&(belly() + 1)));
        for _ in 0..12 {
            if page
                .control("zoom-endward")
                .await
                .is_enabled()
                .await
                .unwrap()
            {
                page.press("zoom-endward").await;
            }
        }
        assert!(!seen(page).await.contains(&belly()));
        assert!(seen(page).await.contains(&(belly() + 3)));
        page.press("zoom-whole").await;
        until_closer(page, |now| now == whole).await;
    });
}

#[test]
fn the_wheel_looks_closer_where_it_is_and_ends_with_the_whole_line() {
    on_the_page(async |page| {
        let (whole, spot) = (page.per_metre().await, page.point(belly()).await);
        wheel(page, spot, -240.0);
        until_closer(page, |now| now > whole).await;
        let now = page.point(belly()).await;
        // What is under the pointer stays under it.
        assert!((now.0 - spot.0).abs() < 2.0, "{spot:?} to {now:?}");
        wheel(page, spot, 480.0);
        until_closer(page, |now| now == whole).await;
        // Nothing left to see more of: the wheel is the page's again.
        page.run(LISTEN, vec![]).await;
        wheel(page, spot, 240.0);
        let is_taken: bool = until("the wheel is heard", async || {
            page.ask("return window.taken ?? null;", vec![]).await
        })
        .await;
        assert!(!is_taken);
        assert_eq!(page.per_metre().await, whole);
    });
}

#[test]
fn two_fingers_beside_the_handles_look_closer() {
    on_the_page(async |page| {
        let before = page.chart().await;
        let whole = page.per_metre().await;
        let (a, b) = (page.point(belly()).await, page.point(belly() + 1).await);
        let (x, y) = (f64::midpoint(a.0, b.0), a.1 + 50.0);
        pinch(page, (x, y), 40.0, 120.0);
        let closer = until_closer(page, |now| now > whole * 2.5).await;
        assert!(
            (closer / whole / 3.0 - 1.0).abs() < 0.1,
            "{whole} to {closer}"
        );
        pinch(page, (x, y), 120.0, 40.0);
        until_closer(page, |now| now == whole).await;
        assert_eq!(page.chart().await, before);
    });
}

#[test]
fn a_point_is_dragged_as_exactly_when_looked_at_closely() {
    on_the_page(async |page| {
        page.press("zoom-in").await;
        page.press("zoom-in").await;
        let before: f64 = page.value("point-at").await.parse().unwrap();
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        hand.glide((20.0, 0.0));
        page.until_under(belly(), hand.at, 1.5).await;
        let width: f64 = page
            .ask(
                "return document.querySelector(arguments[0]).getBoundingClientRect().width;",
                vec![json!(format!("[data-point='{}']", belly()))],
            )
            .await;
        assert!(width >= 47.9, "{width}");
        let after: f64 = page.value("point-at").await.parse().unwrap();
        // 20 px, and as much as a point snaps by. Analytic.
        let moved = 20.0 / page.per_metre().await;
        assert!(
            ((after - before) / moved - 1.0).abs() < 0.15,
            "{before} to {after} is not {moved}"
        );
        escape(page).await;
        hand.let_go();
    });
}

async fn until_closer(page: &Page, wish: impl Fn(f64) -> bool) -> f64 {
    until("the chart looks so closely", async || {
        Some(page.per_metre().await).filter(|&now| wish(now))
    })
    .await
}

async fn seen(page: &Page) -> Vec<usize> {
    page.ask(SEEN, vec![]).await
}

/// The demo's belly is drawn short, with its length in the break. Unfolded, the whole line has one scale, and tapers less room; the
/// choice is kept for the next visit.
#[test]
fn level_parts_are_drawn_short_until_told_otherwise() {
    on_the_page(async |page| {
        let (folded, short) = (page.chart().await, page.per_metre().await);
        let points = demo().draft().points.clone();
        let level = points[belly() + 1].at_m - points[belly()].at_m;
        assert_eq!(folded.level, [format!("{level:.1} m")]);
        page.press("fold").await;
        let long = until_closer(page, |now| now < short).await;
        assert!(long < short / 2.0, "{short} to {long} px for a metre");
        let apart = |one: Spot, other: Spot| other.0 - one.0;
        let drawn = apart(page.point(belly()).await, page.point(belly() + 1).await);
        assert!((drawn / (level * long) - 1.0).abs() < 0.01, "{drawn} px");
        assert!(page.chart().await.level.is_empty());
        assert_eq!(page.chart().await.of_line(), folded.of_line());
        page.reload().await;
        let again = page.per_metre().await;
        assert!((again / long - 1.0).abs() < 1e-9, "the choice is forgotten");
        page.press("fold").await;
        until_closer(page, |now| (now / short - 1.0).abs() < 1e-9).await;
    });
}

/// A point is dragged through a break and back: it is under the hand all the way, and the paper stays.
#[test]
fn a_point_is_dragged_into_a_break() {
    on_the_page(async |page| {
        let (before, short) = (page.chart().await, page.per_metre().await);
        let from = page.point(belly()).await;
        let other = page.point(belly() + 1).await;
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        let way = f64::midpoint(from.0, other.0) - from.0;
        hand.glide((way, 0.0));
        page.until_under(belly(), hand.at, 2.0).await;
        let at: f64 = page.value("point-at").await.parse().unwrap();
        let points = demo().draft().points.clone();
        let (first, last) = (points[belly()].at_m, points[belly() + 1].at_m);
        // Half-way between them on the paper is half-way on the line, whatever the break hides.
        assert!((at / f64::midpoint(first, last) - 1.0).abs() < 0.25, "{at}");
        assert_eq!(page.per_metre().await, short, "the paper moved");
        hand.glide((-way, 0.0));
        page.until_under(belly(), hand.at, 2.0).await;
        escape(page).await;
        page.until_chart("all is as before", |now| *now == before)
            .await;
        hand.let_go();
    });
}

/// Thickness begins at a core that is not drawn, and its size is written in; true thickness shows more of the line and less of a step.
#[test]
fn the_core_is_not_drawn_until_told_otherwise() {
    on_the_page(async |page| {
        let cut = page.chart().await;
        assert_eq!(cut.core.len(), 1, "{:?}", cut.core);
        let height = async || page.point(belly()).await.1 - page.point(0).await.1;
        let short = height().await.abs();
        page.press("core").await;
        let whole = page
            .until_chart("nothing is left out", |now| now.core.is_empty())
            .await;
        assert!(height().await.abs() < short / 1.5, "steps are no lower");
        assert_eq!(whole.of_line(), cut.of_line());
        page.reload().await;
        assert!(
            page.chart().await.core.is_empty(),
            "the choice is forgotten"
        );
        page.press("core").await;
        page.until_chart("the core is left out", |now| now.core == cut.core)
            .await;
    });
}
