//! Designs on their way out and in: as a link ([`link`]) and as a file ([`mod@file`]); and the steps of a sketch
//! ([`steps`]).

pub(crate) mod envelope;
pub mod file;
mod first;
pub mod link;
mod second;
pub mod steps;
mod wire;
