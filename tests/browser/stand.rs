//! The sheet at the machine does what a maker with oily hands needs: large words, one tap one tick, nothing swallowed, and what
//! went wrong said where it is seen.

use serde_json::json;
use taperwright::design::Design;
use taperwright::plan::run::{Now, Run};
use taperwright::plan::{Action, Plan};

use super::at_machine::{begin, run_of, tick, until_done};
use super::cdp::Size;
use super::harness::{on_the_page, until};
use super::page::Page;
use super::views::SIZES as HELD;

/// Unfolds all that can be.
const UNFOLD: &str =
    "document.querySelectorAll('.stand details').forEach((fold) => { fold.open = true; });";

/// Sides of what is to be tapped, the size of the letters as they are seen, in CSS pixels, and by how much the page is wider
/// than the window. A letter in a drawing is as large as its own size times the scale of the drawing.
const SIZES: &str = "
    const desk = document.querySelector('[data-shows=braid]');
    const seen = (element) => element.checkVisibility();
    const sides = [...desk.querySelectorAll('button, summary, input')].filter(seen).map((target) => {
        const box = target.getBoundingClientRect();
        return [target.innerText || target.getAttribute('aria-label'), Math.min(box.width, box.height)];
    });
    const letters = [];
    const walker = document.createTreeWalker(desk, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const text = walker.currentNode.data.trim();
        const element = walker.currentNode.parentElement;
        if (!text || !seen(element)) continue;
        const scale = element.ownerSVGElement?.getScreenCTM().a ?? 1;
        letters.push([text, scale * parseFloat(getComputedStyle(element).fontSize)]);
    }
    return [sides, letters, [['page', document.documentElement.scrollWidth - innerWidth]]];";

/// Words, and a number of CSS pixels.
type Measured = (String, f64);

/// Words of at least 24 px, on a phone of 20, and targets of at least 72, for oily hands and glasses left in the house, however the screen is held.
async fn is_large(page: &Page) {
    for size in HELD {
        page.session.resize(size);
        until("the window has its size", async || {
            let now: Size = page.ask("return [innerWidth, innerHeight];", vec![]).await;
            (now == size).then_some(())
        })
        .await;
        let [sides, letters, wider]: [Vec<Measured>; 3] = page.ask(SIZES, vec![]).await;
        assert!(
            !sides.is_empty() && letters.len() > 2,
            "{sides:?} {letters:?}"
        );
        for (name, side) in sides {
            assert!(side >= 72.0, "{size:?}: {name}: {side} px");
        }
        // A phone is held nearer, and has room for few words.
        let least = if size.0 < 600 { 20.0 } else { 24.0 };
        for (words, letter) in letters {
            assert!(letter >= least, "{size:?}: {words}: {letter} px");
        }
        assert!(wider[0].1 <= 0.0, "{size:?}: {wider:?}");
    }
}

