//! Designs on their way out and in: as a link ([`link`]) and as a file ([`mod@file`]).

pub mod file;
mod first;
pub mod link;
