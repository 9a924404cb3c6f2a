//! The page fits tablets and phones either way up and enlarged, and everything on it can be hit with a finger. In each size these
//! are held by [`super::access`] for every view; here for what is no ordinary size.

use serde::Deserialize;
use serde_json::json;

use super::cdp::Size;
use super::harness::{WHOLE_TEST, at_a_desk_for, on_the_page};
use super::page::Page;
use super::views::{SIZES, View};

/// Least side of anything to press (WCAG 2.2, 2.5.8), and least height of a main control (set by us), in CSS pixels.
const LEAST: f64 = 24.0;
const LEAST_OF_MAIN: f64 = 48.0;
/// Rounding of sizes that the browser calculates in fractions of a pixel.
const ROUNDING: f64 = 0.1;

/// Sizes of all that can be pressed or typed in and is in view of the reader, sheet or place. What stands in a label is reached by
/// pressing that; the sliders of a point are seen as its ring. Words in text that a tap explains are no main controls.
const CONTROLS: &str = r"
    const all = [...document.querySelectorAll('button, input, select, textarea, summary, a[href]')];
    const grip = (element) => document.querySelector(`[data-point='${element.dataset.sliderPoint}']`);
    const seen = (element) => element.dataset.slider ? grip(element)
        : element.matches('input, select') ? element.closest('label') ?? element : element;
    const isShown = (element) => element?.checkVisibility({ visibilityProperty: true }) && !element.closest('[inert]')
        && element.getBoundingClientRect().width > 0;
    return all.filter((element) => isShown(seen(element))).map((element) => {
        const { width, height } = seen(element).getBoundingClientRect();
        const name = element.dataset.action ?? element.getAttribute('aria-label') ?? element.innerText;
        return { name, width, height, main: 'action' in element.dataset };
    });";

/// By how much the window, the place, or the sheet can be scrolled sideways, with what reaches farthest.
const WIDE: &str = r"
    const parts = [document.scrollingElement, ...document.querySelectorAll('[data-shows], .over.shown .over-body, .menu:popover-open')];
    return parts.flatMap((part) => {
        const by = part.scrollWidth - part.clientWidth;
        if (by <= 0) return [];
        const edge = part.getBoundingClientRect().left + part.clientLeft + part.clientWidth;
        const beyond = [...part.querySelectorAll('*')].filter((it) => it.checkVisibility() && it.getBoundingClientRect().right > edge + 1);
        const named = beyond.slice(0, 3).map((it) => it.cloneNode().outerHTML.slice(0, 90));
        return [`${by} pixels too wide: ${named.join('; ')}`];
    });";

/// Words on controls that do not fit: they are cut off, or run beyond their control.
const CUT: &str = r"
    const isShown = (element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest('[inert]');
    const all = [...document.querySelectorAll('button:not(.term), summary, .button')].filter(isShown);
    const cut = all.filter((one) => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0 && getComputedStyle(one).display !== 'inline');
    return cut.map((one) => `${one.dataset.action ?? one.innerText}: ${one.scrollWidth} in ${one.clientWidth}`);";

/// Controls that cannot be brought to where they can be pressed: out of the window, or beneath something else, wherever they are
/// scrolled to. Under an open menu the rest is covered on purpose.
const COVERED_CONTROLS: &str = r"
    const isShown = (element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest('[inert], .spoken, .spoken-points')
        && element.getBoundingClientRect().width > 0;
    const part = document.querySelector('[popover]:popover-open') ?? document;
    const all = [...part.querySelectorAll('button, input, select, textarea, summary, a[href]')].filter(isShown);
    return all.flatMap((element) => {
        element.scrollIntoView({ block: 'center', inline: 'center' });
        const seen = element.closest('label') ?? element;
        const [bounds] = seen.getClientRects();
        const [x, y] = [bounds.x + bounds.width / 2, bounds.y + bounds.height / 2];
        const there = document.elementFromPoint(x, y);
        if (seen.contains(there)) return [];
        const by = there?.closest('[data-action]')?.dataset.action ?? there?.cloneNode().outerHTML.slice(0, 60) ?? 'the edge of the window';
        return [`${element.dataset.action ?? element.innerText} is covered by ${by}`];
    });";

/// The drawing's box, and the window.
const FRAME: &str = r"
    const drawing = document.querySelector('[data-point]').ownerSVGElement.getBoundingClientRect();
    return {
        window: [innerWidth, innerHeight],
        left: drawing.left, right: drawing.right, top: drawing.top, bottom: drawing.bottom,
    };";

/// Control points that a finger would not hit, because they lie outside the window or under something else.
const COVERED: &str = r"
    const points = [...document.querySelectorAll('[data-point]')];
    return points.filter((point) => {
        const { x, y, width, height } = point.getBoundingClientRect();
        return !document.elementFromPoint(x + width / 2, y + height / 2)?.closest('[data-point]');
    }).map((point) => point.dataset.point);";

/// Space around letters, words and lines as a reader may set it. Source: WCAG 2.2, 1.4.12.
const SPACED: &str = "
    const spaced = new CSSStyleSheet();
    spaced.replaceSync('* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }');
    document.adoptedStyleSheets = [spaced];";

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
        is_small.then(|| format!("too small for a finger: {name}, {width} × {height}"))
    }
}

