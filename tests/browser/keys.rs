//! Everything can be done without a pointer: the Tab key reaches every control once, in the order in which the page is
//! read, with the focus in sight, and leaves the page again.

use std::fmt::{self, Display, Formatter};

use fantoccini::key::Key;
use serde::Deserialize;
use serde_json::{Value, json};
use taperwright::base::units::Length;
use taperwright::design::Design;
use taperwright::design::settings::DIAMETER;
use taperwright::edit::snap::thread_beside;

use super::cdp::Size;
use super::gesture::{chord, escape, strike};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::views::SIZES;

/// Rounding of places that the browser calculates in fractions of a pixel.
const ROUNDING: f64 = 1.0;
/// Least width of the line round what has the focus, in CSS pixels. Source: WCAG 2.2, 2.4.13, whose area is that of a line
/// two pixels wide.
const LEAST_MARK: f64 = 2.0;

/// Stops within a field for a day after its first: of day, month and year two more, and the browser's own calendar.
const PARTS_OF_A_DAY: usize = 3;

/// Numbers every control that can be seen and used, and tells where each is while the page is not scrolled.
const CONTROLS: &str = r"
    scrollTo(0, 0);
    const kinds = 'button, input, select, textarea, summary, a[href], [tabindex]:not([tabindex=\'-1\'])';
    const seen = [...document.querySelectorAll(kinds)].filter((control) =>
        !control.disabled && control.checkVisibility({ visibilityProperty: true }));
    const places = seen.map((control, number) => {
        control.dataset.stop = number;
        const { left, top, right, bottom } = control.getBoundingClientRect();
        const name = control.dataset.action ?? control.getAttribute('aria-label') ?? control.innerText;
        // The bar of places comes last to the keys, wherever it stands.
        return { name, left, top, right, bottom, is_last: Boolean(control.closest('.place-bar')) };
    });
    return places;";

/// The control that has the focus, once the page has settle round it: its number, the widest line drawn round it or
/// its label, and whether any of it is uncovered.
const FOCUSED: &str = r"
    const done = arguments[0];
    requestAnimationFrame(() => requestAnimationFrame(() => {
        const focused = document.activeElement;
        if (!focused || focused === document.body) return done(null);
        // The sliders of a point take no room: a ring round the point shows which has the focus.
        const ring = focused.dataset.slider && document.querySelector(`.handle.focused .focus-ring`);
        if (ring) {
            const { stroke, strokeWidth } = getComputedStyle(ring);
            const { left, top, right, bottom } = ring.getBoundingClientRect();
            const there = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
            return done({
                stop: Number(focused.dataset.stop), is: focused.outerHTML.slice(0, 90),
                mark: stroke === 'none' ? 0 : parseFloat(strokeWidth),
                uncovered: there?.closest('[data-point]')?.dataset.point === focused.dataset.sliderPoint,
            });
        }
        const label = focused.closest('label');
        const marked = [focused, label].filter((one) => one && getComputedStyle(one).opacity !== '0');
        const widths = marked.map((one) => {
            const { outlineStyle, outlineWidth } = getComputedStyle(one);
            return outlineStyle === 'none' ? 0 : parseFloat(outlineWidth);
        });
        const { left, top, right, bottom } = (label ?? focused).getBoundingClientRect();
        const shares = [0.02, 0.25, 0.5, 0.75, 0.98];
        const spots = shares.flatMap((x) => shares.map((y) => [left + x * (right - left), top + y * (bottom - top)]));
        const is_uncovered = ([x, y]) => {
            const there = document.elementFromPoint(x, y);
            return there && (focused.contains(there) || label?.contains(there));
        };
        const stop = focused.dataset.stop;
        done({
            stop: stop === undefined ? null : Number(stop), is: focused.outerHTML.slice(0, 90),
            mark: Math.max(0, ...widths), uncovered: spots.some(is_uncovered),
        });
    }));";

/// The numbers of those that can no longer be used.
const OVER: &str = r"
    return [...document.querySelectorAll('[data-stop]:disabled')].map((control) => Number(control.dataset.stop));";

