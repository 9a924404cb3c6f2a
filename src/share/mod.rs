//! Designs on their way out and in: as a link ([`link`]) and as a file ([`file`]).

pub mod file;
pub mod link;
