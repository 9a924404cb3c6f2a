//! The check of a site on its host: every file of the build is fetched as a browser would, and what is wrong is said in words,
//! with what to do.
//!
//! What a host should send stands in `headers`; what the build is of, in the site's own list. So the check needs nothing but the
//! address.

mod ask;
mod check;
mod file;
mod head;
mod report;

#[cfg(test)]
mod build_tests;
#[cfg(test)]
mod file_tests;
#[cfg(test)]
mod hosts_for_tests;

pub(crate) use check::check;
