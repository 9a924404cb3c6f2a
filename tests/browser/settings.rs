//! Every setting moves the figures that depend on it; what cannot be is refused beside its field.

use taperwright::braid::yarn::Fibre;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;

use super::fields::{refuses, takes};
use super::harness::on_the_page;
use super::page::Page;
use super::state::State;

#[test]
fn more_ends_make_thicker_threads_and_fewer_of_them() {
    on_the_page(async |page| {
        let before = page.state().await;
        let after = set(page, Setting::EndsPerThread, "20").await;
        assert!(after.si("threads-max") < before.si("threads-max"));
        assert!(after.si("yarn-length") < before.si("yarn-length"));
        assert!(
            after.events.iter().all(|line| line.ends == "20"),
            "{:?}",
            after.events
        );
    });
}

#[test]
fn the_angle_follows_its_target() {
    on_the_page(async |page| {
        let (before, wanted) = (page.state().await, 40_f64.to_radians());
        let after = set(page, Setting::TargetAngle, "40").await;
        let off = |state: &State| (state.si("angle-worst") - wanted).abs();
        assert!(off(&after) < off(&before), "{:?}", after.si("angle-worst"));
        let gears = |state: &State| {
            state
                .events
                .iter()
                .map(|line| line.gear.clone())
                .collect::<Vec<_>>()
        };
        assert_ne!(gears(&after), gears(&before));
    });
}

#[test]
fn a_single_gear_is_never_changed() {
    on_the_page(async |page| {
        page.enter("gears", "22").await;
        takes(page, &edited(demo(), Edit::Gears(vec![22.0]))).await;
        let state = page.state().await;
        assert_eq!(state.si("gear-changes"), 0.0);
        assert!(
            state
                .events
                .iter()
                .all(|line| line.gear == "22" && line.kind != "gear")
        );
        // More than one gear, and the changes come back.
        page.enter("gears", "20-24, 15").await;
        let gears = [15.0, 20.0, 21.0, 22.0, 23.0, 24.0].to_vec();
        takes(page, &edited(demo(), Edit::Gears(gears))).await;
        assert!(page.state().await.si("gear-changes") > 0.0);
    });
}

#[test]
fn another_fibre_weighs_otherwise() {
    on_the_page(async |page| {
        let before = page.state().await;
        page.choose("fibre", "nylon").await;
        takes(page, &edited(demo(), Edit::Fibre(Fibre::Nylon))).await;
        let after = page.state().await;
        for key in ["bare-mass", "head-mass", "belly-diameter"] {
            assert_ne!(after.si(key), before.si(key), "{key}");
        }
    });
}

#[test]
fn what_no_machine_can_do_is_refused_beside_its_field() {
    on_the_page(async |page| {
        refuses(page, "gears", "", &["gear"]).await;
        refuses(page, "gears", "20, x", &["x"]).await;
        refuses(page, "gears", "7", &["7", "8", "200"]).await;
        refuses(page, "fewest_threads", "20", &["20", "16"]).await;
        refuses(page, "fewest_threads", "8.5", &["8.5", "whole"]).await;
        refuses(page, "horn_gears", "7", &["7", "even"]).await;
        refuses(page, "most_threads", "17", &["17", "16"]).await;
        refuses(page, "target_angle_deg", "80", &["80", "15", "70"]).await;
    });
}

#[test]
fn a_label_is_taken_as_it_is_printed_or_as_it_was_measured() {
    on_the_page(async |page| {
        refuses(page, "label", "30/22", &["30", "22"]).await;
        refuses(page, "label", "20/x", &["x"]).await;
        for (typed, low, high) in [
            ("24/26", 24.0, 26.0),
            ("21,5", 21.5, 21.5),
            ("2.5 tex", 22.5, 22.5),
        ] {
            page.enter("label", typed).await;
            takes(page, &edited(demo(), Edit::Label { low, high })).await;
        }
    });
}

/// The design after an edit.
pub(super) fn edited(design: Design, edit: Edit) -> Design {
    edit.apply(&design).expect("an edit that can be made")
}

/// Types a setting into the demo's field; returns what the page then shows.
async fn set(page: &Page, setting: Setting, typed: &str) -> State {
    page.enter(setting.key(), typed).await;
    let value = typed.parse().expect("a number is typed");
    takes(page, &edited(demo(), Edit::Set(setting, value))).await;
    page.state().await
}
