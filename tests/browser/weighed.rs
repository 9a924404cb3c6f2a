//! What the lines weighed say of their plans, and of a lot of yarn that changed.

use std::fs;

use taperwright::design::demo::demo;
use taperwright::keep::book::accuracy::Accuracy;
use taperwright::keep::book::change_of_lot::ChangeOfLot;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::example::Example;
use taperwright::keep::book::record::{LineField, LineRecord};
use taperwright::keep::book::weighed::{planned_weights, weighed_lines};
use taperwright::keep::book::{Frozen, Workshop, file};
use taperwright::plan::Plan;

use super::book::{ROUNDING, open, take_in};
use super::harness::{on_the_page, until};
use super::page::Page;

/// Lines of the demo design that weigh these shares of their plan.
fn lines_of(shares: &[f64]) -> Workshop {
    let head = Plan::of(&demo()).head_mass.expect("it has a head").grams();
    let mut book = Workshop::new("Heron Weir, lot A".to_owned(), &demo());
    for share in shares {
        let mut record = LineRecord::new("Heron".to_owned(), Frozen::of(&demo()));
        let finished = &mut record.finished;
        finished.set(LineField::HeadMass, Some(share * head));
        book.records.push(record);
    }
    book
}

/// Writes a book to a file, and opens it.
async fn opened(page: &Page, book: &Workshop) {
    let folder = tempfile::tempdir().expect("there is room for a folder");
    let path = folder.path().join("lot.bench.json");
    fs::write(&path, file::write(book)).expect("a file can be written");
    take_in(page, &path).await;
    let name = &book.name;
    page.until_book("the book is open", |book| book.name == *name)
        .await;
}

/// What a figure says and is.
async fn said_of(page: &Page, figure: &str) -> (String, f64) {
    let selector = format!("[data-figure={figure}]");
    page.until_there(&selector).await;
    let si = page.attribute_at(&selector, "data-si").await;
    let si = si.and_then(|si| si.parse().ok()).expect("it is a number");
    (page.words_of(&selector).await, si)
}

/// Several lines show a bias, a spread, and how often the range of a plan held; they show no change of the lot.
#[test]
fn weighed_lines_say_how_good_their_plans_have_been() {
    on_the_page(async |page| {
        open(page).await;
        let book = lines_of(&[1.01, 0.99, 1.02, 1.03]);
        opened(page, &book).await;
        let estimate = Estimate::of(&book);
        let lines = weighed_lines(&book, &estimate.doubts, &planned_weights(&book, &[]));
        let accuracy = Accuracy::of(&lines).expect("lines are weighed");
        for (figure, words, si) in [
            (
                "bias",
                Some(accuracy.bias_words("Your")),
                Some(accuracy.off.mean),
            ),
            (
                "weighed-spread",
                accuracy.spread_words(),
                accuracy.off.deviation,
            ),
            ("within-range", accuracy.held_words(), accuracy.held_share()),
        ] {
            let (said, found) = said_of(page, figure).await;
            assert_eq!(Some(said), words, "{figure}");
            let wanted = si.expect("there are several lines");
            assert!((found - wanted).abs() < ROUNDING, "{figure}: {found}");
        }
        assert_eq!(page.matching("[data-change-of-lot]").await, 0);
    });
}

/// Last lines far heavier than those before: the place says so, and a press begins another book beside this one.
#[test]
fn a_change_of_the_lot_is_said_and_a_new_book_is_one_press_away() {
    on_the_page(async |page| {
        open(page).await;
        let book = lines_of(&[1.01, 0.99, 1.0, 1.02, 0.99, 1.10, 1.09]);
        opened(page, &book).await;
        let change = ChangeOfLot::of(&Estimate::of(&book)).expect("it is beyond chance");
        page.until_there("[data-change-of-lot]").await;
        page.until_said(&change.words()).await;
        page.press_at("[data-change-of-lot] [data-action=new-book]")
            .await;
        let begun = until("there is a second book", async || page.kept_book(2).await).await;
        assert!(begun.records.is_empty() && begun.swatches.is_empty());
        page.until_gone("[data-change-of-lot]").await;
        assert_eq!(page.kept_book(1).await, Some(book));
    });
}

/// A maker without a book sees on demand what one brings: marked as invented, never stored, gone with the first own entry.
#[test]
fn an_example_book_shows_what_a_book_brings() {
    on_the_page(async |page| {
        open(page).await;
        assert_eq!(page.matching("[data-example-book]").await, 0);
        let before = page.storage().await;
        page.press("example-book").await;
        page.until_there("[data-example-book]").await;
        let example = Example::of(&demo()).expect("the demo has a class");
        for (which, head) in [("without", &example.without), ("with", &example.with)] {
            let selector = format!("[data-example-book] [data-example-head={which}]");
            assert_eq!(page.words_of(&selector).await, head.words(), "{which}");
        }
        let accuracy = Accuracy::of(&example.lines).expect("lines are weighed");
        let (said, _) = said_of(page, "bias").await;
        assert_eq!(said, accuracy.bias_words("The invented"));
        let brought = page.matching("[data-example-book] [data-brought]").await;
        assert_eq!(brought, example.brought.len());
        page.until_said("are invented").await;
        assert_eq!(page.storage().await, before, "nothing is stored");
        page.until_said("Nothing measured yet").await;
        page.press("example-book").await;
        page.until_gone("[data-example-book]").await;
        page.press("new-swatch").await;
        page.until_gone("[data-action=example-book]").await;
    });
}