/// A control and its place on the page.
#[derive(Debug, Deserialize)]
struct Control {
    name: String,
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
    is_last: bool,
}

/// Where the focus is.
#[derive(Debug, Deserialize)]
struct Focus {
    stop: Option<usize>,
    is: String,
    mark: f64,
    uncovered: bool,
}

impl Display for Control {
    fn fmt(&self, out: &mut Formatter<'_>) -> fmt::Result {
        let Self {
            name, left, top, ..
        } = self;
        write!(out, "“{name}” at {left:.0}, {top:.0}")
    }
}

impl Control {
    /// Whether who has read so far finds it by reading on: below, or beside.
    fn follows(&self, before: &Self) -> bool {
        // Beside it may be higher up: there a new column begins.
        let is_beside = self.left + ROUNDING > before.right;
        let is_below = self.top + ROUNDING > before.bottom;
        is_below || is_beside || (self.is_last && !before.is_last)
    }
}

#[test]
fn tab_reaches_everything_on_a_tablet_held_sideways() {
    reaches_everything(SIZES[0]);
}

#[test]
fn tab_reaches_everything_on_a_tablet_held_upright() {
    reaches_everything(SIZES[1]);
}

#[test]
fn tab_reaches_everything_on_a_phone() {
    reaches_everything(SIZES[2]);
}

fn reaches_everything(size: Size) {
    on_the_page(async |page| {
        page.take_size(size).await;
        let faults = faults(page).await;
        assert!(faults.is_empty(), "{faults:#?}");
    });
}

/// All that is wrong with the way of the Tab key through the page.
async fn faults(page: &Page) -> Vec<String> {
    let controls: Vec<Control> = page.ask(CONTROLS, vec![]).await;
    assert!(controls.len() > 30, "only {} controls", controls.len());
    let (way, mut faults) = walk(page).await;
    faults.extend(way.iter().filter_map(Focus::fault));
    let stops: Vec<usize> = way.iter().filter_map(|focus| focus.stop).collect();
    // Passing the points chooses each in turn: what leads beyond the last of them is then done with.
    let over: Vec<usize> = page.ask(OVER, vec![]).await;
    let missed = (0..controls.len()).filter(|stop| !stops.contains(stop) && !over.contains(stop));
    faults.extend(missed.map(|stop| format!("never reached: {}", controls[stop])));
    let steps = stops
        .windows(2)
        .map(|pair| (&controls[pair[0]], &controls[pair[1]]));
    let leaps = steps.filter(|(before, after)| !after.follows(before));
    faults
        .extend(leaps.map(|(before, after)| format!("out of order: {after} comes after {before}")));
    faults
}

