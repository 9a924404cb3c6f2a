//! The bench book: what is measured narrows what is believed, what cannot be is said and kept, and nothing is ever lost.

use serde_json::json;
use taperwright::book::Source;
use taperwright::book::Workshop;
use taperwright::book::estimate::Estimate;
use taperwright::book::swatch::{Swatch, SwatchField};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::plan::Plan;
use taperwright::shelf::WORKSHOP_KEY;
use taperwright::units::{Angle, Length};

use super::fields::{refuses_at, takes};
use super::harness::{on_the_page, until};
use super::page::Page;
use super::settings::edited;

/// Share by which what is learnt in the browser may differ from what is learnt here: the search for it stops once it is close,
/// and the last digits of sines, rounded differently, may make that a step earlier or later.
const ROUNDING: f64 = 1e-6;

/// What is known: value and spread of each parameter.
const KNOWN: &str = "
    return [...document.querySelectorAll('[data-parameter]')].map(({ dataset }) =>
        [dataset.parameter, Number(dataset.value), Number(dataset.spread)]);";

/// The fields of the swatch with something to complain of: what is said at each.
const COMPLAINTS: &str = r#"
    const alerts = [...document.querySelectorAll('.swatches .measure [role="alert"]')];
    return alerts.map((alert) => [alert.closest('.measure').querySelector('input').dataset.action, alert.innerText]);"#;

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
fn a_number_that_cannot_be_is_complained_of_kept_and_not_learnt_from() {
    on_the_page(async |page| {
        open(page).await;
        let sound = measured(page).await;
        for (field, typed) in [
            // Less than the yarn in it.
            (SwatchField::Mass, 0.05),
            // Thinner than its yarn pressed solid.
            (SwatchField::Diameter, 0.3),
            // Far from what lay and diameter make.
            (SwatchField::Angle, 70.0),
        ] {
            let right = sound.swatches[0].get(field).expect("it was measured");
            page.enter(action(field), &typed.to_string()).await;
            let book = until_written(page, field, Some(typed)).await;
            complains_of(page, &book, field).await;
            page.reload().await;
            open(page).await;
            press_open(page, ".swatches .entry-row").await;
            complains_of(page, &book, field).await;
            assert_eq!(page.value(action(field)).await, typed.to_string());
            assert_eq!(page.kept_book(1).await.as_ref(), Some(&book));
            page.enter(action(field), &right.to_string()).await;
            until_written(page, field, Some(right)).await;
            until_known(page, &sound).await;
            assert_eq!(complaints(page).await, []);
        }
    });
}

/// How much is in doubt is read before the swatch is opened.
#[test]
fn a_swatch_in_doubt_says_so_while_it_is_closed() {
    on_the_page(async |page| {
        open(page).await;
        measured(page).await;
        page.enter("swatch-angle", "70").await;
        until_written(page, SwatchField::Angle, Some(70.0)).await;
        page.reload().await;
        open(page).await;
        let row = page.words_of(".swatches .entry-row summary").await;
        assert!(row.contains("1 thing cannot be"), "{row}");
        assert_eq!(page.matching(".swatches details[open]").await, 0);
    });
}

#[test]
fn nonsense_stays_in_its_field() {
    on_the_page(async |page| {
        open(page).await;
        page.press("new-swatch").await;
        page.until_book("the swatch is kept", |book| book.swatches.len() == 1)
            .await;
        let field = |action: &str| format!(".swatches [data-action={action}]");
        refuses_at(page, &field("swatch-length"), "long", &["long"]).await;
        refuses_at(page, &field("swatch-mass"), "3 mm", &["mm", "g"]).await;
        refuses_at(page, &field("swatch-diameter"), "1 x", &["x"]).await;
    });
}

