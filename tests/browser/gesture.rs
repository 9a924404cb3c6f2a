//! A hand at the chart: a mouse or fingers that take hold of a control point and move it in small steps.
//!
//! Both speak the browser's own protocol. The driver's standard actions cannot hold a mouse button from one request
//! to the next without the page losing its capture of the pointer, and a drag must be looked at while it lasts.

use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::key::Key;
use serde_json::{Value, json};

use super::page::{Page, Spot};

/// Steps in which a movement is made.
const STEPS: u32 = 6;

/// What touches the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Pointer {
    /// A mouse with its main button.
    Mouse,
    /// A pen that touches.
    Pen,
    /// A finger.
    Finger,
}

/// A hand that holds a place on the page.
pub(super) struct Hand<'page> {
    page: &'page Page,
    /// What it touches with.
    pub(super) pointer: Pointer,
    /// Where it is.
    pub(super) at: Spot,
}

impl<'page> Hand<'page> {
    /// Takes hold of a control point in its centre.
    pub(super) async fn take(page: &'page Page, pointer: Pointer, point: usize) -> Self {
        let at = page.point(point).await;
        Self::press(page, pointer, at)
    }

    /// Presses a place.
    pub(super) fn press(page: &'page Page, pointer: Pointer, at: Spot) -> Self {
        let hand = Self { page, pointer, at };
        match pointer {
            Pointer::Mouse | Pointer::Pen => {
                hand.mouse("mouseMoved", at, 0);
                hand.mouse("mousePressed", at, 1);
            }
            Pointer::Finger => hand.touch("touchStart", &[at]),
        }
        hand
    }

    /// Moves by so many pixels to the right and down.
    pub(super) fn glide(&mut self, (right, down): Spot) {
        let from = self.at;
        for step in 1..=STEPS {
            let share = f64::from(step) / f64::from(STEPS);
            self.go((from.0 + share * right, from.1 + share * down));
        }
    }

    /// Moves to a place at once.
    pub(super) fn go(&mut self, at: Spot) {
        self.at = at;
        match self.pointer {
            Pointer::Mouse | Pointer::Pen => self.mouse("mouseMoved", at, 1),
            Pointer::Finger => self.touch("touchMove", &[at]),
        }
    }

    /// Lets go.
    pub(super) fn let_go(self) {
        match self.pointer {
            Pointer::Mouse | Pointer::Pen => self.mouse("mouseReleased", self.at, 0),
            Pointer::Finger => self.touch("touchEnd", &[]),
        }
    }

    /// A second finger comes down.
    pub(super) fn add_finger(&self, at: Spot) {
        self.touch("touchStart", &[self.at, at]);
    }

    /// The system takes the fingers away, as for a gesture of its own.
    pub(super) fn taken_away(self) {
        self.touch("touchCancel", &[]);
    }

    fn mouse(&self, kind: &str, (x, y): Spot, buttons: u32) {
        let button = if kind == "mouseMoved" && buttons == 0 {
            "none"
        } else {
            "left"
        };
        let is_pen = self.pointer == Pointer::Pen;
        let params = json!({
            "type": kind, "x": x, "y": y, "button": button, "buttons": buttons, "clickCount": 1,
            "pointerType": if is_pen { "pen" } else { "mouse" },
        });
        self.page.session.cdp("Input.dispatchMouseEvent", &params);
    }

    fn touch(&self, kind: &str, fingers: &[Spot]) {
        let finger = |(id, (x, y)): (usize, &Spot)| json!({"x": x, "y": y, "id": id});
        let points: Vec<Value> = fingers.iter().enumerate().map(finger).collect();
        let params = json!({"type": kind, "touchPoints": points});
        self.page.session.cdp("Input.dispatchTouchEvent", &params);
    }
}

/// Moves the mouse to a place without holding anything.
pub(super) fn hover(page: &Page, (x, y): Spot) {
    let params = json!({"type": "mouseMoved", "x": x, "y": y, "button": "none", "buttons": 0});
    page.session.cdp("Input.dispatchMouseEvent", &params);
}

/// Turns the wheel by so many pixels; down is positive.
pub(super) fn wheel(page: &Page, (x, y): Spot, down: f64) {
    let params = json!({"type": "mouseWheel", "x": x, "y": y, "deltaX": 0, "deltaY": down});
    page.session.cdp("Input.dispatchMouseEvent", &params);
}

/// Two fingers either side of a place go from so far to so far apart, in pixels.
pub(super) fn pinch(page: &Page, (x, y): Spot, from: f64, to: f64) {
    let fingers = |apart: f64| json!([{"x": x - apart / 2.0, "y": y, "id": 0}, {"x": x + apart / 2.0, "y": y, "id": 1}]);
    let send = |kind: &str, points: Value| {
        let params = json!({"type": kind, "touchPoints": points});
        page.session.cdp("Input.dispatchTouchEvent", &params);
    };
    send("touchStart", fingers(from));
    for step in 1..=STEPS {
        let share = f64::from(step) / f64::from(STEPS);
        send("touchMove", fingers(from + share * (to - from)));
    }
    send("touchEnd", json!([]));
}

/// Presses the Escape key, whatever the mouse is doing.
pub(super) async fn escape(page: &Page) {
    strike(page, Key::Escape).await;
}

/// Strikes a key.
pub(super) async fn strike(page: &Page, key: Key) {
    let value = char::from(key);
    let keys = KeyActions::new("keys".to_owned())
        .then(KeyAction::Down { value })
        .then(KeyAction::Up { value });
    let done = page.session.client.perform_actions(keys).await;
    done.expect("the keyboard obeys");
}

/// Presses a letter together with the control key.
pub(super) async fn chord(page: &Page, value: char) {
    let control = char::from(Key::Control);
    let keys = KeyActions::new("keys".to_owned())
        .then(KeyAction::Down { value: control })
        .then(KeyAction::Down { value })
        .then(KeyAction::Up { value })
        .then(KeyAction::Up { value: control });
    let done = page.session.client.perform_actions(keys).await;
    done.expect("the keyboard obeys");
}
