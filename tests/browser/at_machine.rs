//! A line is braided step by step: every tick is kept, and what goes wrong is laid out again before it is taken.

use serde_json::json;
use taperwright::base::units::{Length, show};
use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::plan::run::{MishapKind, Now, Run};
use taperwright::plan::{Action, Event, Plan};

use super::harness::on_the_page;
use super::page::Page;

/// The step shown, what it says, and how far to run.
const SHOWN: &str = "
    const index = document.querySelector('[data-step-index]')?.dataset.stepIndex;
    const run = document.querySelector('.stand [data-run]')?.dataset.run;
    return [index ?? '', document.querySelector('.stand .operation')?.innerText ?? '', run ?? ''];";

pub(super) fn run_of(book: &Workshop) -> Option<&Run> {
    book.records.last()?.run.as_ref()
}

/// Begins the line on the page; returns the design it is braided by.
pub(super) async fn begin(page: &Page) -> Design {
    page.go_to("braid").await;
    page.press("run-begin").await;
    let book = page
        .until_book("the run is kept", |book| {
            run_of(book) == Some(&Run::default())
        })
        .await;
    let record = book.records.last().expect("a line is being made");
    record.design.design().expect("it can be read").clone()
}

/// Waits until the page shows what the core says of a run.
async fn shows(page: &Page, design: &Design, run: &Run) {
    let plan = Plan::of(design);
    let adjusted = run.adjusted(design, &plan);
    let now = Now::of(run, &adjusted, &plan);
    let run = if now.event().is_some() {
        now.remaining.metres()
    } else {
        0.0
    };
    super::harness::until("the step is shown", async || {
        let shown: [String; 3] = page.ask(SHOWN, vec![]).await;
        // The browser's sines may differ from ours in the last digit.
        let told = shown[2].parse().unwrap_or(0.0);
        let is_shown = shown[0] == now.index.to_string() && f64::abs(told - run) < 1e-9;
        is_shown.then_some(())
    })
    .await;
    let shown: [String; 3] = page.ask(SHOWN, vec![]).await;
    let Some(event) = now.event() else {
        assert!(shown[1].contains("All steps are done"), "{}", shown[1]);
        return;
    };
    let told = page.words_of(".stand .do").await;
    for event in &now.step {
        let words = words_of(event);
        assert!(told.contains(&words), "“{told}” lacks “{words}”");
    }
    // The start is one of several things to do first.
    if !matches!(event.action, Action::Start(_)) {
        let words = words_of(event);
        assert!(shown[1].contains(&words), "“{}” lacks “{words}”", shown[1]);
    }
}

/// Words that name what an event does.
fn words_of(event: &Event) -> String {
    match &event.action {
        Action::Add { carrier, .. }
        | Action::Drop { carrier, .. }
        | Action::Swap { carrier, .. } => {
            format!("clockwise {}", carrier.number + 1)
        }
        Action::Gear { to, .. } => format!("fit {to}"),
        Action::Start(set) => format!("Thread {} carriers", set.len()),
        Action::End(_) => "long enough".to_owned(),
    }
}

/// Ticks the step after so many that are done. A tap soon after another is taken for the same one, so taps go on until it counts.
pub(super) async fn tick(page: &Page, done: usize) {
    super::harness::until("the step is ticked", async || {
        let next = format!("[data-step-index='{}']", done + 1);
        let script = "document.querySelector('[data-action=run-done]').click();";
        if page.matching(&next).await == 0 {
            page.run(script, vec![]).await;
        }
        (page.matching(&next).await > 0).then_some(())
    })
    .await;
}

pub(super) async fn until_done(page: &Page, done: usize) -> Run {
    let book = page
        .until_book("the tick is kept", |book| {
            run_of(book).is_some_and(|run| run.done == done)
        })
        .await;
    run_of(&book).expect("a run").clone()
}

