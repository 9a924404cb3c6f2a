//! What the maker insists on holds through reload, link and later edits; what no longer can is said, with its reason.

use std::rc::Rc;

use taperwright::base::choice::Choice as _;
use taperwright::braid::threads::Build;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::pin::DraftPin;
use taperwright::edit::Edit;
use taperwright::plan::Plan;

use super::fields::takes;
use super::harness::{at_a_desk, on_the_page, until};
use super::page::Page;
use super::settings::edited;
use super::share::shared;
use super::state::{Event, State};

/// Where the first thread is insisted on, in metres; without that it is added at some 0.44 m, the next at 0.97 m.
const PLACE: f64 = 0.3;

/// What the notices say of a pin that is no longer kept.
const DROPPED: &str = r#"
    const notices = [...document.querySelectorAll(".over.shown .notices li")].map((item) => item.textContent);
    return notices.find((words) => words.includes("Reason: ")) ?? null;"#;

const KEPT: &str = "li[data-pin][data-kept=true]";
const GIVEN_UP: &str = "li[data-pin][data-kept=false]";

/// What the list at the schedule and the notices beside the figures say of the pin that is no longer kept.
async fn given_up(page: &Page) -> (String, String) {
    page.go_to("threads").await;
    page.until_there(GIVEN_UP).await;
    let row = page.words_of(GIVEN_UP).await;
    page.press("all-figures").await;
    let said = until("the notices name it", async || {
        page.ask::<Option<String>>(DROPPED, vec![]).await
    })
    .await;
    page.close_sheet().await;
    (row, said)
}

/// How many pins the list at the schedule has.
async fn pins(page: &Page, which: &str) -> usize {
    page.go_to("threads").await;
    page.matching(which).await
}

#[test]
fn a_place_insisted_on_is_kept_to_the_last_digit() {
    at_a_desk(async |desk| {
        let page = desk.visitor().await;
        let before = page.state().await;
        let (first, next) = (
            first_add(&before).metres(),
            before.of_kind("add")[1].metres(),
        );
        assert!(PLACE < first && first < next, "the example shows nothing");
        let pinned = place_pinned(&page).await;
        assert_eq!(first_add(&pinned).at, PLACE.to_string());
        assert_eq!(first_add(&pinned).pinned, "true");
        let elsewhere = pinned.events.iter().filter(|line| line.pinned == "true");
        assert_eq!(elsewhere.count(), 1, "more than one row is pinned");
        assert_eq!(pins(&page, KEPT).await, 1);
        page.reload().await;
        assert_eq!(page.state().await, pinned);
        assert_eq!(pins(&page, KEPT).await, 1);
        comes_by_link(&desk.visitor_by(&shared(&page).await).await, &pinned).await;
    });
}

async fn comes_by_link(receiver: &Rc<Page>, pinned: &State) {
    assert_eq!(receiver.state().await, *pinned);
    assert_eq!(pins(receiver, KEPT).await, 1);
}

#[test]
fn a_pin_whose_change_is_gone_is_named_until_it_is_back() {
    on_the_page(async |page| {
        let pinned = place_pinned(page).await;
        // A tip so thick that the line begins with more threads: the pinned one is never added.
        page.press("point-before").await;
        page.press("point-before").await;
        page.enter("point-size", "1").await;
        let (row, said) = given_up(page).await;
        assert!(row.contains("not used"), "{row}");
        for words in ["8 threads", "0.3", "no longer has this change"] {
            assert!(said.contains(words), "“{said}” does not name {words}");
        }
        let now = page.state().await;
        assert!(now.of_kind("add").len() < pinned.of_kind("add").len());
        assert!(now.events.iter().all(|line| line.pinned == "false"));
        page.press("undo").await;
        page.until_state("the pin is kept again", |now| *now == pinned)
            .await;
        assert_eq!(pins(page, KEPT).await, 1);
        assert_eq!(page.matching(GIVEN_UP).await, 0);
    });
}

#[test]
fn a_pin_let_go_leaves_the_line_as_it_was() {
    on_the_page(async |page| {
        let before = page.state().await;
        for button in ["unpin", "let-go"] {
            page.enter_pin("add", "pin-place", &PLACE.to_string()).await;
            page.until_state("the place is pinned", |now| first_add(now).pinned == "true")
                .await;
            page.press(button).await;
            page.until_state("the pin is let go", |now| *now == before)
                .await;
            assert_eq!(pins(page, "li[data-pin]").await, 0);
            page.reload().await;
            assert_eq!(page.state().await, before);
        }
    });
}

