//! Makes the built site small on its way to the visitor: its program packs better, its scripts come bare, and its sheets as one.

mod order;
mod program;
mod script;
mod sheets;

use std::fs;
use std::io::{Error, Result};
use std::path::Path;

/// Packs the site in the folder.
///
/// # Errors
/// When it cannot be read or written, or holds no page, or a program that is none.
pub(crate) fn finish(dist: &Path) -> Result<()> {
    sheets::join(dist)?;
    for entry in fs::read_dir(dist)? {
        pack(&entry?.path())?;
    }
    Ok(())
}

fn pack(file: &Path) -> Result<()> {
    match file.extension().and_then(|ending| ending.to_str()) {
        Some("wasm") => {
            let packable = program::packable(&fs::read(file)?).map_err(Error::other)?;
            fs::write(file, packable)
        }
        Some("js") => fs::write(file, script::bare(&fs::read_to_string(file)?)),
        _ => Ok(()),
    }
}
