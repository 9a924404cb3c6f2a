//! What outlives a visit: links and files, the bench book, the lines and workshops kept in the browser.

pub mod book;
pub mod dropped;
pub mod share;
pub mod shelf;
