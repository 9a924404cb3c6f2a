//! The run clock, with a clock of the test's own: where the machine is and how long until the stop are right to one circuit, or said to
//! be unknown, whatever happens to page and device.

use serde_json::json;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::plan::Plan;
use taperwright::plan::run::{Now, Run};

use super::at_machine::{begin, tick, until_done};
use super::fake_clock::{
    MORNING, install, jump, pass, seconds_left, toggle, until_left, until_run, until_unknown,
};
use super::harness::{at_a_desk, on_the_page, until};
use super::page::Page;
use super::tabs::{leave, turn_to, two_tabs};

/// The machine's true pace, in circuits a minute: not the one that is set.
pub(super) const PACE: f64 = 43.7;
/// One circuit of it, in seconds.
pub(super) const CIRCUIT: f64 = 60.0 / PACE;

/// Circuits of the way to the next step of a run.
pub(super) fn wanted(design: &Design, run: &Run) -> f64 {
    let plan = Plan::of(design);
    let adjusted = run.adjusted(design, &plan);
    run.wanted(&Now::of(run, &adjusted, &plan), &plan)
}

/// Begins the line with the clock of the test and ticks the start.
async fn begun(page: &Page, first: f64) -> Design {
    install(page, first).await;
    let design = begin(page).await;
    tick(page, 0).await;
    until_done(page, 1).await;
    design
}

/// Begins the line, and has the pace timed on the first way. The next way is then the second.
pub(super) async fn timed(page: &Page, first: f64) -> (Design, Run) {
    let design = begun(page, first).await;
    let run = until_done(page, 1).await;
    toggle(page, true).await;
    pass(page, wanted(&design, &run) * CIRCUIT).await;
    toggle(page, false).await;
    tick(page, 1).await;
    let run = until_run(page, "a stretch is timed", |run| run.clock.timed.len() == 1).await;
    (design, run)
}

/// The whole example, stop by stop: from the first timed stretch on, the time left is right to one circuit, half-way too, and after
/// a reload there.
#[test]
fn a_whole_line_is_timed_to_the_circuit() {
    on_the_page(async |page| {
        let design = begun(page, MORNING).await;
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let mut run = until_done(page, 1).await;
        let (mut done, all) = run.steps_of(&adjusted);
        while done < all {
            let way = wanted(&design, &run);
            if way > 0.0 {
                let is_timed = !run.clock.timed.is_empty();
                let seconds = way * CIRCUIT;
                toggle(page, true).await;
                pass(page, seconds / 2.0).await;
                if is_timed {
                    until_left(page, seconds / 2.0, CIRCUIT).await;
                    if done % 4 == 2 {
                        page.reload().await;
                        until_left(page, seconds / 2.0, CIRCUIT).await;
                    }
                }
                pass(page, seconds / 2.0).await;
                if is_timed {
                    until_left(page, 0.0, CIRCUIT).await;
                }
                toggle(page, false).await;
                // The work at a stop is no running.
                pass(page, 200.0).await;
            }
            let before = run.done;
            tick(page, done).await;
            run = until_run(page, "the step is done", |run| run.done > before).await;
            done += 1;
        }
        let paces = run
            .clock
            .timed
            .iter()
            .map(|it| 60.0 * it.circuits / it.seconds);
        for pace in paces {
            assert!((pace / PACE - 1.0).abs() < 0.01, "{pace}");
        }
        assert!(run.clock.timed.len() > 10, "{:?}", run.clock.timed);
    });
}

/// The lead-in can be timed before anything is ticked: a machine that runs has begun the line.
#[test]
fn the_clock_is_there_before_the_line_is_started_and_starts_it() {
    on_the_page(async |page| {
        install(page, MORNING).await;
        page.go_to("braid").await;
        let plan = Plan::of(&demo());
        let seconds = 60.0 * plan.workload.lead_in / plan.workload.speed;
        until_left(page, seconds, 1.0).await;
        page.press("run-clock").await;
        until_run(page, "the machine runs", |run| run.clock.is_running()).await;
        pass(page, 60.0).await;
        until_left(page, seconds - 60.0, 1.0).await;
    });
}

