//! A new line is asked for by shape, class, and machine with its yarn, by key or by touch; the line before it stays kept. What
//! cannot be had says why and changes nothing.

use fantoccini::key::Key;
use taperwright::base::choice::Choice as _;
use taperwright::braid::weight::Class;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::starts::Start;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::Id;
use taperwright::plan::Plan;

use super::gesture::{chord, escape, strike};
use super::harness::{on_the_page, until};
use super::kept::{self, visited, with_lines};
use super::memory::dragged;
use super::page::Page;

/// Which control has the focus, and what it stands for.
const FOCUS: &str = r"
    const { action, start, class: number } = document.activeElement.dataset;
    return [action ?? '', start ?? number ?? ''];";

/// What an alert says, and whether it and the button that begins are seen together at the end of the sheet.
const SAID: &str = r#"
    const body = document.querySelector(".over.shown .over-body");
    body.scrollTop = body.scrollHeight;
    const sheet = document.querySelector(".over.shown");
    const alert = sheet.querySelector('[role="alert"]');
    if (!alert) return null;
    const begin = sheet.querySelector("[data-action=start-begin]").getBoundingClientRect();
    const { top, bottom } = alert.getBoundingClientRect();
    return [alert.innerText, top >= 0 && bottom <= begin.top && begin.bottom <= innerHeight];"#;

/// Sizes of what can be pressed in the sheet.
const SIZES: &str = r#"
    return [...document.querySelectorAll(".over.shown button")].map((pressed) => {
        const { width, height } = pressed.getBoundingClientRect();
        return [width, height];
    });"#;

/// By how much the sheet is wider than its room, and its own size.
const SHEET: &str = "
    const [sheet, body] = ['.over.shown .over-paper', '.over.shown .over-body'].map((it) => document.querySelector(it));
    return [body.scrollWidth - body.clientWidth, sheet.offsetWidth, sheet.offsetHeight];";

/// Least side of a control, in CSS pixels: common practice for fingers, no source.
const LEAST: f64 = 48.0;
const ROUNDING: f64 = 0.1;

#[test]
fn a_line_is_started_by_keyboard_on_the_makers_own_machine() {
    on_the_page(async |page| {
        let (_, own) = dragged(page).await;
        let before = "document.querySelector('[data-action=all-figures]').focus();";
        page.run(before, vec![]).await;
        for (action, which) in [
            ("menu", ""),
            ("new-line", ""),
            ("start", Start::WeightForward.key()),
            ("start-class", "6"),
        ] {
            walk_to(page, action, which).await;
            strike(page, Key::Enter).await;
            if action == "new-line" {
                page.until_focused(".over.shown h2").await;
            }
        }
        until_made(page, "line").await;
        walk_to(page, "start-begin", "").await;
        strike(page, Key::Enter).await;
        let line = Start::WeightForward.on(&own, Start::WeightForward.class());
        is_on_the_bench(page, "6", &line.expect("the example's machine can")).await;
        // The line before is kept as it was, and can be fetched again.
        kept::fetch(page, 1).await;
        page.until_state("the old line is back", |now| now.shows(&own))
            .await;
        assert_eq!(page.kept().await, Some(own));
    });
}

#[test]
fn a_new_line_leads_to_draw_and_gives_the_keyboard_back() {
    on_the_page(async |page| {
        page.go_to("weigh").await;
        open(page).await;
        choose(page, Start::Level, Start::Level.class().number).await;
        until_made(page, "line").await;
        page.press("start-begin").await;
        page.until_gone(".over.shown").await;
        page.until_there("[data-shows=draw]").await;
        page.until_focused("[data-action=menu]").await;
    });
}

/// What it makes is told before it is begun: the figures of the plan that is then shown.
#[test]
fn a_line_is_started_in_the_class_that_is_chosen_and_shown_before() {
    on_the_page(async |page| {
        let (_, own) = dragged(page).await;
        open(page).await;
        assert!(!can_begin(page).await, "nothing is chosen yet");
        choose(page, Start::DoubleTaper, 6).await;
        until_made(page, "line").await;
        let six = Class::of_number(6).expect("it is in the table");
        let line = Start::DoubleTaper.on(&own, six);
        let line = line.expect("the example's machine can");
        let plan = Plan::of(&line);
        let told = page.words_of("[data-made]").await;
        let threads = format!("{} to {} of", plan.threads_min(), plan.threads_max());
        assert!(told.contains(&threads), "“{told}” lacks “{threads}”");
        page.press("start-begin").await;
        is_on_the_bench(page, "6", &line).await;
    });
}