/// An empty field is no mistake: it says that nothing was measured.
#[test]
fn a_measured_number_can_be_struck_out() {
    on_the_page(async |page| {
        open(page).await;
        measured(page).await;
        page.enter("swatch-angle", "").await;
        let book = until_written(page, SwatchField::Angle, None).await;
        until_known(page, &book).await;
        assert_eq!(page.value("swatch-angle").await, "");
        assert_eq!(complaints(page).await, []);
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
        page.until_said("planned with all this book teaches").await;
        page.press("book-close").await;
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
        page.press("book-close").await;
        page.unfold("crimp_percent").await;
        page.enter("crimp_percent", "2.6").await;
        let own = edited(taught, Edit::Set(Setting::Crimp, 2.6));
        assert_eq!(own.draft().learned, None);
        takes(page, &own).await;
        page.until_said("by the settings alone").await;
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

/// Whoever finds a text that is no book must be told, must not lose it, and can go on.
#[test]
fn a_kept_text_that_cannot_be_read_is_never_written_over() {
    on_the_page(async |page| {
        let (key, text) = (format!("{WORKSHOP_KEY}1"), "half a book");
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
        page.until_said("stays as it is").await;
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
fn other_units_are_shown_and_taken() {
    on_the_page(async |page| {
        page.press("imperial").await;
        open(page).await;
        page.press("new-swatch").await;
        for (field, typed, kept, unit) in [
            (SwatchField::Length, "2", 2.0 * 0.3048, "ft"),
            (SwatchField::CrossingsOver, "6 in", 0.5 * 0.3048, "ft"),
            (SwatchField::Diameter, "42", 42.0 * 0.0254, "thou"),
            (SwatchField::Mass, "0.4", 0.4, "g"),
        ] {
            page.enter(action(field), typed).await;
            until_written(page, field, Some(kept)).await;
            let selector = format!(".field:has([data-action={}]) .unit", action(field));
            assert_eq!(page.words_of(&selector).await, unit, "{}", field.name());
        }
        assert_eq!(page.value("swatch-length").await, "2");
        assert_eq!(page.value("swatch-crossings-over").await, "0.5");
        assert_eq!(page.value("swatch-diameter").await, "42");
        // The same numbers in the other units; nothing of them is lost on the way.
        let book = page.kept_book(1).await;
        page.press("book-close").await;
        page.press("metric").await;
        open(page).await;
        press_open(page, ".swatches .entry-row").await;
        assert_eq!(page.value("swatch-length").await, "0.6096");
        assert_eq!(page.value("swatch-diameter").await, "1.0668");
        assert_eq!(page.kept_book(1).await, book);
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
fn an_empty_field_for_a_name_takes_one_and_keeps_it() {
    on_the_page(async |page| {
        open(page).await;
        page.press("new-swatch").await;
        page.enter("swatch-name", "22 teeth, damp day").await;
        page.enter("swatch-notes", "counted twice").await;
        page.enter("workshop-notes", "guide of 8 mm").await;
        let book = page
            .until_book("the words are kept", |book| !book.notes.is_empty())
            .await;
        assert_eq!(book.notes, "guide of 8 mm");
        assert_eq!(book.swatches[0].name, "22 teeth, damp day");
        assert_eq!(book.swatches[0].notes, "counted twice");
        page.reload().await;
        open(page).await;
        let row = page.words_of(".swatches .entry-row summary").await;
        assert!(row.contains("22 teeth, damp day"), "{row}");
    });
}

/// A parameter's key, value and spread.
type Known = (String, f64, f64);

/// Opens the book.
pub(super) async fn open(page: &Page) {
    page.press("book").await;
    page.until_there(".book-desk.shown [data-parameter]").await;
}

/// Opens the first entry that a selector finds.
pub(super) async fn press_open(page: &Page, entry: &str) {
    page.press_at(&format!("{entry} summary")).await;
    page.until_there(&format!("{entry} details[open]")).await;
}

/// Writes down a swatch of the demo's belly as a machine would make it whose constant is a fiftieth larger than believed.
pub(super) async fn measured(page: &Page) -> Workshop {
    page.press("new-swatch").await;
    let book = page
        .until_book("the swatch is kept", |book| book.swatches.len() == 1)
        .await;
    let swatch = as_made(&book.swatches[0]);
    for field in SwatchField::ALL {
        if let Some(value) = swatch
            .get(field)
            .filter(|_| !SwatchField::SETUP.contains(&field))
        {
            page.enter(action(field), &value.to_string()).await;
        }
    }
    let book = page
        .until_book("all of it is kept", |book| book.swatches[0] == swatch)
        .await;
    assert_eq!(book.complaints_of_swatch(&swatch), []);
    book
}

fn as_made(new: &Swatch) -> Swatch {
    let plan = Plan::of(&demo());
    let piece = plan.belly.piece;
    let wheels = [piece.wheels.driver, piece.wheels.driven].map(f64::from);
    assert_eq!([new.driver, new.driven], wheels.map(Some));
    assert_eq!(new.threads, Some(f64::from(piece.load.threads)));
    let constant = Length::from_millimetres(demo().setting(Setting::MachineConstant) * 1.02);
    let lay = constant * (wheels[0] / wheels[1]);
    let braid = demo().braiding().at_lay(piece.load.threads, lay);
    let rounded = |value: f64, digits: i32| {
        let factor = 10_f64.powi(digits);
        (value * factor).round() / factor
    };
    Swatch {
        length_m: Some(0.3),
        circuits: Some(rounded(0.3 / lay.metres(), 1)),
        mass_g: Some(rounded(0.3 * braid.linear_density.grams_per_metre(), 3)),
        diameter_mm: Some(rounded(braid.diameter.millimetres(), 2)),
        angle_deg: Some(rounded(Angle::degrees(braid.angle), 0)),
        ..new.clone()
    }
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

const fn action(field: SwatchField) -> &'static str {
    match field {
        SwatchField::Threads => "swatch-threads",
        SwatchField::Ends => "swatch-ends",
        SwatchField::Driver => "swatch-driver",
        SwatchField::Driven => "swatch-driven",
        SwatchField::Length => "swatch-length",
        SwatchField::Circuits => "swatch-circuits",
        SwatchField::Crossings => "swatch-crossings",
        SwatchField::CrossingsOver => "swatch-crossings-over",
        SwatchField::Mass => "swatch-mass",
        SwatchField::Diameter => "swatch-diameter",
        SwatchField::Angle => "swatch-angle",
    }
}

/// The book, once a number of its first swatch is kept, with the twelve digits of a book.
async fn until_written(page: &Page, field: SwatchField, value: Option<f64>) -> Workshop {
    let mut wanted = Swatch::default();
    wanted.set(field, value);
    page.until_book(&format!("{} is kept", field.name()), |book| {
        let swatch = book.swatches.first();
        swatch.is_some_and(|swatch| swatch.get(field) == wanted.get(field))
    })
    .await
}

/// What the page says is known, once it is what the core learns from a book.
async fn until_known(page: &Page, book: &Workshop) -> Vec<Known> {
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

async fn complaints(page: &Page) -> Vec<(String, String)> {
    page.ask(COMPLAINTS, vec![]).await
}

/// The page complains of just this number of the book's swatch, in the core's words, and learns as if it were not there.
async fn complains_of(page: &Page, book: &Workshop, field: SwatchField) {
    let swatch = &book.swatches[0];
    let found = book.complaints_of_swatch(swatch);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].fields, [field]);
    let said = vec![(action(field).to_owned(), found[0].why.to_string())];
    until("the complaint stands at its field", async || {
        (complaints(page).await == said).then_some(())
    })
    .await;
    let mut without = book.clone();
    without.swatches[0].set(field, None);
    until_known(page, &without).await;
    let estimate = Estimate::of(book);
    let sources = estimate.residuals.iter().map(|residual| residual.source);
    assert!(!sources.into_iter().any(|it| it == Source::Swatch(0, field)));
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
