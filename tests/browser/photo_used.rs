//! What was measured from a photo is corrected by hand, gets a scale, and is written down where the sheet was opened from, with its
//! own errors.

use fantoccini::key::Key;
use taperwright::design::demo::demo;
use taperwright::keep::book::swatch::SwatchField;
use taperwright::plan::Plan;
use taperwright::plan::run::CheckKind;

use super::at_machine::{begin, run_of, until_done};
use super::book::{self, press_open};
use super::gesture::{Hand, Pointer, escape, strike};
use super::harness::{on_the_page, until};
use super::page::{Page, Spot};
use super::photo::{MEASURED, SET_RULE, braid_of, choose, measured, number};

/// The first edge as it is drawn.
const EDGE: &str = "return document.querySelector('[data-photo-edge=\"0\"]').getAttribute('d');";
const HANDLE: &str = "[data-photo-handle=edge-1-from]";
/// The circle of the handle that takes hold: its middle, and its radius.
const CIRCLE: &str = "
    const target = document.querySelector('[data-photo-handle=edge-1-from] .target');
    target.scrollIntoView({ block: 'center' });
    const { left, top, width, height } = target.getBoundingClientRect();
    return [[left + width / 2, top + height / 2], Math.min(width, height)];";
const FIND_AGAIN: &str = "[data-action=photo-find-edges]";

async fn edge(page: &Page) -> String {
    page.ask(EDGE, vec![]).await
}

async fn handle(page: &Page) -> Spot {
    let (at, size): (Spot, f64) = page.ask(CIRCLE, vec![]).await;
    assert!(size >= 48.0, "{size} pixels are too few for a finger");
    at
}

/// Waits until the edges are those that were found.
async fn until_found_again(page: &Page, found: &str) {
    page.press_at(FIND_AGAIN).await;
    page.until_gone(FIND_AGAIN).await;
    until("the edges are as found", async || {
        (edge(page).await == found).then_some(())
    })
    .await;
    page.until_there("[data-photo-verdict]").await;
}

#[test]
fn an_edge_is_dragged_by_mouse_and_finger() {
    on_the_page(async |page| {
        measured(page).await;
        let found = edge(page).await;
        assert_eq!(page.matching(FIND_AGAIN).await, 0);
        for pointer in [Pointer::Mouse, Pointer::Finger] {
            let mut hand = Hand::press(page, pointer, handle(page).await);
            hand.glide((6.0, -14.0));
            until("it follows the hand", async || {
                (edge(page).await != found).then_some(())
            })
            .await;
            hand.let_go();
            // With these edges the picture is read again.
            page.until_there(FIND_AGAIN).await;
            page.until_there("[data-photo-verdict]").await;
            until_found_again(page, &found).await;
        }
        let scrolled: f64 = page.ask("return scrollY;", vec![]).await;
        assert!(scrolled.abs() < 1.0, "the page scrolled by {scrolled}");
    });
}

#[test]
fn a_drag_that_is_aborted_changes_nothing() {
    on_the_page(async |page| {
        measured(page).await;
        let found = edge(page).await;
        let mut hand = Hand::press(page, Pointer::Mouse, handle(page).await);
        hand.glide((0.0, -20.0));
        assert_ne!(edge(page).await, found);
        escape(page).await;
        assert_eq!(edge(page).await, found);
        page.until_there(&format!(".over.shown {MEASURED}")).await;
        hand.let_go();
        let mut hand = Hand::press(page, Pointer::Finger, handle(page).await);
        hand.glide((0.0, -20.0));
        hand.taken_away();
        until("all is as before", async || {
            (edge(page).await == found).then_some(())
        })
        .await;
        let mut hand = Hand::press(page, Pointer::Finger, handle(page).await);
        hand.glide((0.0, -20.0));
        hand.add_finger((30.0, 30.0));
        until("a second finger aborts", async || {
            (edge(page).await == found).then_some(())
        })
        .await;
        hand.let_go();
        assert_eq!(page.matching(FIND_AGAIN).await, 0);
    });
}

