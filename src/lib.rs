//! Taperwright plans the braiding of tapered fly lines.
//!
//! A maker draws a taper; the plan says how many threads each stretch takes, where to add and to drop each one, which
//! gear to fit, what to wind on each bobbin, what the dressed line will weigh and which line class that is.
//!
//! # One data flow
//!
//! ```text
//! pointer, key, field, link, file  →  Edit  →  Design (always valid)  →  Plan (pure function of Design)  →  views
//!                                               │
//!                                               └→ link · file · shelf · printed card
//! ```
//!
//! A [`design::Design`] is what the maker decides; a [`plan::Plan`] is all that follows from it. [`plan::Plan::of`] is
//! total and deterministic, and free of I/O, clock and browser. Views read the plan and compute nothing.
//!
//! ```
//! use taperwright::design::{DraftPoint, demo::demo};
//! use taperwright::edit::{Edit, Manner};
//! use taperwright::plan::Plan;
//!
//! let design = demo();
//! assert_eq!(Plan::of(&design).verdict.number(), Some(5));
//!
//! // The belly drawn a twelfth of a millimetre thicker makes a line one class heavier.
//! let point = DraftPoint { diameter_mm: 1.17, ..design.draft().points[2] };
//! let thicker = Edit::Place { index: 2, point, manner: Manner::default() }.apply(&design)?;
//! assert_eq!(Plan::of(&thicker).verdict.number(), Some(6));
//! # Ok::<(), taperwright::design::refusal::Refusal>(())
//! ```
//!
//! What comes from outside is a draft until it has been parsed; what is wrong with it is said about the input.
//!
//! ```
//! use taperwright::design::{Design, demo::demo};
//!
//! let mut draft = demo().draft().clone();
//! draft.gears.clear();
//! let refusal = Design::parse(draft).unwrap_err();
//! assert!(refusal.to_string().contains("at least one change gear"));
//! ```
//!
//! # The rooms
//!
//! | room | what it knows |
//! |---|---|
//! | [`units`] | quantities in SI; reading and writing the trade's units |
//! | [`yarn`] | fibres, ends, threads |
//! | [`braid`] | the braid at one station: angle, diameter, path and lay together |
//! | [`track`] | carriers, crossings, whether a part load holds together |
//! | [`ladder`] | the order in which carriers come in and go out |
//! | [`taper`] | control points, the drawn diameter, the parts of a line |
//! | [`threads`] | from the drawn diameter to whole threads: levels, and where the line passes between them |
//! | [`takeoff`] | gears, trains, and the lay they draw |
//! | [`gearing`] | which gears are fitted where |
//! | [`convergence`] | how the angle follows a change, late |
//! | [`stretch`] | stretches of constant threads and gears, and the line they make; masses between two places |
//! | [`layout`] | where along the line what is done: stops, least distances, the maker's pins |
//! | [`recipe`] | the maker's sequence of dressing steps, their values and cautions |
//! | [`dressing`] | what oil, varnish and grease add, step by step |
//! | [`vacuum`] | air drawn from a jar: absolute and gauge pressure, height, what oil can fill |
//! | [`days`] | days of the calendar, the course of a dressing over them, a line's diary |
//! | [`parameters`] | the numbers that are learnt from measuring, and how well they are known |
//! | [`weight`] | the first 30 ft and its class |
//! | [`letters`] | silk size letters |
//! | [`bobbins`] | how much thread each carrier gives, whether it fits, what to ply |
//! | [`design`] | what the maker decides, and why an input is refused |
//! | [`edit`] | the only way a design changes |
//! | [`estimate`] | unknown numbers from measured ones, with what was believed before |
//! | [`book`] | the bench book: what was measured on swatches and lines, and what is learnt from it |
//! | [`sketch`] | a design while somebody works on it: gestures, undo and redo |
//! | [`snap`] | whole threads, size letters and round lengths a point is drawn to |
//! | [`plan`] | all that follows: stretches, schedule, weights, notices |
//! | [`run`] | a line at the machine: what is done, where it stands, what went otherwise |
//! | [`finder`] | searching for a thread plan |
//! | [`matching`] | moving one thing until the head has the class wished for |
//! | [`starts`] | ready drawings to begin a new line from |
//! | [`figures`] | the table of figures shown, each with its reasons |
//! | [`compare`] | two lines beside each other: figures, control points, differences |
//! | [`chart`] | the drawing and the pictures of the machine as numbers and path data; grips and drags |
//! | [`words`] | what carriers, actions, notices and pins are called on screen, on paper and in files |
//! | [`card`] | the taper card, laid out on sheets of paper |
//! | [`terms`] | the words of the trade: notes, drawings, and where they are explained |
//! | [`looks`] | light, dark, bright: how the page is coloured |
//! | [`share`] | designs as links and files |
//! | [`shelf`] | lines and workshops kept in the browser |
//! | `checksum` | the sum by which links and kept files tell whether they came whole |
//! | `browser` | thin wrappers of the web platform (only in the browser build) |
//! | `view` | the page (only in the browser build) |
//!
//! The program behind `cargo run` (`src/host`) belongs to the native binary and knows nothing of lines.

pub mod bobbins;
pub mod book;
pub mod braid;
pub mod card;
pub mod chart;
mod checksum;
pub mod choice;
pub mod compare;
pub mod convergence;
pub mod days;
pub mod design;
pub mod dressing;
pub mod edit;
pub mod estimate;
pub mod figures;
pub mod finder;
pub mod gearing;
pub mod ladder;
pub mod layout;
pub mod letters;
pub mod looks;
pub mod matching;
pub mod parameters;
pub mod plan;
pub mod recipe;
pub mod run;
pub mod share;
pub mod shelf;
pub mod sketch;
pub mod snap;
pub mod starts;
pub mod stretch;
pub mod takeoff;
pub mod taper;
pub mod terms;
pub mod threads;
pub mod track;
pub mod units;
pub mod vacuum;
pub mod weight;
pub mod words;
pub mod yarn;

#[cfg(target_arch = "wasm32")]
mod browser;
#[cfg(target_arch = "wasm32")]
pub mod view;
