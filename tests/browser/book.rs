//! The bench book: what is measured narrows what is believed, what cannot be is said and kept, and nothing is ever lost.

use std::fs;
use std::path::Path;

use serde_json::json;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::keep::book::accuracy::Accuracy;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::next::{Brought, NextMeasure, Worths};
use taperwright::keep::book::weighed::{planned_weights, weighed_lines};
use taperwright::keep::book::{BookEntry, Workshop, file};
use taperwright::keep::shelf::WORKSHOP_KEY;
use taperwright::plan::Plan;

use super::fields::takes;
use super::files::saved;
use super::harness::{at_a_desk, on_the_page, until};
use super::page::Page;
use super::settings::edited;
use super::swatches::measured;

/// Share by which what is learnt in the browser may differ from what is learnt here: the search for it stops once it is close,
/// and the last digits of sines, rounded differently, may make that a step earlier or later.
pub(super) const ROUNDING: f64 = 1e-6;

/// What is known: value and spread of each parameter.
const KNOWN: &str = "
    return [...document.querySelectorAll('[data-parameter]')].map(({ dataset }) =>
        [dataset.parameter, Number(dataset.value), Number(dataset.spread)]);";

#[test]
fn a_swatch_measured_narrows_what_is_known() {
    on_the_page(async |page| {
        open(page).await;
        let before = until_known(page, &Workshop::new("My workshop".to_owned(), &demo())).await;
        let book = measured(page).await;
        assert_eq!(book.base, demo());
        let after = until_known(page, &book).await;
        let spread = |known: &[Known], setting: Setting| {
            let row = known.iter().find(|row| row.0 == setting.key());
            row.expect("it is listed").2
        };
        for setting in [
            Setting::MachineConstant,
            Setting::Crimp,
            Setting::FibreFraction,
        ] {
            let (wide, narrow) = (spread(&before, setting), spread(&after, setting));
            assert!(narrow < wide, "{}: {wide}, {narrow}", setting.key());
        }
        // Nothing was measured of a dressed line.
        for setting in [Setting::VarnishPickUp, Setting::Weighed] {
            assert_eq!(spread(&before, setting), spread(&after, setting));
        }
        page.until_said("Learnt from 1 swatch and 0 lines").await;
        page.reload().await;
        open(page).await;
        assert_eq!(until_known(page, &book).await, after);
    });
}

#[test]
fn what_the_book_teaches_is_planned_with_and_one_step_to_undo() {
    on_the_page(async |page| {
        open(page).await;
        let book = measured(page).await;
        until_known(page, &book).await;
        page.press("learn").await;
        let taught = taught(&demo(), &book);
        assert_ne!(taught, demo());
        takes(page, &taught).await;
        assert_eq!(taught.draft().workshop, book.title());
        let spread = |design: &Design| {
            let prediction = Plan::of(design).prediction;
            prediction.expect("the line has a head").spread.kilograms()
        };
        assert!(spread(&taught) < spread(&demo()));
        until_predicted(page, spread(&taught)).await;
        page.until_said("planned with everything this book has learnt")
            .await;
        page.go_to("draw").await;
        page.press("undo").await;
        takes(page, &demo()).await;
        until_predicted(page, spread(&demo())).await;
    });
}

/// A value set by hand is the maker's own belief again.
#[test]
fn a_learnt_value_changed_by_hand_is_no_longer_learnt() {
    on_the_page(async |page| {
        open(page).await;
        let book = measured(page).await;
        until_known(page, &book).await;
        page.press("learn").await;
        let taught = taught(&demo(), &book);
        takes(page, &taught).await;
        assert!(taught.draft().learned.is_some());
        page.go_to("draw").await;
        page.unfold("crimp_percent").await;
        page.enter("crimp_percent", "2.6").await;
        let own = edited(taught, Edit::Set(Setting::Crimp, 2.6));
        assert_eq!(own.draft().learned, None);
        takes(page, &own).await;
        page.press("all-figures").await;
        page.until_said("with these settings").await;
    });
}

