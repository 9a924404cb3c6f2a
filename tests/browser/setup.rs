//! Setting up the machine: ticks are kept, a tick starts the line, nothing has to be ticked, and what is measured there and how the
//! carriers pull is written down once.

use serde_json::json;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::plan::Plan;
use taperwright::plan::run::{Check, CheckKind, Run, Setup, SetupRow};

use super::at_machine::{begin, run_of, tick, until_done};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::tabs::unheard;

/// The tick of a row.
fn tick_of(row: SetupRow) -> String {
    format!("[data-setup='{}'] [data-action=setup]", row.key())
}

/// The rows shown, each with whether it is ticked.
const ROWS: &str = "
    const rows = [...document.querySelectorAll('[data-setup]')];
    return rows.map((row) => [row.dataset.setup, row.querySelector('[data-action=setup]').ariaPressed === 'true']);";

async fn rows(page: &Page) -> Vec<(String, bool)> {
    page.ask(ROWS, vec![]).await
}

/// Waits until the page shows every row of the line, and those of a run as ticked.
async fn until_shown(page: &Page, setup: &Setup, run: &Run) {
    let of = |row: SetupRow| (row.key().to_owned(), run.setup.contains(&row));
    let wanted: Vec<(String, bool)> = setup.rows().map(of).collect();
    until("the rows are shown", async || {
        (rows(page).await == wanted).then_some(())
    })
    .await;
}

async fn until_ticked(page: &Page, ticked: &[SetupRow]) -> Workshop {
    page.until_book("the ticks are kept", |book| {
        run_of(book).is_some_and(|run| run.setup == ticked)
    })
    .await
}

#[test]
fn ticks_are_kept_over_a_reload_and_a_second_visit() {
    on_the_page(async |page| {
        let design = begin(page).await;
        let setup = Setup::of(&design, &Plan::of(&design));
        for row in [SetupRow::Gear, SetupRow::Guide] {
            page.press_at(&tick_of(row)).await;
        }
        let wanted = [SetupRow::Guide, SetupRow::Gear];
        let book = until_ticked(page, &wanted).await;
        let run = run_of(&book).expect("a run").clone();
        until_shown(page, &setup, &run).await;
        page.reload().await;
        page.go_to("braid").await;
        until_shown(page, &setup, &run).await;
        page.go_to("draw").await;
        page.go_to("braid").await;
        until_shown(page, &setup, &run).await;
        page.press_at(&tick_of(SetupRow::Guide)).await;
        until_ticked(page, &[SetupRow::Gear]).await;
    });
}

/// The list is there before the line is started, and its first tick starts it, with the focus still on that row.
#[test]
fn a_tick_before_the_start_starts_the_line() {
    on_the_page(async |page| {
        page.go_to("braid").await;
        page.until_there("[data-action=run-begin]").await;
        let before = rows(page).await;
        assert!(before.iter().all(|(_, ticked)| !ticked), "{before:?}");
        assert_eq!(before.len(), SetupRow::ALL.len(), "{before:?}");
        page.press_at(&tick_of(SetupRow::FirstBobbins)).await;
        let book = until_ticked(page, &[SetupRow::FirstBobbins]).await;
        assert_eq!(run_of(&book).map(|run| run.done), Some(0));
        page.until_there("[data-step-index='0']").await;
        page.until_gone("[data-action=run-begin]").await;
        page.until_focused(&tick_of(SetupRow::FirstBobbins)).await;
    });
}

/// Beside the button that ticks the step stands how many rows are open; it ticks all the same.
#[test]
fn the_step_is_done_with_rows_open() {
    on_the_page(async |page| {
        let design = begin(page).await;
        let setup = Setup::of(&design, &Plan::of(&design));
        page.press_at(&tick_of(SetupRow::Gear)).await;
        let book = until_ticked(page, &[SetupRow::Gear]).await;
        let open = setup.open_rows(run_of(&book).expect("a run"));
        let said = page.words_of(".foot .open-rows").await;
        assert!(said.starts_with(&format!("{open} rows")), "{said}");
        tick(page, 0).await;
        let run = until_done(page, 1).await;
        assert_eq!(run.setup, [SetupRow::Gear]);
        page.until_gone(".open-rows").await;
    });
}

