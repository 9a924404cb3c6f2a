//! The search for a thread plan lists what could be plied, lets the hand go on meanwhile, and changes the line only when
//! asked to.

use serde::Deserialize;
use taperwright::base::choice::Choice;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::edit::finder::{Finder, LISTED as LISTED_AT_MOST, LISTED_APART, ThreadPlan};

use super::drag::belly;
use super::fields::takes;
use super::gesture::{Hand, Pointer, escape};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;
use super::state::near;

/// The list of what was found.
const LISTED: &str = r"
    return [...document.querySelectorAll('li[data-found]')].map((row) => ({
        own: row.dataset.found === 'true',
        demerit: Number(row.dataset.demerit),
        chance: Number(row.dataset.chance),
        recommended: row.dataset.recommended === 'true',
        words: row.textContent,
        taken: row.querySelector('[data-action=take-plan]').disabled,
    }));";

/// Notes with every move of a pointer, once what it changed is shown, what the page says of the class, and in how many steps the
/// search has gone on by then: each is a task of its own, asked for without a delay, and delayed here as by much other work.
const WATCH: &str = r"
    window.steps = 0;
    window.moves = [];
    const { setTimeout } = window;
    window.setTimeout = (task, delay, ...rest) => setTimeout(() => { if (!delay) window.steps += 1; task(); }, delay || 100, ...rest);
    const note = () => window.moves.push([window.steps, document.querySelector('.class-button').textContent]);
    addEventListener('pointermove', () => requestAnimationFrame(note));";

#[derive(Debug, Deserialize)]
struct Row {
    own: bool,
    demerit: f64,
    chance: f64,
    recommended: bool,
    words: String,
    taken: bool,
}

#[test]
fn the_best_plan_is_no_worse_than_the_own() {
    on_the_page(async |page| {
        let before = page.state().await;
        let (rows, found) = searched(page).await;
        let recommended = || rows.iter().filter(|row| row.recommended);
        // By the chance to the whole percent, then by the faults.
        let rank = |row: &Row| (-(100.0 * row.chance).round(), row.demerit);
        assert!(recommended().is_sorted_by(|a, b| rank(a) <= rank(b)));
        let own: Vec<&Row> = rows.iter().filter(|row| row.own).collect();
        let [own] = own.as_slice() else {
            panic!("one row is the line's own: {rows:#?}");
        };
        assert!(rank(&rows[0]) <= rank(own));
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
        // The others stay to choose from, and this one is marked as the one in use.
        page.seek("li[data-found]").await;
        let rows: Vec<Row> = page.ask(LISTED, vec![]).await;
        assert_eq!(rows.len(), found.len());
        assert!(rows[place].own && rows[place].taken, "{rows:#?}");
        // What it changed is laid beside it at once.
        page.control("compare-none").await;
        page.close_sheet().await;
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
        // It outlasts the sheet, as long as the drawing is the same.
        page.close_sheet().await;
        page.press("plans").await;
        page.until_there("li[data-found]").await;
        page.enter("point-size", "1.2").await;
        page.open_sheet("plans").await;
        assert_eq!(page.matching("li[data-found]").await, 0);
        page.close_sheet().await;
        page.press("undo").await;
        takes(page, &demo()).await;
        page.open_sheet("plans").await;
        assert_eq!(page.matching("li[data-found]").await, 0);
    });
}

/// The sheet is closed while the search goes on, and the drawing is there for the hand.
#[test]
fn a_drag_goes_on_while_the_search_does() {
    on_the_page(async |page| {
        page.run(WATCH, vec![]).await;
        page.seek("[data-action=find-plan]").await;
        page.press("find-plan").await;
        page.until_there("[data-search=going]").await;
        page.close_sheet().await;
        page.go_to("draw").await;
        let mut hand = Hand::take(page, Pointer::Mouse, belly()).await;
        for down in [-24.0, 24.0, -24.0] {
            hand.glide((0.0, down));
        }
        // However slow the machine: the search went on between two moves, and the figures followed the hand.
        until("the figures follow while the search goes on", async || {
            let moves: Vec<(u32, String)> = page.ask("return window.moves;", vec![]).await;
            let goes_on = |pair: &[(u32, String)]| pair[0].0 < pair[1].0 && pair[0].1 != pair[1].1;
            moves.windows(2).any(goes_on).then_some(())
        })
        .await;
        // Broken off, so that the drawing is the one that was searched for.
        escape(page).await;
        hand.let_go();
        page.open_sheet("plans").await;
        page.until_there("[data-search=done]").await;
        page.until_there("li[data-found]").await;
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
    let chance = |one: &ThreadPlan| one.chance.expect("the line has a class");
    assert!(pairs().all(|(row, one)| near(row.chance, chance(one))));
    (rows, found)
}
