//! The library that looks for barriers on the page: axe-core, MPL-2.0. Tests put it into the page they look at; it is
//! neither shipped nor kept with the sources.

use super::Outcome;
use super::debian::Needed;
use super::project::{Project, finish};
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

/// The library's name where it is fetched.
const PACKAGE: &str = "axe-core";
/// Exactly this one: another knows other rules.
const VERSION: &str = "4.14.1";

/// What fetches it.
const NPM: Needed = Needed {
    programs: &[("npm", "npm")],
    by: "The tests of accessibility",
    patience: "one to three minutes",
    elsewhere: "elsewhere install Node.js with npm, so that `npm` starts from the command line.",
};

/// Nothing but the package itself: none of its scripts is run, nothing is written down, nobody is told.
const OPTIONS: [&str; 7] = [
    "--no-save",
    "--ignore-scripts",
    "--no-package-lock",
    "--no-audit",
    "--no-fund",
    "--no-update-notifier",
    "--loglevel=error",
];

/// Makes sure that the library is there; says so when it installs it, and is silent when there is nothing to do.
pub(crate) fn ensure(project: &Project) -> Outcome {
    let folder = folder(project);
    let found = version_in(&folder);
    if found.as_deref() == Some(VERSION) {
        return Ok(());
    }
    NPM.ensure(project)?;
    announce(found.as_deref());
    install(project, &folder)?;
    match version_in(&folder) {
        Some(version) if version == VERSION => Ok(()),
        _ => Err(format!(
            "{PACKAGE} was installed but is not what it should be. Delete .tools/axe and try again."
        )),
    }
}

fn folder(project: &Project) -> PathBuf {
    project.tools().join("axe")
}

/// The version that the script gives in its first line: `/*! axe v1.2.3`.
fn version_in(folder: &Path) -> Option<String> {
    let script = folder.join("node_modules").join(PACKAGE).join("axe.min.js");
    let script = fs::read_to_string(script).ok()?;
    let version = script.lines().next()?.strip_prefix("/*! axe v")?;
    Some(version.trim().to_owned())
}

fn announce(found: Option<&str>) {
    let instead = found
        .map(|found| format!(" in place of {found}"))
        .unwrap_or_default();
    eprintln!(
        "Installing {PACKAGE} {VERSION}{instead} into .tools: it looks for barriers on the page. A download of some \
         megabytes."
    );
}

/// Installed beside its place and moved there when complete, so that an interrupted install leaves no half library.
fn install(project: &Project, folder: &Path) -> Outcome {
    let parts = project.tools().join("axe-arriving");
    for old in [folder, &parts] {
        // Nothing to remove is the usual case; what cannot be removed stops the move below.
        drop(fs::remove_dir_all(old));
    }
    fetch(project, parts.as_os_str())?;
    fs::rename(&parts, folder)
        .map_err(|error| format!("{PACKAGE} cannot be put into .tools: {error}."))
}

fn fetch(project: &Project, into: &OsStr) -> Outcome {
    let mut npm = project.command("npm");
    npm.args(["install", "--prefix"]).arg(into).args(OPTIONS);
    npm.arg(format!("{PACKAGE}@{VERSION}"));
    finish(&mut npm).map_err(|reason| format!("{reason} {PACKAGE} is not installed."))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with_script(script: &str) -> Option<String> {
        let place = tempfile::tempdir().unwrap();
        let inside = place.path().join("node_modules/axe-core");
        fs::create_dir_all(&inside).unwrap();
        fs::write(inside.join("axe.min.js"), script).unwrap();
        version_in(place.path())
    }

    #[test]
    fn the_script_itself_tells_its_version() {
        assert_eq!(
            with_script("/*! axe v4.1.2\n * more").as_deref(),
            Some("4.1.2")
        );
        assert_eq!(with_script("half a file"), None);
        assert_eq!(with_script(""), None);
    }

    #[test]
    fn a_library_that_is_not_there_has_no_version() {
        let place = tempfile::tempdir().unwrap();
        assert_eq!(version_in(&folder(&Project::at(place.path()))), None);
    }

    #[test]
    fn a_machine_without_npm_is_told_what_to_type() {
        assert!(NPM.missing(|_| true).is_empty());
        let missing = NPM.missing(|_| false);
        assert!(NPM.advice(&missing).contains("apt-get install npm\n"));
    }
}
