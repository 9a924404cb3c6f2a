//! Each place is a screen: the class is in sight in all of them, Draw does not scroll, a list is found scrolled as it was left, and
//! no place is heavier than an old tablet bears.

use taperwright::base::choice::Choice as _;
use taperwright::page::places::Place;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::{on_the_page, until};
use super::places::history;
use super::reach::is_in_sight;
use super::views::SIZES;

/// How far the place shown is scrolled, and how far it can be.
const SCROLLED: &str = r"
    const { scrollTop, scrollHeight, clientHeight } = document.querySelector('[data-shows]');
    return [scrollTop, scrollHeight - clientHeight];";

/// By how much the window and the place shown could be scrolled, down and sideways.
const BEYOND: &str = r"
    const [page, place] = [document.scrollingElement, document.querySelector('[data-shows]')];
    return [page, place].flatMap((one) => [one.scrollHeight - one.clientHeight, one.scrollWidth - one.clientWidth]);";

const ELEMENTS: &str = "return document.querySelectorAll('*').length;";

/// Most elements of the document when it opens, and in whatever place: what a tablet of some years builds at once, and draws
/// without stutter. Set by us, no source.
const MOST_AT_FIRST: usize = 700;
const MOST: usize = 2500;

#[test]
fn a_place_is_found_scrolled_as_it_was_left() {
    on_the_page(async |page| {
        page.go_to("threads").await;
        let scroll = "document.querySelector('[data-shows]').scrollTop = 300;";
        page.run(scroll, vec![]).await;
        page.until_drawn().await;
        let (left, _): (f64, f64) = page.ask(SCROLLED, vec![]).await;
        assert!(left > 200.0, "there is nothing to scroll: {left}");
        for away in ["wind", "sheet", "reload", "back"] {
            match away {
                "wind" => page.go_to("wind").await,
                "sheet" => {
                    page.press("all-figures").await;
                    page.until_there(".over.shown").await;
                    page.close_sheet().await;
                }
                "reload" => page.reload().await,
                _ => {
                    page.go_to("dress").await;
                    history(page, -1).await;
                }
            }
            if away == "wind" {
                let (elsewhere, _): (f64, f64) = page.ask(SCROLLED, vec![]).await;
                assert!(elsewhere < left, "another place begins at its top");
                page.go_to("threads").await;
            }
            until(&format!("it is scrolled as before: {away}"), async || {
                let (now, _): (f64, f64) = page.ask(SCROLLED, vec![]).await;
                ((now - left).abs() < 1.0).then_some(())
            })
            .await;
        }
    });
}

/// The class is what every change is made for: it is in sight in each place, in each size, and while a point is dragged.
#[test]
fn the_class_is_in_sight_everywhere() {
    on_the_page(async |page| {
        for size in SIZES {
            page.take_size(size).await;
            for &place in Place::ALL {
                page.go_to(place.key()).await;
                let is_seen = is_in_sight(page, "[data-figure=class]").await;
                assert!(is_seen, "{size:?}, {place:?}");
                let bottom = "const place = document.querySelector('[data-shows]'); place.scrollTop = place.scrollHeight;";
                page.run(bottom, vec![]).await;
                page.until_drawn().await;
                let is_seen = is_in_sight(page, "[data-figure=class]").await;
                assert!(is_seen, "{size:?}, {place:?}, at its end");
            }
            page.go_to("draw").await;
            let before = page.seen().await;
            let mut hand = Hand::take(page, Pointer::Finger, belly()).await;
            hand.glide((0.0, -30.0));
            page.until_drawn().await;
            let is_seen = is_in_sight(page, "[data-figure=class]").await;
            assert!(is_seen, "{size:?}, during a drag");
            let weight = "return document.querySelector('.class-button').textContent;";
            let during: String = page.ask(weight, vec![]).await;
            hand.taken_away();
            until("the drag is broken off", async || {
                (page.seen().await == before).then_some(())
            })
            .await;
            let after: String = page.ask(weight, vec![]).await;
            assert_ne!(during, after, "{size:?}: the class stood still");
        }
    });
}

#[test]
fn no_place_is_heavy() {
    on_the_page(async |page| {
        let first: usize = page.ask(ELEMENTS, vec![]).await;
        assert!(first <= MOST_AT_FIRST, "{first} elements at first");
        for &place in Place::ALL {
            page.go_to(place.key()).await;
            let count: usize = page.ask(ELEMENTS, vec![]).await;
            println!("{place:?}: {count} elements");
            assert!(count <= MOST, "{count} elements at {place:?}");
        }
    });
}

#[test]
fn draw_is_one_screen() {
    on_the_page(async |page| {
        for size in SIZES {
            page.take_size(size).await;
            let beyond: Vec<f64> = page.ask(BEYOND, vec![]).await;
            assert!(beyond.iter().all(|by| *by <= 0.0), "{size:?}: {beyond:?}");
            for selector in [
                "[data-intro]",
                "[data-action=point-size]",
                "[data-action=add-point]",
            ] {
                assert!(is_in_sight(page, selector).await, "{size:?}: {selector}");
            }
        }
    });
}