#[test]
fn a_swatch_taken_out_comes_back() {
    on_the_page(async |page| {
        open(page).await;
        assert!(is_disabled(page, "book-undo").await, "nothing was done yet");
        let book = measured(page).await;
        page.press("swatch-remove").await;
        let without = page
            .until_book("the swatch is gone", |book| book.swatches.is_empty())
            .await;
        until_known(page, &without).await;
        page.press("book-undo").await;
        page.until_book("the swatch is back", |now| *now == book)
            .await;
        until_known(page, &book).await;
        page.until_there(".swatches .entry-row").await;
    });
}

/// What to do next is one press away: first a swatch, the same one until it is measured; then what is worth most. A line of which
/// nothing is written down is weighed, and its weight then stands beside its plan.
#[test]
fn what_to_measure_next_is_one_press_away() {
    on_the_page(async |page| {
        open(page).await;
        assert_eq!(page.matching("[data-weighed]").await, 0);
        page.until_said(NextMeasure::Swatch.heading()).await;
        page.press("next-measure").await;
        page.until_book("there is a swatch", |book| book.swatches.len() == 1)
            .await;
        page.press("next-measure").await;
        page.until_there(".swatches details[open]").await;
        page.press("new-record").await;
        let book = page
            .until_book("there is a line", |book| book.records.len() == 1)
            .await;
        assert_eq!(book.swatches.len(), 1, "the swatch that was begun is used");
        page.until_said(NextMeasure::Finished(0).heading()).await;
        page.press("next-measure").await;
        page.until_there(".made-lines details[open]").await;
        let head = Plan::of(&demo()).head_mass.expect("it has a head").grams();
        let field = ".made-lines .stage:last-of-type [data-action=line-head]";
        page.enter_at(field, &format!("{:.2}", 1.02 * head)).await;
        page.until_there("[data-weighed]").await;
        let book = page.kept_book(1).await.expect("the book is kept");
        let estimate = Estimate::of(&book);
        let lines = weighed_lines(&book, &estimate.doubts, &planned_weights(&book, &[]));
        let accuracy = Accuracy::of(&lines).expect("a line is weighed");
        page.until_said(&accuracy.bias_words("Your")).await;
        assert_eq!(
            page.matching("[data-figure=weighed-spread]").await,
            0,
            "one line shows no spread"
        );
        assert_eq!(page.matching("[data-weighed]").await, lines.len());
    });
}

/// What the page lists to be measured: key, minutes, chance after it.
const LISTED: &str = "
    return [...document.querySelectorAll('[data-next-measure]')].map(({ dataset }) =>
        [dataset.nextMeasure, Number(dataset.minutes), Number(dataset.chance)]);";

/// What can be measured is listed with its minutes and the chance of the class after it, the most useful first; a press begins it.
#[test]
fn what_can_be_measured_is_listed_by_what_it_is_worth() {
    on_the_page(async |page| {
        open(page).await;
        page.until_there("[data-next-measure]").await;
        let listed: Vec<(String, f64, f64)> = page.ask(LISTED, vec![]).await;
        let (book, plan) = (
            Workshop::new("My workshop".to_owned(), &demo()),
            Plan::of(&demo()),
        );
        let worths = Worths::of(&book, &Estimate::of(&book), (&demo(), &plan));
        let worths = worths.expect("it has a class").worths;
        assert_eq!(listed.len(), worths.len(), "{listed:?}");
        for (row, worth) in listed.iter().zip(&worths) {
            assert_eq!(row.0, worth.measure.key());
            assert!((row.1 - worth.minutes).abs() < 1e-6, "{row:?}");
            assert!((row.2 - worth.after.chance).abs() < 1e-4, "{row:?}");
        }
        page.press("more-measures").await;
        let second = format!(
            "[data-next-measure={}] [data-action=begin-measure]",
            listed[1].0
        );
        page.press_at(&second).await;
        page.until_book("it is begun", |book| book.swatches.len() == 1)
            .await;
        page.until_there(".swatches details[open]").await;
    });
}

/// Beside the class it is said what would make it surer, and the way there is one press.
#[test]
fn the_class_says_what_to_measure_next() {
    on_the_page(async |page| {
        page.press("all-figures").await;
        page.until_there("[data-next-for-class]").await;
        let said = page.words_of("[data-next-for-class]").await;
        let (book, plan) = (
            Workshop::new("My workshop".to_owned(), &demo()),
            Plan::of(&demo()),
        );
        let worths = Worths::of(&book, &Estimate::of(&book), (&demo(), &plan));
        let Worths { now, worths } = worths.expect("it has a class");
        let facts = worths[0].facts(&now);
        assert!(said.contains(&facts), "“{said}” does not say “{facts}”");
        page.press("measure-next").await;
        page.until_there(".next-measure").await;
    });
}

