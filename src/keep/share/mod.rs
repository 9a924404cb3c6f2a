//! Designs and measured lines on their way out and in: as a link ([`link`]) and as a file ([`mod@file`], [`measured_file`]); the
//! steps of a sketch ([`steps`]); dressing days as a calendar ([`calendar`]); schedule and bobbins as tables ([`table`]); readings
//! along a line as a table, in and out ([`readings`]); the card as a picture ([`card_svg`]).

pub mod calendar;
pub mod card_svg;
mod code;
pub(crate) mod envelope;
pub mod file;
mod found;
pub mod link;
pub mod measured_file;
mod payload;
pub mod readings;
mod said;
pub(crate) mod shape;
pub mod steps;
pub mod table;
