//! What a move of a drag costs on the page's own thread.

use std::time::{Duration, Instant};

use taperwright::design::Design;
use taperwright::keep::share::link;

use super::desk::Desk;
use super::first_use::{throttle_to, throttled};
use super::gesture::{Hand, Pointer};
use super::page::Page;
use super::trace::{CATEGORIES, Trace};
use crate::table::{Row, Samples, Unit};

/// Drags of each kind.
const DRAGS: usize = 4;
/// How long a drag takes.
const LONG: Duration = Duration::from_secs(2);
/// A task that takes longer is a long one: W3C, Long Tasks API.
const LONG_TASK: f64 = 0.050;
/// How long a browser shows a frame, in seconds.
const FRAME: f64 = 1.0 / 60.0;
/// A tablet held upright, in CSS pixels.
const TABLET: (u32, u32) = (820, 1180);
/// How far the finger goes about, in pixels to the right and down.
const ABOUT: (f64, f64) = (14.0, 11.0);
/// So often it goes about in a drag.
const TIMES: f64 = 3.0;

/// Rows for drags on a design, on a processor so many times slower.
pub(crate) async fn rows(desk: &Desk, (name, design): (&str, &Design), throttle: f64) -> Vec<Row> {
    let fragment = link::encode(design).expect("it fits a link");
    let middle = design.draft().points.len() / 2;
    let (mut moves, mut longest, mut ends) = (vec![], vec![], vec![]);
    for _ in 0..DRAGS {
        let page = desk.page("", CATEGORIES).await;
        page.session.resize(TABLET);
        page.go(&format!("#{fragment}")).await;
        throttle_to(&page, throttle);
        let trace = drag(&page, middle).await;
        page.leave().await;
        let (taken, let_go) = trace.taken.zip(trace.let_go).expect("a drag was traced");
        moves.extend(costs(&trace, let_go));
        longest.push(trace.longest(taken, let_go));
        ends.push(trace.longest(let_go, f64::INFINITY));
    }
    let name = format!("{name}{}", throttled(throttle));
    let is_long = |task: &&f64| **task > LONG_TASK;
    let long = longest.iter().filter(is_long).count();
    let slow = moves.iter().filter(|cost| **cost > FRAME).count();
    let (all, moves) = (moves.len(), Samples::new(moves));
    let of_moves = |what: &str, goal, share| {
        Row::at(format!("{what}, {name}"), goal, Unit::Milli, &moves, share)
    };
    vec![
        of_moves("script, layout and paint of a move", "", 0.5),
        of_moves("the same, 95 of 100 moves take no longer", "8 ms", 0.95),
        Row::exact(
            format!("moves longer than a frame, {name}"),
            "0",
            format!("{slow} of {all}"),
        ),
        Row::exact(
            format!("drags with a task over 50 ms, {name}"),
            "0",
            format!("{long} of {DRAGS}"),
        ),
        Row::of(
            format!("longest task once the finger is lifted, {name}"),
            "50 ms",
            Unit::Milli,
            &Samples::new(ends),
        ),
    ]
}

/// Drags a point about with a finger, and what the browser traced meanwhile.
async fn drag(page: &Page, point: usize) -> Trace {
    let mut hand = Hand::take(page, Pointer::Finger, point).await;
    let (begun, (x, y)) = (Instant::now(), hand.at);
    while begun.elapsed() < LONG {
        let turn = begun.elapsed().as_secs_f64() / LONG.as_secs_f64() * core::f64::consts::TAU;
        hand.go((
            x + ABOUT.0 * (TIMES * turn).sin(),
            y + ABOUT.1 * ((TIMES + 1.0) * turn).sin(),
        ));
    }
    hand.let_go();
    // Whatever letting go began is over when nothing waits any more.
    page.at_rest().await;
    Trace::take(&page.session).await
}

/// The work from each move to the next.
fn costs(trace: &Trace, let_go: f64) -> Vec<f64> {
    let moves: Vec<f64> = trace
        .moves
        .iter()
        .copied()
        .filter(|at| *at < let_go)
        .collect();
    let pairs = moves.windows(2);
    pairs.map(|pair| trace.worked(pair[0], pair[1])).collect()
}