/// An entry that is open says how much surer it made the class of the line on the bench.
#[test]
fn an_open_entry_says_what_it_brought() {
    on_the_page(async |page| {
        open(page).await;
        let book = measured(page).await;
        let (estimate, plan) = (Estimate::of(&book), Plan::of(&demo()));
        let entry = BookEntry::Swatch(0);
        let brought = Brought::of(&book, &estimate, (&demo(), &plan), entry);
        let brought = brought.expect("it teaches something");
        page.until_there(".swatches [data-brought]").await;
        page.until_said(&brought.words()).await;
    });
}

/// Two lines of one name are told apart where they are listed.
#[test]
fn lines_of_one_name_are_told_apart() {
    on_the_page(async |page| {
        open(page).await;
        for count in 1..=2 {
            page.press("new-record").await;
            page.until_book("the line is written down", |book| {
                book.records.len() == count
            })
            .await;
        }
        let script = "return [...document.querySelectorAll('.made-lines summary')].map((row) => row.innerText);";
        let rows: Vec<String> = page.ask(script, vec![]).await;
        assert_eq!(rows.len(), 2);
        assert_ne!(rows[0], rows[1], "nobody can tell which is which");
    });
}

/// What is open in the book is still open when the maker comes back from another place.
#[test]
fn an_open_entry_stays_open_while_another_place_is_shown() {
    on_the_page(async |page| {
        open(page).await;
        page.press("new-swatch").await;
        page.until_there(".swatches details[open]").await;
        page.go_to("draw").await;
        page.go_to("weigh").await;
        page.until_there(".swatches details[open]").await;
        page.press_at(".swatches summary").await;
        page.until_gone(".swatches details[open]").await;
        // The browser tells of it a moment after.
        page.until_drawn().await;
        page.go_to("draw").await;
        page.go_to("weigh").await;
        assert_eq!(page.matching(".swatches details[open]").await, 0);
    });
}

/// Whoever finds a text that is no book must be told, must not lose it, and can go on.
#[test]
fn a_kept_text_that_cannot_be_read_is_never_written_over() {
    on_the_page(async |page| {
        let key = format!("{WORKSHOP_KEY}1/1-00000000000000aa-00000000");
        let text = "half a book";
        let script = "localStorage.setItem(...arguments);";
        page.run(script, vec![json!(key), json!(text)]).await;
        page.reload().await;
        open(page).await;
        page.until_said("cannot be read").await;
        page.press("new-swatch").await;
        let book = until("the swatch is kept elsewhere", async || {
            page.kept_book(2).await
        })
        .await;
        assert_eq!(book.swatches.len(), 1);
        let is_there = async || {
            page.storage()
                .await
                .get(&key)
                .is_some_and(|kept| kept == text)
        };
        assert!(is_there().await, "the text is lost");
        // Asked for, it says why, and the open book stays open.
        page.choose("workshop", "1").await;
        page.until_said("It is not changed").await;
        assert_eq!(page.value("workshop").await, "2");
        page.enter("swatch-length", "0.5").await;
        until("the swatch is measured", async || {
            let book = page.kept_book(2).await?;
            (book.swatches[0].length_m == Some(0.5)).then_some(())
        })
        .await;
        assert!(is_there().await, "the text is lost");
    });
}

#[test]
fn a_workshop_renamed_stays_the_line_s_home() {
    on_the_page(async |page| {
        open(page).await;
        let book = measured(page).await;
        until_known(page, &book).await;
        page.press("learn").await;
        let taught = taught(&demo(), &book);
        takes(page, &taught).await;
        page.enter("workshop-name", "Heron Weir, lot B").await;
        page.until_book("the book is renamed", |book| {
            book.name == "Heron Weir, lot B"
        })
        .await;
        takes(
            page,
            &edited(taught, Edit::Workshop("Heron Weir, lot B".to_owned())),
        )
        .await;
        // A second book, so that one has to be chosen when the page opens.
        page.press("new-workshop").await;
        until("there is a second book", async || {
            page.kept_book(2).await.map(drop)
        })
        .await;
        page.reload().await;
        open(page).await;
        assert_eq!(page.value("workshop-name").await, "Heron Weir, lot B");
        assert_eq!(page.value("workshop").await, "1");
        until_known(page, &book).await;
    });
}