/// What the push test says is a rule of thumb, and is said to be one.
#[test]
fn the_push_test_says_what_helps() {
    on_the_page(async |page| {
        begin(page).await;
        for (answer, words) in [
            ("open", "Too loose"),
            ("stiff", "Too tight"),
            ("right", "Neither too loose"),
        ] {
            page.press_at(&format!("[data-push={answer}]")).await;
            until("the remedy is shown", async || {
                let row = page.words_of("[data-setup=push]").await;
                (row.contains(words) && row.contains("no source")).then_some(())
            })
            .await;
        }
    });
}

/// Puts checks into the stored run, as another tab would, and opens the page again.
async fn with_checks(page: &Page, checks: Vec<Check>) {
    let change = |book: &Workshop| {
        let mut book = book.clone();
        let run = book
            .records
            .last_mut()
            .and_then(|record| record.run.as_mut());
        run.expect("a run").checks = checks;
        book
    };
    unheard::<Workshop>(page, change).await;
    page.reload().await;
    page.go_to("braid").await;
}

#[test]
fn what_is_measured_there_becomes_one_swatch() {
    on_the_page(async |page| {
        let design = begin(page).await;
        assert_eq!(page.count("setup-swatch").await, 0);
        page.enter("tension", "blue spring, third notch").await;
        page.until_book("the note is kept", |book| {
            book.machine_notes.tension == "blue spring, third notch"
        })
        .await;
        let check = |kind, value| Check {
            kind,
            value,
            planned: value,
            fine: 1.0,
            done: 0,
            at_m: 0.0,
            error: None,
        };
        let checks = vec![
            check(CheckKind::Angle, 44.0),
            check(CheckKind::Crossings, 28.5),
            check(CheckKind::Diameter, 0.73),
        ];
        with_checks(page, checks).await;
        page.until_there("[data-action=setup-swatch]").await;
        page.press("setup-swatch").await;
        let book = page
            .until_book("the swatch is kept", |book| book.swatches.len() == 1)
            .await;
        let run = run_of(&book).expect("a run");
        let wanted = Swatch {
            name: "Swatch 1".to_owned(),
            ..Swatch::of_start(&design, &Plan::of(&design), run, "blue spring, third notch")
        };
        assert_eq!(book.swatches, [wanted]);
        assert_eq!(book.swatches[0].get(SwatchField::Angle), Some(44.0));
        page.until_said("Swatch 1 is in the bench book.").await;
        // It is written once, also after a reload.
        page.reload().await;
        page.go_to("braid").await;
        page.until_said("Swatch 1 is in the bench book.").await;
        let is_off = "return document.querySelector('[data-action=setup-swatch]').disabled;";
        assert!(page.ask::<bool>(is_off, vec![]).await);
    });
}

/// Noted at the machine, it stands on the card of this line; and a card of a line of no workshop says nothing of it.
#[test]
fn the_note_of_the_tension_stands_on_the_card() {
    on_the_page(async |page| {
        page.go_to("braid").await;
        page.enter("tension", "blue spring").await;
        page.until_book("the note is kept", |book| {
            book.machine_notes.tension == "blue spring"
        })
        .await;
        let is_on_card = async || {
            page.press("card").await;
            page.until_there("[data-sheet]").await;
            let script = "return [...document.querySelectorAll('[data-sheet] text')].some((text) => text.textContent === arguments[0]);";
            let found: bool = page
                .ask(script, vec![json!("Carriers: blue spring.")])
                .await;
            page.press("card-close").await;
            found
        };
        assert!(!is_on_card().await, "the line names no workshop yet");
        begin(page).await;
        assert!(is_on_card().await);
    });
}

/// The two markings have the maker's own names where they are given.
#[test]
fn markings_are_named_by_the_maker() {
    on_the_page(async |page| {
        begin(page).await;
        assert!(
            page.words_of("[data-setup=first-bobbins]")
                .await
                .contains("first marking")
        );
        page.enter("first-mark", "red tape").await;
        page.enter("later-mark", "blue tape").await;
        page.until_book("both are kept", |book| {
            let notes = &book.machine_notes;
            (notes.first_mark.as_str(), notes.later_mark.as_str()) == ("red tape", "blue tape")
        })
        .await;
        for (row, mark) in [
            (SetupRow::FirstBobbins, "red tape"),
            (SetupRow::LaterBobbins, "blue tape"),
        ] {
            let told = page
                .words_of(&format!("[data-setup='{}']", row.key()))
                .await;
            assert!(told.contains(&format!("Mark them: {mark}.")), "{told}");
        }
    });
}
