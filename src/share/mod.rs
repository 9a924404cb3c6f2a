//! Designs on their way out and in: as a link ([`link`]) and as a file ([`mod@file`]); the steps of a sketch ([`steps`]);
//! dressing days as a calendar ([`calendar`]); and a link as a code to scan ([`code`]).

pub mod calendar;
pub mod code;
pub(crate) mod envelope;
pub mod file;
mod first;
pub mod link;
mod second;
pub mod steps;
mod wire;
