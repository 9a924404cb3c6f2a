//! The state of the page: its signals, and what they are set from.

use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;
use web_sys::{Event, KeyboardEvent};

use super::chart_choices::ChartChoices;
use super::ghost::Ghost;
use super::opening::{Message, Opening, StorageState, kept_wound, opening};
use crate::base::choice::Choice as _;
use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::braid::ladder::LadderCache;
use crate::design::{Design, DraftPoint};
use crate::edit::sketch::Sketch;
use crate::edit::snap::{Guide, Snap};
use crate::edit::turnover::Wish;
use crate::edit::{MoveLimit, MoveOptions};
use crate::keep::shelf::{LineNumber, SeenRevision, Store as _};
use crate::page::browser::storage::{LocalStore, preference};
use crate::page::browser::text_input::{self, is_typed_in};
use crate::page::view::sheet_kind::SheetKind;
use crate::page::view::window_events::on_window;
use crate::paper::chart::drag::Drag;
use crate::paper::chart::finish::Finish;
use crate::paper::chart::point_arrow::PointArrow;
use crate::paper::chart::scale::Manner;
use crate::paper::chart::visible_range::VisibleRange;
use crate::plan::Plan;
use crate::plan::wound::Wound;

/// Key under which the reader's units are kept.
const UNITS_KEY: &str = "taperwright/units";

/// The place of the line that readout, crosshair and the pictures of the machine show.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Cursor {
    /// The chosen control point.
    Point,
    /// A place under a mouse or pen that hovers.
    Place(Length),
}

/// A design with its plan.
#[derive(Clone, Debug)]
pub(crate) struct Shown {
    /// The design.
    pub(crate) design: Design,
    /// Its plan.
    pub(crate) plan: Arc<Plan>,
}

/// A move that was held back: where the hand wanted the chosen point, and what was in the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct HeldPoint {
    /// Which point.
    pub(crate) index: usize,
    /// Where the hand wanted it.
    pub(crate) wish: DraftPoint,
    /// What was in the way.
    pub(crate) by: MoveLimit,
}

/// Signals shared by all of the page.
#[derive(Clone, Copy)]
pub(crate) struct Bench {
    /// The design as it is at this moment, also in the middle of a drag. What is drawn reads it by [`Bench::drawn`].
    pub(crate) design: RwSignal<Design>,
    /// Its plan.
    pub(crate) plan: Memo<Arc<Plan>>,
    /// Design and plan as the figures beside the chart show them: during a drag a moment late.
    pub(crate) shown: RwSignal<Shown>,
    /// The design after the last finished change: scales, card and storage follow this one.
    pub(crate) settled: RwSignal<Design>,
    /// Its plan.
    pub(crate) settled_plan: Memo<Arc<Plan>>,
    /// Units the reader wants.
    pub(crate) units: RwSignal<Units>,
    /// Index of the chosen control point.
    pub(crate) chosen: RwSignal<usize>,
    /// The place that the page shows.
    pub(crate) cursor: RwSignal<Cursor>,
    /// Where the design is kept.
    pub(crate) storage_state: RwSignal<StorageState>,
    /// What moves along when a point is moved.
    pub(crate) move_options: RwSignal<MoveOptions>,
    /// What points snap to.
    pub(crate) snap: RwSignal<Snap>,
    /// The sizes that follow from it.
    pub(crate) guides: Memo<Vec<Guide>>,
    /// The drag under way, if any.
    pub(crate) drag: RwSignal<Option<Drag>>,
    /// The last move, where it was held back.
    pub(crate) held: RwSignal<Option<HeldPoint>>,
    /// The state of the line the chart shows: bare, oiled or finished.
    pub(crate) finish: RwSignal<Finish>,
    /// The part of the line the chart shows, as lengths of its paper; all of it where there is none.
    pub(crate) sight: RwSignal<Option<VisibleRange>>,
    /// How the chart is drawn.
    pub(crate) chart: ChartChoices,
    /// What the signals are set from.
    pub(super) state: StoredValue<BenchState>,
    /// The ladders this page has searched, so that a drag does not wait for one again.
    ladders: StoredValue<LadderCache>,
    /// Whether there is something to undo, and to redo.
    pub(super) steps: RwSignal<(bool, bool)>,
    /// The message at the top of the page.
    pub(crate) message: RwSignal<Option<Message>>,
    /// What the last finished change was besides a change, for those who listen: undone, redone, saved for the first time.
    pub(crate) spoken: RwSignal<&'static str>,
    /// Which bobbins of the line are wound.
    pub(crate) wound: RwSignal<Wound>,
    /// The open sheet, if any.
    pub(crate) sheet: RwSignal<Option<SheetKind>>,
    /// Another line to compare with.
    pub(crate) ghost: RwSignal<Option<Ghost>>,
    /// How the line is to turn over, while arrows on the handles lead there.
    pub(crate) wish: RwSignal<Option<Wish>>,
    /// Those arrows, tip first.
    pub(crate) arrows: RwSignal<Vec<PointArrow>>,
    /// What they mean.
    pub(crate) guide: RwSignal<String>,
}

