//! Matching a class moves one thing and nothing else, and says so where that is not enough.

use taperwright::braid::weight::CLASSES;
use taperwright::design::demo::demo;
use taperwright::plan::Plan;

use super::drag::belly;
use super::harness::{on_the_page, until};

/// Grains in a kilogram: a grain is 64.79891 mg exactly (international yard and pound agreement, 1959).
const GRAINS: f64 = 1e6 / 64.798_91;
/// Band of class 6, in grains: AFFTA fly line weight standard.
const CLASS_6: (f64, f64) = (152.0, 168.0);

#[test]
fn a_class_matched_by_the_belly_moves_only_the_belly() {
    on_the_page(async |page| {
        page.choose("match-number", "6").await;
        page.choose("match-mover", "belly-size").await;
        page.press("match-class").await;
        page.until_there("[data-matched=true]").await;
        let state = page
            .until_state("the line is a class 6", |now| now.figures["class"] == "6")
            .await;
        let grains = state.si("head-mass") * GRAINS;
        assert!(CLASS_6.0 <= grains && grains <= CLASS_6.1, "{grains} gr");
        let kept = page.kept().await.expect("the matched line is kept");
        assert!(state.shows(&kept), "kept is not what is shown");
        let mut draft = kept.draft().clone();
        let (first, last) = (belly(), belly() + 1);
        let size = draft.points[first].diameter_mm;
        assert!(size > demo().draft().points[first].diameter_mm);
        assert_eq!(draft.points[last].diameter_mm, size, "the belly bends");
        for point in [first, last] {
            draft.points[point].diameter_mm = demo().draft().points[point].diameter_mm;
        }
        assert_eq!(draft, *demo().draft(), "more than the belly was moved");
        page.press("undo").await;
        page.until_state("the old line is back", |now| now.shows(&demo()))
            .await;
    });
}

/// What may move is left to the page, and what came of it is said as a chance before and now.
#[test]
fn whichever_helps_most_is_moved_and_the_chance_is_said() {
    on_the_page(async |page| {
        page.choose("match-number", "6").await;
        page.choose("match-mover", "any").await;
        page.press("match-class").await;
        page.until_there("[data-matched=true]").await;
        let said = page.words_of("[data-matched=true]").await;
        for word in ["Class 6 is now", "% likely; it was", "160 gr"] {
            assert!(said.contains(word), "“{said}” does not say {word}");
        }
        let kept = page.kept().await.expect("the line is kept");
        let plan = Plan::of(&kept);
        let chance = |plan: &Plan| {
            let prediction = plan.prediction.as_ref().expect("it has a head");
            prediction.chance_of(&CLASSES[5])
        };
        assert!(chance(&plan) > chance(&Plan::of(&demo())) + 0.1);
        let percent = format!("is now {:.0} % likely", 100.0 * chance(&plan));
        assert!(said.contains(&percent), "“{said}” does not say “{percent}”");
    });
}

#[test]
fn a_class_out_of_reach_is_named_and_nothing_is_changed() {
    on_the_page(async |page| {
        let before = page.state().await;
        page.choose("match-number", "15").await;
        page.choose("match-mover", "ends-per-thread").await;
        page.press("match-class").await;
        page.until_there("[data-matched=false]").await;
        let said = page.words_of("[data-matched=false]").await;
        // The band of class 15, in grains: AFFTA fly line weight standard.
        for word in ["class 15", "535", "565"] {
            assert!(said.contains(word), "“{said}” does not name {word}");
        }
        assert_eq!(page.state().await, before);
        assert!(page.storage().await.is_empty(), "something was kept");
        // What can be reached takes the refusal away.
        page.choose("match-number", "5").await;
        page.press("match-class").await;
        until("the refusal is gone", async || {
            (page.matching("[data-matched=false]").await == 0).then_some(())
        })
        .await;
    });
}
