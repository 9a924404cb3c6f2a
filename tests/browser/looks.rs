//! A look is chosen in the head, shows at once, is kept in this browser, and leaves line and paper as they are. Drawings
//! stay readable where the device insists on its own colours.

use serde_json::{Value, json};

use super::harness::{on_the_page, until};
use super::page::Page;
use super::paper::Print;

/// Background and ink of the page as the browser paints them, and what it takes the page for.
const PAINTED: &str = r"
    const style = getComputedStyle(document.body);
    const { backgroundColor, color } = style;
    return [backgroundColor, color, getComputedStyle(document.documentElement).colorScheme];";

/// What is drawn on the chart, by what it is: colours of a line, a handle and a figure, and the ground under them.
const DRAWN: &str = r"
    const paint = (selector, what) => getComputedStyle(document.querySelector(selector))[what];
    return {
        ground: paint('.chart', 'backgroundColor'), drawn: paint('.drawn', 'stroke'),
        threads: paint('.ribbon text', 'fill'), angle: paint('.angle-line', 'stroke'),
        handle: paint('.handle .dot', 'stroke'), figure: paint('.figures-of-axes text', 'fill'),
        pressed: paint('[data-action=metric]', 'backgroundColor'), word: paint('[data-action=metric]', 'color'),
    };";

async fn painted(page: &Page) -> [String; 3] {
    page.ask(PAINTED, vec![]).await
}

fn wish(page: &Page, features: &Value) {
    page.session.cdp(
        "Emulation.setEmulatedMedia",
        &json!({ "features": features }),
    );
}

const WHITE: &str = "rgb(255, 255, 255)";
const BLACK: &str = "rgb(0, 0, 0)";

#[test]
fn a_look_shows_at_once_and_is_kept() {
    on_the_page(async |page| {
        let (state, light) = (page.state().await, painted(page).await);
        page.choose("look", "dark").await;
        let dark = painted(page).await;
        assert_ne!(dark[0], light[0]);
        assert_eq!([&light[2], &dark[2]], ["light", "dark"]);
        page.choose("look", "bright").await;
        assert_eq!(painted(page).await[..2], [WHITE, BLACK]);
        assert_eq!(page.state().await, state, "a look changes no line");
        page.reload().await;
        assert_eq!(page.value("look").await, "bright", "the look is forgotten");
        assert_eq!(painted(page).await[..2], [WHITE, BLACK]);
        page.choose("look", "device").await;
        assert_eq!(painted(page).await, light);
    });
}

#[test]
fn the_device_is_followed_until_a_look_is_chosen() {
    on_the_page(async |page| {
        page.choose("look", "dark").await;
        let dark = painted(page).await;
        page.choose("look", "light").await;
        let light = painted(page).await;
        page.choose("look", "device").await;
        wish(
            page,
            &json!([{ "name": "prefers-color-scheme", "value": "dark" }]),
        );
        until("the page is dark", async || {
            (painted(page).await == dark).then_some(())
        })
        .await;
        page.choose("look", "light").await;
        assert_eq!(painted(page).await, light);
        page.choose("look", "device").await;
        wish(
            page,
            &json!([{ "name": "prefers-contrast", "value": "more" }]),
        );
        until("the page is bright", async || {
            (painted(page).await[..2] == [WHITE, BLACK]).then_some(())
        })
        .await;
    });
}

#[test]
fn the_card_is_the_same_in_every_look() {
    on_the_page(async |page| {
        let card = Print::of(page);
        let picture = card.picture();
        for look in ["dark", "bright"] {
            page.choose("look", look).await;
            let other = Print::of(page);
            assert_eq!(other.sheets, card.sheets, "{look}");
            assert!(other.picture() == picture, "{look} shows on paper");
        }
    });
}

#[test]
fn drawings_stay_readable_where_the_device_insists_on_its_colours() {
    on_the_page(async |page| {
        for look in ["light", "dark"] {
            page.choose("look", look).await;
            wish(
                page,
                &json!([{ "name": "forced-colors", "value": "active" }]),
            );
            let drawn: std::collections::BTreeMap<String, String> = page.ask(DRAWN, vec![]).await;
            for what in ["drawn", "threads", "angle", "handle", "figure"] {
                assert_ne!(
                    drawn[what], drawn["ground"],
                    "{look}: {what} cannot be seen"
                );
            }
            assert_ne!(drawn["pressed"], drawn["word"], "{look}");
            assert_ne!(drawn["pressed"], drawn["ground"], "{look}");
            wish(page, &json!([]));
        }
    });
}

/// Buttons in sight whose words have the colour of what is behind them.
const UNREADABLE: &str = "
    const ground = (one) => {
        const colour = one ? getComputedStyle(one).backgroundColor : 'none';
        return colour === 'rgba(0, 0, 0, 0)' ? ground(one.parentElement) : colour;
    };
    const all = [...document.querySelectorAll('button')].filter((one) => one.checkVisibility());
    const lost = all.filter((one) => getComputedStyle(one).color === ground(one));
    return [all.length, lost.map((one) => one.textContent || one.ariaLabel)];";

#[test]
fn buttons_stay_readable_in_every_place_where_the_device_insists_on_its_colours() {
    on_the_page(async |page| {
        wish(
            page,
            &json!([{ "name": "forced-colors", "value": "active" }]),
        );
        for place in ["draw", "threads", "wind", "braid", "dress", "weigh"] {
            page.go_to(place).await;
            let (all, lost): (usize, Vec<String>) = page.ask(UNREADABLE, vec![]).await;
            assert!(all > 8, "{place}: {all} buttons");
            assert_eq!(lost, Vec::<String>::new(), "{place}");
        }
    });
}
