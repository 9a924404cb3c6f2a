//! The state of the page, and the only ways it changes.

use leptos::prelude::*;

use crate::browser::address;
use crate::browser::storage::LocalStore;
use crate::choice::Choice;
use crate::design::refusal::Refusal;
use crate::design::{Design, demo};
use crate::edit::Edit;
use crate::plan::Plan;
use crate::share::link;
use crate::shelf::{Found, LineNumber, Shelf, Store};
use crate::units::show::Units;

/// Key under which the reader's units are kept.
const UNITS_KEY: &str = "taperwright/units";

/// Where the design on the bench comes from, and so where it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Standing {
    /// The demo, or a design opened: kept as a new line at the first change.
    New,
    /// A line of the shelf: kept under its number at every change.
    Kept(LineNumber),
    /// Came by link: not kept until the maker says so.
    Preview,
}

/// Something to tell the maker at the top of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Message {
    /// What happened, and what to do.
    pub(crate) text: String,
    /// A text found unreadable, so that it can be saved as a file.
    pub(crate) unreadable: Option<String>,
}

/// Signals shared by all of the page.
#[derive(Clone, Copy)]
pub(crate) struct Bench {
    /// The design as it is this very moment, also in the middle of a drag.
    pub(crate) design: RwSignal<Design>,
    /// Its plan.
    pub(crate) plan: Memo<Plan>,
    /// The design after the last finished change: scales, card and storage follow this one.
    pub(crate) settled: RwSignal<Design>,
    /// Its plan.
    pub(crate) settled_plan: Memo<Plan>,
    /// Units the reader wants.
    pub(crate) units: RwSignal<Units>,
    /// Index of the chosen control point.
    pub(crate) chosen: RwSignal<usize>,
    /// Where the design is kept.
    pub(crate) standing: RwSignal<Standing>,
    /// What to tell the maker.
    pub(crate) message: RwSignal<Option<Message>>,
    /// Whether the card is shown instead of the bench.
    pub(crate) card_open: RwSignal<bool>,
}

/// The bench of this page.
pub(crate) fn bench() -> Bench {
    expect_context::<Bench>()
}

fn shelf() -> Shelf<LocalStore> {
    Shelf::new(LocalStore)
}

impl Bench {
    /// Opens with what the address brings, else with the line last open, else with the demo.
    pub(crate) fn open() -> Self {
        let (design, standing, message) = opening();
        let design = RwSignal::new(design);
        let settled = RwSignal::new(design.get_untracked());
        let bench = Self {
            design,
            plan: Memo::new(move |_| design.with(Plan::of)),
            settled,
            settled_plan: Memo::new(move |_| settled.with(Plan::of)),
            units: RwSignal::new(kept_units()),
            chosen: RwSignal::new(thickest(&design.get_untracked())),
            standing: RwSignal::new(standing),
            message: RwSignal::new(message),
            card_open: RwSignal::new(false),
        };
        // A link pasted into the address bar of an open page changes only the fragment.
        let listener =
            window_event_listener(leptos::ev::hashchange, move |_| bench.follow_address());
        on_cleanup(move || listener.remove());
        bench
    }

    /// Makes a change that is finished at once.
    pub(crate) fn edit(self, edit: Edit) -> Result<(), Refusal> {
        self.try_out(edit)?;
        self.settle();
        Ok(())
    }

    /// Makes a change within a gesture that is still going on.
    pub(crate) fn try_out(self, edit: Edit) -> Result<(), Refusal> {
        let changed = self.design.with_untracked(|design| edit.apply(design))?;
        if self.design.with_untracked(|design| *design != changed) {
            self.design.set(changed);
        }
        Ok(())
    }

    /// Ends a change: scales and card follow, and the line is kept.
    pub(crate) fn settle(self) {
        let changed = self
            .design
            .with_untracked(|now| self.settled.with_untracked(|before| now != before));
        if changed {
            self.settled.set(self.design.get_untracked());
            self.keep();
        }
    }

    /// Takes back a change that is not finished.
    pub(crate) fn abort(self) {
        self.design.set(self.settled.get_untracked());
    }

    /// Puts another design on the bench.
    pub(crate) fn lay_out(self, design: Design, standing: Standing) {
        self.chosen.set(thickest(&design));
        self.standing.set(standing);
        self.design.set(design.clone());
        self.settled.set(design);
    }