#[test]
fn a_saved_book_opens_in_another_browser() {
    at_a_desk(async |desk| {
        let maker = desk.visitor().await;
        open(&maker).await;
        let book = measured(&maker).await;
        let known = until_known(&maker, &book).await;
        maker.press("save-book").await;
        let path = saved(&maker, "json").await;
        let name = path.file_name().and_then(|name| name.to_str());
        assert_eq!(name, Some(file::name(&book).as_str()));
        let other = desk.visitor().await;
        open(&other).await;
        take_in(&other, &path).await;
        assert_eq!(other.until_book("the book is kept", |_| true).await, book);
        assert_eq!(until_known(&other, &book).await, known);
    });
}

/// What is no book says so, and the open book stays as it is.
#[test]
fn a_damaged_book_is_told_and_not_taken() {
    on_the_page(async |page| {
        open(page).await;
        let book = measured(page).await;
        page.press("save-book").await;
        let path = saved(page, "json").await;
        let text = fs::read_to_string(&path).expect("the saved file is there");
        let line = taperwright::keep::share::file::write(&demo());
        for (name, damaged) in [
            ("half.bench.json", text[..text.len() / 2].to_owned()),
            ("misspelt.bench.json", text.replace("swatches", "swaches")),
            ("line.json", line),
        ] {
            let said = file::read(&damaged).expect_err(name).to_string();
            let path = path.with_file_name(name);
            fs::write(&path, &damaged).expect("a file can be written");
            take_in(page, &path).await;
            page.until_said(&said).await;
            assert_eq!(page.kept_book(1).await.as_ref(), Some(&book), "{name}");
            assert_eq!(page.kept_book(2).await, None, "{name}");
        }
    });
}

/// A parameter's key, value and spread.
type Known = (String, f64, f64);

pub(super) async fn take_in(page: &Page, path: &Path) {
    let path = path.to_str().expect("a name made here is text");
    let sent = page.control("open-book").await.send_keys(path).await;
    sent.expect("the file is chosen");
}

/// Opens the book.
pub(super) async fn open(page: &Page) {
    page.go_to("weigh").await;
    page.until_there("[data-parameter]").await;
}

/// Opens the first entry that a selector finds, unless it is open.
pub(super) async fn press_open(page: &Page, entry: &str) {
    let is_open = format!("{entry} details[open]");
    if page.matching(&is_open).await == 0 {
        page.press_at(&format!("{entry} summary")).await;
    }
    page.until_there(&is_open).await;
}

/// The demo planned with what a book teaches.
fn taught(design: &Design, book: &Workshop) -> Design {
    let estimate = Estimate::of(book);
    let learn = Edit::Learn {
        parameters: estimate.parameters(),
        learned: Some(Box::new(estimate.learned())),
        workshop: book.title().to_owned(),
    };
    edited(design.clone(), learn)
}

/// What the page says is known, once it is what the core learns from a book.
pub(super) async fn until_known(page: &Page, book: &Workshop) -> Vec<Known> {
    let estimate = Estimate::of(book);
    let close = |a: f64, b: f64| (a - b).abs() <= ROUNDING * a.abs().max(b.abs());
    until("the page knows what the book teaches", async || {
        let known: Vec<Known> = page.ask(KNOWN, vec![]).await;
        let is_it = known.len() == estimate.learnt.len()
            && known.iter().zip(&estimate.learnt).all(|(row, learnt)| {
                row.0 == learnt.parameter.setting().key()
                    && close(row.1, learnt.value)
                    && close(row.2, learnt.spread)
            });
        is_it.then_some(known)
    })
    .await
}

/// Waits until the page predicts the head with this spread, in kilograms.
async fn until_predicted(page: &Page, spread: f64) {
    page.until_state("the head is predicted so", |state| {
        (state.si("prediction") - spread).abs() <= ROUNDING * spread
    })
    .await;
}

pub(super) async fn is_disabled(page: &Page, action: &str) -> bool {
    let selector = format!("[data-action={action}]");
    page.attribute_at(&selector, "disabled").await.is_some()
}