#[test]
fn words_and_targets_are_large() {
    on_the_page(async |page| {
        page.go_to("braid").await;
        is_large(page).await;
        page.press("run-begin").await;
        until_done(page, 0).await;
        is_large(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.run(UNFOLD, vec![]).await;
        page.enter("rollers", "10 cm").await;
        page.until_said("your mark").await;
        page.run(UNFOLD, vec![]).await;
        page.enter("mishap-at", "400").await;
        page.enter("mishap-skipped", "0.8").await;
        page.until_there(".proposal").await;
        is_large(page).await;
    });
}

/// Numbers of 32 carriers would be small on any map.
#[test]
fn words_are_large_on_a_machine_of_thirty_two_carriers() {
    on_the_page(async |page| {
        page.enter("horn_gears", "16").await;
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.until_there("[data-picture=run-map]").await;
        assert_eq!(page.matching("[data-run-carrier]").await, 32);
        is_large(page).await;
    });
}

/// The numbers on the map: of which carrier, and what stands there.
const NUMBERS: &str = "
    const numbers = [...document.querySelectorAll('[data-run-number]')];
    return numbers.map((number) => [number.dataset.runNumber, number.textContent]);";

/// The map rings the carrier the step is about, with its number beside it, and none where it is about none.
#[test]
fn the_map_marks_only_what_the_step_is_about() {
    on_the_page(async |page| {
        let design = begin(page).await;
        let adjusted = Plan::of(&design).unadjusted();
        let is_gear =
            |event: &taperwright::plan::Event| matches!(event.action, Action::Gear { .. });
        let steps: Vec<_> = Run::default().steps_ahead(&adjusted).collect();
        let gear = steps.iter().position(|step| step.iter().all(is_gear));
        let gear = gear.expect("the example changes its gear alone somewhere");
        for (done, step) in steps.iter().enumerate().take(gear + 1) {
            page.until_there(&format!("[data-step-index='{done}']"))
                .await;
            let wished: Vec<String> = step
                .iter()
                .filter_map(|event| event.action.carrier())
                .map(|carrier| carrier.to_string())
                .collect();
            // Its number stands beside it, as the words have it.
            let numbers: Vec<(String, String)> = page.ask(NUMBERS, vec![]).await;
            if done > 0 {
                let named: Vec<String> = numbers.iter().map(|it| it.0.clone()).collect();
                assert_eq!(named, wished, "step {done}");
            }
            let told = page.words_of(".stand .do").await;
            for (carrier, number) in &numbers {
                let shown = carrier.trim_start_matches(['c', 'w']).parse::<u32>();
                assert_eq!(shown.map(|it| (it + 1).to_string()).as_ref(), Ok(number));
                assert!(told.contains(number.as_str()), "{told} lacks {number}");
            }
            let script = "return [...document.querySelectorAll('[data-run-carrier][data-next=true]')].map((mark) => mark.dataset.runCarrier);";
            let ringed: Vec<String> = page.ask(script, vec![]).await;
            assert_eq!(ringed, wished, "step {done}");
            tick(page, done).await;
        }
    });
}

/// Two taps at once are one; only the first is a tick.
#[test]
fn a_trembling_finger_ticks_one_step() {
    on_the_page(async |page| {
        begin(page).await;
        let script = "const done = document.querySelector('[data-action=run-done]'); done.click(); done.click();";
        page.run(script, vec![]).await;
        page.until_there("[data-step-index='1']").await;
        assert_eq!(until_done(page, 1).await.done, 1);
    });
}

/// What is proposed, and what was typed and refused, is settled before the run goes on; then the fields are empty.
#[test]
fn what_is_proposed_is_settled_before_the_run_goes_on() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.unfold("mishaps").await;
        page.enter("mishap-at", "400").await;
        assert!(page.said_beside("mishap-at").await.is_some());
        page.enter("mishap-skipped", "0.8").await;
        page.until_focused(".proposal").await;
        page.press("run-done").await;
        page.until_focused(".proposal").await;
        page.press("mishap-leave").await;
        page.until_gone(".proposal").await;
        page.press("run-done").await;
        page.until_focused("[data-action=mishap-at]").await;
        assert_eq!(page.value("mishap-at").await, "400");
        page.enter("mishap-at", "").await;
        assert_eq!(page.said_beside("mishap-at").await, None);
        tick(page, 1).await;
        assert!(until_done(page, 3).await.mishaps.is_empty());
        page.unfold("mishaps").await;
        assert_eq!(page.value("mishap-skipped").await, "");
        page.enter("mishap-skipped", "1.2").await;
        page.until_focused(".proposal").await;
        page.press("mishap-take").await;
        page.until_focused(".stand .step").await;
    });
}

/// A place typed at the mark is 10 cm farther where the threads meet.
#[test]
fn a_place_is_typed_at_the_mark() {
    on_the_page(async |page| {
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.run(UNFOLD, vec![]).await;
        page.enter("rollers", "10 cm").await;
        page.until_said("at your mark").await;
        page.run(UNFOLD, vec![]).await;
        page.enter("mishap-at", "0.5").await;
        page.until_there(".proposal").await;
        let told = page.words_of(".proposal").await;
        assert!(
            told.contains("0.500\u{202f}m at your mark (0.600\u{202f}m"),
            "{told}"
        );
        page.press("mishap-take").await;
        let book = page
            .until_book("the place is kept", |book| {
                run_of(book).is_some_and(|run| !run.mishaps.is_empty())
            })
            .await;
        let at = run_of(&book).expect("a run").mishaps[0].at_m;
        assert!((at - 0.6).abs() < 1e-9, "{at}");
    });
}

