//! A new line starts from a ready drawing, by key or by touch; the line before it stays kept. What cannot be had says why
//! and changes nothing.

use fantoccini::key::Key;
use serde_json::json;
use taperwright::base::choice::Choice as _;
use taperwright::braid::weight::Class;
use taperwright::design::Design;
use taperwright::edit::starts::Start;

use super::gesture::{Hand, Pointer, chord, escape, strike};
use super::harness::{on_the_page, until};
use super::kept;
use super::memory::dragged;
use super::page::{Page, Spot};

/// Which control has the focus, and to which drawing it belongs.
const FOCUS: &str = r"
    const { action, start } = document.activeElement.dataset;
    return [action ?? '', start ?? ''];";

/// Centre of a drawing's button, brought into view.
const BUTTON: &str = r#"
    const button = document.querySelector(`[data-start="${arguments[0]}"]`);
    button.scrollIntoView({ block: "center" });
    const { x, y, width, height } = button.getBoundingClientRect();
    return [x + width / 2, y + height / 2];"#;

/// Which drawing an alert stands beside, and what of it can be seen.
const SAID: &str = r#"
    const alert = document.querySelector('dialog [role="alert"]');
    if (!alert) return null;
    const { top, bottom } = alert.getBoundingClientRect();
    const start = alert.closest("li").querySelector("[data-start]").dataset.start;
    return [start, alert.innerText, top >= 0 && bottom <= innerHeight];"#;

/// Sizes of what can be pressed in the sheet: its buttons, its choice of class, and its tick with the words beside it.
const SIZES: &str = r#"
    return [...document.querySelectorAll("dialog button, dialog select, dialog label:has(input)")].map((pressed) => {
        const { width, height } = pressed.getBoundingClientRect();
        return [width, height];
    });"#;

/// Least side of a control, in CSS pixels: common practice for fingers, no source.
const LEAST: f64 = 44.0;
const ROUNDING: f64 = 0.1;

#[test]
fn a_line_is_started_by_keyboard_on_the_makers_own_machine() {
    on_the_page(async |page| {
        let (_, own) = dragged(page).await;
        let before = "document.querySelector('[data-action=imperial]').focus();";
        page.run(before, vec![]).await;
        walk_to(page, "new-line", "").await;
        strike(page, Key::Enter).await;
        page.control("start").await;
        walk_to(page, "start", Start::WeightForward.key()).await;
        strike(page, Key::Enter).await;
        let line = Start::WeightForward.on(&own, Start::WeightForward.class());
        is_on_the_bench(page, "6", &line.expect("the example's machine can")).await;
        until("the focus is back at the button", async || {
            (focus(page).await.0 == "new-line").then_some(())
        })
        .await;
        // The line before is kept as it was, and can be fetched again.
        kept::fetch(page, 1).await;
        page.until_state("the old line is back", |now| now.shows(&own))
            .await;
        assert_eq!(page.kept().await, Some(own));
    });
}

#[test]
fn a_line_is_started_in_the_class_that_is_chosen() {
    on_the_page(async |page| {
        let (_, own) = dragged(page).await;
        open(page).await;
        page.choose("start-class", "6").await;
        press_start(page, Start::DoubleTaper).await;
        let six = Class::of_number(6);
        let line = Start::DoubleTaper.on(&own, six.expect("it is in the table"));
        is_on_the_bench(page, "6", &line.expect("the example's machine can")).await;
    });
}

#[test]
fn a_line_is_started_by_finger_in_the_examples_workshop() {
    on_the_page(async |page| {
        let (_, own) = dragged(page).await;
        let kept = page.texts_of(1).await;
        open(page).await;
        page.press("start-on-mine").await;
        let at: Spot = page
            .ask(BUTTON, vec![json!(Start::LongTwoHanded.key())])
            .await;
        Hand::press(page, Pointer::Finger, at).let_go();
        let line = Start::LongTwoHanded.design();
        assert_ne!(line.draft().points, own.draft().points);
        is_on_the_bench(page, "8", &line).await;
        assert_eq!(page.texts_of(1).await, kept);
        page.until_gone("[data-action=start]").await;
    });
}