#[test]
fn an_edge_is_moved_by_keys_and_by_buttons() {
    on_the_page(async |page| {
        measured(page).await;
        let found = edge(page).await;
        let focus = format!("document.querySelector('{HANDLE}').focus();");
        page.run(&focus, vec![]).await;
        strike(page, Key::Down).await;
        // What is measured with it is shown then: nearly the same edge.
        page.until_there(FIND_AGAIN).await;
        page.until_focused(HANDLE).await;
        strike(page, Key::Up).await;
        page.until_there("[data-photo-verdict]").await;
        until_found_again(page, &found).await;
        // A tap chooses a handle, buttons move it.
        Hand::press(page, Pointer::Finger, handle(page).await).let_go();
        page.until_there(&format!("{HANDLE}[aria-pressed=true]"))
            .await;
        assert_eq!(edge(page).await, found);
        page.press("photo-move").await;
        page.until_there(FIND_AGAIN).await;
        until_found_again(page, &found).await;
    });
}

#[test]
fn a_rule_in_the_picture_gives_the_scale() {
    on_the_page(async |page| {
        measured(page).await;
        let planned = Plan::of(&demo()).belly.braid.diameter.millimetres();
        let shown: f64 = page
            .value("photo-diameter")
            .await
            .parse()
            .expect("a number");
        assert!((shown - planned).abs() < 1e-3, "{shown} {planned}");
        let known = page.words_of("[data-photo-known]").await;
        assert!(known.contains("plan"), "{known}");
        let (planned, wide) = number(page, "crossings").await.expect("crossings");
        // Half the diameter: twice as many crossings, and the micrometer knows it better.
        page.enter("photo-diameter", &format!("{}", 0.5 * shown))
            .await;
        let (typed, narrow) = until("there are other crossings", async || {
            number(page, "crossings")
                .await
                .filter(|it| it.0 > 1.5 * planned)
        })
        .await;
        assert!((typed / planned - 2.0).abs() < 0.01, "{typed} {planned}");
        assert!(narrow / typed < wide / planned, "{narrow} {wide}");
        // What is no diameter is said and stays.
        page.enter("photo-diameter", "900").await;
        let said = page.said_beside("photo-diameter").await;
        assert!(said.is_some_and(|said| said.contains("from")));
        page.enter("photo-diameter", "").await;
        until("without a scale there are none", async || {
            number(page, "crossings").await.is_none().then_some(())
        })
        .await;
        page.press("photo-rule").await;
        page.until_there("[data-photo-handle=rule-to]").await;
        // Where the line lies at first it is on no rule.
        assert_eq!(number(page, "diameter").await, None);
        page.run(SET_RULE, vec![]).await;
        let (ten, _) = until("the diameter is shown", async || {
            number(page, "diameter").await
        })
        .await;
        page.enter("photo-rule-length", "20").await;
        let (twenty, _) = until("the diameter follows", async || {
            number(page, "diameter").await.filter(|it| it.0 > 1.5 * ten)
        })
        .await;
        assert!((twenty / ten - 2.0).abs() < 1e-6, "{twenty} {ten}");
        // A longer line on the same marks: more pixels in a millimetre, a thinner line.
        let focus = "document.querySelector('[data-photo-handle=rule-to]').focus();";
        page.run(focus, vec![]).await;
        strike(page, Key::Right).await;
        until("the diameter follows the line", async || {
            number(page, "diameter").await.filter(|it| it.0 < twenty)
        })
        .await;
        page.press("photo-by-diameter").await;
        until("the rule is gone", async || {
            number(page, "diameter").await.is_none().then_some(())
        })
        .await;
    });
}

/// Opens the first swatch of the book and the sheet for it, and measures.
async fn measured_for_swatch(page: &Page) {
    press_open(page, ".swatches .entry-row").await;
    page.press_at(".swatches [data-action=photo-sheet]").await;
    page.until_there(".over.shown [data-photo-for=swatch]")
        .await;
    let threads = Plan::of(&demo()).belly.piece.load.threads;
    choose(page, &braid_of(page, threads)).await;
    page.until_there(MEASURED).await;
    // A planned diameter is no scale to write crossings by.
    page.enter("photo-diameter", "1.02").await;
    page.until_there("[data-photo=crossings]").await;
}

