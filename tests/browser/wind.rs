//! Bobbins are ticked when they are wound. A tick lasts, belongs to its line, and counts only as long as it is enough.

use serde_json::json;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::plan::Plan;
use taperwright::plan::bobbins::Bobbin;

use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;

/// The carriers whose bobbins are ticked.
const TICKED: &str = r#"
    const ticked = [...document.querySelectorAll('[data-action="wound"][aria-pressed="true"]')];
    return ticked.map((button) => button.closest('[data-bobbin]').dataset.bobbin);"#;

/// How many pictures reach beyond their tiles.
const ASTRAY: &str = r"
    const tiles = [...document.querySelectorAll('.bobbin-tile')];
    return tiles.filter((tile) => {
        const [outer, inner] = [tile, tile.querySelector('svg')].map((it) => it.getBoundingClientRect());
        return inner.left < outer.left || inner.right > outer.right || inner.top < outer.top || inner.bottom > outer.bottom;
    }).length;";

#[test]
fn a_tick_lasts_over_a_reload_and_belongs_to_its_line() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        let bobbins = Plan::of(&demo()).bobbins;
        let (first, third) = (key(&bobbins[0]), key(&bobbins[2]));
        tick(page, &first).await;
        tick(page, &third).await;
        ticked(page, &[&first, &third]).await;
        page.until_said(&format!("2 of {} bobbins wound", bobbins.len()))
            .await;
        // What is ticked is worth keeping: the line is kept from now on.
        assert_eq!(page.kept_line(1).await, Some(demo()));
        page.reload().await;
        page.go_to("wind").await;
        ticked(page, &[&first, &third]).await;
        // Ticked by mistake.
        tick(page, &first).await;
        ticked(page, &[&third]).await;
        page.reload().await;
        page.go_to("wind").await;
        ticked(page, &[&third]).await;
    });
}

#[test]
fn a_bobbin_that_needs_more_than_was_wound_is_to_be_wound_again() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        let before = Plan::of(&demo()).bobbins;
        let carrier = key(&before[0]);
        tick(page, &carrier).await;
        ticked(page, &[&carrier]).await;
        let more = edited(demo(), Edit::Set(Setting::ThreadAllowance, 3.0));
        page.unfold("thread_allowance_m").await;
        page.enter("thread_allowance_m", "3").await;
        page.close_sheet().await;
        page.go_to("wind").await;
        ticked(page, &[]).await;
        let now = Plan::of(&more).bobbins;
        let metres = now[0].length.metres() - before[0].length.metres();
        let said = page.words_of(&format!("li[data-bobbin={carrier}]")).await;
        let wanted = format!("wind {metres:.1}\u{202f}m more");
        assert!(said.contains(&wanted), "“{said}” lacks “{wanted}”");
        // Wound on, it is enough; and so it is for the line that needs less.
        tick(page, &carrier).await;
        ticked(page, &[&carrier]).await;
        page.press("undo").await;
        page.go_to("wind").await;
        ticked(page, &[&carrier]).await;
    });
}

#[test]
fn all_ticks_are_taken_away_at_once_and_brought_back() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        let bobbins = Plan::of(&demo()).bobbins;
        let all: Vec<String> = bobbins.iter().map(key).collect();
        for carrier in &all {
            tick(page, carrier).await;
        }
        let all: Vec<&str> = all.iter().map(String::as_str).collect();
        ticked(page, &all).await;
        page.until_said(&format!("All {} bobbins wound", all.len()))
            .await;
        page.press("untick-all").await;
        ticked(page, &[]).await;
        page.press("restore-ticks").await;
        ticked(page, &all).await;
        page.reload().await;
        page.go_to("wind").await;
        ticked(page, &all).await;
    });
}

/// A bobbin that does not hold its thread says so in its tile, and its picture stays there.
#[test]
fn a_bobbin_too_small_is_seen_to_be() {
    on_the_page(async |page| {
        let small = edited(demo(), Edit::Set(Setting::BobbinFull, 12.5));
        page.unfold("bobbin_full_mm").await;
        page.enter("bobbin_full_mm", "12.5").await;
        page.close_sheet().await;
        page.go_to("wind").await;
        page.until_there("[data-bobbin][data-runs-out] .overfull")
            .await;
        let out = Plan::of(&small)
            .bobbins
            .iter()
            .filter(|it| it.runs_out.is_some())
            .count();
        assert!(out > 0, "12.5 mm hold all of it");
        assert_eq!(page.matching(".bobbin-tile .overfull").await, out);
        let astray: usize = page.ask(ASTRAY, vec![]).await;
        assert_eq!(astray, 0, "pictures stand outside their tiles");
    });
}

fn key(bobbin: &Bobbin) -> String {
    bobbin.carrier.to_string()
}

/// Ticks or unticks the bobbin of a carrier.
async fn tick(page: &Page, carrier: &str) {
    page.press_at(&format!("li[data-bobbin={carrier}] [data-action=wound]"))
        .await;
}

/// Just these carriers are ticked, in the order of the list.
async fn ticked(page: &Page, carriers: &[&str]) {
    until("the ticks are these", async || {
        let shown: Vec<String> = page.ask(TICKED, vec![]).await;
        (json!(shown) == json!(carriers)).then_some(())
    })
    .await;
}
