//! The search for a thread plan lists what could be plied, lets the hand go on meanwhile, and changes the line only when
//! asked to.

use serde::Deserialize;
use serde_json::json;
use taperwright::base::choice::Choice;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::edit::finder::{Finder, LISTED as LISTED_AT_MOST, LISTED_APART, ThreadPlan};

use super::drag::belly;
use super::fields::takes;
use super::gesture::{Hand, Pointer};
use super::harness::on_the_page;
use super::page::Page;
use super::settings::edited;
use super::state::near;

/// The list of what was found.
const LISTED: &str = r"
    return [...document.querySelectorAll('li[data-found]')].map((row) => ({
        own: row.dataset.found === 'true',
        demerit: Number(row.dataset.demerit),
        recommended: row.dataset.recommended === 'true',
        words: row.textContent,
        taken: row.querySelector('[data-action=take-plan]').disabled,
    }));";

/// Times by which the browser is slowed down, so that a search lasts while a hand moves.
const SLOWED: u32 = 20;

/// Notes with every move of a pointer, once what it changed is shown, whether the search is going, and the head's weight.
const WATCH: &str = r"
    window.moves = [];
    const shown = () => ({
        going: document.querySelector('[data-search]').dataset.search === 'going',
        head: document.querySelector('[data-figure=head-mass]').dataset.si,
    });
    addEventListener('pointermove', () => requestAnimationFrame(() => window.moves.push(shown())));";

#[derive(Debug, Deserialize)]
struct Row {
    own: bool,
    demerit: f64,
    recommended: bool,
    words: String,
    taken: bool,
}

#[derive(Debug, Deserialize)]
struct Move {
    going: bool,
    head: String,
}

#[test]
fn the_best_plan_is_no_worse_than_the_own() {
    on_the_page(async |page| {
        let before = page.state().await;
        let (rows, found) = searched(page).await;
        let recommended = || rows.iter().filter(|row| row.recommended);
        assert!(recommended().is_sorted_by(|a, b| a.demerit <= b.demerit));
        let own: Vec<&Row> = rows.iter().filter(|row| row.own).collect();
        let [own] = own.as_slice() else {
            panic!("one row is the line's own: {rows:#?}");
        };
        assert!(rows[0].demerit <= own.demerit);
        assert!(own.taken && rows.iter().all(|row| row.own == row.taken));
        assert!(near(own.demerit, sum_of_faults(page, own, &found).await));
        assert_eq!(page.state().await, before, "looking changed the line");
        assert!(page.storage().await.is_empty());
    });
}

/// The sum said above the list, of what the page shows of the line itself: a grain off the class's target counts one, a
/// percent of diameter three, a change a third, written as 0.3. One kind of thread is plied.
async fn sum_of_faults(page: &Page, own: &Row, found: &[ThreadPlan]) -> f64 {
    let state = page.state().await;
    let grains = state.si("class-off").abs() / 64.798_91e-6;
    let changes = state.si("thread-changes") + state.si("gear-changes");
    let same = found.iter().filter(|one| near(one.demerit, own.demerit));
    assert_eq!(same.count(), 1, "the page found something else: {found:#?}");
    grains + 3.0 * 100.0 * state.si("diameter-error") + 0.3 * changes
}

#[test]
fn a_plan_taken_is_in_the_settings_and_can_be_undone() {
    on_the_page(async |page| {
        let before = page.state().await;
        let (rows, found) = searched(page).await;
        let place = rows.iter().position(|row| !row.own).expect("another plan");
        let supply = found[place].supply;
        let (fewest, most) = found[place].threads;
        for count in [fewest, most, supply.light] {
            let words = &rows[place].words;
            assert!(words.contains(&count.to_string()), "{words}");
        }
        page.press_at("li[data-found=false] [data-action=take-plan]")
            .await;
        takes(page, &edited(demo(), Edit::Supply(supply))).await;
        assert_eq!(page.value("build").await, supply.build.key());
        for (setting, count) in [
            (Setting::FewestThreads, supply.fewest),
            (Setting::MostThreads, supply.most),
            (Setting::EndsPerThread, supply.light),
        ] {
            assert_eq!(page.value(setting.key()).await, count.to_string());
        }
        page.until_gone("li[data-found]").await;
        // What it changed is laid beside it at once.
        page.until_there("[data-action=compare-none]").await;
        page.press("undo").await;
        takes(page, &demo()).await;
        page.press("compare-none").await;
        assert_eq!(page.state().await, before);
    });
}

#[test]
fn a_changed_drawing_puts_the_list_away() {
    on_the_page(async |page| {
        searched(page).await;
        page.enter("point-size", "1.2").await;
        page.until_gone("li[data-found]").await;
        page.press("undo").await;
        takes(page, &demo()).await;
        assert_eq!(page.matching("li[data-found]").await, 0);
    });
}

#[test]
fn a_drag_goes_on_while_the_search_does() {
    on_the_page(async |page| {
        page.run(WATCH, vec![]).await;
        // The hand is on its way before the search begins, so that its next move already counts.
        let before = page.state().await;
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        hand.glide((0.0, -24.0));
        page.until_state("the line follows", |now| *now != before)
            .await;
        slow_down(page, SLOWED);
        let search = "document.querySelector('[data-action=find-plan]').click();";
        page.run(search, vec![]).await;
        page.until_there("[data-search=going]").await;
        let mut up = false;
        // Up and down for as long as the search goes: slowed as it is, it outlasts many moves.
        while page.matching("[data-search=going]").await > 0 {
            hand.glide((0.0, if up { -24.0 } else { 24.0 }));
            up = !up;
        }
        let moves: Vec<Move> = page.ask("return window.moves;", vec![]).await;
        // However slow the machine: the hand was heard before the search had ended, and the figures followed it.
        let during = moves.iter().filter(|one| one.going).count();
        assert!(during > 0, "the search held the hand up: {moves:?}");
        let follows = moves
            .windows(2)
            .any(|pair| pair[1].going && pair[0].head != pair[1].head);
        assert!(follows, "the figures wait: {moves:?}");
        // Wherever it is now, not where it began: what was found was for another line.
        hand.glide((0.0, -13.0));
        hand.let_go();
        page.until_there("[data-search=done]").await;
        page.until_gone("li[data-found]").await;
        slow_down(page, 1);
    });
}

/// Presses the button and waits for the end. Returns the rows, and the same search made here, with the same sums.
async fn searched(page: &Page) -> (Vec<Row>, Vec<ThreadPlan>) {
    page.press("find-plan").await;
    page.until_there("li[data-found]").await;
    page.until_there("[data-search=done]").await;
    let rows: Vec<Row> = page.ask(LISTED, vec![]).await;
    let found = Finder::new(&demo()).finish();
    let (mut found, mut apart): (Vec<_>, Vec<_>) =
        found.into_iter().partition(ThreadPlan::is_recommended);
    found.truncate(LISTED_AT_MOST);
    apart.truncate(LISTED_APART);
    assert!(
        rows.iter()
            .map(|row| row.recommended)
            .is_sorted_by(|a, b| a >= b)
    );
    assert_eq!(
        rows.iter().filter(|row| row.recommended).count(),
        found.len()
    );
    found.extend(apart);
    assert_eq!(rows.len(), found.len());
    let pairs = || rows.iter().zip(&found);
    assert!(pairs().all(|(row, one)| near(row.demerit, one.demerit)));
    (rows, found)
}

fn slow_down(page: &Page, times: u32) {
    let rate = json!({ "rate": times });
    page.session.cdp("Emulation.setCPUThrottlingRate", &rate);
}