/// What the signals are set from.
#[derive(Debug)]
pub(super) struct BenchState {
    /// Design, settled design and steps: what the signals are set from.
    pub(super) sketch: Sketch,
    /// What is known of how the line is kept.
    pub(super) saved: SavedState,
}

/// How the line on the bench is kept.
#[derive(Clone, Debug)]
pub(super) struct SavedState {
    /// Which state of it is on the bench.
    pub(super) seen: Option<SeenRevision>,
    /// Whether it was said that steps could not be kept.
    pub(super) steps_missed: bool,
    /// Whether the browser would not keep the last change.
    pub(super) failed: bool,
}

/// The bench of this page.
pub(crate) fn bench() -> Bench {
    expect_context::<Bench>()
}

impl Bench {
    /// Opens with what the address brings, else with the line last open, else with the demo.
    pub(crate) fn open() -> Self {
        let Opening {
            sketch,
            storage_state,
            seen,
            message,
        } = opening();
        let design = RwSignal::new(sketch.now().clone());
        let settled = RwSignal::new(sketch.settled().clone());
        let ladders = StoredValue::new(LadderCache::default());
        let plan = Memo::new(move |_| Arc::new(design.with(|design| plan_with(ladders, design))));
        let shown = RwSignal::new(Shown {
            design: design.get_untracked(),
            plan: plan.get_untracked(),
        });
        let snap = RwSignal::new(Snap::default());
        let drag = RwSignal::new(None::<Drag>);
        let is_by_finger =
            Memo::new(move |_| drag.with(|drag| drag.is_some_and(|drag| drag.is_by_finger())));
        let bench = Self {
            design,
            plan,
            shown,
            settled,
            ladders,
            settled_plan: Memo::new(move |_| {
                settled.with(|settled| {
                    // Mostly the one that was calculated last while it was changed.
                    if design.with_untracked(|design| design == settled) {
                        plan.get_untracked()
                    } else {
                        Arc::new(plan_with(ladders, settled))
                    }
                })
            }),
            units: RwSignal::new(kept_units()),
            chosen: RwSignal::new(design.with_untracked(belly_begins)),
            cursor: RwSignal::new(Cursor::Point),
            storage_state: RwSignal::new(storage_state),
            move_options: RwSignal::new(MoveOptions::default()),
            snap,
            guides: Memo::new(move |_| {
                let snap = snap.get();
                let snap = if is_by_finger.get() {
                    snap.of_finger()
                } else {
                    snap
                };
                settled.with(|design| snap.guides(design))
            }),
            drag,
            held: RwSignal::new(None),
            finish: RwSignal::new(Finish::Finished),
            sight: RwSignal::new(None),
            chart: ChartChoices::open(),
            steps: RwSignal::new(steps_of(&sketch)),
            state: StoredValue::new(BenchState {
                sketch,
                saved: SavedState {
                    seen,
                    steps_missed: false,
                    failed: false,
                },
            }),
            spoken: RwSignal::new(""),
            message: RwSignal::new(message),
            wound: RwSignal::new(kept_wound(seen.as_ref())),
            sheet: RwSignal::new(None),
            ghost: RwSignal::new(None),
            wish: RwSignal::new(None),
            arrows: RwSignal::new(Vec::new()),
            guide: RwSignal::new(String::new()),
        };
        // A link pasted into the address bar of an open page changes only the fragment.
        on_window(ev::hashchange, move |_| bench.follow_address());
        on_window(ev::keydown, move |event| bench.follow_keys(&event));
        on_window(ev::storage, move |event| bench.hear(event.key().as_deref()));
        for kind in ["visibilitychange", "pagehide"] {
            on_window(ev::Custom::<Event>::new(kind), move |_| {
                if text_input::is_hidden_by(kind) {
                    bench.hide();
                }
            });
        }
        bench
    }

