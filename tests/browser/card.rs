//! The card is one whole page that says everything needed at the machine.

use taperwright::choice::Choice;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::machine::ReadyMade;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::figures::verdict_title;
use taperwright::plan::Plan;
use taperwright::units::Length;
use taperwright::units::show::Units;

use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;
use super::paper::{Print, Sheet, Word};
use super::settings::edited;

/// A4 upright, in points.
const A4: (f64, f64) = (595.3, 841.9);
/// Edge that many printers cannot reach, in points: 4 mm.
const UNREACHED: usize = 11;
/// Share of the smaller box of two words by which they may overlap: letters hang a little beyond their lines.
const OVERLAP: f64 = 0.2;

#[test]
fn the_demo_fits_one_whole_sheet() {
    on_the_page(async |page| is_whole(page, &demo()).await);
}

#[test]
fn a_dragged_line_fits_one_whole_sheet() {
    on_the_page(async |page| {
        let (_, design) = dragged(page).await;
        is_whole(page, &design).await;
    });
}

/// Twelve threads more and as many fewer on the way: a machine of 32 carriers fits one sheet too.
#[test]
fn a_line_of_many_changes_fits_one_whole_sheet() {
    on_the_page(async |page| {
        let machine = ReadyMade::ThirtyTwoRegular;
        page.choose("machine", machine.key()).await;
        let mut design = edited(demo(), Edit::Machine(machine));
        for (setting, value) in [
            (Setting::FewestThreads, 16.0),
            (Setting::EndsPerThread, 7.0),
        ] {
            page.enter(setting.key(), &value.to_string()).await;
            design = edited(design, Edit::Set(setting, value));
        }
        assert!(Plan::of(&design).stops().count() > 20, "not many changes");
        is_whole(page, &design).await;
    });
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

/// One A4 sheet, on which nothing is missing, cut off, or written over another thing.
async fn is_whole(page: &Page, design: &Design) {
    let print = Print::of(page);
    let [sheet] = print.sheets.as_slice() else {
        panic!("the card takes {} sheets", print.sheets.len());
    };
    let (width, height) = sheet.size;
    assert!(
        (width - A4.0).abs() < 1.0 && (height - A4.1).abs() < 1.0,
        "{width} × {height}"
    );
    says_everything(page, sheet, design).await;
    for word in &sheet.words {
        let is_inside =
            word.left >= 0.0 && word.top >= 0.0 && word.right <= width && word.bottom <= height;
        assert!(is_inside, "cut off: {word:?}");
    }
    assert_eq!(overlapping(&sheet.words), Vec::<(&str, &str)>::new());
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

async fn says_everything(page: &Page, sheet: &Sheet, design: &Design) {
    let (state, plan) = (page.state().await, Plan::of(design));
    assert!(
        sheet.count(design.title()) > 0,
        "no title: {:?}",
        sheet.words
    );
    assert!(sheet.count(&verdict_title(&plan.verdict)) > 0, "no class");
    for at in state.places() {
        let place = Units::Metric.show_position(Length::from_metres(at));
        assert!(sheet.count(&place) > 0, "no {place}");
    }
    let script = "return [...document.querySelectorAll('[data-bobbin]')].map((b) => Number(b.dataset.length));";
    let bobbins: Vec<f64> = page.ask(script, vec![]).await;
    assert_eq!(bobbins.len(), plan.bobbins.len());
    for metres in &bobbins {
        let length = format!("{metres:.1} m,");
        let alike = bobbins
            .iter()
            .filter(|other| format!("{other:.1} m,") == length);
        assert!(
            sheet.count(&length) >= alike.count(),
            "not every bobbin of {length}"
        );
    }
}

/// Pairs of words that stand on one another.
fn overlapping(words: &[Word]) -> Vec<(&str, &str)> {
    let area = |word: &Word| (word.right - word.left) * (word.bottom - word.top);
    let common = |a: &Word, b: &Word| {
        let width = a.right.min(b.right) - a.left.max(b.left);
        let height = a.bottom.min(b.bottom) - a.top.max(b.top);
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
