//! Bobbins are ticked when they are wound. A tick lasts, belongs to its line, and counts only as long as it is enough.

use serde_json::json;
use taperwright::base::units::Mass;
use taperwright::base::units::show::{Units, trimmed};
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::paper::words;
use taperwright::plan::Plan;
use taperwright::plan::bobbins::Bobbin;
use taperwright::plan::left_over::left_on;
use taperwright::plan::run::Run;
use taperwright::plan::weighed_bobbin::WeighedBobbin;
use taperwright::plan::wound::Wound;

use super::at_machine::{begin, tick as tick_step};
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

/// A bobbin that weighs too little is not wound, and says where it runs out; the weight lasts.
#[test]
fn a_weighed_bobbin_is_compared_with_the_plan() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        let (design, plan) = (demo(), Plan::of(&demo()));
        let bobbin = plan.bobbins[0];
        let weigh = async |share: f64| {
            let grams = trimmed(share * bobbin.mass.grams(), 3);
            page.unfold("bobbin-weight").await;
            page.enter("bobbin-weight", &grams).await;
            let mass = Mass::from_grams(grams.parse().expect("it is a number"));
            let weighed = WeighedBobbin::of(&bobbin, mass).expect("the plan has thread");
            let empty = plan.runs_out_with(&design, &bobbin, weighed.by_weight);
            let said = words::weighed(&weighed, empty, Units::Metric);
            judged(page, &said).await;
            (grams, said)
        };
        let (_, said) = weigh(1.1).await;
        assert!(said.contains("heavier than its label"), "{said}");
        ticked(page, &[&key(&bobbin)]).await;
        let (grams, said) = weigh(0.9).await;
        assert!(said.contains("runs out at"), "{said}");
        ticked(page, &[]).await;
        page.reload().await;
        page.go_to("wind").await;
        page.unfold("bobbin-weight").await;
        assert_eq!(page.value("bobbin-weight").await, grams);
        judged(page, &said).await;
        // Nonsense is said beside it, and stays.
        page.enter("bobbin-weight", "0").await;
        let beside = page.said_beside("bobbin-weight").await;
        assert!(beside.is_some_and(|said| said.contains("above 0")));
    });
}

async fn judged(page: &Page, words: &str) {
    until(&format!("it is judged “{words}”"), async || {
        (page.words_of("[data-judged]").await == words).then_some(())
    })
    .await;
}

/// Nothing is guessed before a bobbin is timed. Then each says what it takes, and none jumps when it is ticked.
#[test]
fn one_bobbin_timed_shows_what_the_others_take() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        page.until_there(".bobbin-tile").await;
        assert_eq!(page.matching("[data-work]").await, 0);
        let plan = Plan::of(&demo());
        page.unfold("winding-minutes").await;
        page.enter("winding-minutes", "6").await;
        page.enter("winding-turns", "820").await;
        let book = page
            .until_book("the time is kept", |book| {
                book.machine_notes.winder.turns == Some(820.0)
            })
            .await;
        let winder = book.machine_notes.winder.winder(&demo());
        let winder = winder.expect("a bobbin was timed");
        let shown = async || {
            let script =
                "return [...document.querySelectorAll('[data-work]')].map((it) => it.innerText);";
            page.ask::<Vec<String>>(script, vec![]).await
        };
        let work = |bobbin: &Bobbin| {
            let work = winder.work_of(bobbin, &plan.bobbins, &Wound::default());
            words::winding_work(&work.expect("it is known"))
        };
        let wanted: Vec<String> = plan.bobbins.iter().map(work).collect();
        until("every tile says it", async || {
            (shown().await == wanted).then_some(())
        })
        .await;
        assert!(wanted[0].contains("820 turns"), "{}", wanted[0]);
        let all = winder.minutes_left(&plan.bobbins, &Wound::default());
        page.until_said(&words::minutes_left(all.expect("some are open")))
            .await;
        let height =
            "return document.querySelector('.bobbin-tile').getBoundingClientRect().height;";
        let before: f64 = page.ask(height, vec![]).await;
        tick(page, &key(&plan.bobbins[0])).await;
        ticked(page, &[&key(&plan.bobbins[0])]).await;
        let after: f64 = page.ask(height, vec![]).await;
        assert!((before - after).abs() < 0.5, "{before} and then {after}");
        page.reload().await;
        page.go_to("wind").await;
        page.until_there("[data-work]").await;
        page.unfold("forget-timing").await;
        page.press("forget-timing").await;
        page.until_gone("[data-work]").await;
    });
}

/// Thread left on bobbins is noted when the line is done, and wound on for the next.
#[test]
fn thread_left_is_used_for_the_next_line() {
    on_the_page(async |page| {
        page.go_to("wind").await;
        let plan = Plan::of(&demo());
        let carriers: Vec<String> = plan.bobbins[..2].iter().map(key).collect();
        let mut wound = Wound::default();
        for (carrier, bobbin) in carriers.iter().zip(&plan.bobbins) {
            tick(page, carrier).await;
            wound.toggle(bobbin, &plan.bobbins);
        }
        let design = begin(page).await;
        let adjusted = plan.unadjusted();
        let left = left_on(&adjusted.bobbins(&design), &wound);
        for done in 0..Run::default().steps_ahead(&adjusted).count() {
            tick_step(page, done).await;
        }
        let said = words::thread_left(&left, Units::Metric).expect("the allowance is left");
        page.until_said(&said).await;
        page.press("keep-left-over").await;
        let book = page
            .until_book("what is left is kept", |book| {
                book.machine_notes.left_over.len() == 2
            })
            .await;
        let noted: Vec<&str> = book
            .machine_notes
            .left_over
            .iter()
            .map(|it| it.carrier.as_str())
            .collect();
        assert_eq!(noted, carriers);
        page.until_said("saved for the next line").await;
        page.until_gone("[data-action=keep-left-over]").await;
        page.go_to("wind").await;
        page.until_there("[data-left-over='2']").await;
        ticked(page, &[]).await;
        page.press("use-left-over").await;
        page.until_book("it is in the notes no more", |book| {
            book.machine_notes.left_over.is_empty()
        })
        .await;
        let said = page
            .words_of(&format!("li[data-bobbin={}]", carriers[0]))
            .await;
        assert!(said.contains("more"), "{said}");
        page.reload().await;
        page.go_to("wind").await;
        assert_eq!(page.matching("[data-action=use-left-over]").await, 0);
        let again = page
            .words_of(&format!("li[data-bobbin={}]", carriers[0]))
            .await;
        assert_eq!(again, said);
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
