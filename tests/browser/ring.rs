//! The machine is what its maker says: how many carriers, on which places, and what they braid.

use taperwright::base::choice::Choice;
use taperwright::braid::track::{Direction, Pattern};
use taperwright::design::demo::demo;
use taperwright::design::machine::ReadyMade;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;

use super::fields::{refuses, takes};
use super::harness::on_the_page;
use super::page::Page;
use super::settings::edited;

#[test]
fn sixteen_on_every_second_of_thirty_two_places_braid_a_diamond() {
    on_the_page(async |page| {
        let fewest = edited(demo(), Edit::Set(Setting::FewestThreads, 16.0));
        page.enter(Setting::FewestThreads.key(), "16").await;
        takes(page, &fewest).await;
        // All sixteen on eight horn gears of four slots go over two and under two; taking every second place of twice the
        // ring leaves each thread every second meeting: over one and under one. Analytic.
        assert_eq!(page.state().await.si("longest-float"), 2.0);
        assert_eq!(marks(page).await, 16);
        page.choose("machine", "16-of-32").await;
        let machine = Edit::Machine(ReadyMade::SixteenOfThirtyTwo);
        takes(page, &edited(fewest, machine)).await;
        assert_eq!(page.state().await.si("longest-float"), 1.0);
        assert_eq!(page.state().await.si("widest-gap"), 2.0);
        assert_eq!(marks(page).await, 16);
        assert_eq!(page.value("horn_gears").await, "16");
        assert_eq!(page.value("most_threads").await, "16");
    });
}

#[test]
fn ring_and_pattern_make_the_places() {
    on_the_page(async |page| {
        // Horn gears × slots ÷ 2 places: 12 × 4 ÷ 2, then 12 × 2 ÷ 2, then 12 × 6 ÷ 2.
        page.enter("horn_gears", "12").await;
        let twelve = edited(demo(), Edit::Set(Setting::HornGears, 12.0));
        takes(page, &twelve).await;
        assert_eq!(marks(page).await, 24);
        assert_eq!(page.value("machine").await, "24-regular");
        page.choose("pattern", "diamond").await;
        let diamond = edited(twelve, Edit::Pattern(Pattern::Diamond));
        takes(page, &diamond).await;
        assert_eq!(marks(page).await, 12);
        assert_eq!(page.value("machine").await, "other");
        assert!(page.state().await.si("threads-max") <= 12.0);
        page.choose("pattern", Pattern::Hercules.key()).await;
        takes(page, &edited(diamond, Edit::Pattern(Pattern::Hercules))).await;
        assert_eq!(marks(page).await, 36);
        refuses(page, "horn_gears", "7", &["7", "even"]).await;
        refuses(page, "horn_gears", "66", &["66", "2", "64"]).await;
    });
}

#[test]
fn places_are_mounted_as_they_are_numbered() {
    on_the_page(async |page| {
        page.unfold("mounted-cw").await;
        assert_eq!(page.value("mounted-cw").await, "all");
        refuses(
            page,
            "mounted-cw",
            "1, 3, 9",
            &["clockwise place 9", "8 each way"],
        )
        .await;
        refuses(page, "mounted-cw", "1, x", &["x"]).await;
        refuses(page, "mounted-cw", "1", &["two carriers each way"]).await;
        refuses(page, "mounted-cw", "0, 2, 4", &["0"]).await;
        page.enter("mounted-cw", "1-5, 7").await;
        let mounted = Edit::Mount(Direction::Clockwise, vec![0, 1, 2, 3, 4, 6]);
        takes(page, &edited(demo(), mounted)).await;
        assert_eq!(marks(page).await, 14);
        let script = "return [...document.querySelectorAll('[data-map-carrier^=cw]')].length;";
        assert_eq!(page.ask::<usize>(script, vec![]).await, 6);
        page.enter("mounted-cw", "all").await;
        page.until_state("all places are mounted", |now| now.shows(&demo()))
            .await;
        assert_eq!(marks(page).await, 16);
    });
}

/// Carriers on the map.
async fn marks(page: &Page) -> usize {
    page.go_to("threads").await;
    page.matching("[data-picture=track-map] [data-map-carrier]")
        .await
}