/// In inches and feet nothing is said in metres.
#[test]
fn refusals_are_in_the_makers_units() {
    on_the_page(async |page| {
        page.press("imperial").await;
        begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        page.unfold("mishaps").await;
        page.enter("mishap-at", "4000").await;
        let said = page.said_beside("mishap-at").await.unwrap_or_default();
        assert!(said.contains('′') && !said.contains(" m"), "{said}");
        let unit = "return document.querySelector('[data-action=mishap-late]').parentElement.querySelector('.unit').innerText;";
        assert_eq!(page.ask::<String>(unit, vec![]).await, "in");
    });
}

/// A store that is full is told where the tick is made.
#[test]
fn a_tick_that_is_not_kept_is_said_at_the_buttons() {
    on_the_page(async |page| {
        begin(page).await;
        let full = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };";
        page.run(full, vec![]).await;
        page.press("run-done").await;
        page.until_there(".foot .unkept").await;
        let said = page.words_of(".foot .unkept").await;
        assert!(
            said.contains("Not saved") && said.contains("full"),
            "{said}"
        );
        is_large(page).await;
    });
}

/// The drawing goes on, the line does not: that is said, and the next one is braided by the plan it is said to be.
#[test]
fn a_line_is_braided_by_the_plan_it_was_begun_by_or_given_up() {
    on_the_page(async |page| {
        let design = begin(page).await;
        page.press("run-done").await;
        until_done(page, 1).await;
        assert!(!page.text().await.contains("changed since"));
        page.go_to("draw").await;
        page.enter("point-size", "0.9").await;
        page.go_to("braid").await;
        page.until_said("changed since").await;
        page.bring("[data-action=give-up]").await;
        page.press("give-up").await;
        page.press("give-up-no").await;
        page.until_gone("[data-action=give-up-yes]").await;
        page.bring("[data-action=give-up]").await;
        page.press("give-up").await;
        page.press("give-up-yes").await;
        page.until_said("Start this line").await;
        page.press("run-begin").await;
        let book = page
            .until_book("another line is begun", |book| book.records.len() == 2)
            .await;
        let [first, second] = &book.records[..] else {
            panic!("two lines")
        };
        assert_eq!(first.run.as_ref().map(|run| run.done), Some(1));
        assert_eq!(first.line, None);
        assert_eq!(first.design.design(), Ok(&design));
        assert_ne!(second.design.design(), Ok(&design));
        page.go_to("draw").await;
        page.go_to("weigh").await;
        let steps = count_of_steps(&design);
        page.run("document.querySelectorAll('.made-lines details').forEach((it) => { it.open = true; });", vec![]).await;
        page.until_said(&format!("1 of {steps} steps done")).await;
    });
}

/// Counted past the goal, that is said; tens are counted by one tap, and the line grows by the count.
#[test]
fn circuits_are_counted_by_tens_and_past_the_goal() {
    on_the_page(async |page| {
        let design = begin(page).await;
        tick(page, 0).await;
        let run = until_done(page, 1).await;
        let plan = Plan::of(&design);
        let now = Now::of(&run, &run.adjusted(&design, &plan), &plan);
        let tens = (now.circuits / 10.0).floor() + 1.0;
        let half = "const ten = document.querySelector('[data-action=circuits-ten]'); for (let tap = 0; tap < arguments[0]; tap++) ten.click();";
        page.run(half, vec![json!(1)]).await;
        until("ten are counted", async || {
            (page.value("circuits-read").await == "10").then_some(())
        })
        .await;
        let script = "return parseFloat(document.querySelector('[data-braided]').dataset.braided);";
        let share: f64 = page.ask(script, vec![]).await;
        let wished = now.remaining * (10.0 / now.circuits) / plan.length;
        assert!((share - wished).abs() < 1e-9, "{share}, not {wished}");
        page.run(half, vec![json!(tens - 1.0)]).await;
        page.until_there(".counter[data-past=true]").await;
    });
}

fn count_of_steps(design: &Design) -> usize {
    Run::default().steps_of(&Plan::of(design).unadjusted()).1
}

/// After the last step come scale and dressing.
#[test]
fn after_the_last_step_the_book_and_the_dressing_are_one_tap_away() {
    on_the_page(async |page| {
        let design = begin(page).await;
        let steps = count_of_steps(&design);
        for done in 0..steps {
            tick(page, done).await;
        }
        page.until_said(&format!("All {steps} steps done")).await;
        page.press("run-to-dressing").await;
        page.until_there("[data-shows=dress] [data-step]").await;
        page.go_to("braid").await;
        page.press("run-to-book").await;
        page.until_there("[data-shows=weigh] [data-parameter]")
            .await;
    });
}
