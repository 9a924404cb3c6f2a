//! What was kept is there after the browser died without warning: local storage alone loses up to a minute then.
//!
//! `SUDDEN_DEATHS` tells how often each test kills the browser; three times where it is not set.

use std::env;

use super::axe::evaluate;
use super::harness::{Desk, at_a_desk, until};
use super::page::Page;

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

fn deaths() -> usize {
    let said = env::var("SUDDEN_DEATHS").ok();
    said.and_then(|said| said.parse().ok()).unwrap_or(3)
}

/// Waits until everything kept is on the disk, told by what the disk holds and not by the time.
async fn until_on_the_disk(page: &Page) {
    until("the disk holds every state", async || {
        let kept = page.storage().await;
        let states: Vec<&String> = kept
            .keys()
            .filter(|key| taperwright::shelf::is_state(key))
            .collect();
        let copied: Vec<String> = serde_json::from_value(evaluate(page, COPIED)).expect("keys");
        let all = !states.is_empty() && states.iter().all(|key| copied.contains(key));
        all.then_some(())
    })
    .await;
}

/// A page with a browser that nobody asks for trouble: it is going to die.
async fn somebody(desk: &Desk) -> Page {
    desk.troublemaker("").await
}

#[test]
fn every_tick_at_the_machine_outlasts_sudden_death() {
    at_a_desk(async |desk| {
        let mut page = somebody(desk).await;
        page.press("at-machine").await;
        page.press("run-begin").await;
        for done in 0..deaths() {
            page.until_there(&format!(".counted[data-step-index=\"{done}\"]"))
                .await;
            page.press("run-done").await;
            page.until_there(&format!(".counted[data-step-index=\"{}\"]", done + 1))
                .await;
            until_on_the_disk(&page).await;
            page = desk.after_sudden_death(page).await;
            page.press("at-machine").await;
            page.until_there(&format!(".counted[data-step-index=\"{}\"]", done + 1))
                .await;
        }
        page.leave().await;
    });
}

#[test]
fn every_change_of_a_line_outlasts_sudden_death() {
    at_a_desk(async |desk| {
        let mut page = somebody(desk).await;
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