/// The whole of the example, with a reload after every tick: nothing is asked twice, nothing is left out.
#[test]
fn a_whole_line_is_braided_with_a_reload_after_every_step() {
    on_the_page(async |page| {
        let design = begin(page).await;
        let adjusted = Plan::of(&design).unadjusted();
        let mut run = Run::default();
        loop {
            shows(page, &design, &until_done(page, run.done).await).await;
            if run.next(&adjusted).is_none() {
                break;
            }
            page.press("run-done").await;
            run = run.tick(&adjusted);
            assert_eq!(until_done(page, run.done).await, run);
            page.reload().await;
            // A line that is being braided says so in every other place.
            page.go_to("draw").await;
            let (done, all) = run.steps_of(&adjusted);
            if done < all {
                let words = page.words_of("[data-action=continue]").await;
                assert_eq!(words, format!("Continue, step {} of {all}", done + 1));
                page.press("continue").await;
            } else {
                assert_eq!(page.count("continue").await, 0);
                page.go_to("braid").await;
            }
        }
        page.press("run-back").await;
        let back = run.back(&adjusted);
        shows(page, &design, &until_done(page, back.done).await).await;
    });
}

#[test]
fn what_goes_otherwise_is_shown_before_it_is_taken() {
    on_the_page(async |page| {
        let design = begin(page).await;
        page.press("run-done").await;
        let run = until_done(page, 1).await;
        let plan = Plan::of(&design);
        let adjusted = run.adjusted(&design, &plan);
        let at = adjusted.events[1].at + Length::from_metres(0.25);
        let wished = run
            .standing_at(&adjusted, MishapKind::Skipped, at)
            .expect("a place on the line");
        let after = wished.adjusted(&design, &plan);
        page.unfold("mishaps").await;
        page.enter("mishap-skipped", &at.metres().to_string()).await;
        page.until_there(".proposal").await;
        let head = after.head_mass.expect("a head");
        let told = page.words_of(".proposal").await;
        assert!(told.contains(&show::grains(head)), "{told}");
        // Left, nothing has changed.
        page.press("mishap-leave").await;
        page.until_gone(".proposal").await;
        assert_eq!(
            run_of(&page.kept_book(1).await.expect("a book")),
            Some(&run)
        );
        page.enter("mishap-skipped", &at.metres().to_string()).await;
        page.press("mishap-take").await;
        let book = page
            .until_book("the mishap is kept", |book| {
                run_of(book).is_some_and(|run| !run.mishaps.is_empty())
            })
            .await;
        let taken = run_of(&book).expect("a run");
        assert_eq!(taken, &wished);
        shows(page, &design, taken).await;
        page.reload().await;
        page.go_to("braid").await;
        shows(page, &design, taken).await;
        page.until_said("step missed").await;
        // One step back takes the mishap back.
        page.press("run-back").await;
        shows(page, &design, &run).await;
    });
}

#[test]
fn places_that_cannot_be_are_said_beside_their_field() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        let run = until_done(page, 1).await;
        page.unfold("mishaps").await;
        for (action, text, words) in [
            ("mishap-at", "400", "The line ends"),
            ("mishap-at", "far", "not a number"),
            ("mishap-late", "3", "No step is done yet"),
        ] {
            page.enter(action, text).await;
            let said = page.said_beside(action).await.unwrap_or_default();
            assert!(said.contains(words), "{action} {text}: {said}");
            assert_eq!(page.value(action).await, text);
        }
        assert_eq!(
            run_of(&page.kept_book(1).await.expect("a book")),
            Some(&run)
        );
    });
}

#[test]
fn circuits_are_counted_by_tap_and_kept() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        for _ in 0..3 {
            page.press("circuit").await;
        }
        page.press("circuit-less").await;
        let counted = |book: &Workshop| run_of(book).is_some_and(|run| run.circuits == 2);
        page.until_book("two circuits are kept", counted).await;
        page.reload().await;
        page.go_to("braid").await;
        assert_eq!(page.value("circuits-read").await, "2");
        page.press("run-done").await;
        assert_eq!(until_done(page, 3).await.circuits, 0);
        // Taken back, also after the overlay was closed, the count is there again.
        page.go_to("draw").await;
        page.go_to("braid").await;
        page.press("run-back").await;
        page.until_book("two circuits are counted again", |book| {
            run_of(book).is_some_and(|run| (run.done, run.circuits) == (1, 2))
        })
        .await;
    });
}