/// What a finger would miss.
pub(super) async fn small_targets(page: &Page) -> Vec<String> {
    let controls: Vec<Control> = page.ask(CONTROLS, vec![]).await;
    assert!(
        controls.iter().any(|control| control.main),
        "no control is seen"
    );
    controls.iter().filter_map(Control::if_small).collect()
}

/// What makes the page scroll sideways.
pub(super) async fn too_wide(page: &Page) -> Vec<String> {
    page.ask(WIDE, vec![]).await
}

#[test]
fn the_drawing_is_large_and_every_point_can_be_touched() {
    on_the_page(async |page| {
        for size in SIZES {
            page.take_size(size).await;
            let frame: Frame = page.ask(FRAME, vec![]).await;
            let (width, height) = (f64::from(size.0), f64::from(size.1));
            assert_eq!(frame.window, size);
            let is_inside = frame.left >= 0.0
                && frame.right <= width
                && frame.top >= 0.0
                && frame.bottom <= height;
            assert!(is_inside, "the drawing is not in sight: {frame:?}");
            let (wide, high) = (frame.right - frame.left, frame.bottom - frame.top);
            assert!(
                wide > 0.5 * width && high > 0.25 * height,
                "too small to work on: {frame:?}"
            );
            let covered: Vec<String> = page.ask(COVERED, vec![]).await;
            assert!(
                covered.is_empty(),
                "{size:?}: points that cannot be touched: {covered:?}"
            );
        }
    });
}

/// Tablets enlarged twice and a desk four times. Source of the demand: WCAG 2.2, 1.4.4 and 1.4.10.
#[test]
fn every_view_enlarged_needs_no_scrolling_sideways() {
    fits_in_every_view(&[(590, 410), (410, 590), (320, 256)], async |_| {});
}

/// Low and narrow windows: a small telephone held across, a larger one, an old laptop, half a screen. Source of the demand: WCAG 2.2,
/// 1.4.10 and 2.4.11.
#[test]
fn every_view_keeps_its_controls_within_reach_in_low_windows() {
    fits_in_every_view(
        &[(640, 360), (844, 390), (1024, 600), (1366, 600)],
        async |_| {},
    );
}

/// Source of the demand: WCAG 2.2, 1.4.12.
#[test]
fn every_view_bears_more_space_around_its_letters() {
    fits_in_every_view(&[(820, 1180), (390, 844)], async |page| {
        page.run(SPACED, vec![]).await;
        page.until_drawn().await;
    });
}

/// Opens every view in sizes, does something to the page, and looks for what does not fit.
fn fits_in_every_view(sizes: &[Size], arrange: impl AsyncFn(&Page)) {
    at_a_desk_for(WHOLE_TEST * 2, async |desk| {
        let page = desk.visitor().await;
        let mut unfit = Vec::new();
        for view in View::ALL {
            page.resize_to(SIZES[1]).await;
            view.open(&page).await;
            arrange(&page).await;
            for size in sizes {
                page.resize_to(*size).await;
                let cut: Vec<String> = page.ask(CUT, vec![]).await;
                let wide = too_wide(&page).await;
                let small = small_targets(&page).await;
                // Under a note on a word the rest is covered on purpose.
                let covered: Vec<String> = match view {
                    View::Word => Vec::new(),
                    _ => page.ask(COVERED_CONTROLS, vec![]).await,
                };
                let found = wide.into_iter().chain(cut).chain(small).chain(covered);
                unfit.extend(found.map(|what| format!("{size:?}, {view:?}: {what}")));
            }
        }
        assert!(unfit.is_empty(), "{unfit:#?}");
    });
}

/// What is typed in is seen while it is typed, also where the page is enlarged.
#[test]
fn a_field_is_in_sight_when_it_is_gone_to() {
    on_the_page(async |page| {
        for size in [(1180, 820), (390, 844), (590, 410), (320, 256)] {
            page.resize_to(size).await;
            for action in ["point-size", "scale-sizes", "ends_per_thread", "notes"] {
                page.seek(&format!("[data-action='{action}']")).await;
                let script = "
                    const field = document.querySelector(`[data-action='${arguments[0]}']`);
                    for (let fold = field.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;
                    field.focus();
                    field.scrollIntoView({ block: 'nearest' });
                    const { top, bottom, left, right } = field.getBoundingClientRect();
                    const there = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
                    return field === there;";
                let is_seen: bool = page.ask(script, vec![json!(action)]).await;
                assert!(is_seen, "{action} is covered at {size:?}");
            }
            page.close_sheet().await;
        }
    });
}
