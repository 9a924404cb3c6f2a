//! What goes on paper beside the card: the dressing plan and a finished line's tag. Each lies over the bench, prints alone,
//! and gives the keyboard back.

use fantoccini::key::Key;
use serde_json::json;
use taperwright::book::record::{LineField, Stage};
use taperwright::book::{Frozen, Workshop};
use taperwright::choice::Choice as _;
use taperwright::design::demo::demo;
use taperwright::figures::verdict_title;
use taperwright::plan::Plan;
use taperwright::recipe::{Caution, ReadyRecipe, StepKind};
use taperwright::units::show::{self, Units};
use taperwright::units::{Length, Mass};
use taperwright::weight::{CLASSES, Verdict};

use super::book::{open, press_open};
use super::days::{begun, enter_day, today};
use super::dressing::{field, unfold};
use super::gesture::{escape, strike};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::paper::{Print, Sheet};

/// A4 upright, in points.
const A4: (f64, f64) = (595.3, 841.9);
/// The finished stage of the first line in the book.
const FINISHED: &str = ".made-lines .entry-row .stage:last-of-type";

#[test]
fn the_measured_head_decides_the_class_on_the_tag() {
    on_the_page(async |page| {
        let planned = Plan::of(&demo());
        written_down(page).await;
        // Two classes heavier than planned.
        let class = CLASSES[usize::from(planned.verdict.number().unwrap()) + 1];
        let head = Mass::from_grains(class.target);
        let grams = format!("{:.2}", head.grams());
        page.enter_at(&finished("line-head"), &grams).await;
        let book = until_measured(page, LineField::HeadMass, &grams).await;
        assert_eq!(book.complaints_of_line(&book.records[0]), []);
        let said = tag(page).await;
        let verdict = Verdict::of(Mass::from_grams(grams.parse().unwrap()));
        assert_eq!(verdict.number(), Some(class.number));
        assert!(said.contains(&verdict_title(&verdict)), "{said}");
        let number = page.attribute_at(".tag", "data-class").await;
        assert_eq!(number, Some(class.number.to_string()));
        let rows = rows(page).await;
        assert_eq!(
            row(&rows, "first 30 ft"),
            show::mass(Mass::from_grams(grams.parse().unwrap()))
        );
        for (name, words) in [
            ("whole line", show::grams(planned.total_mass)),
            ("length", Units::Metric.show_position(planned.length)),
        ] {
            assert_eq!(row(&rows, name), format!("{words} (planned)"));
        }
    });
}

#[test]
fn a_tag_of_what_was_never_measured_says_so_of_all_of_it() {
    on_the_page(async |page| {
        written_down(page).await;
        tag(page).await;
        let plan = Plan::of(&demo());
        let number = page.attribute_at(".tag", "data-class").await;
        assert_eq!(
            number,
            plan.verdict.number().map(|number| number.to_string())
        );
        let rows = rows(page).await;
        for name in ["first 30 ft", "whole line", "length"] {
            let said = row(&rows, name);
            assert!(said.ends_with("(planned)"), "{name}: {said}");
        }
    });
}

#[test]
fn measured_lengths_stand_on_the_tag_in_the_reader_s_units() {
    on_the_page(async |page| {
        page.press("imperial").await;
        written_down(page).await;
        page.enter_at(&finished("line-length"), "82' 6\"").await;
        let book = until_measured(page, LineField::Length, "25.146").await;
        assert_eq!(book.records[0].finished.length_m, Some(25.146));
        tag(page).await;
        let words = Units::Imperial.show_position(Length::from_feet(82.5));
        assert_eq!(row(&rows(page).await, "length"), words);
    });
}

/// A line is finished on the day its last step was done.
#[test]
fn the_tag_names_the_day_the_last_step_was_done() {
    on_the_page(async |page| {
        page.choose("recipe", ReadyRecipe::Undressed.key()).await;
        let day = today(page).await.plus(-3);
        begun(page, day).await;
        for (kind, on) in [(StepKind::Inspect, day), (StepKind::Weigh, day.plus(2))] {
            unfold(page, kind).await;
            enter_day(page, &field(kind, "tick-day"), on).await;
        }
        page.until_book("the line is finished", |book| {
            book.records[0].finished_on() == Some(day.plus(2))
        })
        .await;
        open(page).await;
        press_open(page, ".made-lines .entry-row").await;
        tag(page).await;
        assert_eq!(
            row(&rows(page).await, "finished"),
            day.plus(2).words_with_year()
        );
    });
}

#[test]
fn a_line_keeps_the_plan_it_was_made_by() {
    on_the_page(async |page| {
        let book = written_down(page).await;
        assert_eq!(book.records[0].design, Frozen::of(&demo()));
        page.press("book-close").await;
        page.enter("point-size", "1.3").await;
        until("the drawing is another", async || {
            page.kept().await.filter(|design| *design != demo())
        })
        .await;
        open(page).await;
        press_open(page, ".made-lines .entry-row").await;
        let planned = Plan::of(&demo());
        let words = page.words_of(FINISHED).await;
        let whole = format!("planned {}", show::grams(planned.total_mass));
        assert!(words.contains(&whole), "{words} lacks {whole}");
        tag(page).await;
        assert!(row(&rows(page).await, "whole line").starts_with(&show::grams(planned.total_mass)));
    });
}