/// A maker who measures 40 cm after the point where the threads meet sees own marks, at the next visit too.
#[test]
fn lengths_are_told_at_the_makers_own_mark() {
    on_the_page(async |page| {
        let design = begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.run(
            "document.querySelector('[data-action=rollers]').closest('details').open = true",
            vec![],
        )
        .await;
        page.enter("rollers", "10 cm").await;
        let at = Plan::of(&design).events[1].at;
        let mark = show::Units::Metric.show_position(at - Length::from_metres(0.1));
        page.until_said(&mark).await;
        page.reload().await;
        page.go_to("braid").await;
        page.until_said(&mark).await;
    });
}

/// The screen is asked to stay awake, again when the page comes back, and a refusal is said. The browser's own way is put in the
/// place of its answer.
#[test]
fn the_screen_is_kept_awake_or_it_is_said() {
    const COUNTING: &str = "
        window.asked = 0;
        const request = () => { window.asked += 1; return Promise.resolve({ release() { window.let_go = true; } }); };
        Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: { request } });";
    const REFUSING: &str = "
        const request = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
        Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: { request } });";
    on_the_page(async |page| {
        page.run(COUNTING, vec![]).await;
        begin(page).await;
        let asked = async || page.ask::<u32>("return window.asked", vec![]).await;
        assert_eq!(asked().await, 1);
        page.run(
            "document.dispatchEvent(new Event('visibilitychange', { bubbles: true }))",
            vec![],
        )
        .await;
        super::harness::until("it is asked again", async || {
            (asked().await == 2).then_some(())
        })
        .await;
        page.go_to("draw").await;
        let gone: bool = page
            .ask("return window.let_go === true", vec![json!(null)])
            .await;
        assert!(gone, "the screen is never let go");
        page.run(REFUSING, vec![]).await;
        page.go_to("braid").await;
        page.until_said("did not keep the screen on").await;
    });
}

/// Types into a field without pressing Enter.
async fn type_into(page: &Page, action: &str, text: &str) {
    let field = page.control(action).await;
    field.send_keys(text).await.expect("a field takes keys");
}

/// Presses Done as a tablet does that leaves the focus in the field.
const DONE_ALONE: &str = "document.querySelector('[data-action=run-done]').click();";

/// What is typed and not yet used is asked about before a step is ticked, however Done is pressed.
#[test]
fn a_mishap_typed_before_done_is_asked_about() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        tick(page, 1).await;
        let run = until_done(page, 3).await;
        page.unfold("mishaps").await;
        for is_finger in [false, true] {
            type_into(page, "mishap-late", "20").await;
            if is_finger {
                page.run(DONE_ALONE, vec![]).await;
            } else {
                page.press("run-done").await;
            }
            page.until_focused(".proposal").await;
            // Pressed again, and elsewhere: it still asks.
            for action in ["run-done", "run-back", "circuit"] {
                page.press(action).await;
            }
            page.press_at("[data-action=place][data-place=dress]").await;
            page.until_focused(".proposal").await;
            let kept = page.kept_book(1).await.expect("a book");
            assert_eq!(run_of(&kept), Some(&run));
            if !is_finger {
                page.press("mishap-leave").await;
                page.until_gone(".proposal").await;
            }
        }
        page.press("mishap-take").await;
        let book = page
            .until_book("the mishap is kept", |book| {
                run_of(book).is_some_and(|run| !run.mishaps.is_empty())
            })
            .await;
        let taken = run_of(&book).expect("a run");
        assert_eq!(taken.done, 3);
        assert!((taken.mishaps[0].late_m - 0.2).abs() < 1e-9);
        tick(page, 2).await;
    });
}

/// What cannot be understood keeps the step from being ticked, also where its field is folded away.
#[test]
fn a_mishap_refused_keeps_done_from_acting_until_it_is_mended() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        let run = until_done(page, 1).await;
        page.unfold("mishaps").await;
        type_into(page, "mishap-at", "far").await;
        page.press_at("summary[data-action=mishaps]").await;
        page.press("run-done").await;
        page.until_focused("[data-action=mishap-at]").await;
        assert_eq!(page.value("mishap-at").await, "far");
        let kept = page.kept_book(1).await.expect("a book");
        assert_eq!(run_of(&kept), Some(&run));
        page.enter("mishap-at", "").await;
        tick(page, 1).await;
    });
}