#[test]
fn what_cannot_be_had_says_why_beside_its_drawing_and_changes_nothing() {
    on_the_page(async |page| {
        // Far too long a lay for any line of these classes: 16.25 mm in a circuit.
        page.enter("gears", "200").await;
        page.until_state("the one gear is fitted throughout", |now| {
            now.events.iter().all(|event| event.gear == "200")
        })
        .await;
        let (state, storage) = (page.state().await, page.storage().await);
        page.session.resize((720, 450));
        open(page).await;
        press_start(page, Start::SingleTaper).await;
        let (beside, words, seen) = said(page).await;
        assert_eq!(beside, Start::SingleTaper.key());
        for word in ["class 7", "177 to 193", "Nothing was changed", "Untick"] {
            assert!(words.contains(word), "“{words}” does not say {word}");
        }
        assert!(seen, "the words are out of sight");
        assert_eq!(page.state().await, state);
        assert_eq!(page.storage().await, storage);
        // What it says to do helps. The tick may have been scrolled behind the sheet's head, where the driver does not look.
        let back = "document.querySelector('[data-action=start-on-mine]').scrollIntoView();";
        page.run(back, vec![]).await;
        page.press("start-on-mine").await;
        page.until_gone("dialog [role=alert]").await;
        press_start(page, Start::SingleTaper).await;
        is_on_the_bench(page, "7", &Start::SingleTaper.design()).await;
    });
}

#[test]
fn the_sheet_is_left_by_escape_or_its_button_and_nothing_is_begun() {
    on_the_page(async |page| {
        let (state, own) = dragged(page).await;
        let storage = page.storage().await;
        for leave in ["escape", "button"] {
            open(page).await;
            // What lies behind the sheet is not undone unseen.
            chord(page, 'z').await;
            match leave {
                "escape" => escape(page).await,
                _ => page.press("new-line-close").await,
            }
            page.until_gone("[data-action=start]").await;
            assert_eq!(page.matching("dialog[open]").await, 0, "{leave}");
            assert_eq!(focus(page).await.0, "new-line", "{leave}");
        }
        assert_eq!(page.state().await, state);
        assert_eq!(page.storage().await, storage);
        assert_eq!(page.kept().await, Some(own));
    });
}

#[test]
fn the_sheet_fits_a_tablet_and_a_phone_and_a_finger() {
    on_the_page(async |page| {
        for size in [(1180, 820), (820, 1180), (390, 844), (720, 450)] {
            page.session.resize(size);
            open(page).await;
            let sizes: Vec<(f64, f64)> = page.ask(SIZES, vec![]).await;
            assert_eq!(sizes.len(), 3 + Start::ALL.len());
            let small = sizes
                .iter()
                .find(|(width, height)| width.min(*height) < LEAST - ROUNDING);
            assert_eq!(small, None, "too small for a finger at {size:?}");
            let wide = "const sheet = document.querySelector('dialog');
                return [sheet.scrollWidth - sheet.clientWidth, sheet.offsetWidth, sheet.offsetHeight];";
            let (over, width, height): (f64, u32, u32) = page.ask(wide, vec![]).await;
            assert!(over <= 0.0, "the sheet scrolls sideways at {size:?}");
            assert!(
                width <= size.0 && height <= size.1,
                "it is larger than {size:?}"
            );
            page.press("new-line-close").await;
            page.until_gone("[data-action=start]").await;
        }
    });
}

async fn open(page: &Page) {
    page.press("new-line").await;
    page.control("start").await;
}

async fn press_start(page: &Page, start: Start) {
    page.press_at(&format!("[data-start={}]", start.key()))
        .await;
}

async fn focus(page: &Page) -> (String, String) {
    page.ask(FOCUS, vec![]).await
}

/// Presses Tab until a control has the focus.
async fn walk_to(page: &Page, action: &str, start: &str) {
    const STEPS: usize = 40;
    for _ in 0..STEPS {
        strike(page, Key::Tab).await;
        if focus(page).await == (action.to_owned(), start.to_owned()) {
            return;
        }
    }
    panic!("{action} {start} is not reached by {STEPS} tabs");
}

/// What the page shows and keeps is this line, of this class.
async fn is_on_the_bench(page: &Page, class: &str, line: &Design) {
    let state = page
        .until_state("the new line is shown", |now| now.shows(line))
        .await;
    assert_eq!(state.figures["class"], class);
    assert_eq!(page.kept().await.as_ref(), Some(line));
}

/// The drawing an alert stands beside, its words, and whether all of them can be seen.
async fn said(page: &Page) -> (String, String, bool) {
    until("the sheet says why", async || {
        page.ask::<Option<(String, String, bool)>>(SAID, vec![])
            .await
    })
    .await
}
