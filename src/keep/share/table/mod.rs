//! Tables for spreadsheets: CSV by RFC 4180, in UTF-8.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-`, `@` or a tab for a formula, whatever the file's maker meant, and
//! a line's name may come from a stranger's link. So a *text* that begins so, be it after blanks, is put between “ and ”: no
//! program takes that for a formula, none strips it as it strips a blank, and a reader sees what was done. An apostrophe in
//! front would do in some programs and be shown in others. Numbers stay numbers, with their minus.

mod csv;
mod rows;

pub(crate) use csv::text_of;
pub use csv::{Cell, Table};
pub use rows::{bobbins, bobbins_name, schedule, schedule_name};
