//! Every figure that the page must give is there, is a number, and agrees with the others.

use std::collections::BTreeSet;

use taperwright::design::demo::demo;

use super::harness::on_the_page;
use super::state::{State, near};

/// Figures that every line must show.
const REQUIRED: [&str; 16] = [
    "length",
    "head-mass",
    "class",
    "tip-mass",
    "front-mass",
    "belly-mass",
    "rear-mass",
    "total-mass",
    "tip-diameter",
    "belly-diameter",
    "threads-min",
    "threads-max",
    "angle-worst",
    "gear-changes",
    "yarn-length",
    "yarn-mass",
];

#[test]
fn every_required_figure_is_a_number() {
    on_the_page(async |page| {
        let state = page.state().await;
        for key in REQUIRED {
            assert!(state.si(key).is_finite(), "{key}");
        }
        assert!(
            state.shows(&demo()),
            "the page shows another plan: {state:#?}"
        );
    });
}

#[test]
fn the_parts_make_the_whole() {
    on_the_page(async |page| {
        let state = page.state().await;
        let parts = ["tip-mass", "front-mass", "belly-mass", "rear-mass"];
        let sum: f64 = parts.map(|key| state.si(key)).iter().sum();
        assert!(near(sum, state.si("total-mass")), "{sum} kg in parts");
        assert!(state.si("threads-min") <= state.si("threads-max"));
    });
}

#[test]
fn the_schedule_can_be_followed_from_tip_to_end() {
    on_the_page(async |page| {
        let state = page.state().await;
        assert!(state.places().is_sorted(), "{:?}", state.places());
        assert!(near(*state.places().last().unwrap(), state.si("length")));
        let gears = state
            .events
            .windows(2)
            .filter(|pair| pair[0].gear != pair[1].gear);
        assert!(near(gears.count() as f64, state.si("gear-changes")));
        let threads = ["add", "drop", "swap"].map(|kind| state.of_kind(kind).len());
        let threads: usize = threads.iter().sum();
        assert!(near(threads as f64, state.si("thread-changes")));
        follow(&state);
    });
}

/// Does what the schedule says, carrier by carrier.
pub(super) fn follow(state: &State) {
    let (first, rest) = state.events.split_first().expect("a schedule has lines");
    let (last, between) = rest.split_last().expect("a schedule has an end");
    assert_eq!((first.kind.as_str(), last.kind.as_str()), ("start", "end"));
    let mut engaged = carriers(&first.carrier);
    let (mut fewest, mut most) = (engaged.len(), engaged.len());
    for line in between {
        match line.kind.as_str() {
            "add" => assert!(engaged.insert(&line.carrier), "added twice: {line:?}"),
            "drop" => assert!(engaged.remove(line.carrier.as_str()), "not there: {line:?}"),
            "swap" => assert!(
                engaged.contains(line.carrier.as_str()),
                "not there: {line:?}"
            ),
            "gear" => assert!(line.carrier.is_empty(), "{line:?}"),
            other => panic!("{other} is no line of a schedule"),
        }
        (fewest, most) = (fewest.min(engaged.len()), most.max(engaged.len()));
    }
    assert_eq!(engaged, carriers(&last.carrier));
    assert!(near(fewest as f64, state.si("threads-min")));
    assert!(near(most as f64, state.si("threads-max")));
}

fn carriers(keys: &str) -> BTreeSet<&str> {
    keys.split_whitespace().collect()
}