#[test]
fn a_page_that_slept_counts_on_and_says_what_it_missed() {
    on_the_page(async |page| {
        let (design, run) = timed(page, MORNING).await;
        let seconds = wanted(&design, &run) * CIRCUIT;
        toggle(page, true).await;
        pass(page, 150.0).await;
        page.until_said("This page slept or was closed for").await;
        until_left(page, seconds - 150.0, CIRCUIT).await;
        page.press("away-stood").await;
        page.until_gone("[data-away]").await;
        until_left(page, seconds, CIRCUIT).await;
        // A stop that was due while it slept is said to be missed, and nobody believes the machine to be there.
        pass(page, seconds + 600.0).await;
        page.until_said("A signal was due in that time").await;
        until_unknown(page).await;
        page.press("away-ran").await;
        page.until_said("The stop was due a while ago").await;
        // Of a stop said so late nothing is learnt.
        toggle(page, false).await;
        tick(page, 2).await;
        let after = until_run(page, "the step is done", |it| it.done > run.done).await;
        assert!(after.clock.timed.last().is_some_and(|it| it.with_stop));
    });
}

#[test]
fn a_clock_that_jumps_ahead_is_asked_about_and_until_then_nothing_is_known() {
    on_the_page(async |page| {
        let (design, run) = timed(page, MORNING).await;
        let seconds = wanted(&design, &run) * CIRCUIT;
        toggle(page, true).await;
        jump(page, 120.0, 0.0).await;
        until_unknown(page).await;
        page.press("away-stood").await;
        until_left(page, seconds, CIRCUIT).await;
        jump(page, 120.0, 0.0).await;
        until_unknown(page).await;
        // What is not known is not known after a reload either, and is asked about again.
        page.reload().await;
        until_unknown(page).await;
        page.press("away-ran").await;
        until_left(page, seconds - 120.0, CIRCUIT).await;
        // A count answers, too.
        jump(page, 60.0, 0.0).await;
        until_unknown(page).await;
        page.enter("circuits-read", "100").await;
        until_left(page, seconds - 100.0 * CIRCUIT, CIRCUIT).await;
    });
}

#[test]
fn a_clock_that_is_set_back_changes_nothing_also_in_two_tabs() {
    on_the_page(async |page| {
        let (design, run) = timed(page, MORNING).await;
        let seconds = wanted(&design, &run) * CIRCUIT;
        let wall: f64 = page.ask("return Date.now();", vec![]).await;
        let tabs = two_tabs(page).await;
        install(page, wall).await;
        page.go_to("braid").await;
        turn_to(page, &tabs[0]).await;
        toggle(page, true).await;
        turn_to(page, &tabs[1]).await;
        until_left(page, seconds, CIRCUIT).await;
        // Both clocks of both tabs, one after the other, as a device has one clock only.
        for tab in &tabs {
            turn_to(page, tab).await;
            jump(page, -3590.0, 10.0).await;
        }
        for tab in &tabs {
            turn_to(page, tab).await;
            page.until_there("[data-clock=next-stop]").await;
            until_left(page, seconds - 10.0, CIRCUIT).await;
        }
        leave(page, &tabs).await;
        toggle(page, false).await;
        until_left(page, seconds - 10.0, CIRCUIT).await;
    });
}

/// Summer time begins in Central Europe on 28 March 2027 at 1:00 in universal time: by the European Union's directive 2000/84/EC on
/// the last Sunday of March.
#[test]
fn summer_time_changes_the_time_of_day_and_nothing_else() {
    const BEFORE: f64 = 1_806_194_700_000.0; // 28 March 2027, 00:45 in universal time.
    on_the_page(async |page| {
        let zone = json!({ "timezoneId": "Europe/Vienna" });
        page.session.cdp("Emulation.setTimezoneOverride", &zone);
        let design = begun(page, BEFORE).await;
        let way = wanted(&design, &until_done(page, 1).await);
        page.unfold("clock-settings").await;
        let pace = way / 30.1;
        page.enter("pace", &format!("{pace:.6}")).await;
        toggle(page, true).await;
        // From 1:45 in winter time half an hour later is 3:15 in summer time.
        page.until_said("Stop at 03:15").await;
        pass(page, 1200.0).await;
        until_left(page, 606.0, 2.0).await;
    });
}

