//! What was kept is there after the browser died without warning: local storage alone loses up to a minute then.
//!
//! `SUDDEN_DEATHS` tells how often each test kills the browser; a few times where it is not set.

use std::env;
use std::time::Duration;

use serde_json::json;
use taperwright::keep::shelf::{LINE_KEY, is_state};

use super::axe::evaluate;
use super::harness::{Desk, WHOLE_TEST, at_a_desk_for, until};
use super::page::Page;

/// So often where nothing else is said.
const USUALLY: u32 = 4;
/// Longest time for one death and what comes after it, upon that for a whole test.
const ONE_DEATH: Duration = Duration::from_secs(30);

/// The keys in the database, told by a transaction of its own: it begins when those before it are complete, that is, on the disk.
const COPIED: &str = r"
    new Promise((told) => {
        const request = indexedDB.open('taperwright');
        request.onerror = () => told([]);
        request.onsuccess = () => {
            const database = request.result;
            const keys = database.transaction('states').objectStore('states').getAllKeys();
            keys.onsuccess = () => { database.close(); told(keys.result); };
        };
    })";

/// Changes a setting again and again, as fast as the page takes it, and counts.
const CHANGES: &str = r"
    const [field] = document.querySelectorAll('[data-action=ends_per_thread]');
    window.changes = 0;
    const change = () => {
        field.value = String(10 + window.changes % 20);
        field.dispatchEvent(new Event('input', { bubbles: true }));
        field.dispatchEvent(new Event('change', { bubbles: true }));
        window.changes += 1;
        setTimeout(change, 0);
    };
    change();";

/// How often the browser is to be killed.
fn deaths() -> u32 {
    let said = env::var("SUDDEN_DEATHS").ok();
    said.and_then(|said| said.parse().ok()).unwrap_or(USUALLY)
}

/// A test that may take as long as its deaths do.
fn at_a_deathbed(test: impl AsyncFnOnce(&Desk)) {
    at_a_desk_for(WHOLE_TEST + ONE_DEATH * deaths(), test);
}

/// The keys of what the disk holds.
fn on_the_disk(page: &Page) -> Vec<String> {
    serde_json::from_value(evaluate(page, COPIED)).expect("keys")
}

/// The highest revision of the first line among keys, and its key; nothing where there is none.
fn newest(keys: &[String]) -> Option<(u64, &String)> {
    let revision = |key: &String| {
        let mark = key.strip_prefix(&format!("{LINE_KEY}1/"))?;
        mark.split('-').next()?.parse().ok()
    };
    keys.iter()
        .filter_map(|key| Some((revision(key)?, key)))
        .max()
}

/// Waits until everything kept is on the disk, told by what the disk holds and not by the time.
pub(super) async fn until_on_the_disk(page: &Page) {
    until("the disk holds every state", async || {
        let kept = page.storage().await;
        let states: Vec<&String> = kept.keys().filter(|key| is_state(key)).collect();
        let copied = on_the_disk(page);
        let all = !states.is_empty() && states.iter().all(|key| copied.contains(key));
        all.then_some(())
    })
    .await;
}

/// How many steps are done after so many deaths: up to a dozen, and back again, since a line has an end.
fn steps_done(deaths: u32) -> u32 {
    const MOST: u32 = 12;
    let at = deaths % (2 * MOST);
    at.min(2 * MOST - at)
}

#[test]
fn every_tick_at_the_machine_outlasts_sudden_death() {
    at_a_deathbed(async |desk| {
        let mut page = desk.hermit().await;
        page.go_to("braid").await;
        page.press("run-begin").await;
        for death in 0..deaths() {
            let (before, after) = (steps_done(death), steps_done(death + 1));
            let shown = |done: u32| format!(".counted[data-step-index=\"{done}\"]");
            page.until_there(&shown(before)).await;
            let way = if after > before {
                "run-done"
            } else {
                "run-back"
            };
            page.press(way).await;
            page.until_there(&shown(after)).await;
            until_on_the_disk(&page).await;
            page = desk.after_sudden_death(page).await;
            page.go_to("braid").await;
            page.until_there(&shown(after)).await;
        }
        page.leave().await;
    });
}

#[test]
fn every_change_of_a_line_outlasts_sudden_death() {
    at_a_deathbed(async |desk| {
        let mut page = desk.hermit().await;
        for death in 0..deaths() {
            let ends = (12 + death % 20).to_string();
            page.enter("ends_per_thread", &ends).await;
            until_on_the_disk(&page).await;
            page = desk.after_sudden_death(page).await;
            assert_eq!(
                page.value("ends_per_thread").await,
                ends,
                "after {death} deaths"
            );
        }
        page.leave().await;
    });
}

/// Whatever a save is about when the end comes: what the disk had of it by then is there, whole, or something newer is.
#[test]
fn death_in_the_middle_of_saving_loses_nothing_that_was_kept() {
    at_a_deathbed(async |desk| {
        let mut page = desk.hermit().await;
        for death in 0..deaths() {
            page.seek("[data-action=ends_per_thread]").await;
            page.run(CHANGES, vec![]).await;
            // Not always after as many: death comes at any part of a save.
            let wanted = 2 + death * 7 % 23;
            until("it is at its work", async || {
                let script = "return window.changes >= arguments[0];";
                let is_there: bool = page.ask(script, vec![json!(wanted)]).await;
                is_there.then_some(())
            })
            .await;
            let before = on_the_disk(&page);
            page = desk.after_sudden_death(page).await;
            let said = page.text().await;
            assert!(!said.contains("cannot be read"), "{said}");
            let after: Vec<String> = page.storage().await.into_keys().collect();
            let (was, is) = (newest(&before), newest(&after));
            assert!(
                was.is_some() && was <= is,
                "death {death}: {was:?}, then {is:?}"
            );
            assert_eq!(page.kept_numbers().await, [1], "after {death} deaths");
            assert!(page.kept_line(1).await.is_some(), "after {death} deaths");
        }
        page.leave().await;
    });
}
