//! A hand, by the actions of the standard: the whole of a gesture is one request.

use std::time::Duration;

use fantoccini::actions::{
    Actions, InputSource, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, MouseActions, PointerAction,
    TouchActions,
};
use fantoccini::key::Key;
use taperwright::design::Design;
use taperwright::design::demo::demo;

use super::harness::until;
use super::page::{Page, Spot};
use super::state::State;

/// Steps in which a movement is made, and how long each takes.
const STEPS: u32 = 6;
const PACE: Duration = Duration::from_millis(20);

/// What touches the chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pointer {
    /// A mouse with its main button.
    Mouse,
    /// A finger.
    Finger,
}

/// Drags a control point so many pixels to the right and down.
pub(super) async fn drag(page: &Page, pointer: Pointer, point: usize, (right, down): Spot) {
    let (x, y) = page.point(point).await;
    let to = |share: f64, duration| PointerAction::MoveTo {
        duration: Some(duration),
        x: (x + share * right).round(),
        y: (y + share * down).round(),
    };
    let button = MOUSE_BUTTON_LEFT;
    let mut way = vec![to(0.0, Duration::ZERO), PointerAction::Down { button }];
    way.extend((1..=STEPS).map(|step| to(f64::from(step) / f64::from(STEPS), PACE)));
    way.push(PointerAction::Up { button });
    let actions: Actions = match pointer {
        Pointer::Mouse => {
            let hand = MouseActions::new("mouse".to_owned());
            way.into_iter().fold(hand, InputSource::then).into()
        }
        Pointer::Finger => {
            let hand = TouchActions::new("finger".to_owned());
            way.into_iter().fold(hand, InputSource::then).into()
        }
    };
    let done = page.session.client.perform_actions(actions).await;
    done.expect("the hand obeys");
}

/// Drags the belly; returns what the page then shows, and what it keeps.
pub(super) async fn dragged(page: &Page, pointer: Pointer) -> (State, Design) {
    let kept = page.kept().await;
    drag(page, pointer, belly(), (22.0, 13.0)).await;
    let design = until("the drag is kept", async || {
        page.kept().await.filter(|now| Some(now) != kept.as_ref())
    })
    .await;
    let state = page
        .until_state("the kept line is shown", |state| state.shows(&design))
        .await;
    (state, design)
}

/// The point where the demo's belly begins.
pub(super) fn belly() -> usize {
    let draft = demo().draft().clone();
    let sizes = || draft.points.iter().map(|point| point.diameter_mm);
    let thickest = sizes().fold(0.0, f64::max);
    let index = sizes().position(|size| size == thickest);
    index.expect("the demo has a belly")
}

/// Presses a letter together with the control key.
pub(super) async fn chord(page: &Page, letter: char) {
    let control = char::from(Key::Control);
    let hand = KeyActions::new("keys".to_owned())
        .then(KeyAction::Down { value: control })
        .then(KeyAction::Down { value: letter })
        .then(KeyAction::Up { value: letter })
        .then(KeyAction::Up { value: control });
    let done = page.session.client.perform_actions(hand).await;
    done.expect("the keyboard obeys");
}
