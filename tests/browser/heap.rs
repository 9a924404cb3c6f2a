//! Work leaves nothing behind: after a thousand drags and two hundred steps back the page takes as much memory as before.
//!
//! The drags are told to the page by a script, so that a thousand of them take seconds; what the page does with each is what
//! it does with a finger's.

use std::time::Duration;

use serde_json::json;

use super::harness::{at_a_desk_for, until};
use super::page::Page;

/// Drags after which everything is as full as it gets: the steps kept live are two hundred.
const WARM_UP: u32 = 500;
/// Drags between the two looks.
pub(super) const DRAGS: u32 = 1_000;
/// Steps back after them.
pub(super) const UNDONE: u32 = 200;
/// So much of it is begun at once: no wait is longer than others.
const AT_ONCE: u32 = 50;
/// Longest time for all of it; a minute where nothing else is at work.
const LONGEST: Duration = Duration::from_mins(10);
/// Share by which memory may differ.
const SLACK: f64 = 0.10;
/// Bytes that the history of steps may take in the program's memory: it is kept to be undone, and full after the warm-up only
/// where steps are small.
const HISTORY: f64 = 512.0 * 1024.0;

/// Keeps the program's memory within reach, before the page opens.
const REACH: &str = r"
    const own = WebAssembly.instantiateStreaming;
    WebAssembly.instantiateStreaming = async (...given) => {
        const opened = await own.apply(WebAssembly, given);
        // The second file has none of its own: it works in that of the first.
        window.programMemory ??= opened.instance.exports.memory;
        return opened;
    };";

/// Drags the second point about so many times, each to another place; a promise, kept in `window.done`.
const DRAG: &str = r#"
    const [drags] = arguments;
    const handle = document.querySelector('[data-point="1"]');
    const tell = (kind, x, y) => handle.dispatchEvent(new PointerEvent(kind, {
        bubbles: true, cancelable: true, pointerId: 9, pointerType: 'touch', isPrimary: true,
        button: kind === 'pointermove' ? -1 : 0, buttons: kind === 'pointerup' ? 0 : 1, clientX: x, clientY: y,
    }));
    const rest = () => new Promise((go) => setTimeout(go));
    window.done = false;
    (async () => {
        for (let drag = 0; drag < drags; drag += 1) {
            const bounds = handle.getBoundingClientRect();
            const [x, y] = [bounds.x + bounds.width / 2, bounds.y + bounds.height / 2];
            const [right, down] = drag % 2 ? [-9, 7] : [9, -7];
            tell('pointerdown', x, y);
            tell('pointermove', x + right, y + down);
            tell('pointerup', x + right, y + down);
            await rest();
        }
        window.done = true;
    })();"#;

/// Takes so many steps back.
const UNDO: &str = r"
    const [steps] = arguments;
    const button = document.querySelector('[data-action=undo]');
    const rest = () => new Promise((go) => setTimeout(go));
    window.done = false;
    (async () => {
        for (let step = 0; step < steps; step += 1) {
            if (button.disabled) throw new Error(`only ${step} steps can be undone`);
            button.click();
            await rest();
        }
        window.done = true;
    })();";

/// What the page holds, once nothing waits and rubbish is cleared away.
#[derive(Clone, Copy, Debug)]
pub(super) struct Held {
    /// Bytes of the browser's own objects.
    pub(super) objects: f64,
    /// Bytes of the program's memory, which never shrinks.
    pub(super) program: f64,
    /// Nodes of the document.
    pub(super) nodes: f64,
    /// Listeners of events.
    pub(super) listeners: f64,
}

impl Held {
    async fn by(page: &Page) -> Self {
        page.at_rest().await;
        // Some things are only free to go once others are gone.
        for _ in 0..3 {
            page.session.cdp("HeapProfiler.collectGarbage", &json!({}));
        }
        let heap = page.session.cdp("Runtime.getHeapUsage", &json!({}));
        let metrics = page.session.cdp("Performance.getMetrics", &json!({}));
        let metric = |name: &str| {
            let all = metrics["metrics"].as_array().expect("a list of metrics");
            let one = all.iter().find(|metric| metric["name"] == name);
            one.and_then(|one| one["value"].as_f64())
                .expect("the browser counts it")
        };
        let program = "return window.programMemory.buffer.byteLength;";
        Self {
            objects: heap["usedSize"].as_f64().expect("a number of bytes"),
            program: page.ask(program, vec![]).await,
            nodes: metric("Nodes"),
            listeners: metric("JSEventListeners"),
        }
    }
}

/// What the page holds before and after much work.
pub(super) async fn before_and_after(page: &Page) -> (Held, Held) {
    let session = &page.session;
    session.cdp(
        "Page.addScriptToEvaluateOnNewDocument",
        &json!({ "source": REACH }),
    );
    session.cdp("Performance.enable", &json!({}));
    page.reload().await;
    work(page, DRAG, WARM_UP).await;
    let before = Held::by(page).await;
    work(page, DRAG, DRAGS).await;
    work(page, UNDO, UNDONE).await;
    (before, Held::by(page).await)
}

async fn work(page: &Page, script: &str, times: u32) {
    let before = page.storage().await;
    for _ in 0..times.div_ceil(AT_ONCE) {
        page.run(script, vec![json!(AT_ONCE)]).await;
        until("the work is done", async || {
            let done = page.ask::<bool>("return window.done;", vec![]);
            done.await.then_some(())
        })
        .await;
    }
    assert_ne!(page.storage().await, before, "nothing was kept");
}

#[test]
fn a_thousand_drags_and_two_hundred_steps_back_leave_the_memory_as_it_was() {
    at_a_desk_for(LONGEST, async |desk| {
        let page = desk.hermit().await;
        let (before, after) = before_and_after(&page).await;
        println!("{before:?}\n{after:?}");
        let pairs = [
            ("objects", before.objects, after.objects),
            ("program", before.program, after.program),
            ("nodes", before.nodes, after.nodes),
            ("listeners", before.listeners, after.listeners),
        ];
        for (what, before, after) in pairs {
            let least = if what == "program" { HISTORY } else { 0.0 };
            let slack = (before * SLACK).max(least);
            assert!(
                (after - before).abs() <= slack,
                "{what}: {before} before, {after} after"
            );
        }
        page.assert_untroubled();
        page.leave().await;
    });
}
