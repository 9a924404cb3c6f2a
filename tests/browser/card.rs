//! The card says everything needed at the machine, on one whole sheet for up to forty changes, on more beyond.
//!
//! Sources: ISO 216 and ANSI/ASME Y14.1 for the sizes of paper, at 72 points to the inch; the print is taken apart by poppler,
//! and its code read by rqrr.

use serde_json::json;
use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::share::link;
use taperwright::paper::figures::verdict_title;
use taperwright::plan::Plan;

use super::harness::{at_a_desk, on_the_page, until};
use super::memory::dragged;
use super::page::Page;
use super::paper::{Print, Sheet, Word};
use super::up_and_down::up_and_down;

/// A4 upright, in points.
const A4: (f64, f64) = (595.3, 841.9);
/// US Letter upright, in points: 8½ × 11 in.
const LETTER: (f64, f64) = (612.0, 792.0);
/// Edge that many printers cannot reach, in points: 4 mm.
const UNREACHED: usize = 11;
/// Share of the smaller box of two words by which they may overlap: letters hang a little beyond their lines.
const OVERLAP: f64 = 0.2;

/// Share of the height of a word's box that its size is: the box reaches from the ascent of the typeface to its descent, 1.373 times
/// the size. Source: the table `hhea` of the typeface, as poppler tells it of words of 8 points.
const SIZE_OF_BOX: f64 = 1.0 / 1.373;

/// Sans serif letters of several shapes and widths. One that a machine lacks is replaced by its own sans serif, so that nothing
/// depends on which are there.
pub(super) const FAMILIES: [&str; 5] = [
    "sans-serif",
    "DejaVu Sans",
    "Liberation Sans",
    "Noto Sans",
    "FreeSans",
];

#[test]
fn the_demo_fits_one_whole_sheet() {
    on_the_page(async |page| is_whole(page, &demo(), A4).await);
}

#[test]
fn a_dragged_line_fits_one_whole_sheet() {
    on_the_page(async |page| {
        let (_, design) = dragged(page).await;
        is_whole(page, &design, A4).await;
    });
}

/// Twelve threads more and as many fewer on the way: a machine of 32 carriers fits one sheet too.
#[test]
fn twenty_four_changes_fit_one_whole_sheet() {
    fits_one("a4", 24, A4);
}

#[test]
fn a_card_printed_from_the_bench_is_the_card_looked_at() {
    on_the_page(async |page| {
        dragged(page).await;
        let from_bench = Print::of(page);
        page.press("card").await;
        until("the card is on screen", async || {
            page.control("print")
                .await
                .is_displayed()
                .await
                .ok()
                .filter(|shown| *shown)
        })
        .await;
        let looked_at = Print::of(page);
        assert_eq!(from_bench.sheets, looked_at.sheets);
        assert!(
            from_bench.picture() == looked_at.picture(),
            "they look different"
        );
    });
}

#[test]
fn the_print_button_prints() {
    on_the_page(async |page| {
        page.run(
            "window.print = () => { window.printed = document.title; };",
            vec![],
        )
        .await;
        page.press("card").await;
        page.press("print").await;
        until("the page prints", async || {
            page.ask::<Option<String>>("return window.printed ?? null;", vec![])
                .await
        })
        .await;
        page.press("card-close").await;
    });
}

#[test]
fn the_code_on_the_print_opens_the_same_line() {
    on_the_page(async |page| {
        let (_, design) = dragged(page).await;
        let fragment = link::encode(&design).expect("short");
        page.press("card").await;
        page.until_there("[data-sheet] [shape-rendering]").await;
        let place = page.place_of_code().await;
        page.press("card-close").await;
        for family in FAMILIES {
            page.set_in(family).await;
            let codes = Print::of(page).codes_at(place);
            assert_eq!(
                codes,
                [format!("{}/#{fragment}", page.origin)],
                "in {family}"
            );
        }
    });
}

#[test]
fn paper_and_maker_are_set_once_and_stand_on_every_card() {
    on_the_page(async |page| {
        page.press("card").await;
        page.choose("paper", "letter").await;
        page.enter("maker", "\"><img src=x> & Daughter").await;
        let is_so = async |page: &Page| {
            let print = Print::of(page);
            sheet_of(&print, LETTER);
            assert_eq!(print.sheets[0].count("\"><img src=x> & Daughter"), 1);
        };
        is_so(page).await;
        page.reload().await;
        assert_eq!(page.value("paper").await, "letter");
        is_so(page).await;
    });
}

#[test]
fn sixteen_changes_fit_one_whole_letter() {
    fits_one("letter", 16, LETTER);
}

/// A line of so many changes is printed whole on one sheet of a paper.
fn fits_one(paper: &str, changes: u32, size: (f64, f64)) {
    at_a_desk(async |desk| {
        let design = up_and_down(changes);
        assert_eq!(Plan::of(&design).thread_changes(), changes as usize);
        let fragment = link::encode(&design).expect("short");
        let page = desk.visitor_by(&format!("#{fragment}")).await;
        page.press("card").await;
        page.choose("paper", paper).await;
        is_whole(&page, &design, size).await;
    });
}

