//! What the run clock gives to hear: signals before a stop and at it, steps that are spoken, and what of it a browser refuses.

use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::paper::words;
use taperwright::plan::Plan;

use super::at_machine::{begin, tick};
use super::clock::{CIRCUIT, timed, wanted};
use super::fake_clock::{MORNING, before_load, pass, toggle, until_left};
use super::harness::{on_the_page, until};
use super::page::Page;

/// Sound and voice of the test's own, which note what they are asked for.
const HEARD: &str = "
    window.heard = [];
    const param = () => ({ set value(v) {}, setValueAtTime() {}, linearRampToValueAtTime() {} });
    window.AudioContext = class {
        state = 'running'; currentTime = 0; destination = {};
        resume() { return Promise.resolve(); }
        createGain() { return { gain: param(), connect() {} }; }
        createOscillator() { return { frequency: param(), connect() {}, start() { window.heard.push('tone'); }, stop() {} }; }
    };
    navigator.vibrate = (pattern) => { window.heard.push('shake ' + pattern.length / 2); return true; };
    window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
    Object.defineProperty(window, 'speechSynthesis', { value: {
        getVoices: () => [], cancel() {}, speak(words) { window.heard.push(words.text); },
    } });";

async fn heard(page: &Page) -> Vec<String> {
    page.ask("return window.heard.splice(0);", vec![]).await
}

async fn until_heard(page: &Page, what: &[&str]) {
    let mut all = Vec::new();
    until("the signal is heard", async || {
        all.extend(heard(page).await);
        (all.len() >= what.len()).then_some(())
    })
    .await;
    assert_eq!(all, what);
}

#[test]
fn signals_come_before_the_stop_and_at_it_and_once() {
    on_the_page(async |page| {
        before_load(page, HEARD);
        let (design, run) = timed(page, MORNING).await;
        let way = wanted(&design, &run);
        heard(page).await;
        toggle(page, true).await;
        pass(page, (way - 25.0) * CIRCUIT).await;
        until_left(page, 25.0 * CIRCUIT, CIRCUIT).await;
        assert!(heard(page).await.is_empty());
        pass(page, 10.0 * CIRCUIT).await;
        until_heard(page, &["tone", "tone", "shake 2"]).await;
        page.until_there("[data-clock-state=soon]").await;
        pass(page, 15.5 * CIRCUIT).await;
        until_heard(page, &["tone", "tone", "tone", "tone", "shake 4"]).await;
        page.until_there("[data-clock-state=due]").await;
        page.until_said("Stop now").await;
        pass(page, CIRCUIT).await;
        until_left(page, 0.0, 0.1).await;
        assert!(heard(page).await.is_empty());
    });
}

#[test]
fn steps_are_spoken_where_the_maker_wants_it_and_again_on_a_press() {
    on_the_page(async |page| {
        before_load(page, HEARD);
        page.reload().await;
        let design = begin(page).await;
        assert!(
            heard(page).await.is_empty(),
            "it speaks only where it is asked to"
        );
        page.press("speak").await;
        let spoken = heard(page).await;
        assert!(spoken[0].contains(" Thread "), "{spoken:?}");
        page.unfold("clock-settings").await;
        page.press("voice").await;
        tick(page, 0).await;
        let plan = Plan::of(&design);
        let step = plan.stops().nth(1).expect("a stop");
        let sentence = words::spoken_step(step, Length::ZERO, Units::Metric);
        until_heard(page, &[&sentence]).await;
        page.reload().await;
        page.press("speak").await;
        until_heard(page, &[&sentence]).await;
    });
}

/// A browser without wake lock, sound, vibration and voice: the clock counts, steps are ticked, and what is missing is said.
#[test]
fn what_the_browser_refuses_is_said_and_all_else_works() {
    on_the_page(async |page| {
        before_load(
            page,
            "Object.defineProperty(navigator, 'wakeLock', { value: undefined });
             Object.defineProperty(navigator, 'vibrate', { value: undefined });
             window.AudioContext = undefined; window.webkitAudioContext = undefined;
             Object.defineProperty(window, 'speechSynthesis', { value: undefined });",
        );
        let (design, run) = timed(page, MORNING).await;
        page.until_said("cannot keep the screen on").await;
        toggle(page, true).await;
        page.until_there("[data-silent]").await;
        page.press("speak").await;
        page.until_there("[data-unspoken]").await;
        page.until_said("This browser cannot speak.").await;
        let seconds = wanted(&design, &run) * CIRCUIT;
        pass(page, seconds - 60.0).await;
        until_left(page, 60.0, CIRCUIT).await;
    });
}
