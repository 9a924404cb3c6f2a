//! What the page shows, as data: the same in every layout.

use std::collections::BTreeMap;

use serde::Deserialize;
use taperwright::base::units::show::Units;
use taperwright::design::Design;
use taperwright::paper::figures::FIGURES;
use taperwright::plan::{Action, Plan};

/// Reads every figure and every line of the schedule.
pub(super) const READ: &str = r"
    const read = (kind, names) => [...document.querySelectorAll(`[data-${kind}]`)]
        .map((element) => Object.fromEntries(names.map((name) => [name, element.dataset[name] ?? ''])));
    const figures = read('figure', ['figure', 'si']).map(({ figure, si }) => [figure, si]);
    return {
        figures: Object.fromEntries(figures),
        events: read('event', ['event', 'at', 'carrier', 'ends', 'gear', 'pinned'])
            .map(({ event, ...line }) => ({ kind: event, ...line })),
    };";

/// Share by which a number calculated in the browser may differ from the same calculated here: their libraries round the
/// last digits of sines and tangents differently.
const ROUNDING: f64 = 1e-9;

/// Every figure by key, and the schedule, to the last digit.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct State {
    /// Numbers in SI, as written on the page.
    pub(super) figures: BTreeMap<String, String>,
    /// Lines of the schedule.
    pub(super) events: Vec<Event>,
}

/// A line of the schedule.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Event {
    /// What to do.
    pub(super) kind: String,
    /// Where, in metres.
    pub(super) at: String,
    /// Which carriers.
    pub(super) carrier: String,
    /// Ends in each thread; of a swap, in the new one.
    pub(super) ends: String,
    /// What is fitted from here on: teeth of the change gear, or of a pair, the driver first.
    pub(super) gear: String,
    /// Whether the maker insists on something here.
    pub(super) pinned: String,
}

impl Event {
    /// Where, in metres.
    pub(super) fn metres(&self) -> f64 {
        self.at.parse().expect("a place is a number")
    }
}

impl State {
    /// A figure's number.
    #[track_caller]
    pub(super) fn si(&self, key: &str) -> f64 {
        let text = self.figures.get(key).map(String::as_str);
        let number = text.and_then(|text| text.parse().ok());
        number.unwrap_or_else(|| panic!("{key} is no number: {text:?}"))
    }

    /// Lines of one kind.
    pub(super) fn of_kind(&self, kind: &str) -> Vec<&Event> {
        self.events
            .iter()
            .filter(|line| line.kind == kind)
            .collect()
    }

    /// Places of all lines of the schedule, in metres.
    pub(super) fn places(&self) -> Vec<f64> {
        self.events.iter().map(Event::metres).collect()
    }

    /// Whether these are the figures and places of a design's plan, calculated here.
    pub(super) fn shows(&self, design: &Design) -> bool {
        let plan = Plan::of(design);
        let number = plan
            .verdict
            .number()
            .map_or_else(String::new, |n| n.to_string());
        let same_figures = FIGURES.iter().all(|figure| {
            let expected = (figure.value)(&plan, Units::Metric).si;
            match (expected, self.figures.get(figure.key)) {
                (Some(expected), Some(text)) => text.parse().is_ok_and(|si| near(si, expected)),
                (None, Some(text)) => text.is_empty(),
                (_, None) => false,
            }
        });
        let same_events = self.events.len() == plan.events.len()
            && self.events.iter().zip(&plan.events).all(|(shown, event)| {
                near(shown.metres(), event.at.metres())
                    && shown.gear == event.wheels.to_string()
                    && shown.ends == event.ends.to_string()
                    && shown.pinned == event.is_pinned().to_string()
                    && shown.kind == word(&event.action)
            });
        same_figures && same_events && self.figures.get("class") == Some(&number)
    }
}

/// Equal but for rounding.
pub(super) fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= ROUNDING * a.abs().max(b.abs())
}

fn word(action: &Action) -> &'static str {
    match action {
        Action::Start(_) => "start",
        Action::Add { .. } => "add",
        Action::Drop { .. } => "drop",
        Action::Swap { .. } => "swap",
        Action::Gear { .. } => "gear",
        Action::End(_) => "end",
    }
}
