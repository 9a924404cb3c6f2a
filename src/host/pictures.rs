//! Pictures of the page as it is seen: every view, in three sizes, light and dark. A browser test takes them.

use super::project::{Project, finish};
use super::{Outcome, browser, site};
use std::env;
use std::fs;
use std::path::{Path, PathBuf};

/// The tests that take the pictures: those of every view, and that of the printed card.
const TAKE: [&str; 7] = [
    "test",
    "--locked",
    "--test",
    "browser",
    "--",
    "access::every_view",
    "screens::",
];

/// Brings the site up to date, takes all pictures anew, and says where they are.
pub(crate) fn take(project: &Project) -> Outcome {
    site::build(project)?;
    browser::ensure(project)?;
    let folder = folder(project);
    forget_old_ones(&folder)?;
    eprintln!("Taking the pictures: a minute or two.");
    finish(project.command("cargo").args(TAKE)).map_err(|reason| {
        format!("{reason} Not every picture was taken; the reason stands above.")
    })?;
    println!("{} pictures are in {}", count(&folder)?, folder.display());
    Ok(())
}

/// Cargo's folder, beside what it compiles.
fn folder(project: &Project) -> PathBuf {
    let target = env::var_os("CARGO_TARGET_DIR").map(PathBuf::from);
    let target = target.unwrap_or_else(|| PathBuf::from("target"));
    project.root().join(target).join("screens")
}

/// A picture of a view that is no more would deceive.
fn forget_old_ones(folder: &Path) -> Outcome {
    if !folder.exists() {
        return Ok(());
    }
    fs::remove_dir_all(folder).map_err(|error| format!("Old pictures cannot be removed: {error}."))
}

/// How many there are; none is no success.
fn count(folder: &Path) -> Outcome<usize> {
    let pictures = fs::read_dir(folder).map_or(0, Iterator::count);
    if pictures == 0 {
        return Err(format!("No picture came to {}.", folder.display()));
    }
    Ok(pictures)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn old_pictures_go_and_none_is_no_success() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("screens");
        assert!(forget_old_ones(&folder).is_ok() && count(&folder).is_err());
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join("bench.png"), "").unwrap();
        assert_eq!(count(&folder), Ok(1));
        assert!(forget_old_ones(&folder).is_ok() && count(&folder).is_err());
    }
}
