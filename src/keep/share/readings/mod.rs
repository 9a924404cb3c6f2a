//! Tables of readings on their way in and out: places of a line and the diameters measured there, as a spreadsheet copies them
//! or a CSV file holds them.
//!
//! ```text
//! # Line: Heron Weir
//! Place (m);d1 (mm);d2 (mm);Remark
//! 0,5;0,95;0,94;
//! 1,0;0,97;0,96;after the knot
//! ```
//!
//! - **Text** in UTF-8, with or without a mark of byte order, at most [`LARGEST`] bytes; lines end with CR LF, LF or CR.
//! - **Cells** are separated by tabs, semicolons, upright strokes, commas, or blanks, in this order where several would do. A first
//!   line `sep=;` decides. Cells may stand in quotes (RFC 4180); a quote that nothing closes within 8,000 bytes is a
//!   letter. Separators at the ends of a row, empty rows and rows that begin with `#` are passed by.
//! - **Numbers** have a decimal comma or a decimal dot, all of a table the same; then the other mark groups thousands. Where
//!   the table does not decide it, `1,200` is refused. Digits of every script are read.
//! - **Units** stand in the heading, in a row of their own, or in the cells (`3 ft 6`, `10' 6"`, `0.95 mm`). A unit in a cell
//!   applies to that cell. Without any, sizes decide, and the table says that they did.
//! - **Columns** are known by their heading, in any order; several diameters of one place are several readings. Without headings,
//!   the column that rises or falls all along is the place. What is not used is named in [`ReadTable::passed_by`].
//! - **A table on its side**, a row of places over rows of diameters, is turned first.
//!
//! Every row that is not blank is read, is a heading or a comment, or is listed with a reason. No more than 10,000 such rows,
//! 200,000 cells and 4,096 cells of one row are looked at; more are refused.

mod blanks;
mod cells;
mod columns;
mod comment;
mod decimals;
mod find_separator;
mod grid;
mod head;
mod heading;
mod lines;
mod place;
mod read;
mod row;
mod separator;
mod sheet;
mod size;
mod table;
mod values;
mod write;

pub use read::read;
pub use table::{AskedUnits, LARGEST, ReadTable, Rows, TableError, UnreadRow};
pub use write::write;
