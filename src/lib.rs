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
//! use taperwright::edit::{Edit, MoveOptions};
//! use taperwright::plan::Plan;
//!
//! let design = demo();
//! assert_eq!(Plan::of(&design).verdict.number(), Some(5));
//!
//! // The belly drawn a twelfth of a millimetre thicker makes a line one class heavier.
//! let point = DraftPoint { diameter_mm: 1.17, ..design.draft().points[2] };
//! let thicker = Edit::Place { index: 2, point, options: MoveOptions::default() }.apply(&design)?;
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
//! # The floors
//!
//! Each folder imports only from those above it in this table, and no modules import each other in a circle. A test holds
//! that (`tests/order`).
//!
//! | floor | what it knows |
//! |---|---|
//! | [`base`] | nothing of lines: quantities, rules of a number, short lists to choose from, least squares, straight pieces, samples |
//! | [`turnover`] | how a line turns over in the air, whatever it is made of: the rolling loop |
//! | [`braid`] | the trade: yarn, machine, taper, braid, take-off, dressing, weight |
//! | [`design`] | what the maker decides, and why an input is refused |
//! | [`measured`] | a line measured along its length: readings, the taper in them, what it is made of |
//! | [`photo`] | the braid read from a photograph: angle, crossings, evenness |
//! | [`plan`] | all that follows from a design: layout, schedule, bobbins, weights, notices; a line at the machine |
//! | [`edit`] | how a design changes: edits, undo, snapping, search, ready drawings |
//! | [`paper`] | what is shown: words, figures, drawings, the taper card |
//! | [`keep`] | what outlives a visit: links, files, the bench book, lines kept in the browser |
//! | [`page`] | the page itself; all but its looks is built for the browser only |
//!
//! The program behind `cargo run` (`src/host`) belongs to the native binary and knows nothing of lines.

pub mod base;
pub mod braid;
pub mod design;
pub mod edit;
pub mod keep;
pub mod measured;
pub mod page;
pub mod paper;
pub mod photo;
pub mod plan;
pub mod turnover;