/// Sheets after the first are headed by whose they are, and none is cut.
#[test]
fn ninety_changes_go_on_to_further_sheets() {
    at_a_desk(async |desk| {
        let design = up_and_down(96);
        assert!(Plan::of(&design).thread_changes() > 90);
        let fragment = link::encode(&design).expect("short");
        let page = desk.visitor_by(&format!("#{fragment}")).await;
        let print = Print::of(&page);
        let all = print.sheets.len();
        assert!((2..=3).contains(&all), "{all} sheets");
        for (sheet, number) in print.sheets.iter().zip(1..) {
            lies_on(sheet, A4);
            assert_eq!(sheet.count(&format!("sheet {number} of {all}")), 1);
            assert!(
                sheet.count(design.title()) > 0,
                "no title on sheet {number}"
            );
        }
        says_everything(&page, &print, &design).await;
    });
}

impl Page {
    /// Sets every word in a family of letters.
    pub(super) async fn set_in(&self, family: &str) {
        let script = "
            const letters = new CSSStyleSheet();
            letters.replaceSync(`* { font-family: ${arguments[0]}, sans-serif !important; }`);
            document.adoptedStyleSheets = [letters];";
        self.run(script, vec![json!(family)]).await;
        self.until_drawn().await;
    }
}

/// One sheet of this size, on which nothing is missing, cut off, or written over another thing.
async fn is_whole(page: &Page, design: &Design, size: (f64, f64)) {
    let print = Print::of(page);
    sheet_of(&print, size);
    says_everything(page, &print, design).await;
    let picture = print.picture();
    assert!(
        picture.inked() > 0.02,
        "only {} of the sheet is printed",
        picture.inked()
    );
    assert!(
        picture.has_blank_edge(UNREACHED),
        "something runs off the sheet"
    );
}

/// Holds a print to one sheet of this size with all words on it.
fn sheet_of(print: &Print, size: (f64, f64)) {
    let [sheet] = print.sheets.as_slice() else {
        panic!("the card takes {} sheets", print.sheets.len());
    };
    lies_on(sheet, size);
}

/// Holds the words of a sheet to its size, and apart.
fn lies_on(sheet: &Sheet, size: (f64, f64)) {
    let (width, height) = sheet.size;
    assert!(
        (width - size.0).abs() < 1.0 && (height - size.1).abs() < 1.0,
        "{width} × {height}"
    );
    assert!(sheet.words.len() > 50, "only {} words", sheet.words.len());
    for word in &sheet.words {
        let is_inside =
            word.left >= 0.0 && word.top >= 0.0 && word.right <= width && word.bottom <= height;
        assert!(is_inside, "cut off: {word:?}");
    }
    assert_eq!(overlapping(&sheet.words), Vec::<(&str, &str)>::new());
}

async fn says_everything(page: &Page, print: &Print, design: &Design) {
    let (state, plan) = (page.state().await, Plan::of(design));
    let count = |text: &str| -> usize { print.sheets.iter().map(|sheet| sheet.count(text)).sum() };
    assert!(count(design.title()) > 0, "no title");
    assert!(count(&verdict_title(&plan.verdict)) > 0, "no class");
    for at in state.places() {
        let place = Units::Metric.show_position(Length::from_metres(at));
        assert!(count(&place) > 0, "no {place}");
    }
    let script = "return [...document.querySelectorAll('[data-bobbin]')].map((b) => Number(b.dataset.length));";
    page.go_to("wind").await;
    let bobbins: Vec<f64> = page.ask(script, vec![]).await;
    assert_eq!(bobbins.len(), plan.bobbins.len());
    for metres in &bobbins {
        let length = format!("{metres:.1} m");
        let alike = bobbins
            .iter()
            .filter(|other| format!("{other:.1} m") == length);
        assert!(
            count(&length) >= alike.count(),
            "not every bobbin of {length}"
        );
    }
}

/// Pairs of words that stand on one another.
fn overlapping(words: &[Word]) -> Vec<(&str, &str)> {
    // What a word takes up of its line: the square of its letters, in the middle of the box.
    let rows = |word: &Word| {
        let (middle, height) = (f64::midpoint(word.top, word.bottom), word.bottom - word.top);
        (
            middle - SIZE_OF_BOX * height / 2.0,
            middle + SIZE_OF_BOX * height / 2.0,
        )
    };
    let area = |word: &Word| (word.right - word.left) * (rows(word).1 - rows(word).0);
    let common = |a: &Word, b: &Word| {
        let width = a.right.min(b.right) - a.left.max(b.left);
        let height = rows(a).1.min(rows(b).1) - rows(a).0.max(rows(b).0);
        width.max(0.0) * height.max(0.0)
    };
    let pairs = words
        .iter()
        .enumerate()
        .flat_map(|(place, a)| words[place + 1..].iter().map(move |b| (a, b)));
    pairs
        .filter(|(a, b)| common(a, b) > OVERLAP * area(a).min(area(b)))
        .map(|(a, b)| (a.text.as_str(), b.text.as_str()))
        .collect()
}
