//! How the line turns over: the figures of the stated cast, beside another line, with what would change them. Nothing of the line changes
//! unless the maker takes a shape that was found.

use serde::Deserialize;
use serde_json::json;
use taperwright::design::Design;
use taperwright::plan::Plan;
use taperwright::turnover::{Cast, CastNumber, Surroundings, Turnover, turn_over};

use super::harness::{on_the_page, until};
use super::page::Page;
use super::state::near;
use super::views::foreign_link;

/// The figures: key, value, and that of the other line.
const FIGURES: &str = "
    return [...document.querySelectorAll('[data-turnover]')].map((row) =>
        ({ key: row.dataset.turnover, own: Number(row.dataset.si), other: row.dataset.other }));";
/// The lines drawn in the air.
const FLIGHTS: &str = "
    return [...document.querySelectorAll('.flight-line')].map((path) => path.getAttribute('d'));";
/// The arrows on the handles, as path data.
const ARROWS: &str = "return document.querySelector('[data-arrows]').getAttribute('d');";

#[derive(Debug, Deserialize)]
struct Figure {
    key: String,
    own: f64,
    other: String,
}

/// Opens it from Draw.
pub(super) async fn open(page: &Page) {
    page.open_sheet("turnover").await;
    page.until_there(".over.shown [data-turnover]").await;
}

/// Shows the arrows on the handles.
pub(super) async fn show_arrows(page: &Page) {
    open(page).await;
    page.press("turnover-arrows").await;
    page.until_there("[data-shape-guide]").await;
    until("the arrows are drawn", async || {
        let arrows: String = page.ask(ARROWS, vec![]).await;
        (!arrows.is_empty()).then_some(())
    })
    .await;
}

async fn figure(page: &Page, key: &str) -> Figure {
    let figures: Vec<Figure> = page.ask(FIGURES, vec![]).await;
    let mut of_key = figures.into_iter().filter(|figure| figure.key == key);
    of_key.next().expect("the figure is there")
}

/// The same cast by the core.
fn cast_of(design: &Design, cast: &Cast) -> Turnover {
    let line = Plan::of(design).fly_line().expect("a line");
    turn_over(&line, cast, &Surroundings::USUAL)
}

async fn shows(page: &Page, cast: &Turnover) {
    until("the figures are those of the core", async || {
        let speed = figure(page, "arrival-speed").await.own;
        let left = figure(page, "energy-left").await.own;
        let is_shown =
            near(speed, cast.at_leader.speed.metres_per_second()) && near(left, cast.energy_left());
        is_shown.then_some(())
    })
    .await;
}

#[test]
fn the_place_opens_from_draw_with_the_figures_of_the_core() {
    on_the_page(async |page| {
        let (state, storage) = (page.state().await, page.storage().await);
        open(page).await;
        let design = taperwright::design::demo::demo();
        shows(page, &cast_of(&design, &Cast::default())).await;
        assert_eq!(figure(page, "arrival-speed").await.other, "");
        let flights: Vec<String> = page.ask(FLIGHTS, vec![]).await;
        assert_eq!(flights.len(), 1);
        assert_eq!(page.state().await, state);
        assert_eq!(page.storage().await, storage, "looking wrote something");
    });
}

#[test]
fn another_line_stands_beside_it() {
    on_the_page(async |page| {
        page.enter("compare-link", &foreign_link()).await;
        page.until_there("[data-compared]").await;
        page.close_sheet().await;
        open(page).await;
        for key in ["arrival-speed", "energy-left"] {
            let figure = figure(page, key).await;
            let other: f64 = figure.other.parse().expect("a number");
            assert!(other > 0.0 && !near(other, figure.own), "{figure:?}");
        }
        let flights: Vec<String> = page.ask(FLIGHTS, vec![]).await;
        assert_eq!(flights.len(), 2);
        assert!(page.matching(".turnover-said li").await > 1);
    });
}

