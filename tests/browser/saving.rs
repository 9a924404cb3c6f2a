//! Tables and the card as a picture are saved as files that say what the page says.
//!
//! Sources: none needed for tables, whose text is tried elsewhere; the picture is painted by the browser and by poppler.

use std::fs;
use std::path::PathBuf;

use serde_json::{Value, json};
use taperwright::base::units::show::Units;
use taperwright::design::demo::demo;
use taperwright::keep::share::{card_svg, link, table};
use taperwright::plan::Plan;

use super::card::FAMILIES;
use super::files::saved;
use super::harness::{at_a_desk, on_the_page};
use super::page::Page;
use super::paper::Print;

/// A4, in inches. Source: ISO 216, and the inch of 25.4 mm.
const PAPER: (f64, f64) = (210.0 / 25.4, 297.0 / 25.4);

/// Words of a picture that lie outside of its page, or upon the code or each other, as the browser's own font sets them.
const CROOKED: &str = r"
    const page = document.documentElement.getBoundingClientRect();
    const code = document.querySelector('[shape-rendering]').getBoundingClientRect();
    const texts = [...document.querySelectorAll('text')].filter((text) => text.textContent.trim());
    const boxes = texts.map((text) => [text.textContent, text.getBoundingClientRect()]);
    const meets = (a, b, by) => a.left < b.right - by && b.left < a.right - by && a.top < b.bottom - by && b.top < a.bottom - by;
    const outside = boxes.filter(([, box]) =>
        box.left < page.left || box.right > page.right || box.top < page.top || box.bottom > page.bottom);
    const on_code = boxes.filter(([, box]) => meets(box, code, 0));
    // A box reaches from the top of the tallest letter to the foot of the deepest: lines a little apart share a little.
    const on_text = boxes.filter(([, box], at) => boxes.slice(at + 1).some(([, other]) => meets(box, other, 3)));
    return [boxes.length, [...outside, ...on_code, ...on_text].map(([words]) => words)];";

#[test]
fn the_schedule_is_saved_as_a_table() {
    on_the_page(async |page| {
        let text = saved_by(page, "save-schedule", "csv").await;
        let wanted = table::schedule(&demo(), &Plan::of(&demo()), Units::Metric).csv();
        assert_eq!(text, (table::schedule_name(&demo()), wanted));
    });
}

#[test]
fn the_bobbins_are_saved_as_a_table_in_the_readers_units() {
    on_the_page(async |page| {
        page.press("imperial").await;
        let text = saved_by(page, "save-bobbins", "csv").await;
        let wanted = table::bobbins(&demo(), &Plan::of(&demo()), Units::Imperial).csv();
        assert_eq!(text, (table::bobbins_name(&demo()), wanted));
    });
}

#[test]
fn the_saved_card_is_a_page_whose_code_opens_the_same_line() {
    at_a_desk(async |desk| {
        // It leaves the site for the file, on purpose.
        let page = desk.troublemaker("").await;
        page.press("card").await;
        let (name, text) = saved_by(&page, "save-card", "svg").await;
        assert_eq!(name, card_svg::name(&demo()));
        roxmltree::Document::parse(&text).expect("well-formed");
        page.assert_untroubled();
        let path = page.session.downloads().join(&name);
        let opened = page
            .session
            .client
            .goto(&format!("file://{}", path.display()))
            .await;
        opened.expect("the card opens");
        let (count, crooked): (usize, Vec<String>) = page.ask(CROOKED, vec![]).await;
        assert!(count > 50, "only {count} words");
        assert!(crooked.is_empty(), "{crooked:#?}");
        let place = page.place_of_code().await;
        let fragment = link::encode(&demo()).expect("short");
        for family in FAMILIES {
            page.set_in(family).await;
            let codes = Print::with(&page, &on_a4()).codes_at(place);
            assert_eq!(
                codes,
                [format!("{}/#{fragment}", page.origin)],
                "in {family}"
            );
        }
        page.leave().await;
    });
}

/// A4 without margins.
fn on_a4() -> Value {
    json!({
        "paperWidth": PAPER.0, "paperHeight": PAPER.1,
        "marginTop": 0, "marginBottom": 0, "marginLeft": 0, "marginRight": 0,
    })
}

/// Presses a button that saves a file; returns its name and text.
async fn saved_by(page: &Page, action: &str, end: &str) -> (String, String) {
    let button = format!("[data-action={action}]");
    page.seek(&button).await;
    page.bring(&button).await;
    page.press(action).await;
    let path: PathBuf = saved(page, end).await;
    let name = path
        .file_name()
        .expect("a file has a name")
        .to_string_lossy()
        .into_owned();
    (name, fs::read_to_string(&path).expect("the file is text"))
}
