//! Makes the built site small on its way to the visitor: its program packs better, its scripts come bare, and its sheets as one.

mod names;
mod order;
mod program;
mod script;
mod sheets;

use names::Names;
use std::fs;
use std::io::{Error, Result};
use std::path::{Path, PathBuf};

/// Packs the site in the folder.
///
/// # Errors
/// When it cannot be read or written, or holds no page, or a program that is none.
pub(crate) fn finish(dist: &Path) -> Result<()> {
    sheets::join(dist)?;
    let files = fs::read_dir(dist)?
        .map(|entry| Ok(entry?.path()))
        .collect::<Result<Vec<_>>>()?;
    let is = |file: &&PathBuf, ending: &str| file.extension().is_some_and(|its| its == ending);
    let mut names = Names::default();
    for file in files.iter().filter(|file| is(file, "wasm")) {
        let program = fs::read(file)?;
        names = Names::of(&program).map_err(Error::other)?;
        let packable = program::packable(&program, &names).map_err(Error::other)?;
        fs::write(file, packable)?;
    }
    for file in files.iter().filter(|file| is(file, "js")) {
        let script = fs::read_to_string(file)?;
        fs::write(file, names.in_script(&script::bare(&script)))?;
    }
    Ok(())
}