#[test]
fn the_cast_is_changed_and_kept_and_what_cannot_be_is_said() {
    on_the_page(async |page| {
        open(page).await;
        page.enter("cast-speed", "18").await;
        let cast = Cast::default()
            .with(CastNumber::Speed, 18.0)
            .expect("within its range");
        let design = taperwright::design::demo::demo();
        shows(page, &cast_of(&design, &cast)).await;
        page.enter("loop-height", "20").await;
        let said = page.said_beside("loop-height").await.expect("an answer");
        assert!(said.contains("0.2 to 1.5 m"), "{said}");
        // What was not understood is gone with the usual cast, and keeps nobody from it.
        page.press("cast-reset").await;
        shows(page, &cast_of(&design, &Cast::default())).await;
        assert_eq!(page.said_beside("loop-height").await, None);
        page.enter("cast-speed", "18").await;
        page.reload().await;
        open(page).await;
        shows(page, &cast_of(&design, &cast)).await;
        page.press("cast-reset").await;
        shows(page, &cast_of(&design, &Cast::default())).await;
    });
}

#[test]
fn the_slider_moves_the_loop() {
    on_the_page(async |page| {
        open(page).await;
        let before: Vec<String> = page.ask(FLIGHTS, vec![]).await;
        page.run(
            "const slider = document.querySelector('[data-action=turnover-moment]');
            slider.value = 450;
            slider.dispatchEvent(new Event('input', { bubbles: true }));",
            vec![],
        )
        .await;
        until("the loop is elsewhere", async || {
            let now: Vec<String> = page.ask(FLIGHTS, vec![]).await;
            (now != before).then_some(())
        })
        .await;
        // The browser of the tests asks for less motion: nothing plays by itself then.
        let seen =
            "return document.querySelector('[data-action=turnover-play]').checkVisibility();";
        assert!(!page.ask::<bool>(seen, vec![]).await);
        let moving =
            json!({"features": [{"name": "prefers-reduced-motion", "value": "no-preference"}]});
        page.session.cdp("Emulation.setEmulatedMedia", &moving);
        page.press("turnover-play").await;
        // Played to its end it stops by itself.
        until("the cast has been played", async || {
            let at = page.value("turnover-moment").await;
            (at == "500").then_some(())
        })
        .await;
    });
}

#[test]
fn a_gentler_shape_is_offered_and_only_taken_by_the_maker() {
    on_the_page(async |page| {
        let (state, storage) = (page.state().await, page.storage().await);
        open(page).await;
        let before = figure(page, "energy-left").await.own;
        page.press("turnover-find").await;
        page.until_there("[data-turnover-search=found]").await;
        let offered: f64 = figure(page, "energy-left")
            .await
            .other
            .parse()
            .expect("a number");
        assert!(offered < before, "{offered} {before}");
        assert_eq!(page.state().await, state, "it was taken unasked");
        assert_eq!(page.storage().await, storage, "it was kept unasked");
        // The sheet was closed to look at that; opened again, it is still offered. Not used, it is gone.
        assert_eq!(page.matching("[data-ghost=outline]").await, 1);
        open(page).await;
        page.until_there("[data-turnover-search=found]").await;
        page.press("turnover-leave").await;
        page.until_gone("[data-turnover-search=found]").await;
        assert_eq!(page.matching("[data-ghost]").await, 0);
        page.press("turnover-find").await;
        page.until_there("[data-turnover-search=found]").await;
        page.press("turnover-use").await;
        until("the shape is taken", async || {
            near(figure(page, "energy-left").await.own, offered).then_some(())
        })
        .await;
        let taken = page.state().await;
        assert_eq!(taken.figures["class"], state.figures["class"]);
        page.close_sheet().await;
        page.press("undo").await;
        page.until_state("the own shape is back", |now| now.figures == state.figures)
            .await;
    });
}

#[test]
fn arrows_stand_on_the_handles_until_they_are_hidden() {
    on_the_page(async |page| {
        let arrows: String = page.ask(ARROWS, vec![]).await;
        assert_eq!(arrows, "");
        show_arrows(page).await;
        page.press("turnover-hide").await;
        page.until_gone("[data-shape-guide]").await;
        until("the arrows are gone", async || {
            let arrows: String = page.ask(ARROWS, vec![]).await;
            arrows.is_empty().then_some(())
        })
        .await;
    });
}
