//! Six places: each has its button and its address, and the browser's back and forward lead through them, closing sheets on
//! the way. The place outlasts a reload and the visit.

use serde::Deserialize;
use serde_json::json;
use taperwright::base::choice::Choice as _;
use taperwright::page::places::Place;

use super::harness::{at_a_desk, on_the_page, until};
use super::page::{PLACE_KEY, Page};
use super::share::shared;

/// The place named by the document, the one built, the button marked, and the fragment of the address.
const NOW: &str = r"
    const marked = [...document.querySelectorAll('[data-action=place][aria-current=page]')];
    return {
        document: document.documentElement.dataset.place,
        shows: [...document.querySelectorAll('[data-shows]')].map((one) => one.dataset.shows),
        marked: marked.map((one) => one.dataset.place),
        address: location.hash,
    };";

#[derive(Debug, Deserialize)]
struct Shown {
    document: String,
    shows: Vec<String>,
    marked: Vec<String>,
    address: String,
}

/// Waits until a place is shown, and holds document, bar and address to it.
pub(super) async fn is_at(page: &Page, place: Place) {
    let key = place.key();
    let shown = until(&format!("the page is at {key}"), async || {
        let shown: Shown = page.ask(NOW, vec![]).await;
        (shown.document == key && shown.address == format!("#{key}")).then_some(shown)
    })
    .await;
    assert_eq!(shown.shows, [key], "{shown:?}");
    assert_eq!(shown.marked, [key], "{shown:?}");
}

/// The button of a place in the bar.
fn button(place: Place) -> String {
    format!("[data-action=place][data-place={}]", place.key())
}

pub(super) async fn tap(page: &Page, place: Place) {
    page.press_at(&button(place)).await;
}

pub(super) async fn history(page: &Page, step: i32) {
    page.run("history.go(arguments[0]);", vec![json!(step)])
        .await;
}

/// The page opened again at another address, with nothing of its history.
async fn come_by(page: &Page, rest: &str) {
    let left = page.session.client.goto("about:blank").await;
    left.expect("the page is left");
    page.go(rest).await;
}

#[test]
fn each_place_has_its_button_and_its_address() {
    on_the_page(async |page| {
        is_at(page, Place::Draw).await;
        for &place in Place::ALL.iter().rev() {
            tap(page, place).await;
            is_at(page, place).await;
            let title: String = page.ask("return document.title;", vec![]).await;
            assert!(title.starts_with(place.name()), "{title}");
        }
    });
}

#[test]
fn back_and_forward_lead_through_the_places() {
    on_the_page(async |page| {
        tap(page, Place::Threads).await;
        is_at(page, Place::Threads).await;
        // The place one is at is no step.
        tap(page, Place::Threads).await;
        tap(page, Place::Dress).await;
        for (step, place) in [
            (-1, Place::Threads),
            (-1, Place::Draw),
            (1, Place::Threads),
            (1, Place::Dress),
            (-2, Place::Draw),
        ] {
            history(page, step).await;
            is_at(page, place).await;
        }
    });
}

#[test]
fn back_closes_a_sheet_and_stays_in_the_place() {
    on_the_page(async |page| {
        tap(page, Place::Wind).await;
        page.press("all-figures").await;
        page.until_there(".over.shown").await;
        history(page, -1).await;
        page.until_gone(".over.shown").await;
        is_at(page, Place::Wind).await;
        page.until_focused("[data-action=all-figures]").await;
        // Closed by hand it leaves no step behind either: the next step back is the place before.
        page.press("all-figures").await;
        page.until_there(".over.shown").await;
        page.close_sheet().await;
        history(page, -1).await;
        is_at(page, Place::Draw).await;
        // Nor does a sheet come back by forward.
        history(page, 2).await;
        is_at(page, Place::Wind).await;
        assert_eq!(page.matching(".over.shown").await, 0);
    });
}

#[test]
fn a_sheet_that_leads_to_a_place_leaves_no_step_behind() {
    on_the_page(async |page| {
        tap(page, Place::Wind).await;
        is_at(page, Place::Wind).await;
        page.press("words").await;
        page.press("intro-again").await;
        is_at(page, Place::Draw).await;
        page.until_gone(".over.shown").await;
        history(page, -1).await;
        is_at(page, Place::Wind).await;
        assert_eq!(page.matching(".over.shown").await, 0);
    });
}

#[test]
fn the_place_outlasts_a_reload_and_the_visit() {
    on_the_page(async |page| {
        for &place in Place::ALL.iter().rev() {
            tap(page, place).await;
            page.reload().await;
            is_at(page, place).await;
            come_by(page, "").await;
            is_at(page, place).await;
        }
        // What is kept of it is no place, or none of today's.
        for kept in ["", "attic 10", "draw much", "\u{0}"] {
            let keep = "localStorage.setItem(...arguments);";
            page.run(keep, vec![json!(PLACE_KEY), json!(kept)]).await;
            come_by(page, "").await;
            is_at(page, Place::Draw).await;
        }
    });
}

#[test]
fn a_place_in_the_address_opens() {
    on_the_page(async |page| {
        for &place in Place::ALL {
            come_by(page, &format!("#{}", place.key())).await;
            is_at(page, place).await;
        }
        // The open page hears of another fragment.
        let go = "location.hash = arguments[0];";
        page.run(go, vec![json!("threads")]).await;
        is_at(page, Place::Threads).await;
    });
}

#[test]
fn a_line_from_a_link_opens_at_draw_and_stays_a_preview_in_every_place() {
    at_a_desk(async |desk| {
        let sender = desk.visitor().await;
        sender.enter("point-size", "0.95").await;
        let fragment = shared(&sender).await;
        let page = desk.visitor().await;
        tap(&page, Place::Weigh).await;
        is_at(&page, Place::Weigh).await;
        come_by(&page, &fragment).await;
        let place = "return document.documentElement.dataset.place;";
        assert_eq!(page.ask::<String>(place, vec![]).await, "draw");
        let line = page.state().await;
        for &other in Place::ALL.iter().rev() {
            page.go_to(other.key()).await;
            assert_eq!(page.count("keep-copy").await, 1, "{other:?}");
            let address: String = page.ask("return location.hash;", vec![]).await;
            assert_eq!(address, fragment, "{other:?}");
        }
        page.go_to("threads").await;
        page.reload().await;
        assert_eq!(page.count("keep-copy").await, 1);
        assert_eq!(page.state().await, line);
        // Once it is kept, the address names the place again.
        page.press("keep-copy").await;
        is_at(&page, Place::Threads).await;
        assert_eq!(page.state().await, line);
    });
}

/// Where one is belongs to no line: it is kept beside them, and a first visit keeps nothing else.
#[test]
fn only_the_place_is_kept_of_a_first_look_around() {
    on_the_page(async |page| {
        for &place in Place::ALL {
            page.go_to(place.key()).await;
        }
        let keys: Vec<String> = page.ask("return Object.keys(localStorage);", vec![]).await;
        assert_eq!(keys, [PLACE_KEY]);
    });
}
