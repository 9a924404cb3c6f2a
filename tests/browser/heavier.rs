//! Lines made thicker by heavier threads: bobbins are swapped, and a carrier that is swapped has two of them.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use taperwright::base::choice::Choice;
use taperwright::braid::threads::Build;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;

use super::fields::takes;
use super::figures::follow;
use super::harness::on_the_page;
use super::machine::told;
use super::page::Page;
use super::settings::edited;
use super::state::State;

/// Every bobbin of the list.
const BOBBINS: &str = r"
    return [...document.querySelectorAll('[data-bobbin]')].map(({ dataset }) => ({
        carrier: dataset.bobbin, ends: dataset.ends, length: Number(dataset.length), mass: Number(dataset.mass),
    }));";

/// Ends of the standard thread of the demo, and of the heavier one chosen here.
const LIGHT: &str = "14";
const HEAVY: &str = "25";

#[derive(Debug, Deserialize)]
struct Bobbin {
    carrier: String,
    ends: String,
    length: f64,
    mass: f64,
}

#[test]
fn heavier_threads_are_swapped_in_and_out_again() {
    on_the_page(async |page| {
        let state = built(page, Build::HeavierThreads).await;
        assert_eq!(state.si("threads-min"), state.si("threads-max"));
        assert!(state.of_kind("add").is_empty() && state.of_kind("drop").is_empty());
        let carriers = swaps(&state);
        assert!(carriers.len() > 2, "hardly a swap: {carriers:?}");
        winds_two_bobbins(page, &carriers).await;
    });
}

#[test]
fn with_both_threads_are_added_first_and_then_swapped() {
    on_the_page(async |page| {
        page.enter(Setting::MostThreads.key(), "10").await;
        let fewer = edited(demo(), Edit::Set(Setting::MostThreads, 10.0));
        takes(page, &fewer).await;
        let state = built(page, Build::Both).await;
        let kinds: Vec<&str> = state.events.iter().map(|line| line.kind.as_str()).collect();
        let place = |kind| kinds.iter().position(|one| *one == kind);
        let last = |kind| kinds.iter().rposition(|one| *one == kind);
        assert_eq!(state.of_kind("add").len(), 2, "from 8 threads to 10");
        assert!(last("add") < place("swap") && last("swap") < place("drop"));
        winds_two_bobbins(page, &swaps(&state)).await;
    });
}

#[test]
fn the_map_tells_heavier_threads_from_others() {
    on_the_page(async |page| {
        built(page, Build::HeavierThreads).await;
        let belly = told(page, |at| at > 1.0).await;
        belly.agrees();
        assert_eq!(belly.kinds(), [LIGHT, HEAVY].map(str::to_owned).into());
        page.press("point-before").await;
        page.press("point-before").await;
        let tip = told(page, |at| at == 0.0).await;
        tip.agrees();
        assert_eq!(tip.kinds(), [LIGHT.to_owned()].into());
    });
}

/// Chooses how the line is made thicker, with a heavier thread of 25 ends; returns what is shown.
async fn built(page: &Page, build: Build) -> State {
    let before = page.kept().await.unwrap_or_else(demo);
    page.choose("build", build.key()).await;
    let design = edited(before, Edit::Build(build));
    takes(page, &design).await;
    page.enter(Setting::HeavierEnds.key(), HEAVY).await;
    takes(page, &edited(design, Edit::Set(Setting::HeavierEnds, 25.0))).await;
    let state = page.state().await;
    follow(&state);
    state
}

/// The carriers that are swapped. Each gets its heavier thread once and then its old one back, as the line gets thicker
/// and thinner again.
fn swaps(state: &State) -> BTreeSet<String> {
    let mut ends: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for line in state.of_kind("swap") {
        ends.entry(&line.carrier).or_default().push(&line.ends);
    }
    for (carrier, ends) in &ends {
        assert_eq!(*ends, [HEAVY, LIGHT], "{carrier}");
    }
    ends.into_keys().map(str::to_owned).collect()
}

/// Carriers that are swapped have a bobbin of each thread, all others one. A bobbin weighs what its thread does: ends ×
/// 21 denier, the middle of the label, each denier a gram in 9,000 m.
async fn winds_two_bobbins(page: &Page, swapped: &BTreeSet<String>) {
    page.go_to("wind").await;
    let bobbins: Vec<Bobbin> = page.ask(BOBBINS, vec![]).await;
    let mut ends: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for bobbin in &bobbins {
        ends.entry(&bobbin.carrier).or_default().push(&bobbin.ends);
        let grams = bobbin.ends.parse::<f64>().expect("a number") * 21.0 / 9e3 * bobbin.length;
        assert!((bobbin.mass * 1e3 - grams).abs() < 1e-6, "{bobbin:?}");
    }
    for (carrier, mut ends) in ends {
        ends.sort_unstable();
        let wound: &[&str] = if swapped.contains(carrier) {
            &[LIGHT, HEAVY]
        } else {
            &[LIGHT]
        };
        assert_eq!(ends, wound, "{carrier}");
    }
    let twice = bobbins.iter().filter(|one| one.ends == HEAVY).count();
    assert_eq!(twice, swapped.len());
}
