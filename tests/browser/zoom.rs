//! Looking closer: by wheel, by two fingers, by buttons; what is drawn and what is grabbed stay together.

use serde_json::json;

use super::drag::belly;
use super::gesture::{Hand, Pointer, escape, pinch, wheel};
use super::harness::{on_the_page, until};
use super::page::Page;

/// How many times larger thickness is drawn than length, as the chart says.
const TIMES: &str = r"
    const captions = [...document.querySelectorAll('.sight svg text.caption')].map((text) => text.textContent);
    return Number(captions.join(' ').match(/drawn (\d+) times/)[1]);";

/// Points whose rings are seen.
const SEEN: &str = r"
    return [...document.querySelectorAll('[data-point]')].filter((point) => point.getBoundingClientRect().width > 0)
        .map((point) => Number(point.dataset.point));";

#[test]
fn buttons_look_closer_along_and_back() {
    on_the_page(async |page| {
        let whole = times(page).await;
        assert!(!page.control("zoom-whole").await.is_enabled().await.unwrap());
        for _ in 0..3 {
            page.press("zoom-in").await;
        }
        // Each press looks 1.6 times closer; what is said is rounded to two figures.
        let closer = until_times(page, |now| now < whole / 3.0).await;
        assert!(
            (whole / closer / 1.6_f64.powi(3) - 1.0).abs() < 0.1,
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
        until_times(page, |now| now == whole).await;
    });
}

#[test]
fn the_wheel_looks_closer_where_it_is_and_ends_with_the_whole_line() {
    on_the_page(async |page| {
        let (whole, spot) = (times(page).await, page.point(belly()).await);
        wheel(page, spot, -240.0);
        until_times(page, |now| now < whole).await;
        let now = page.point(belly()).await;
        // What is under the pointer stays under it.
        assert!((now.0 - spot.0).abs() < 2.0, "{spot:?} to {now:?}");
        wheel(page, spot, 480.0);
        until_times(page, |now| now == whole).await;
        // Nothing left to see more of: the page is scrolled.
        wheel(page, spot, 240.0);
        until("the page scrolls", async || {
            let top: f64 = page.ask("return scrollY;", vec![]).await;
            (top > 0.0).then_some(())
        })
        .await;
        assert_eq!(times(page).await, whole);
    });
}

#[test]
fn two_fingers_beside_the_handles_look_closer() {
    on_the_page(async |page| {
        let before = page.state().await;
        let whole = times(page).await;
        let (a, b) = (page.point(belly()).await, page.point(belly() + 1).await);
        let (x, y) = (f64::midpoint(a.0, b.0), a.1 + 50.0);
        pinch(page, (x, y), 40.0, 120.0);
        let closer = until_times(page, |now| now < whole).await;
        assert!(
            (whole / closer / 3.0 - 1.0).abs() < 0.1,
            "{whole} to {closer}"
        );
        let scrolled: f64 = page.ask("return scrollY;", vec![]).await;
        assert_eq!(scrolled, 0.0);
        pinch(page, (x, y), 120.0, 40.0);
        until_times(page, |now| now == whole).await;
        assert_eq!(page.state().await, before);
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
        until("the point is under the hand", async || {
            let (x, _) = page.point(belly()).await;
            ((x - hand.at.0).abs() < 1.5).then_some(())
        })
        .await;
        let width: f64 = page
            .ask(
                "return document.querySelector(arguments[0]).getBoundingClientRect().width;",
                vec![json!(format!("[data-point='{}']", belly()))],
            )
            .await;
        assert!(width >= 47.9, "{width}");
        let after: f64 = page.value("point-at").await.parse().unwrap();
        // 20 px of some 640 that show a 25.9 m line 1.6² times closer. Analytic.
        assert!(
            (0.2..0.5).contains(&(after - before)),
            "{before} to {after}"
        );
        escape(page).await;
        hand.let_go();
    });
}

async fn times(page: &Page) -> f64 {
    page.ask(TIMES, vec![]).await
}

async fn until_times(page: &Page, wish: impl Fn(f64) -> bool) -> f64 {
    until("the chart looks so closely", async || {
        Some(times(page).await).filter(|&now| wish(now))
    })
    .await
}

async fn seen(page: &Page) -> Vec<usize> {
    page.ask(SEEN, vec![]).await
}
