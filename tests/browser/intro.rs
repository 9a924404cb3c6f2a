//! The first steps: told to a newcomer, as high at every step and low enough to leave the chart in sight, gone for good
//! once put away, and there again when asked for.

use serde_json::json;

use super::cdp::Size;
use super::harness::{on_the_page, until};
use super::page::Page;

/// Height of the steps, the chart's edges, and the window's height.
const PLACES: &str = r"
    const box = (what) => document.querySelector(what).getBoundingClientRect();
    const [steps, chart] = [box('#intro'), box('.chart')];
    return [steps.height, steps.bottom, chart.top, chart.bottom, innerHeight, innerWidth];";

const STEPS: &str = "#intro";

async fn places(page: &Page) -> [f64; 6] {
    page.ask(PLACES, vec![]).await
}

async fn step(page: &Page, number: usize) {
    let wanted = format!("{number} of 3");
    until("the step is told", async || {
        page.words_of(STEPS).await.contains(&wanted).then_some(())
    })
    .await;
}

#[test]
fn a_newcomer_is_led_through_three_steps() {
    on_the_page(async |page| {
        let mut told = Vec::new();
        for number in 1..=3 {
            step(page, number).await;
            told.push(page.words_of(&format!("{STEPS} p")).await);
            page.press("intro-next").await;
        }
        step(page, 3).await;
        for (words, wanted) in told.iter().zip([
            ["ring", "drag"].as_slice(),
            &["Class", "threads", "gear", "weight", "exact"],
            &["card", "share", "kept in this browser"],
        ]) {
            for word in wanted {
                assert!(words.contains(word), "{words} says nothing of {word}");
            }
        }
        for number in [2, 1, 1] {
            page.press("intro-back").await;
            step(page, number).await;
        }
    });
}

#[test]
fn what_was_put_away_stays_away_until_it_is_asked_for() {
    on_the_page(async |page| {
        page.until_there(STEPS).await;
        page.reload().await;
        page.until_there(STEPS).await;
        page.press("intro-next").await;
        page.press("intro-done").await;
        page.until_gone(STEPS).await;
        page.reload().await;
        assert_eq!(page.matching(STEPS).await, 0, "it came back by itself");
        page.press("intro-again").await;
        step(page, 1).await;
        until("the steps are in sight and have the keyboard", async || {
            let script = r"
                const { top, bottom } = document.querySelector(arguments[0]).getBoundingClientRect();
                const at = document.activeElement.dataset.action;
                return top >= 0 && bottom <= innerHeight && at === 'intro-next';";
            page.ask::<bool>(script, vec![json!(STEPS)]).await.then_some(())
        })
        .await;
        page.press("intro-done").await;
        page.until_gone(STEPS).await;
    });
}

#[test]
fn the_steps_leave_the_chart_in_sight_and_do_not_spring() {
    const SIZES: [(Size, f64); 4] = [
        ((1180, 820), 70.0),
        ((820, 1180), 70.0),
        ((390, 844), 120.0),
        ((360, 800), 120.0),
    ];
    on_the_page(async |page| {
        for (size, most) in SIZES {
            page.session.resize(size);
            until("the window has its size", async || {
                let is_now = places(page).await[5] == f64::from(size.0);
                is_now.then_some(())
            })
            .await;
            page.point(0).await;
            let first = places(page).await;
            let [height, bottom, top, end, window, _] = first;
            assert!(height <= most, "{size:?}: {height}");
            assert!(bottom <= top, "{size:?}: the chart is covered");
            // The smallest phone scrolls a little; its chart begins well in sight.
            let in_sight = if size.0 == 360 { top + 200.0 } else { end };
            assert!(in_sight <= window, "{size:?}: {first:?}");
            for number in [2, 3] {
                page.press("intro-next").await;
                step(page, number).await;
                assert_eq!(places(page).await, first, "{size:?}: step {number}");
            }
            for number in [2, 1] {
                page.press("intro-back").await;
                step(page, number).await;
            }
        }
    });
}