/// Every workshop of this browser can be chosen, and the line begun there belongs to it.
#[test]
fn a_line_is_started_in_a_workshop_of_ones_own_or_in_the_example() {
    on_the_page(async |page| {
        let mut shelf = with_lines(&["Weir"]);
        let book = Workshop::new("Mill loft".to_owned(), &demo());
        shelf.keep_new(Id(7), &book, None).expect("memory has room");
        visited(page, shelf).await;
        let kept = page.texts_of(1).await;
        for (source, workshop) in [("1", "Mill loft"), ("example", "")] {
            open(page).await;
            page.press_at(&format!("[data-source='{source}']")).await;
            choose(page, Start::LongTwoHanded, 8).await;
            until_made(page, "line").await;
            page.press("start-begin").await;
            page.until_gone(".over.shown").await;
            let line = until("the line is kept", async || {
                let line = page.kept().await?;
                (line.draft().workshop == workshop).then_some(line)
            })
            .await;
            let class = Start::LongTwoHanded.class();
            let wanted = Start::LongTwoHanded.on(&demo(), class);
            let wanted = wanted.expect("the example's machine can");
            assert_eq!(line.draft().points, wanted.draft().points);
            is_on_the_bench(page, "8", &line).await;
            assert_eq!(page.texts_of(1).await, kept);
        }
    });
}

#[test]
fn what_cannot_be_had_says_why_and_changes_nothing() {
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
        choose(page, Start::SingleTaper, 7).await;
        until_made(page, "nothing").await;
        let (words, is_seen) = until("the sheet says why", async || {
            page.ask::<Option<(String, bool)>>(SAID, vec![]).await
        })
        .await;
        for word in ["class 7", "177 to 193"] {
            assert!(words.contains(word), "“{words}” does not say {word}");
        }
        assert!(is_seen, "the words are out of sight");
        assert!(!can_begin(page).await);
        page.close_sheet().await;
        assert_eq!(page.state().await, state);
        assert_eq!(page.storage().await, storage);
        // On another machine it can.
        open(page).await;
        page.press_at("[data-source=example]").await;
        choose(page, Start::SingleTaper, 7).await;
        until_made(page, "line").await;
        assert_eq!(page.matching(".over.shown [role=alert]").await, 0);
        page.press("start-begin").await;
        let line = Start::SingleTaper.on(&demo(), Start::SingleTaper.class());
        is_on_the_bench(page, "7", &line.expect("the example's machine can")).await;
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
            page.until_focused("[data-action=menu]").await;
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
            // Shapes, classes, at least the example, what begins, and what closes.
            assert!(sizes.len() > 8 + Start::ALL.len(), "{}", sizes.len());
            let small = sizes
                .iter()
                .find(|(width, height)| width.min(*height) < LEAST - ROUNDING);
            assert_eq!(small, None, "too small for a finger at {size:?}");
            let (over, width, height): (f64, u32, u32) = page.ask(SHEET, vec![]).await;
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
    page.until_there(".over.shown [data-action=start]").await;
}

async fn choose(page: &Page, start: Start, class: u8) {
    page.press_at(&format!("[data-start={}]", start.key()))
        .await;
    page.press_at(&format!("[data-action=start-class][data-class='{class}']"))
        .await;
}

/// Waits until the sheet has come to an end of what is chosen: a `line`, or `nothing`.
async fn until_made(page: &Page, what: &str) {
    page.until_there(&format!("[data-made={what}]")).await;
}

async fn can_begin(page: &Page) -> bool {
    page.matching("[data-action=start-begin]:enabled").await == 1
}

async fn focus(page: &Page) -> (String, String) {
    page.ask(FOCUS, vec![]).await
}

/// Presses Tab until a control has the focus.
async fn walk_to(page: &Page, action: &str, which: &str) {
    const STEPS: usize = 40;
    for _ in 0..STEPS {
        strike(page, Key::Tab).await;
        if focus(page).await == (action.to_owned(), which.to_owned()) {
            return;
        }
    }
    panic!("{action} {which} is not reached by {STEPS} tabs");
}

/// What the page shows and keeps is this line, of this class.
async fn is_on_the_bench(page: &Page, class: &str, line: &Design) {
    let state = page
        .until_state("the new line is shown", |now| now.shows(line))
        .await;
    assert_eq!(state.figures["class"], class);
    assert_eq!(page.kept().await.as_ref(), Some(line));
}
