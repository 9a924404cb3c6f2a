//! Whatever is pressed and typed at Draw, in any order: the page does not break, what it holds stays within bounds, and the line is
//! there again after a reload, as it was.
//!
//! `RANDOM_EDITS` sets how many edits are made; some dozens where it is not set.

use std::env;
use std::time::Duration;

use serde_json::json;

use super::harness::{WHOLE_TEST, at_a_desk_for, until};

/// So many edits where nothing else is said.
const USUALLY: u32 = 60;
/// Longest time for an edit, upon that for a whole test.
const ONE_EDIT: Duration = Duration::from_millis(200);
/// Where chance begins.
const SEED: u32 = 20_261_130;
/// Nodes the document may have in the end, as a multiple of those at the beginning: the line may have more points.
const MOST_NODES: f64 = 3.0;

/// Makes so many edits, chosen by a generator of its own (Park & Miller 1988, Communications of the ACM 31, 1192–1201).
const EDIT: &str = r#"
    const [times, seed] = arguments;
    let state = seed;
    const chance = (below) => (state = (state * 48271) % 2147483647) % below;
    const rest = () => new Promise((go) => setTimeout(go));
    const BUTTONS = ['nearer', 'farther', 'thinner', 'thicker', 'add-point', 'remove-point', 'undo', 'redo', 'point-before', 'point-behind'];
    const FIELDS = ['point-at', 'point-size'];
    const TYPED = ['0', '-1', '1.05', '0,9', '3 m', '12 ft', '99999', 'NaN', 'thick', '', '1e3', '٤', '0.0001'];
    const find = (action) => document.querySelector(`[data-action="${action}"]`);
    window.done = false;
    (async () => {
        for (let edit = 0; edit < times; edit += 1) {
            if (chance(4) > 0) {
                const button = find(BUTTONS[chance(BUTTONS.length)]);
                if (!button.disabled) button.click();
            } else {
                const field = find(FIELDS[chance(FIELDS.length)]);
                field.value = chance(2) ? TYPED[chance(TYPED.length)] : String(chance(3000) / 100);
                for (const kind of ['input', 'change']) field.dispatchEvent(new Event(kind, { bubbles: true }));
            }
            await rest();
        }
        // What was refused is taken back.
        for (const field of FIELDS.map(find)) field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }));
        window.done = true;
    })();"#;

fn edits() -> u32 {
    let said = env::var("RANDOM_EDITS").ok();
    said.and_then(|said| said.parse().ok()).unwrap_or(USUALLY)
}

#[test]
fn random_edits_break_nothing_and_are_there_after_a_reload() {
    at_a_desk_for(WHOLE_TEST + ONE_EDIT * edits(), async |desk| {
        let page = desk.visitor().await;
        let nodes = "return document.querySelectorAll('*').length;";
        let before: f64 = page.ask(nodes, vec![]).await;
        page.run(EDIT, vec![json!(edits()), json!(SEED)]).await;
        until("the edits are made", async || {
            let done = page.ask::<bool>("return window.done;", vec![]);
            done.await.then_some(())
        })
        .await;
        page.at_rest().await;
        assert_eq!(page.matching(".broken").await, 0);
        let after: f64 = page.ask(nodes, vec![]).await;
        assert!(after < before * MOST_NODES, "{before} nodes, then {after}");
        let state = page.state().await;
        let kept = page.kept().await.expect("the line is kept");
        assert!(state.shows(&kept));
        page.reload().await;
        assert_eq!(page.kept().await.as_ref(), Some(&kept));
        page.until_state("the line is shown again", |state| state.shows(&kept))
            .await;
    });
}
