//! What a finished site says of its build, read again: its list, and the numbers in page and worker.

use super::Outcome;
use super::worker::{FOLDER, NUMBERED, address, place_of_number};
use serde::Deserialize;
use std::collections::BTreeMap;

/// The list as read again.
#[derive(Deserialize)]
pub(crate) struct List {
    /// The number of the build.
    pub(crate) build: String,
    /// Addresses from the folder of the site, with the SHA-256 of each.
    pub(crate) files: BTreeMap<String, String>,
}

impl List {
    /// Reads a list, which may come from anywhere: its names lead to no place outside the site.
    ///
    /// # Errors
    /// What is wrong with it.
    pub(crate) fn parse(text: &[u8]) -> Outcome<Self> {
        let list: Self = serde_json::from_slice(text).map_err(|error| error.to_string())?;
        let is_inside = |name: &str| {
            let is_plain = |part: &str| address(part).is_ok() && !part.trim_matches('.').is_empty();
            name == FOLDER || name.split('/').all(is_plain)
        };
        match list.files.keys().find(|name| !is_inside(name)) {
            Some(name) => Err(format!("it names “{name}”, which is no file of a site")),
            None => Ok(list),
        }
    }
}

/// The number of the build that a page is of.
pub(crate) fn number_of_page(page: &str) -> Option<&str> {
    place_of_number(page).map(|place| &page[place])
}

/// The number of the build that a worker is of.
pub(crate) fn number_of_worker(worker: &str) -> Option<&str> {
    let number = worker.strip_prefix(NUMBERED)?;
    number.split_once('"').map(|(number, _)| number)
}