#[test]
fn the_tag_prints_alone() {
    on_the_page(async |page| {
        written_down(page).await;
        page.enter("record-name", "Line for the weir").await;
        page.until_book("the name is kept", |book| {
            book.records[0].name == "Line for the weir"
        })
        .await;
        tag(page).await;
        let sheet = only_sheet(page);
        assert_eq!(sheet.count("Line for the weir"), 1);
        assert!(sheet.count("(planned)") > 0);
        // The book and the hint below the tag stay on the screen.
        for stranger in [
            "Bench book",
            "Swatches",
            "Take care",
            "Print",
            "as measured",
        ] {
            assert_eq!(sheet.count(stranger), 0, "{stranger}");
        }
        assert!(sheet.words.len() < 60, "{:?}", sheet.words);
    });
}

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
        put_away(page, "book").await;
        assert_eq!(Print::of(page).sheets, card);
    });
}

#[test]
fn escape_puts_each_sheet_away_and_gives_the_focus_back() {
    on_the_page(async |page| {
        written_down(page).await;
        put_away(page, "book").await;
        for key in ["dressing-sheet", "book"] {
            lay_open(page, key).await;
            put_away(page, key).await;
        }
        // A tag lies over the book, and leaves it as it was.
        open(page).await;
        press_open(page, ".made-lines .entry-row").await;
        tag(page).await;
        put_away(page, "tag").await;
        page.until_there(".book-desk.shown .made-lines details[open]")
            .await;
        put_away(page, "book").await;
    });
}

/// Of two lines in the book, each has its own tag, and the keyboard comes back to the button it went out from.
#[test]
fn each_line_has_its_own_tag() {
    on_the_page(async |page| {
        written_down(page).await;
        page.press("new-record").await;
        page.until_book("there are two lines", |book| book.records.len() == 2)
            .await;
        let second = ".made-lines .entry-row:nth-child(2)";
        page.enter_at(&format!("{second} [data-action=record-name]"), "The second")
            .await;
        page.until_book("the name is kept", |book| {
            book.records[1].name == "The second"
        })
        .await;
        page.press_at(&format!("{second} [data-action=tag]")).await;
        page.until_there(".tag-desk.shown .tag").await;
        assert_eq!(page.words_of(".tag h1").await, "The second");
        escape(page).await;
        until_focused(page, &format!("{second} [data-action=tag]")).await;
    });
}

/// Tab from the last control of a sheet, or from the first backwards, must not lead under it.
#[test]
fn the_keyboard_stays_on_the_sheet() {
    on_the_page(async |page| {
        lay_open(page, "dressing-sheet").await;
        strike(page, Key::Tab).await;
        until_focused(page, "[data-action=dressing-sheet-close]").await;
        strike(page, Key::Enter).await;
        page.until_gone(".dressing-sheet-desk.shown").await;
        until_focused(page, "[data-action=dressing-sheet]").await;
    });
}

/// Writes a line made by the demo into the book, and leaves its entry open.
async fn written_down(page: &Page) -> Workshop {
    open(page).await;
    page.press("new-record").await;
    let book = page
        .until_book("the line is written down", |book| book.records.len() == 1)
        .await;
    page.until_there(".made-lines details[open]").await;
    book
}

/// A field of the finished stage.
fn finished(action: &str) -> String {
    format!("{FINISHED} [data-action={action}]")
}

/// The book, once a number of the finished line is kept.
async fn until_measured(page: &Page, field: LineField, typed: &str) -> Workshop {
    let value: f64 = typed.parse().expect("a number is typed");
    page.until_book("the measured number is kept", |book| {
        let measures = book.records[0].measures(Stage::Finished);
        measures.and_then(|measures| measures.get(field)) == Some(value)
    })
    .await
}

/// Opens the tag of the first line; returns its words.
async fn tag(page: &Page) -> String {
    page.press("tag").await;
    page.until_there(".tag-desk.shown .tag").await;
    until_focused(page, "[data-action=print-tag]").await;
    page.words_of(".tag").await
}

/// The rows of the tag: name and words.
async fn rows(page: &Page) -> Vec<(String, String)> {
    let script = "
        return [...document.querySelectorAll('.tag dl div')].map((row) =>
            [row.querySelector('dt').innerText, row.querySelector('dd').innerText]);";
    page.ask(script, vec![]).await
}

fn row<'a>(rows: &'a [(String, String)], name: &str) -> &'a str {
    let mut found = rows.iter().filter(|row| row.0 == name);
    let row = found.next();
    &row.unwrap_or_else(|| panic!("no {name} in {rows:?}")).1
}

/// Opens a sheet by its button; the keyboard goes there.
async fn lay_open(page: &Page, key: &str) {
    page.press(key).await;
    page.until_there(&format!(".{key}-desk.shown")).await;
    let script = "return document.activeElement?.dataset.action?.startsWith('print-') ?? false;";
    until("the sheet has the keyboard", async || {
        page.ask::<bool>(script, vec![]).await.then_some(())
    })
    .await;
}

/// Puts a sheet away by Escape; the keyboard goes back to its button.
async fn put_away(page: &Page, key: &str) {
    escape(page).await;
    page.until_gone(&format!(".{key}-desk.shown")).await;
    until_focused(page, &format!("[data-action={key}]")).await;
}

async fn until_focused(page: &Page, selector: &str) {
    let script = "return document.activeElement?.matches(arguments[0]) ?? false;";
    until(&format!("{selector} has the focus"), async || {
        let has: bool = page.ask(script, vec![json!(selector)]).await;
        has.then_some(())
    })
    .await;
}

/// What is printed now, which must be one sheet.
fn only_sheet(page: &Page) -> Sheet {
    let mut sheets = Print::of(page).sheets;
    assert_eq!(sheets.len(), 1, "not one sheet");
    sheets.remove(0)
}