#[test]
fn a_carrier_insisted_on_is_the_one_that_is_added() {
    on_the_page(async |page| {
        let own = first_add(&page.state().await).carrier.clone();
        let design = with_another_carrier(&own);
        let Some(DraftPin::Carrier {
            direction, number, ..
        }) = design.draft().pins.first()
        else {
            panic!("a carrier is pinned");
        };
        let key = taperwright::braid::track::Carrier {
            direction: *direction,
            number: *number,
        }
        .to_string();
        page.open_pin("add").await;
        page.choose("pin-carrier", &key).await;
        takes(page, &design).await;
        let state = page.state().await;
        assert_eq!(first_add(&state).carrier, key);
        assert_eq!(first_add(&state).pinned, "true");
        super::figures::follow(&state);
    });
}

/// Of a line of heavier threads the carrier of a swap is named the same way.
#[test]
fn a_carrier_insisted_on_is_the_one_that_is_swapped() {
    on_the_page(async |page| {
        page.choose("build", Build::HeavierThreads.key()).await;
        let heavier = edited(demo(), Edit::Build(Build::HeavierThreads));
        takes(page, &heavier).await;
        let order = Plan::of(&heavier).heavier;
        // The third is the next that runs the way of the first.
        let (first, third) = (order[0], order[2]);
        page.open_pin("swap").await;
        page.choose("pin-carrier", &third.to_string()).await;
        let pin = DraftPin::Swap {
            heavy: 0,
            direction: third.direction,
            number: third.number,
        };
        let pin = Edit::Pin {
            pin,
            replaces: None,
        };
        takes(page, &edited(heavier, pin)).await;
        let state = page.state().await;
        let swaps = state.of_kind("swap");
        assert_ne!(first, third);
        assert_eq!(swaps[0].carrier, third.to_string());
        assert_eq!(swaps[0].pinned, "true");
    });
}

/// The demo with another carrier for its first step, such that the plan can keep the pin.
fn with_another_carrier(own: &str) -> Design {
    let fewest = Plan::of(&demo()).threads_min();
    let pinned = |carrier: taperwright::braid::track::Carrier| {
        let pin = DraftPin::Carrier {
            threads: fewest,
            direction: carrier.direction,
            number: carrier.number,
        };
        let pin = Edit::Pin {
            pin,
            replaces: None,
        };
        edited(demo(), pin)
    };
    let others = demo()
        .track()
        .all()
        .filter(|carrier| carrier.to_string() != own);
    let mut kept = others
        .map(pinned)
        .filter(|design| Plan::of(design).layout.dropped_pins.is_empty());
    kept.next().expect("another carrier can come first")
}

#[test]
fn a_gear_insisted_on_is_fitted() {
    on_the_page(async |page| {
        let before = page.state().await;
        page.open_pin("start").await;
        page.choose("pin-gear", "20").await;
        let pinned = page
            .until_state("the gear is fitted", |now| now.events[0].gear == "20")
            .await;
        assert_ne!(before.events[0].gear, "20", "the example shows nothing");
        assert_eq!(pinned.events[0].pinned, "true");
        // Another takes its place; there is no second pin.
        page.choose("pin-gear", "21").await;
        page.until_state("the other gear is fitted", |now| now.events[0].gear == "21")
            .await;
        assert_eq!(pins(page, "li[data-pin]").await, 1);
        page.press("unpin").await;
        page.until_state("the gear is free again", |now| *now == before)
            .await;
    });
}

#[test]
fn a_place_among_its_neighbours_is_explained() {
    on_the_page(async |page| {
        let length = page.state().await.si("length");
        // A change that makes the line thicker, asked for after where it gets thinner.
        page.enter_pin("add", "pin-place", "25").await;
        let (_, said) = given_up(page).await;
        assert!(said.contains("only from") && length > 25.0, "{said}");
    });
}

fn first_add(state: &State) -> &Event {
    state.of_kind("add")[0]
}

/// Insists on where the first thread is added; returns what the page then shows.
async fn place_pinned(page: &Page) -> State {
    page.enter_pin("add", "pin-place", &PLACE.to_string()).await;
    let pin = DraftPin::Place {
        threads: Plan::of(&demo()).threads_min(),
        heavy: 0,
        rising: true,
        at_m: PLACE,
    };
    let pin = Edit::Pin {
        pin,
        replaces: None,
    };
    takes(page, &edited(demo(), pin)).await;
    page.state().await
}

impl Page {
    /// Opens the first row of a kind to be pinned.
    async fn open_pin(&self, kind: &str) {
        self.press_at(&format!("li[data-event={kind}] [data-action=pin]"))
            .await;
    }

    /// Opens the first row of a kind, where it is not open, and types what is insisted on.
    async fn enter_pin(&self, kind: &str, field: &str, text: &str) {
        if self.count(field).await == 0 {
            self.open_pin(kind).await;
        }
        self.enter(field, text).await;
    }
}
