//! The page: Leptos components, one folder or file for each part of it. They read the plan and calculate nothing; a design
//! changes only through `bench::Bench`.

#![expect(
    unreachable_pub,
    reason = "the component macro makes what it wraps public"
)]

mod at_machine;
mod bench;
mod bobbins;
mod book;
mod card;
mod cautions;
mod chart;
mod class_button;
mod compare;
mod current_line;
mod deferred;
mod draw;
mod dressing;
mod drop_to_open;
mod entries;
mod field;
mod field_error;
mod figures;
mod figures_sheet;
mod finder;
mod icon;
mod in_progress;
mod intro;
mod kept;
mod later;
mod line_picture;
mod look;
mod machine;
mod measured;
mod menu;
mod messages;
mod new_line;
mod open_file;
mod photo;
mod place_bar;
mod places;
mod plan_chart;
mod planned;
mod point;
mod points;
mod questions;
mod reach_class;
mod rows;
mod ruler;
mod run_clock;
mod saving;
mod schedule;
mod sections;
mod settings;
mod share_sheet;
mod sheet;
mod sheet_button;
mod sheet_kind;
mod sheets;
mod stairs;
mod terms;
mod threads;
mod top_bar;
mod turnover;
mod updates;
mod verdict;
mod window_events;
mod workshop_button;

use leptos::context::Provider;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::base::choice::Choice as _;
use crate::page::browser::{focus, rescue, second_copy, text_input};
use crate::page::places::Place;
use bench::Bench;
use deferred::TaskQueue;
use later::{Later, Part};
use places::{Places, places};

/// Opens the page, once everything stored in this browser is there.
pub fn open() {
    rescue::watch();
    text_input::commit_before_presses();
    focus::keep_from_falling();
    second_copy::restore(mount);
}

/// Puts the page into the element `page` of the document, in place of what stood there.
fn mount() {
    let Some(page) = document().get_element_by_id("page") else {
        return;
    };
    look::put_on_kept();
    page.set_text_content(None);
    mount_to(page.unchecked_into(), Page).forget();
}

/// Everything on the page: the bar above, the place shown, the bar of places, and the sheets over them.
#[component]
fn Page() -> impl IntoView {
    let bench = Bench::open();
    bench::pace_figures(bench);
    provide_context(bench);
    let tasks = TaskQueue::new();
    provide_context(tasks);
    provide_context(updates::OfflineCopy::follow(bench));
    provide_context(entries::Entries::new());
    provide_context(terms::TappedTerm::none());
    provide_context(Places::open(bench));
    provide_context(intro::Intro::open(bench));
    let later = Later::new(tasks);
    provide_context(later);
    tasks.begin(move || later.load());
    let is_covered = move || bench.sheet.with(Option::is_some);
    view! {
        <div class="shell" inert=is_covered class:covered=is_covered>
            <top_bar::TopBar />
            <div class="messages">
                {move || later::shown(Part::LineInProgress)}
                <later::Missing />
                <messages::Messages />
                <updates::Updates />
            </div>
            <PlaceShown />
            <place_bar::PlaceBar />
        </div>
        {move || later::shown(Part::Sheets)}
    }
}

/// The place shown, built when it is come to and dropped when it is left.
#[component]
fn PlaceShown() -> impl IntoView {
    let places = places();
    // What is typed and refused holds the place until it is settled.
    let shown = move || {
        let (place, entries) = (places.now(), entries::Entries::new());
        places.wait_for(entries);
        view! { <Provider value=entries>{content(place)}</Provider> }
    };
    let later = expect_context::<Later>();
    Effect::new(move |_| {
        places.now();
        later.track();
        request_animation_frame(move || places.restore_scroll());
    });
    let name = move || places.now().name();
    let key = move || places.now().key();
    view! {
        <section class="place-shown" node_ref=places.holder() aria-label=name data-shows=key>{shown}</section>
    }
}

/// What stands in a place. The first use needs Draw alone.
fn content(place: Place) -> AnyView {
    match place {
        Place::Draw => view! { <draw::Draw /> }.into_any(),
        other => (move || later::shown(Part::Place(other))).into_any(),
    }
}
