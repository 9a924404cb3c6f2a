//! Another line is laid behind the own one: one kept here, or one that came as a link. Nothing of either changes by it.

use serde::Deserialize;

use super::harness::{at_a_desk, on_the_page, until};
use super::kept;
use super::memory::dragged;
use super::page::Page;
use super::share::shared;
use super::state::{State, near};

/// The rows of the table of figures: key, one's own number, the other's, and the words of the difference.
const ROWS: &str = r"
    return [...document.querySelectorAll('[data-compared]')].map((row) => ({
        key: row.dataset.compared,
        mine: row.dataset.mine,
        other: row.dataset.other,
        said: row.querySelector('td:last-child').textContent,
    }));";

/// Places compared, in metres.
const PLACES: &str = r"
    return [...document.querySelectorAll('[data-compared-station]')].map((place) => Number(place.dataset.at));";

/// Widths of page and window.
const WIDTHS: &str = "return [document.documentElement.scrollWidth, innerWidth];";

#[derive(Debug, Deserialize)]
struct Row {
    key: String,
    mine: String,
    other: String,
    said: String,
}

#[test]
fn a_kept_line_is_laid_behind_and_compared() {
    on_the_page(async |page| {
        let (other, _) = dragged(page).await;
        let mine = beside(page).await;
        assert_eq!(page.matching("[data-ghost]").await, 0);
        let storage = page.storage().await;
        kept::lay_behind(page, 1).await;
        page.until_there("[data-ghost=outline]").await;
        compares(page, &mine, &other).await;
        assert_eq!(page.matching("[data-ghost=threads]").await, 1);
        assert_eq!(page.matching(".card [data-ghost]").await, 0, "on the card");
        page.until_said("dashed: Heron Weir").await;
        assert_eq!(page.state().await, mine);
        assert_eq!(page.storage().await, storage, "comparing wrote something");
        page.press("compare-none").await;
        page.until_gone("[data-ghost]").await;
        assert_eq!(page.matching("[data-compared]").await, 0);
    });
}

#[test]
fn the_table_follows_a_drag_and_the_ghost_stays() {
    on_the_page(async |page| {
        let (other, _) = dragged(page).await;
        beside(page).await;
        kept::lay_behind(page, 1).await;
        page.until_there("[data-ghost=outline]").await;
        let (mine, _) = dragged(page).await;
        compares(page, &mine, &other).await;
        // Another line on the bench takes the ghost away: it may be that very line.
        kept::fetch(page, 1).await;
        page.until_gone("[data-ghost]").await;
    });
}

#[test]
fn a_pasted_link_is_compared_and_nonsense_is_explained_beside_it() {
    at_a_desk(async |desk| {
        let sender = desk.visitor().await;
        let (other, _) = dragged(&sender).await;
        let fragment = shared(&sender).await;
        let page = &*desk.visitor().await;
        let mine = page.state().await;
        let cut_off = format!("{}/{}", page.origin, &fragment[..fragment.len() - 4]);
        for (typed, named) in [
            ("my other line", "not a link to a line"),
            (cut_off.as_str(), "cut off"),
            ("<b>#line=AAAA</b>", "cut off"),
        ] {
            refuses(page, typed, named).await;
        }
        for link in [
            format!("{}/{fragment}", page.origin),
            fragment[1..].to_owned(),
        ] {
            page.enter("compare-link", &link).await;
            page.until_there("[data-ghost=outline]").await;
            compares(page, &mine, &other).await;
            assert_eq!(page.said_beside("compare-link").await, None);
            page.press("compare-none").await;
            page.until_gone("[data-ghost]").await;
        }
        assert!(page.storage().await.is_empty(), "comparing kept something");
    });
}

#[test]
fn no_window_is_too_narrow_for_the_tables() {
    on_the_page(async |page| {
        dragged(page).await;
        beside(page).await;
        kept::lay_behind(page, 1).await;
        page.until_there("[data-compared]").await;
        for units in ["metric", "imperial"] {
            page.press(units).await;
            for width in [390, 720, 820, 1180] {
                page.session.resize((width, 844));
                let script = "return innerWidth;";
                until("the window is resized", async || {
                    let now: u32 = page.ask(script, vec![]).await;
                    (now == width).then_some(())
                })
                .await;
                let (page_width, window): (f64, f64) = page.ask(WIDTHS, vec![]).await;
                assert!(page_width <= window, "{page_width} in {window}, {units}");
            }
        }
    });
}

/// Makes a second line out of the first, kept under number 2, thinner and shorter; what the page then shows of it.
async fn beside(page: &Page) -> State {
    let fragment = shared(page).await;
    page.press("share-close").await;
    page.go(&fragment).await;
    page.reload().await;
    page.press("keep-copy").await;
    page.enter("point-size", "0.95").await;
    let is_thinner = |now: &State| now.si("belly-diameter") < 1.0e-3;
    let thinner = page.until_state("the copy is thinner", is_thinner).await;
    until("two lines are kept", async || {
        page.kept_line(2).await.map(drop)
    })
    .await;
    thinner
}

/// The tables tell the two lines' own figures and their difference; the places are in order.
async fn compares(page: &Page, mine: &State, other: &State) {
    page.seek("[data-compared]").await;
    let is_up_to_date = |rows: &Vec<Row>| {
        let of_both =
            |row: &Row| row.mine == mine.figures[&row.key] && row.other == other.figures[&row.key];
        !rows.is_empty() && rows.iter().all(of_both)
    };
    let rows = until("both lines' figures are told", async || {
        Some(page.ask::<Vec<Row>>(ROWS, vec![]).await).filter(is_up_to_date)
    })
    .await;
    assert_eq!(rows.len(), 13, "{rows:#?}");
    let mass = rows.iter().find(|row| row.key == "total-mass");
    let mass = mass.expect("the whole line is compared");
    // A grain is 64.798 91 mg (international yard and pound agreement, 1959). A reader subtracts what is shown: tenths.
    let shown = |state: &State| (state.si("total-mass") / 64.798_91e-6 * 10.0).round() / 10.0;
    let grains = shown(mine) - shown(other);
    let said: f64 = said_grains(&mass.said);
    assert!((said - grains).abs() < 1e-6, "{grains} gr: {mass:?}");
    let places: Vec<f64> = page.ask(PLACES, vec![]).await;
    assert!(places.len() >= 4 && places.is_sorted(), "{places:?}");
    assert!(near(places[0] + 1.0, 1.0), "{places:?}");
}

/// The second number of `−1.20 g · −18.5 gr`.
fn said_grains(words: &str) -> f64 {
    let (_, grains) = words.split_once('·').unwrap_or_else(|| panic!("{words}"));
    let number: String = grains
        .replace('\u{2212}', "-")
        .chars()
        .filter(|letter| letter.is_ascii_digit() || "-.+".contains(*letter))
        .collect();
    number.parse().unwrap_or_else(|_| panic!("{words}"))
}

/// What is typed for a link stays in the field, with words beside it, and nothing is drawn for it.
async fn refuses(page: &Page, typed: &str, named: &str) {
    page.enter("compare-link", typed).await;
    until(&format!("“{named}” is said of {typed}"), async || {
        let said = page.said_beside("compare-link").await?;
        said.contains(named).then_some(())
    })
    .await;
    assert_eq!(page.value("compare-link").await, typed);
    let marked = page
        .control("compare-link")
        .await
        .attr("aria-invalid")
        .await;
    assert_eq!(marked.expect("a field answers").as_deref(), Some("true"));
    assert_eq!(page.matching("[data-ghost]").await, 0);
}