#[test]
fn a_swatch_takes_the_numbers_and_a_picture_only_where_that_is_wanted() {
    on_the_page(async |page| {
        book::open(page).await;
        page.press("new-swatch").await;
        page.until_book("the swatch is kept", |book| book.swatches.len() == 1)
            .await;
        page.reload().await;
        book::open(page).await;
        measured_for_swatch(page).await;
        let said = page.words_of(MEASURED).await;
        assert!(said.contains("for the belly"), "{said}");
        let (angle, _) = number(page, "angle").await.expect("an angle");
        page.press("photo-use").await;
        page.until_gone(".over.shown").await;
        page.until_said("Swatch 1 has angle and crossings from the photo now.")
            .await;
        page.until_focused(".swatches [data-action=photo-sheet]")
            .await;
        let written = page
            .until_book("the numbers are kept", |book| {
                book.swatches[0].angle_deg.is_some()
            })
            .await;
        let swatch = &written.swatches[0];
        let kept = swatch.angle_deg.unwrap_or_default();
        assert!((kept - angle.to_degrees()).abs() < 0.01, "{kept} {angle}");
        assert!(swatch.own_error(SwatchField::Angle).is_some());
        assert!(swatch.own_error(SwatchField::Crossings).is_some());
        assert_eq!(swatch.picture, None);
        // Another time with its picture.
        page.reload().await;
        book::open(page).await;
        measured_for_swatch(page).await;
        page.press("photo-keep").await;
        page.press("photo-use").await;
        let book = page
            .until_book("the picture is kept", |book| {
                book.swatches[0].picture.is_some()
            })
            .await;
        assert_eq!(book.swatches.len(), 1);
    });
}

#[test]
fn a_photo_of_another_braid_is_written_as_a_swatch_of_its_own_threads() {
    on_the_page(async |page| {
        measured(page).await;
        page.press("photo-use").await;
        page.until_gone(".over.shown").await;
        page.until_said("Swatch 1 is in the bench book").await;
        let book = page
            .until_book("the swatch is kept", |book| book.swatches.len() == 1)
            .await;
        let swatch = &book.swatches[0];
        // The picture shows sixteen, the belly has fewer: it is not that, so nothing else of it is taken over.
        assert_eq!(swatch.threads, Some(16.0));
        assert_eq!(swatch.driver, None);
        assert!(swatch.own_error(SwatchField::Angle).is_some());
        assert_eq!(swatch.crossings, None);
    });
}

#[test]
fn a_check_takes_the_numbers_with_their_own_errors() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.unfold("check-angle").await;
        page.press_at(".stand [data-action=photo-sheet]").await;
        page.until_there(".over.shown [data-photo-for=check]").await;
        let threads = Plan::of(&demo()).events[0].threads();
        choose(page, &braid_of(page, threads)).await;
        page.until_there(MEASURED).await;
        let said = page.words_of(MEASURED).await;
        assert!(said.contains("Your plan says") && said.contains("here"));
        let planned: f64 = page
            .value("photo-diameter")
            .await
            .parse()
            .expect("a number");
        page.enter("photo-diameter", &format!("{:.3}", 1.02 * planned))
            .await;
        page.until_there("[data-photo=crossings]").await;
        let (angle, spread) = number(page, "angle").await.expect("an angle");
        assert_eq!(page.count("photo-keep").await, 0);
        page.press("photo-use").await;
        page.until_gone(".over.shown").await;
        let book = page
            .until_book("the checks are kept", |book| {
                run_of(book).is_some_and(|run| run.checks.len() == 2)
            })
            .await;
        let checks = &run_of(&book).expect("a run").checks;
        let check = checks.iter().find(|check| check.kind == CheckKind::Angle);
        let check = check.expect("an angle");
        assert!((check.value - angle.to_degrees()).abs() < 0.01, "{check:?}");
        let error = check.error.expect("its own error");
        assert!((error / spread.to_degrees() - 1.0).abs() < 0.1, "{error}");
        page.until_there(".check-verdict[data-level]").await;
        page.until_focused(".stand [data-action=photo-sheet]").await;
    });
}