impl Focus {
    fn is_of_a_day(&self) -> bool {
        self.is.contains(r#"type="date""#)
    }

    /// What is wrong with it.
    fn fault(&self) -> Option<String> {
        let said = match self {
            Self { stop: None, .. } => "focus on what is no control",
            Self {
                uncovered: false, ..
            } => "covered focus",
            focus if focus.mark < LEAST_MARK => "unmarked focus",
            _ => return None,
        };
        Some(format!("{said}: {}", self.is))
    }
}

/// Strikes Tab from the top of the page until the focus leaves it, or comes to where it began. Whatever else it comes to
/// twice is a trap.
async fn walk(page: &Page) -> (Vec<Focus>, Vec<String>) {
    let mut way: Vec<Focus> = Vec::new();
    let mut stayed = 0;
    loop {
        strike(page, Key::Tab).await;
        let focus = focused(page).await;
        let Some(focus) = focus.filter(|focus| !is_same(way.first(), focus)) else {
            return (way, vec![]);
        };
        // Within a field for a day the browser has stops of its own.
        if focus.is_of_a_day() && is_same(way.last(), &focus) && stayed < PARTS_OF_A_DAY {
            stayed += 1;
            continue;
        }
        stayed = 0;
        if way.iter().any(|before| is_same(Some(before), &focus)) {
            return (way, vec![format!("trapped focus: {}", focus.is)]);
        }
        way.push(focus);
    }
}

fn is_same(before: Option<&Focus>, focus: &Focus) -> bool {
    before.is_some_and(|before| before.stop == focus.stop)
}

async fn focused(page: &Page) -> Option<Focus> {
    let focused = page.session.client.execute_async(FOCUSED, vec![]).await;
    let focused = focused.expect("the page tells its focus");
    serde_json::from_value(focused).expect("the answer has its form")
}

/// Stumbling blocks built on purpose: what must be said of each, and the script that builds it.
const BUILT: [(&str, &str); 5] = [
    (
        "never reached",
        "document.querySelector('[data-action=share]').tabIndex = -1;",
    ),
    (
        "out of order",
        "document.querySelector('.top-actions').style.flexDirection = 'row-reverse';",
    ),
    (
        "unmarked focus",
        "document.styleSheets[0].insertRule(':focus-visible { outline: none !important; }');",
    ),
    (
        "covered focus",
        "const cover = document.body.appendChild(document.createElement('div'));
         Object.assign(cover.style, { position: 'fixed', inset: 0, zIndex: 9 });",
    ),
    (
        "trapped focus",
        "document.querySelector('[data-action=share]').addEventListener('keydown', (e) => e.preventDefault());",
    ),
];

#[test]
fn a_stumbling_block_built_on_purpose_is_found() {
    on_the_page(async |page| {
        for (fault, script) in BUILT {
            page.reload().await;
            page.run(script, vec![]).await;
            let found = faults(page).await;
            let is_said = found.iter().any(|said| said.starts_with(fault));
            assert!(is_said, "{fault} is not found: {found:#?}");
        }
    });
}

#[test]
fn the_card_is_opened_printed_and_put_away_by_keys() {
    on_the_page(async |page| {
        count_prints(page);
        go_to(page, "card").await;
        strike(page, Key::Enter).await;
        prints_once(page).await;
        for next in ["maker", "paper", "save-card", "card-close"] {
            walk_to(page, &format!("[data-action={next}]")).await;
        }
        strike(page, Key::Enter).await;
        page.until_gone(".over.shown").await;
        until_focused(page, "card").await;
    });
}

/// From a new line to a printed card, touching nothing but keys: a ready drawing, a belly made thicker and a taper made
/// longer by the sliders, a length typed, the card.
#[test]
fn a_line_is_begun_sketched_and_printed_by_keys_alone() {
    on_the_page(async |page| {
        count_prints(page);
        go_to(page, "menu").await;
        strike(page, Key::Enter).await;
        page.until_there(".menu:popover-open").await;
        walk_to(page, ".menu [data-action=new-line]").await;
        strike(page, Key::Enter).await;
        page.until_there(".over.shown [data-start]").await;
        walk_to(page, "[data-start=double-taper]").await;
        strike(page, Key::Enter).await;
        walk_to(page, "[data-action=start-class]:nth-child(5)").await;
        strike(page, Key::Enter).await;
        page.until_there("[data-action=start-begin]:enabled").await;
        walk_to(page, "[data-action=start-begin]").await;
        strike(page, Key::Enter).await;
        page.until_gone(".over.shown").await;
        let first = until("the new line is kept", async || page.kept().await).await;
        let belly = first.taper().belly().0;

        walk_to(
            page,
            &format!("[data-slider=at][data-slider-point='{belly}']"),
        )
        .await;
        strike(page, Key::PageUp).await;
        let longer = kept_otherwise(page, &first, "the longer taper").await;
        let at = |design: &Design| design.draft().points[belly].at_m;
        // Ten round lengths of 5 cm.
        assert!((at(&longer) - at(&first) - 0.5).abs() < 1e-9);
        page.until_there(".handle.focused.chosen").await;

        strike(page, Key::Tab).await;
        strike(page, Key::PageUp).await;
        let thicker = kept_otherwise(page, &longer, "the thicker belly").await;
        let size = |design: &Design| design.draft().points[belly].diameter_mm;
        assert_eq!(
            size(&thicker),
            grid(thread_beside(&longer, millimetres(size(&longer)), true))
        );
        let said: String = page
            .ask(
                "return document.activeElement.getAttribute('aria-valuetext');",
                vec![],
            )
            .await;
        assert!(said.contains("mm") && said.contains("gr"), "{said}");

        walk_to(page, ".shell [data-action=numbers]").await;
        strike(page, Key::Enter).await;
        page.until_there(".over.shown [data-row]").await;
        let row = format!("[data-row='{belly}'] [data-action=row-at]");
        walk_to(page, &row).await;
        type_in(page, "4,5 m").await;
        strike(page, Key::Enter).await;
        let typed = kept_otherwise(page, &thicker, "what was typed").await;
        assert_eq!(at(&typed), 4.5);

        // In a field Escape takes back what was typed; the sheet has a button.
        walk_to(page, ".over.shown [data-action=numbers-close]").await;
        strike(page, Key::Enter).await;
        page.until_gone(".over.shown").await;
        walk_to(page, ".shell [data-action=card]").await;
        strike(page, Key::Enter).await;
        prints_once(page).await;
    });
}

/// Strikes Tab until what a selector finds has the focus.
async fn walk_to(page: &Page, selector: &str) {
    const MOST: usize = 120;
    let script = "return document.activeElement.matches(arguments[0]);";
    for _ in 0..MOST {
        strike(page, Key::Tab).await;
        if page.ask(script, vec![json!(selector)]).await {
            return;
        }
    }
    panic!("{selector} is not reached by {MOST} tabs");
}

/// Types in place of what stands in the field that has the focus.
async fn type_in(page: &Page, text: &str) {
    chord(page, 'a').await;
    let field = page
        .session
        .client
        .active_element()
        .await
        .expect("a field has the focus");
    field.send_keys(text).await.expect("a field takes keys");
}

async fn kept_otherwise(page: &Page, before: &Design, change: &str) -> Design {
    until(&format!("{change} is kept"), async || {
        page.kept().await.filter(|now| now != before)
    })
    .await
}

fn millimetres(size: f64) -> Length {
    Length::from_millimetres(size)
}

/// A size brought to the grid of designs, in millimetres.
fn grid(size: Length) -> f64 {
    DIAMETER.value(DIAMETER.quanta(size.millimetres()))
}

#[test]
fn escape_puts_the_card_away_and_gives_the_focus_back() {
    on_the_page(async |page| {
        go_to(page, "card").await;
        strike(page, Key::Enter).await;
        page.until_there(".over.shown [data-action=print]").await;
        escape(page).await;
        page.until_gone(".over.shown").await;
        until_focused(page, "card").await;
    });
}

/// Goes to the button for printing, strikes Enter on it, and waits until the page has printed, once.
async fn prints_once(page: &Page) {
    page.until_there(".over.shown [data-action=print]").await;
    walk_to(page, "[data-action=print]").await;
    strike(page, Key::Enter).await;
    until("the page prints once", async || {
        let prints: u32 = page.ask("return window.prints;", vec![]).await;
        (prints == 1).then_some(())
    })
    .await;
}

/// Lets the page count instead of opening the browser's own window for printers.
fn count_prints(page: &Page) {
    let script = "window.prints = 0; window.print = () => { window.prints += 1; };";
    let params = json!({ "expression": script });
    page.session.cdp("Runtime.evaluate", &params);
}

/// Strikes Tab until a control has the focus.
async fn go_to(page: &Page, action: &str) {
    let count: Vec<Value> = page.ask(CONTROLS, vec![]).await;
    for _ in count {
        strike(page, Key::Tab).await;
        if has_focus(page, action).await {
            return;
        }
    }
    panic!("{action} is never reached");
}

async fn until_focused(page: &Page, action: &str) {
    until(&format!("{action} has the focus"), async || {
        has_focus(page, action).await.then_some(())
    })
    .await;
}

async fn has_focus(page: &Page, action: &str) -> bool {
    let script = "return document.activeElement?.dataset.action === arguments[0];";
    page.ask(script, vec![json!(action)]).await
}
