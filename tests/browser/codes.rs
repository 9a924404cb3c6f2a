//! The code of a line is read off the screen and off the saved card, and opens the same line.
//!
//! Sources: ISO/IEC 18004 for codes; the reader is rqrr.

use serde_json::{Value, json};
use taperwright::design::demo::demo;
use taperwright::keep::share::link;

use super::gesture::escape;
use super::harness::{on_the_page, until};
use super::look::Look;
use super::page::Page;
use super::scan::Greys;
use super::views::SIZES;

/// Box of the code on the screen, its quiet zone left out, and the window.
const CODE: &str = r"
    const { left, top, right, bottom } = document.querySelector('[data-code=link] path').getBoundingClientRect();
    return [left, top, right, bottom, innerWidth, innerHeight];";

#[test]
fn a_fellow_maker_scans_the_code_off_the_screen() {
    on_the_page(async |page| {
        for (size, look) in SIZES.into_iter().zip([
            Look::Light,
            Look::Dark,
            Look::Bright,
            Look::Dark,
            Look::Light,
        ]) {
            look.set(page).await;
            page.take_size(size).await;
            page.open_sheet("share").await;
            page.until_there("[data-code=link]").await;
            let link = page.value("link").await;
            let codes = Greys::of_screen(page).codes();
            assert_eq!(codes, std::slice::from_ref(&link), "{size:?} {look:?}");
            let fragment = link.split_once('#').expect("a fragment").1;
            assert_eq!(link::decode(fragment), Some(Ok(demo())));
            page.press("share-close").await;
        }
    });
}

#[test]
fn the_code_is_large_on_every_screen() {
    on_the_page(async |page| {
        for size in SIZES {
            page.take_size(size).await;
            page.open_sheet("share").await;
            page.until_there("[data-code=link]").await;
            let [left, top, right, bottom, width, height]: [f64; 6] = page.ask(CODE, vec![]).await;
            let short = width.min(height);
            assert!(
                left >= 0.0 && top >= 0.0 && right <= width && bottom <= height,
                "{size:?}"
            );
            let least = if short < 600.0 { 0.6 * short } else { 380.0 };
            assert!(
                right - left >= least && bottom - top >= least,
                "{size:?}: {}",
                right - left
            );
            page.press("share-close").await;
        }
    });
}

#[test]
fn escape_puts_the_link_away_and_gives_the_keyboard_back() {
    on_the_page(async |page| {
        for focus in ["share", "link", "copy-link"] {
            page.press("share").await;
            page.until_there("[data-code=link]").await;
            page.run(
                "document.querySelector(`[data-action=${arguments[0]}]`).focus();",
                vec![json!(focus)],
            )
            .await;
            escape(page).await;
            page.until_gone("[data-code=link]").await;
            page.until_focused("[data-action=share]").await;
        }
    });
}

#[test]
fn the_devices_own_way_is_there_only_where_the_device_has_one() {
    on_the_page(async |page| {
        let has_one: bool = page.ask("return 'share' in navigator;", vec![]).await;
        assert!(
            !has_one,
            "this browser has a way of its own, so nothing is tried here"
        );
        page.press("share").await;
        page.until_there("[data-code=link]").await;
        assert_eq!(page.count("pass-on").await, 0);
    });
}

#[test]
fn a_link_is_passed_on_by_the_devices_own_way() {
    on_the_page(async |page| {
        with_a_way(page, "() => Promise.resolve()").await;
        page.press("pass-on").await;
        let passed: Value = until("it is passed on", async || {
            Some(page.ask::<Value>("return window.passed;", vec![]).await)
                .filter(|passed| !passed.is_null())
        })
        .await;
        assert_eq!(
            passed,
            json!({"title": demo().title(), "url": page.value("link").await})
        );
    });
}

#[test]
fn thinking_better_of_it_is_no_error_and_a_refusal_is_said() {
    on_the_page(async |page| {
        let refusal = "The device did not send it. Copy the link instead.";
        let abort = "() => Promise.reject(new DOMException('', 'AbortError'))";
        with_a_way(page, abort).await;
        page.press("pass-on").await;
        until("it is passed on", async || {
            page.ask::<bool>("return window.passed !== null;", vec![])
                .await
                .then_some(())
        })
        .await;
        assert!(!page.text().await.contains(refusal));
        page.press("share-close").await;
        for way in [
            "() => Promise.reject(new DOMException('', 'NotAllowedError'))",
            "() => { throw new TypeError(); }",
        ] {
            with_a_way(page, way).await;
            page.press("pass-on").await;
            page.until_said(refusal).await;
            page.press("share-close").await;
        }
    });
}

/// Gives the browser a way of passing on that does this, and opens the link.
async fn with_a_way(page: &Page, way: &str) {
    let script = format!(
        "window.passed = null;
        navigator.share = (what) => {{ window.passed = what; return ({way})(); }};"
    );
    page.run(&script, vec![]).await;
    page.press("share").await;
    page.until_there("[data-action=pass-on]").await;
}
