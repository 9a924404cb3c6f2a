//! What a move of a drag costs on the page's own thread, by the browser's own counters: nothing is traced, since that costs time
//! of its own.

use serde_json::{Value, json};

use taperwright::design::Design;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, Shelf, Writer};

use super::desk::Desk;
use super::first_use::{throttle_to, throttled};
use super::gesture::{Hand, Pointer};
use super::page::Page;
use crate::table::{Row, Samples, Unit};

/// Drags of each kind.
const DRAGS: usize = 3;
/// Moves of a drag: the finger goes about in a figure of eight.
const MOVES: u32 = 120;
/// So many moves at the beginning of a drag are left out: what is drawn for the first time is made then.
const FIRST: usize = 5;
/// How long a browser shows a frame, in seconds.
const FRAME: f64 = 1.0 / 60.0;
/// A tablet held upright and lying, in CSS pixels.
pub(crate) const TABLET: [(u32, u32); 2] = [(820, 1180), (1180, 820)];
/// How far the finger goes about, in pixels to the right and down.
const ABOUT: (f64, f64) = (14.0, 11.0);
/// So often it goes about in a drag.
const TIMES: f64 = 3.0;
/// Waits until the frame that shows what was done is handed over; what the page says of the chosen point then.
const SHOWN: &str = "new Promise((shown) => requestAnimationFrame(() => setTimeout(() =>
    shown(document.querySelector('.readout').dataset.station))))";
/// The point whose handle is the middle one of those drawn.
const MIDDLE: &str = "
    const drawn = [...document.querySelectorAll('[data-point]')];
    return Number(drawn[drawn.length >> 1].dataset.point);";

/// Seconds of the page's thread since it began, each without the others.
#[derive(Clone, Copy, Debug, Default)]
struct Work {
    script: f64,
    style: f64,
    layout: f64,
    /// All tasks: the above, painting, and what the browser does besides.
    tasks: f64,
}

impl Work {
    fn now(page: &Page) -> Self {
        let answer = page.session.cdp("Performance.getMetrics", &json!({}));
        let of = |name: &str| {
            let metrics = answer["metrics"].as_array().into_iter().flatten();
            let mut named = metrics.filter(|metric| metric["name"] == name);
            named.next().and_then(|metric| metric["value"].as_f64())
        };
        let of = |name| of(name).expect("the browser counts it");
        Self {
            script: of("ScriptDuration"),
            style: of("RecalcStyleDuration"),
            layout: of("LayoutDuration"),
            tasks: of("TaskDuration"),
        }
    }

    fn since(self, before: Self) -> Self {
        Self {
            script: self.script - before.script,
            style: self.style - before.style,
            layout: self.layout - before.layout,
            tasks: self.tasks - before.tasks,
        }
    }

    /// What the page itself is answerable for.
    fn until_paint(self) -> f64 {
        self.script + self.style + self.layout
    }
}

/// Rows for drags on a design, in a window of a size, on a processor so many times slower.
pub(crate) async fn rows(
    desk: &Desk,
    (name, design): (&str, &Design),
    size: (u32, u32),
    throttle: f64,
) -> Vec<Row> {
    let (mut moves, mut ends) = (vec![], vec![]);
    for _ in 0..DRAGS {
        let page = desk.page("").await;
        page.session.resize(size);
        page.go("").await;
        open(&page, design).await;
        throttle_to(&page, throttle);
        page.session.cdp("Performance.enable", &json!({}));
        let middle = page.ask(MIDDLE, vec![]).await;
        let (of_drag, end) = drag(&page, middle).await;
        moves.extend_from_slice(&of_drag[FIRST..]);
        ends.push(end.tasks);
        page.leave().await;
    }
    let name = format!("{name}, {} × {}{}", size.0, size.1, throttled(throttle));
    let slow = moves.iter().filter(|work| work.tasks > FRAME).count();
    let (all, parts) = (moves.len(), parts(&moves));
    let moves = Samples::new(moves.into_iter().map(Work::until_paint));
    let of_moves = |what: &str, goal, share| {
        Row::at(format!("{what}, {name}"), goal, Unit::Milli, &moves, share)
    };
    let (goal, goal_95) = if throttle > 1.0 {
        ("", "8 ms")
    } else {
        ("1.5 ms", "")
    };
    vec![
        of_moves("script, style and layout of a move", goal, 0.5),
        of_moves("the same, 95 of 100 moves take no longer", goal_95, 0.95),
        Row::exact(format!("a move in milliseconds, mean, {name}"), "", parts),
        Row::exact(
            format!("moves longer than a frame, {name}"),
            "0",
            format!("{slow} of {all}"),
        ),
        Row::of(
            format!("once the finger is lifted, {name}"),
            "50 ms",
            Unit::Milli,
            &Samples::new(ends),
        ),
    ]
}

/// Opens a line as one that was kept before: a long one fits no link.
async fn open(page: &Page, design: &Design) {
    let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("memory is there");
    let kept = shelf.keep_new(Id(1), design, None);
    let number = kept.expect("there is room").seen.number();
    shelf.open(number).expect("there is room");
    let texts: Value = json!(shelf.into_store().0);
    let keep = "
        localStorage.clear();
        for (const [key, text] of Object.entries(arguments[0])) localStorage.setItem(key, text);";
    page.run(keep, vec![texts]).await;
    page.go("").await;
}

/// Drags a point about with a finger; what each move took that changed the line, and lifting the finger. Snapping leaves the line
/// as it is at many moves, which cost next to nothing.
async fn drag(page: &Page, point: usize) -> (Vec<Work>, Work) {
    let mut hand = Hand::take(page, Pointer::Finger, point).await;
    let (x, y) = hand.at;
    let (mut moves, mut last) = (Vec::new(), Value::Null);
    for step in 1..=MOVES {
        let turn = f64::from(step) / f64::from(MOVES) * core::f64::consts::TAU;
        let before = Work::now(page);
        hand.go((
            x + ABOUT.0 * (TIMES * turn).sin(),
            y + ABOUT.1 * ((TIMES + 1.0) * turn).sin(),
        ));
        let now = shown(page);
        let work = Work::now(page).since(before);
        if now != last {
            moves.push(work);
        }
        last = now;
    }
    let before = Work::now(page);
    hand.let_go();
    shown(page);
    (moves, Work::now(page).since(before))
}

fn shown(page: &Page) -> Value {
    let params = json!({ "expression": SHOWN, "awaitPromise": true, "returnByValue": true });
    page.session.cdp("Runtime.evaluate", &params)["result"]["value"].take()
}

/// What takes the time of a move.
fn parts(moves: &[Work]) -> String {
    let mean = |part: fn(&Work) -> f64| moves.iter().map(part).sum::<f64>() / moves.len() as f64;
    let show = |part| format!("{:.2}", 1e3 * mean(part));
    format!(
        "script {}, style {}, layout {}; all tasks {}",
        show(|work| work.script),
        show(|work| work.style),
        show(|work| work.layout),
        show(|work| work.tasks)
    )
}