#[test]
fn a_killed_browser_knows_how_long_the_machine_ran() {
    at_a_desk(async |desk| {
        let page = desk.troublemaker("").await;
        // A killed browser has lost the clock of the test, and goes by its own: the machine is started when both show the same.
        let now: f64 = page.ask("return Date.now();", vec![]).await;
        let line = demo();
        let first = wanted(&line, &Run::default().tick(&Plan::of(&line).unadjusted()));
        let (design, run) = timed(&page, now - 1000.0 * first * CIRCUIT).await;
        let seconds = wanted(&design, &run) * CIRCUIT;
        toggle(&page, true).await;
        let run = until_run(&page, "the machine runs", |run| run.clock.is_running()).await;
        super::sudden::until_on_the_disk(&page).await;
        let page = desk.after_sudden_death(page).await;
        page.go_to("braid").await;
        let since = run.clock.running_since.expect("it runs");
        until("it is known how long it ran", async || {
            let now: f64 = page.ask("return Date.now();", vec![]).await;
            let left = seconds_left(&page).await?;
            let ran = (now - since) / 1000.0;
            (ran > 1.0 && (seconds - ran - left).abs() <= CIRCUIT).then_some(())
        })
        .await;
        page.leave().await;
    });
}

#[test]
fn a_step_ticked_long_before_its_time_is_asked_about_and_teaches_nothing() {
    on_the_page(async |page| {
        let (design, run) = timed(page, MORNING).await;
        let seconds = wanted(&design, &run) * CIRCUIT;
        toggle(page, true).await;
        pass(page, seconds / 3.0).await;
        until_left(page, seconds * 2.0 / 3.0, CIRCUIT).await;
        page.press("run-done").await;
        page.until_there("[data-early]").await;
        tick(page, 2).await;
        let after = until_run(page, "the step is done", |it| it.done > run.done).await;
        assert_eq!(after.clock.timed, run.clock.timed);
        page.until_gone("[data-early]").await;
    });
}

#[test]
fn clock_and_place_follow_a_counter_and_what_differs_is_said() {
    on_the_page(async |page| {
        let (design, run) = timed(page, MORNING).await;
        let way = wanted(&design, &run);
        toggle(page, true).await;
        pass(page, 100.0 * CIRCUIT).await;
        until_left(page, (way - 100.0) * CIRCUIT, CIRCUIT).await;
        page.enter("circuits-read", "101").await;
        until_left(page, (way - 101.0) * CIRCUIT, CIRCUIT).await;
        assert_eq!(page.matching("[data-count-differs]").await, 0);
        pass(page, 99.0 * CIRCUIT).await;
        page.enter("circuits-read", "180").await;
        until_left(page, (way - 180.0) * CIRCUIT, CIRCUIT).await;
        page.until_said("180 circuits are 10 % less than the clock expected")
            .await;
        page.press("circuit").await;
        until_run(page, "it is nudged", |run| run.circuits == 181).await;
        // The field follows the clock also after a press beside it.
        pass(page, 10.2 * CIRCUIT).await;
        until_value(page, "191").await;
        // A length that a gear of one tooth less would draw, and one that no gear would.
        toggle(page, false).await;
        page.enter("circuits-read", "181").await;
        let plan = Plan::of(&design);
        let adjusted = plan.unadjusted();
        let stop = run.next(&adjusted).expect("a step").at;
        let fitted = adjusted.line.station_before(stop).piece;
        let teeth = f64::from(fitted.wheels.teeth());
        let length = |share: f64| format!("{:.4} m", 181.0 * fitted.lay.metres() * share);
        page.unfold("by-length").await;
        page.enter("length-read", &length((teeth - 1.0) / teeth))
            .await;
        page.until_said("check which gear is fitted").await;
        page.press("count-right").await;
        until_value(page, "181").await;
        page.enter("length-read", &length(0.97)).await;
        page.until_said("slips on the take-off").await;
        page.press("length-right").await;
        let metres = 181.0 * fitted.lay.metres() * 0.97;
        let length = taperwright::base::units::Length::from_metres(metres);
        let circuits = run.circuits_for(&adjusted, length);
        until_value(page, &format!("{circuits:.0}")).await;
    });
}

async fn until_value(page: &Page, value: &str) {
    until("the field shows the count", async || {
        (page.value("circuits-read").await == value).then_some(())
    })
    .await;
}
