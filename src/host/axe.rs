//! axe-core (MPL-2.0), which looks for barriers on the page. Tests put it into the page they look at; it is neither shipped nor
//! kept with the sources.

use super::Outcome;
use super::project::{Project, finish};
use std::fs;

/// Exactly this version: another has other rules.
const VERSION: &str = "4.14.1";

/// Nothing but the package itself: none of its scripts runs, nothing is recorded or reported.
const OPTIONS: &str = "install --no-save --ignore-scripts --no-package-lock --no-audit --no-fund --no-update-notifier \
                       --loglevel=error --prefix .tools/axe";

/// Makes sure that the library is there.
pub(crate) fn ensure(project: &Project) -> Outcome {
    if is_there(project) {
        return Ok(());
    }
    eprintln!("Installing axe-core {VERSION} into .tools: it checks the page for barriers.");
    let mut npm = project.command("npm");
    npm.args(OPTIONS.split_whitespace());
    finish(npm.arg(format!("axe-core@{VERSION}")))?;
    let is_there = is_there(project).then_some(());
    is_there.ok_or_else(|| "axe-core is not complete. Delete .tools/axe and try again.".into())
}

/// Whether the library is there, whole and of the right version: its script names the version in its first line, as in
/// `/*! axe v1.2.3`, and has its end.
pub(crate) fn is_there(project: &Project) -> bool {
    let script = project.tools().join("axe/node_modules/axe-core/axe.min.js");
    fs::read_to_string(script).is_ok_and(|script| is_whole(&script))
}

fn is_whole(script: &str) -> bool {
    let first = script.lines().next().unwrap_or_default();
    first.strip_prefix("/*! axe v") == Some(VERSION) && script.trim_end().ends_with("window:this);")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_a_script_or_another_version_does_not_count() {
        let script = format!("/*! axe v{VERSION}\n * more\n */\n!function(){{}}(window:this);\n");
        assert!(is_whole(&script));
        assert!(!is_whole(&script.replace(VERSION, "4.1.2")));
        assert!(!is_whole(&script[..40]) && !is_whole(""));
    }
}
