//! Sheets that lie over the bench: each prints alone, is put away by Escape, and gives the keyboard back.

use fantoccini::key::Key;
use taperwright::base::choice::Choice as _;
use taperwright::base::units::show;
use taperwright::braid::recipe::{Caution, ReadyRecipe, StepKind};
use taperwright::design::demo::demo;
use taperwright::paper::figures::verdict_title;
use taperwright::plan::Plan;

use super::book::{open, press_open};
use super::days::{begun, enter_day, today};
use super::dressing::{field, unfold};
use super::gesture::{escape, strike};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::paper::{Print, Sheet};
use super::tag::{tag, written_down};

/// A4 upright, in points.
const A4: (f64, f64) = (595.3, 841.9);

#[test]
fn the_dressing_plan_is_one_sheet_with_every_caution() {
    on_the_page(async |page| {
        begun(page, today(page).await).await;
        lay_open(page, "dressing-sheet").await;
        let sheet = only_sheet(page);
        let (width, height) = sheet.size;
        let is_a4 = (width - A4.0).abs() < 1.0 && (height - A4.1).abs() < 1.0;
        assert!(is_a4, "{width} × {height}");
        let demo = demo();
        let steps = &demo.draft().recipe;
        let used = |caution: &Caution| {
            let mut kinds = steps.iter().map(|step| step.kind);
            kinds.any(|kind| kind.cautions().contains(caution))
        };
        assert!(
            Caution::ALL.iter().all(used),
            "the demo's recipe is harmless"
        );
        for caution in Caution::ALL {
            assert!(sheet.count(caution.words()) > 0, "no {caution:?}");
        }
        assert_eq!(sheet.count(Caution::DEFERRING), 1);
        for step in steps {
            assert!(sheet.count(step.kind.name()) > 0, "no {:?}", step.kind);
            assert!(sheet.count(step.kind.ready()) > 0, "no {:?}", step.kind);
        }
        let plan = Plan::of(&demo);
        assert!(sheet.count(&verdict_title(&plan.verdict)) > 0);
        assert!(sheet.count(&show::grams(plan.total_mass)) > 0);
        assert!(sheet.words.iter().all(|word| {
            word.left >= 0.0 && word.top >= 0.0 && word.right <= width && word.bottom <= height
        }));
        assert_eq!(sheet.count("Bobbins"), 0, "the card is printed along");
    });
}

/// A harmless recipe has fewer cautions, and still defers to those who know better.
#[test]
fn a_dressing_plan_warns_of_what_is_in_it_alone() {
    on_the_page(async |page| {
        page.choose("recipe", ReadyRecipe::Undressed.key()).await;
        lay_open(page, "dressing-sheet").await;
        until("the sheet follows the recipe", async || {
            (page.matching("tr[data-step]").await == 2).then_some(())
        })
        .await;
        let sheet = only_sheet(page);
        for caution in Caution::ALL {
            let is_in_it = caution == Caution::Blades;
            assert_eq!(sheet.count(caution.words()) > 0, is_in_it, "{caution:?}");
        }
        assert_eq!(sheet.count(Caution::DEFERRING), 1);
    });
}

/// A plan too long for one sheet goes on to a second; what to beware of is read in one piece.
#[test]
fn the_cautions_of_a_long_dressing_plan_stay_together() {
    on_the_page(async |page| {
        page.choose("recipe", ReadyRecipe::VeryRough.key()).await;
        let steps = ReadyRecipe::VeryRough.steps().len();
        lay_open(page, "dressing-sheet").await;
        until("the sheet follows the recipe", async || {
            (page.matching("tr[data-step]").await == steps).then_some(())
        })
        .await;
        let sheets = Print::of(page).sheets;
        let last = sheets.last().expect("something is printed");
        for caution in Caution::ALL {
            assert_eq!(last.count(caution.words()), 1, "{caution:?}");
        }
        assert_eq!(last.count(Caution::DEFERRING), 1);
    });
}

/// Ticked on the page is ticked on paper.
#[test]
fn a_step_that_is_done_has_its_box_filled() {
    on_the_page(async |page| {
        let start = today(page).await;
        begun(page, start).await;
        unfold(page, StepKind::Inspect).await;
        enter_day(page, &field(StepKind::Inspect, "tick-day"), start).await;
        page.until_book("the tick is kept", |book| {
            let diary = book.records[0].diary.as_ref();
            diary.is_some_and(|diary| diary.tick_of(0).is_some())
        })
        .await;
        lay_open(page, "dressing-sheet").await;
        let boxes = page.matching("tr[data-step] .box").await;
        assert_eq!(boxes, demo().draft().recipe.len());
        assert_eq!(page.matching("tr[data-step] .box.filled").await, 1);
        let first = "tr[data-step=inspect] .box.filled";
        assert_eq!(page.matching(first).await, 1);
        let sheet = only_sheet(page);
        let day = format!("{}\u{a0}{}", start.of_month(), start.month());
        assert!(sheet.count(&day) > 0, "no {day}");
    });
}

#[test]
fn with_nothing_open_the_card_is_printed() {
    on_the_page(async |page| {
        let card = Print::of(page).sheets;
        lay_open(page, "dressing-sheet").await;
        assert_ne!(Print::of(page).sheets, card);
        put_away(page, "dressing-sheet").await;
        assert_eq!(Print::of(page).sheets, card);
        open(page).await;
        assert_eq!(Print::of(page).sheets, card);
    });
}

#[test]
fn escape_puts_each_sheet_away_and_gives_the_focus_back() {
    on_the_page(async |page| {
        written_down(page).await;
        lay_open(page, "dressing-sheet").await;
        put_away(page, "dressing-sheet").await;
        // A tag lies over the book, and leaves it as it was.
        open(page).await;
        press_open(page, ".made-lines .entry-row").await;
        tag(page).await;
        put_away(page, "tag").await;
        page.until_there("[data-shows=weigh] .made-lines details[open]")
            .await;
    });
}

#[test]
fn a_sheet_is_put_away_by_its_button_too() {
    on_the_page(async |page| {
        lay_open(page, "dressing-sheet").await;
        strike(page, Key::Tab).await;
        page.until_focused("[data-action=print-dressing]").await;
        strike(page, Key::Tab).await;
        page.until_focused("[data-action=dressing-sheet-close]")
            .await;
        strike(page, Key::Enter).await;
        page.until_gone(".dressing-sheet-desk.shown").await;
        page.until_focused("[data-action=dressing-sheet]").await;
    });
}

/// Opens a sheet by its button; the keyboard goes there.
async fn lay_open(page: &Page, key: &str) {
    page.press(key).await;
    page.until_there(&format!(".{key}-desk.shown")).await;
    page.until_focused(&format!(".{key}-desk.shown .over-head h2"))
        .await;
}

/// Puts a sheet away by Escape; the keyboard goes back to its button.
async fn put_away(page: &Page, key: &str) {
    escape(page).await;
    page.until_gone(&format!(".{key}-desk.shown")).await;
    page.until_focused(&format!("[data-action={key}]")).await;
}

/// What is printed now, which must be one sheet.
pub(super) fn only_sheet(page: &Page) -> Sheet {
    let mut sheets = Print::of(page).sheets;
    assert_eq!(sheets.len(), 1, "not one sheet");
    sheets.remove(0)
}
