//! Swatches in the bench book: numbers as they were measured, and what cannot be is said at its field, kept, and not learnt
//! from.

use taperwright::base::units::Length;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::keep::book::estimate::Estimate;
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{Source, Workshop};
use taperwright::plan::Plan;

use super::book::{open, press_open, until_known};
use super::fields::refuses_at;
use super::harness::{on_the_page, until};
use super::page::Page;

/// The fields of the swatch with something to complain of: what is said at each.
const COMPLAINTS: &str = r#"
    const alerts = [...document.querySelectorAll('.swatches .measure [role="alert"]')];
    return alerts.map((alert) => [alert.closest('.measure').querySelector('input').dataset.action, alert.textContent]);"#;

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

/// What can be and is far from all that is expected is asked about beside its field. Until it is answered nothing is learnt from
/// it, and the line cannot be planned with what the book teaches.
#[test]
fn a_number_far_from_the_plan_waits_for_an_answer() {
    on_the_page(async |page| {
        open(page).await;
        let sound = measured(page).await;
        page.until_there("[data-action=learn]").await;
        // Lay and diameter alone: angle and weight would be asked about in their turn, since they do not go with it.
        for field in [SwatchField::Angle, SwatchField::Mass] {
            page.enter(action(field), "").await;
            until_written(page, field, None).await;
        }
        let right = sound.swatches[0].diameter_mm.expect("it was measured");
        page.enter("swatch-diameter", &(1.3 * right).to_string())
            .await;
        let book = until_written(page, SwatchField::Diameter, Some(1.3 * right)).await;
        page.until_there(".swatches .question").await;
        assert_eq!(complaints(page).await, [], "it can be");
        let question = page.words_of(".swatches .question").await;
        for words in ["far from the", "measure again", "Nothing is learnt from it"] {
            assert!(question.contains(words), "{question} lacks {words}");
        }
        let mut without = book.clone();
        without.swatches[0].diameter_mm = None;
        until_known(page, &without).await;
        page.until_gone("[data-action=learn]").await;
        let why = page.words_of("[data-waiting]").await;
        assert!(why.contains("Swatch 1, diameter"), "{why}");
        page.press("confirm-value").await;
        let confirmed = page
            .until_book("it is confirmed", |book| {
                book.swatches[0].confirmed == [SwatchField::Diameter]
            })
            .await;
        until_known(page, &confirmed).await;
        page.until_gone(".swatches .question").await;
        page.reload().await;
        open(page).await;
        until_known(page, &confirmed).await;
        // Another value is asked about again.
        press_open(page, ".swatches .entry-row").await;
        page.enter("swatch-diameter", &(1.25 * right).to_string())
            .await;
        page.until_there(".swatches .question").await;
        let book = page.kept_book(1).await.expect("the book is kept");
        assert_eq!(book.swatches[0].confirmed, []);
    });
}

/// A comma in the wrong place is named, and one press puts it right.
#[test]
fn a_likely_slip_is_offered() {
    on_the_page(async |page| {
        open(page).await;
        let sound = measured(page).await;
        let right = sound.swatches[0].mass_g.expect("it was measured");
        page.enter("swatch-mass", &(10.0 * right).to_string()).await;
        page.until_there("[data-action=take-suggestion]").await;
        let question = page.words_of(".swatches .question").await;
        assert!(
            question.contains("ten times what is expected"),
            "{question}"
        );
        let meant = format!("Did you mean {right}");
        assert!(question.contains(&meant), "{question} lacks {meant}");
        page.press("take-suggestion").await;
        page.until_book("the comma is right", |book| *book == sound)
            .await;
        until_known(page, &sound).await;
        page.until_gone(".swatches .question").await;
    });
}

/// A gear that is not owned is complained of; once the settings have it, the book takes the machine over.
#[test]
fn a_gear_that_is_not_owned_is_complained_of_until_it_is() {
    on_the_page(async |page| {
        open(page).await;
        measured(page).await;
        page.enter("swatch-driver", "41").await;
        until_written(page, SwatchField::Driver, Some(41.0)).await;
        until("the complaint stands at the gear", async || {
            let found = complaints(page).await;
            let first = found.first()?;
            (first.0 == "swatch-driver" && first.1.contains("add it under Settings")).then_some(())
        })
        .await;
        assert_eq!(page.matching("[data-action=take-machine]").await, 0);
        page.go_to("draw").await;
        page.enter("gears", "16-34, 41").await;
        until("the gear is owned", async || {
            let kept = page.kept().await?;
            kept.draft().gears.contains(&41.0).then_some(())
        })
        .await;
        open(page).await;
        press_open(page, ".swatches .entry-row").await;
        page.press("take-machine").await;
        page.until_book("the book has the gear", |book| {
            book.base.draft().gears.contains(&41.0)
        })
        .await;
        until("nothing is said of the gear", async || {
            let found = complaints(page).await;
            found.iter().all(|it| it.0 != "swatch-driver").then_some(())
        })
        .await;
        page.until_gone("[data-action=take-machine]").await;
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
        assert!(row.contains("1 number is impossible"), "{row}");
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
        page.go_to("draw").await;
        page.press("metric").await;
        open(page).await;
        press_open(page, ".swatches .entry-row").await;
        assert_eq!(page.value("swatch-length").await, "0.6096");
        assert_eq!(page.value("swatch-diameter").await, "1.0668");
        assert_eq!(page.kept_book(1).await, book);
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
        angle_deg: Some(rounded(braid.angle.degrees(), 0)),
        ..new.clone()
    }
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
        SwatchField::ThreadLength => "swatch-thread-length",
        SwatchField::ThreadMass => "swatch-thread-mass",
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