    /// Keeps a previewed design as a line of its own.
    pub(crate) fn keep_copy(self) {
        self.standing.set(Standing::New);
        address::forget_fragment();
        self.keep();
    }

    /// Goes back from a previewed design to one's own.
    pub(crate) fn leave_preview(self) {
        address::forget_fragment();
        let (design, standing, message) = from_shelf();
        self.lay_out(design, standing);
        self.message.set(message);
    }

    /// Puts a kept line on the bench.
    pub(crate) fn fetch(self, number: LineNumber) {
        let (design, standing, message) = laid_out(shelf().line(number));
        address::forget_fragment();
        self.lay_out(design, standing);
        self.message.set(message);
        if let Err(error) = shelf().open(number) {
            self.say(error.to_string());
        }
    }

    /// Lays out a design opened from a file, as a line of its own.
    pub(crate) fn take_in(self, design: Design) {
        address::forget_fragment();
        self.lay_out(design, Standing::New);
        self.keep();
    }

    /// Tells the maker something.
    pub(crate) fn say(self, text: String) {
        self.message.set(Some(Message {
            text,
            unreadable: None,
        }));
    }

    /// Shows lengths and sizes in other units, now and at the next visit.
    pub(crate) fn set_units(self, units: Units) {
        self.units.set(units);
        if let Err(error) = LocalStore.set(UNITS_KEY, units.key()) {
            self.say(error.to_string());
        }
    }

    /// Keeps the settled design, unless it is a preview.
    fn keep(self) {
        let number = match self.standing.get_untracked() {
            Standing::Preview => return,
            Standing::New => None,
            Standing::Kept(number) => Some(number),
        };
        match self
            .settled
            .with_untracked(|design| shelf().keep(number, design))
        {
            Ok(number) => self.standing.set(Standing::Kept(number)),
            Err(error) => self.say(error.to_string()),
        }
    }

    fn follow_address(self) {
        if let Some(shared) = from_address() {
            let (design, standing, message) = shared;
            self.lay_out(design, standing);
            self.message.set(message);
        }
    }
}

/// Lines in this browser, to choose from.
pub(crate) fn kept_lines() -> Vec<crate::shelf::Kept> {
    shelf().kept()
}

type Opening = (Design, Standing, Option<Message>);

fn opening() -> Opening {
    from_address().unwrap_or_else(from_shelf)
}

/// What the address brings: a preview, or why it cannot be shown, above one's own line.
fn from_address() -> Option<Opening> {
    Some(match link::decode(&address::fragment())? {
        Ok(design) => (design, Standing::Preview, None),
        Err(error) => {
            let (design, standing, _) = from_shelf();
            (
                design,
                standing,
                Some(Message {
                    text: error.to_string(),
                    unreadable: None,
                }),
            )
        }
    })
}

fn from_shelf() -> Opening {
    laid_out(shelf().found())
}

fn laid_out(found: Found) -> Opening {
    match found {
        Found::Nothing => (demo::demo(), Standing::New, None),
        Found::Line(number, design) => (*design, Standing::Kept(number), None),
        Found::NoStorage(error) => (
            demo::demo(),
            Standing::New,
            Some(Message {
                text: error.to_string(),
                unreadable: None,
            }),
        ),
        Found::Unreadable { text, why, .. } => {
            let said = format!(
                "Your kept line cannot be read: {why} It stays untouched; the demo is shown instead."
            );
            (
                demo::demo(),
                Standing::New,
                Some(Message {
                    text: said,
                    unreadable: Some(text),
                }),
            )
        }
    }
}

fn kept_units() -> Units {
    LocalStore
        .get(UNITS_KEY)
        .ok()
        .flatten()
        .and_then(|key| Units::from_key(&key))
        .unwrap_or_default()
}

/// The point most often wanted first: the beginning of the belly.
fn thickest(design: &Design) -> usize {
    let points = &design.draft().points;
    let largest = points
        .iter()
        .map(|point| point.diameter_mm)
        .fold(0.0, f64::max);
    points
        .iter()
        .position(|point| point.diameter_mm == largest)
        .unwrap_or(0)
}
