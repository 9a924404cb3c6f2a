//! Makes the built site small on its way to the visitor: its program packs better, and its sheets come as one.

mod order;
mod program;
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
        let file = entry?.path();
        if file.extension().is_some_and(|end| end == "wasm") {
            let packable = program::packable(&fs::read(&file)?).map_err(Error::other)?;
            fs::write(&file, packable)?;
        }
    }
    Ok(())
}
