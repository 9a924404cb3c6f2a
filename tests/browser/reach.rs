//! Everything is two taps away from everywhere, and what was opened gives the keyboard back.

use serde_json::json;
use taperwright::base::choice::Choice as _;
use taperwright::page::places::Place;

use super::gesture::escape;
use super::harness::{on_the_page, until};
use super::page::Page;

/// Whether the first of those that a selector finds on the screen is wholly in the window, with nothing over it, and can be used.
const IN_SIGHT: &str = r"
    const all = [...document.querySelectorAll(arguments[0])];
    const one = all.find((it) => it.checkVisibility({ visibilityProperty: true }) && !it.closest('[inert]'));
    if (!one || one.disabled) return false;
    const { left, right, top, bottom } = one.getBoundingClientRect();
    const at = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    const home = one.closest('button') ?? one;
    return left >= 0 && top >= 0 && right <= innerWidth && bottom <= innerHeight && home.contains(at);";

/// Openers of sheets: where each stands, and where the keyboard is after the sheet has been closed.
const OPENERS: [(&str, &str, &str); 14] = [
    (
        "draw",
        ".class-button[data-action=all-figures]",
        "[data-action=all-figures]",
    ),
    (
        "wind",
        ".line-name [data-action=my-lines]",
        "[data-action=my-lines]",
    ),
    (
        "braid",
        ".top-actions [data-action=share]",
        "[data-action=share]",
    ),
    (
        "dress",
        ".top-actions [data-action=card]",
        "[data-action=card]",
    ),
    (
        "draw",
        ".draw [data-action=numbers]",
        "[data-action=numbers]",
    ),
    (
        "draw",
        ".draw [data-action=compare]",
        "[data-action=compare]",
    ),
    ("threads", "[data-action=plans]", "[data-action=plans]"),
    (
        "dress",
        "[data-action=dressing-sheet]",
        "[data-action=dressing-sheet]",
    ),
    (
        "weigh",
        ".menu [data-action=workshop-sheet]",
        "[data-action=menu]",
    ),
    ("wind", ".menu [data-action=new-line]", "[data-action=menu]"),
    (
        "dress",
        ".menu [data-action=questions]",
        "[data-action=menu]",
    ),
    (
        "wind",
        ".menu [data-action=photo-sheet]",
        "[data-action=menu]",
    ),
    ("braid", ".menu [data-action=words]", "[data-action=menu]"),
    (
        "threads",
        ".menu [data-action=cautions]",
        "[data-action=menu]",
    ),
];

/// What can be done, with the taps that lead there from anywhere on the page.
const CAPABILITIES: [(&[&str], &str); 29] = [
    (&["[data-place=draw]"], "[data-action=point-size]"),
    (&["[data-place=draw]"], "[data-action=add-point]"),
    (&["[data-place=draw]"], "[data-point='2']"),
    (&["[data-place=threads]"], "[data-event] [data-action=pin]"),
    (
        &["[data-place=threads]", "[data-action=plans]"],
        "[data-action=find-plan]",
    ),
    (
        &["[data-place=threads]", "[data-action=plans]"],
        "[data-action=match-class]",
    ),
    (&["[data-place=wind]"], "[data-bobbin]"),
    (&["[data-place=braid]"], "[data-action=run-begin]"),
    (&["[data-place=dress]"], "[data-step] summary"),
    (
        &["[data-place=dress]", "[data-action=dressing-sheet]"],
        "[data-action=print-dressing]",
    ),
    (&["[data-place=weigh]"], "[data-action=workshop-name]"),
    (&["[data-action=all-figures]"], ".over.shown [data-figure]"),
    (&["[data-action=my-lines]"], "[data-action=save-everything]"),
    (&["[data-action=share]"], "[data-action=copy-link]"),
    (&["[data-action=card]"], "[data-action=print]"),
    (&["[data-action=card]"], "[data-action=save-card]"),
    (
        &["[data-action=menu]", ".menu [data-action=new-line]"],
        "[data-action=start]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=my-lines]"],
        "[data-action=save-everything]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=workshop-sheet]"],
        "[data-action=label]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=questions]"],
        "[data-question] [data-action=do-not-know]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=photo-sheet]"],
        "[data-action=photo]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=numbers]"],
        "[data-action=row-at]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=compare]"],
        "[data-action=compare-link]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=words]"],
        "[data-word]",
    ),
    (
        &["[data-action=menu]", ".menu [data-action=cautions]"],
        ".cautions li",
    ),
    (
        &["[data-action=menu]"],
        "label:has([data-action=open-file])",
    ),
    (&["[data-action=menu]"], "[data-action=save-file]"),
    (&["[data-action=menu]"], "[data-action=imperial]"),
    (&["[data-action=menu]"], "[data-action=look]"),
];

pub(super) async fn is_in_sight(page: &Page, selector: &str) -> bool {
    page.ask(IN_SIGHT, vec![json!(selector)]).await
}

#[test]
fn a_sheet_takes_the_keyboard_and_gives_it_back() {
    on_the_page(async |page| {
        for (place, opener, back) in OPENERS {
            page.go_to(place).await;
            for by_key in [true, false] {
                page.press_at(opener).await;
                page.until_focused(".over.shown .over-head h2").await;
                let reach = "return !!document.querySelector('.shell')?.inert;";
                assert!(
                    page.ask::<bool>(reach, vec![]).await,
                    "{opener}: what it covers can be reached"
                );
                if by_key {
                    escape(page).await;
                } else {
                    page.close_sheet().await;
                }
                page.until_gone(".over.shown").await;
                page.until_focused(back).await;
            }
        }
    });
}

/// Scrolls to the first that is seen of those that a selector finds: to scroll is no tap.
async fn scroll_to(page: &Page, selector: &str) {
    let script = "
        const all = [...document.querySelectorAll(arguments[0])];
        const one = all.find((it) => it.checkVisibility({ visibilityProperty: true }) && !it.closest('[inert]'));
        one?.scrollIntoView({ block: 'center' });";
    page.run(script, vec![json!(selector)]).await;
}

#[test]
fn everything_is_two_taps_away_from_everywhere() {
    on_the_page(async |page| {
        for (number, (taps, shown)) in CAPABILITIES.into_iter().enumerate() {
            assert!(taps.len() <= 2, "{shown}");
            // From places in turn, so that each way is tried from another.
            let from = Place::ALL[number % Place::ALL.len()];
            page.go_to(from.key()).await;
            for step in taps {
                scroll_to(page, step).await;
                assert!(
                    is_in_sight(page, step).await,
                    "{step} on the way to {shown} from {from:?}"
                );
                page.press_at(step).await;
            }
            until(&format!("{shown} is in sight"), async || {
                scroll_to(page, shown).await;
                is_in_sight(page, shown).await.then_some(())
            })
            .await;
            page.close_sheet().await;
            if taps == ["[data-action=menu]"] {
                escape(page).await;
                page.until_gone(".menu:popover-open").await;
            }
        }
    });
}
