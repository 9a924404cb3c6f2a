//! A finished line's tag: as it was measured, and where it was not, as it was planned, which is said.

use taperwright::base::choice::Choice as _;
use taperwright::base::units::show::{self, Units};
use taperwright::base::units::{Length, Mass};
use taperwright::braid::recipe::{ReadyRecipe, StepKind};
use taperwright::braid::weight::{CLASSES, Verdict};
use taperwright::design::demo::demo;
use taperwright::keep::book::record::{LineField, LineStage};
use taperwright::keep::book::{Frozen, Workshop};
use taperwright::paper::figures::verdict_title;
use taperwright::paper::words::care;
use taperwright::plan::Plan;

use super::book::{open, press_open};
use super::days::{begun, enter_day, today};
use super::dressing::{field, unfold};
use super::gesture::escape;
use super::harness::{on_the_page, until};
use super::page::Page;
use super::sheets::only_sheet;

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
        for name in ["first 30 ft", "whole line", "length", "belly"] {
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
        page.go_to("draw").await;
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

/// The tag with the note on care is one sheet of A6: 105 × 148 mm. Source: ISO 216.
#[test]
fn the_note_on_care_is_one_small_sheet() {
    const A6: (f64, f64) = (105.0 / 25.4 * 72.0, 148.0 / 25.4 * 72.0);
    on_the_page(async |page| {
        written_down(page).await;
        tag(page).await;
        assert_eq!(page.matching("[data-care]").await, 0);
        page.choose("tag-paper", "care").await;
        page.until_there("[data-care] li").await;
        let sheet = only_sheet(page);
        let (width, height) = sheet.size;
        let is_a6 = (width - A6.0).abs() < 1.0 && (height - A6.1).abs() < 1.0;
        assert!(is_a6, "{width} × {height}");
        for sentence in care(&demo(), &Plan::of(&demo())) {
            assert_eq!(sheet.count(sentence), 1, "{sentence}");
        }
        assert_eq!(sheet.count("rule of thumb"), 0, "that stays on the screen");
        assert!(sheet.words.iter().all(|word| {
            word.left >= 0.0 && word.top >= 0.0 && word.right <= width && word.bottom <= height
        }));
        // The choice is the reader's, and lasts.
        page.reload().await;
        open(page).await;
        press_open(page, ".made-lines .entry-row").await;
        tag(page).await;
        page.until_there("[data-care]").await;
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
        page.until_focused(".tag-desk .over-head h2").await;
        assert_eq!(page.words_of(".tag-desk.shown .tag h1").await, "The second");
        escape(page).await;
        page.until_focused(&format!("{second} [data-action=tag]"))
            .await;
    });
}

/// Writes a line made by the demo into the book, and leaves its entry open.
pub(super) async fn written_down(page: &Page) -> Workshop {
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
        let measures = book.records[0].measures(LineStage::Finished);
        measures.and_then(|measures| measures.get(field)) == Some(value)
    })
    .await
}

/// Opens the tag of the first line; returns its words.
pub(super) async fn tag(page: &Page) -> String {
    page.press("tag").await;
    page.until_there(".tag-desk.shown .tag").await;
    page.until_focused(".tag-desk .over-head h2").await;
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