    /// Reads the design as it is at this moment.
    pub(crate) fn drawn<T>(self, say: impl FnOnce(&Design) -> T) -> T {
        self.design.with(say)
    }

    /// The plan of another design, with the ladders searched for this bench.
    pub(crate) fn plan_of(self, design: &Design) -> Plan {
        plan_with(self.ladders, design)
    }

    /// The number of the line, where it is stored.
    pub(crate) fn number(self) -> Option<LineNumber> {
        match self.storage_state.get() {
            StorageState::Kept(number) => Some(number),
            StorageState::Unkept { number, .. } => number,
            StorageState::New | StorageState::Preview => None,
        }
    }

    /// The place of the cursor on the line.
    pub(crate) fn place(self) -> Length {
        self.drawn(|design| self.place_on(design))
    }

    /// The place of the cursor on the line as a design has it.
    pub(crate) fn place_on(self, design: &Design) -> Length {
        let points = &design.draft().points;
        let metres = |index: usize| Length::from_metres(points[index.min(points.len() - 1)].at_m);
        match self.cursor.get() {
            Cursor::Place(at) => at.min(metres(points.len())),
            Cursor::Point => metres(self.chosen.get()),
        }
    }

    /// Chooses a point, and moves the chart so that it is shown.
    pub(crate) fn choose(self, index: usize) {
        self.held.set(None);
        self.chosen.set(index);
        self.cursor.set(Cursor::Point);
        self.bring_into_sight();
    }

    /// Moves the part of the line that is shown so far that the chosen point is seen.
    pub(super) fn bring_into_sight(self) {
        if let (Some(sight), Cursor::Point) =
            (self.sight.get_untracked(), self.cursor.get_untracked())
        {
            let line = self.settled_plan.with_untracked(|plan| plan.length);
            let (place, folds) = (untrack(|| self.place()), self.chart.folds.get_untracked());
            let showing = sight.showing(folds.paper_of(place), folds.paper_of(line));
            if showing != sight {
                self.sight.set(Some(showing));
            }
        }
    }

    /// Shows a message at the top of the page.
    pub(crate) fn say(self, text: String) {
        self.message.set(Some(Message::of(text)));
    }

    /// Shows lengths and sizes in other units, now and at the next visit.
    pub(crate) fn set_units(self, units: Units) {
        self.units.set(units);
        self.keep_preference(UNITS_KEY, units.key());
    }

    /// Draws the chart in another manner, now and at the next visit.
    pub(crate) fn set_manner(self, manner: Manner) {
        self.chart.manner.set(manner);
        for (key, value) in ChartChoices::kept_of(manner) {
            self.keep_preference(key, value);
        }
    }

    /// Keeps a preference for the next visit; says so where the browser would not.
    pub(crate) fn keep_preference(self, key: &str, value: &str) {
        if let Err(error) = LocalStore.set(key, value) {
            self.say(error.to_string());
        }
    }

    /// Ctrl or Cmd with Z, and with Shift or Y the other way. A field that is being typed in keeps its own undo; below a sheet that
    /// does not show the change, nothing is undone unseen.
    fn follow_keys(self, event: &KeyboardEvent) {
        let typing = event.target().is_some_and(|target| is_typed_in(&target));
        let sheet = self.sheet.get_untracked();
        let is_hidden = sheet.is_some_and(|sheet| !sheet.shows_changes());
        if typing || is_hidden || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match (event.key().to_lowercase().as_str(), event.shift_key()) {
            ("z", false) => self.undo(),
            ("z", true) | ("y", _) => self.redo(),
            _ => return,
        }
        event.prevent_default();
    }
}

/// The plan of a design, its ladder from those searched before where it is among them.
fn plan_with(ladders: StoredValue<LadderCache>, design: &Design) -> Plan {
    let plan = ladders.try_update_value(|ladders| Plan::with(design, ladders));
    plan.unwrap_or_else(|| Plan::of(design))
}

/// Index of the point most often wanted first.
pub(super) fn belly_begins(design: &Design) -> usize {
    design.taper().belly().0
}

/// Whether there is something to undo, and to redo.
pub(super) fn steps_of(sketch: &Sketch) -> (bool, bool) {
    (!sketch.past().is_empty(), !sketch.future().is_empty())
}

/// The units kept at an earlier visit.
fn kept_units() -> Units {
    let key = preference(UNITS_KEY);
    key.and_then(|key| Units::from_key(&key))
        .unwrap_or_default()
}
