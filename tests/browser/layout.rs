//! The page fits a tablet either way up, a phone and a desk, and everything on it can be hit with a finger.

use serde::Deserialize;
use serde_json::json;

use super::cdp::Size;
use super::harness::{on_the_page, until};
use super::page::Page;

/// Least side of anything to press, and least height of a main control, in CSS pixels.
const LEAST: f64 = 24.0;
const LEAST_OF_MAIN: f64 = 44.0;
/// Rounding of sizes that the browser calculates in fractions of a pixel.
const ROUNDING: f64 = 0.1;

/// Sizes of all that can be pressed or typed in and is visible. Files and ticks are chosen by pressing their labels; the
/// sliders of a point are seen as its ring.
const CONTROLS: &str = r"
    const all = [...document.querySelectorAll('button, input, select, summary, a[href]')];
    const grip = (element) => document.querySelector(`[data-point='${element.dataset.sliderPoint}']`);
    const seen = (element) => element.dataset.slider ? grip(element)
        : ['file', 'checkbox'].includes(element.type) ? element.closest('label') : element;
    return all.filter((element) => seen(element).checkVisibility({ visibilityProperty: true })).map((element) => {
        const { width, height } = seen(element).getBoundingClientRect();
        const name = element.dataset.action ?? element.getAttribute('aria-label') ?? element.innerText;
        return { name, width, height, main: 'action' in element.dataset };
    });";

/// Widths of page and window, and the drawing's box.
const FRAME: &str = r"
    const drawing = document.querySelector('[data-point]').ownerSVGElement.getBoundingClientRect();
    return {
        window: [innerWidth, innerHeight],
        page: Math.max(document.documentElement.scrollWidth, document.body.scrollWidth),
        left: drawing.left, right: drawing.right, top: drawing.top, bottom: drawing.bottom,
    };";

/// Control points that a finger would not hit, because they lie outside the window or under something else.
const COVERED: &str = r"
    const points = [...document.querySelectorAll('[data-point]')];
    return points.filter((point) => {
        const { x, y, width, height } = point.getBoundingClientRect();
        return !document.elementFromPoint(x + width / 2, y + height / 2)?.closest('[data-point]');
    }).map((point) => point.dataset.point);";

#[derive(Debug, Deserialize)]
struct Control {
    name: String,
    width: f64,
    height: f64,
    main: bool,
}

#[derive(Debug, Deserialize)]
struct Frame {
    window: Size,
    page: f64,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Control {
    /// Its name and size, when a finger would miss it.
    fn if_small(&self) -> Option<String> {
        let Self {
            name,
            width,
            height,
            main,
        } = self;
        let least = if *main { LEAST_OF_MAIN } else { LEAST };
        let is_small = width + ROUNDING < LEAST || height + ROUNDING < least;
        is_small.then(|| format!("{name}: {width} × {height}"))
    }
}

#[test]
fn a_tablet_held_sideways() {
    fits((1180, 820));
}

#[test]
fn a_tablet_held_upright() {
    fits((820, 1180));
}

#[test]
fn a_phone() {
    fits((390, 844));
}

#[test]
fn a_desk() {
    fits((1440, 900));
}

/// A tablet either way up and a desk, enlarged twice. Source of the demand: WCAG 2.2, 1.4.4 and 1.4.10.
#[test]
fn a_page_enlarged_twice() {
    for size in [(590, 410), (410, 590), (720, 450)] {
        on_the_page(async |page| {
            resized(page, size).await;
            can_be_pressed(page).await;
            keeps_the_drawing_in_sight(page).await;
        });
    }
}

fn fits(size: Size) {
    on_the_page(async |page| {
        let frame = resized(page, size).await;
        shows_the_drawing(page, &frame).await;
        can_be_pressed(page).await;
        keeps_the_drawing_in_sight(page).await;
        page.press("share").await;
        page.control("copy-link").await;
        can_be_pressed(page).await;
        does_not_scroll_sideways(page).await;
        page.press("card").await;
        can_be_pressed(page).await;
        does_not_scroll_sideways(page).await;
    });
}

/// The page, once its drawing has taken to the new size.
async fn resized(page: &Page, size: Size) -> Frame {
    page.session.resize(size);
    let frame = until("the window has its size", async || {
        let frame: Frame = page.ask(FRAME, vec![]).await;
        (frame.window == size).then_some(frame)
    })
    .await;
    page.point(0).await;
    does_not_scroll_sideways(page).await;
    frame
}

async fn does_not_scroll_sideways(page: &Page) {
    let frame: Frame = page.ask(FRAME, vec![]).await;
    assert!(
        frame.page <= f64::from(frame.window.0),
        "the page is wider than the window: {frame:?}"
    );
}

async fn shows_the_drawing(page: &Page, frame: &Frame) {
    let (width, height) = frame.window;
    let is_inside = frame.left >= 0.0 && frame.right <= f64::from(width) && frame.top >= 0.0;
    assert!(
        is_inside && frame.bottom <= f64::from(height),
        "the drawing is not in sight: {frame:?}"
    );
    let is_large = frame.right - frame.left > 300.0 && frame.bottom - frame.top > 200.0;
    assert!(is_large, "the drawing is too small to work on: {frame:?}");
    let covered: Vec<String> = page.ask(COVERED, vec![]).await;
    assert!(
        covered.is_empty(),
        "points that cannot be touched: {covered:?}"
    );
}

/// Wherever the page is scrolled to change something, the drawing that follows is seen, and so is what is changed.
async fn keeps_the_drawing_in_sight(page: &Page) {
    for action in ["scale-sizes", "ends_per_thread", "notes"] {
        let script = "
            const field = document.querySelector(`[data-action='${arguments[0]}']`);
            field.scrollIntoView({ block: 'start' });
            const { top, bottom, left, right } = field.getBoundingClientRect();
            const there = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
            return field === there;";
        let is_seen: bool = page.ask(script, vec![json!(action)]).await;
        assert!(is_seen, "{action} is covered");
        let frame: Frame = page.ask(FRAME, vec![]).await;
        assert!(
            frame.top >= -1.0 && frame.bottom <= f64::from(frame.window.1),
            "the drawing is out of sight beside {action}: {frame:?}"
        );
    }
    page.run("scrollTo(0, 0);", vec![]).await;
}

async fn can_be_pressed(page: &Page) {
    let controls: Vec<Control> = page.ask(CONTROLS, vec![]).await;
    assert!(
        controls.iter().any(|control| control.main),
        "no control is seen"
    );
    let small: Vec<String> = controls.iter().filter_map(Control::if_small).collect();
    assert!(small.is_empty(), "too small for a finger: {small:#?}");
}
