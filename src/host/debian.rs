//! Programs of the machine that the tests start: found on the search path, or installed from Debian's packages.

use super::project::{Project, answer, finish, is_on_path};
use super::{Outcome, axe};
use std::path::Path;

/// Each program, or module of Python, with its Debian package.
const NEEDED: [(&str, &str); 9] = [
    ("chromium", "chromium"),
    ("chromedriver", "chromium-driver"),
    // Debian has no driver for it: see `tools`.
    ("firefox-esr", "firefox-esr"),
    ("WebKitWebDriver", "webkit2gtk-driver"),
    ("Xvfb", "xvfb"),
    ("pdftotext", "poppler-utils"),
    ("python3", "python3"),
    ("numpy", "python3-numpy"),
    ("npm", "npm"),
];

/// Debian's own Python first: its packages belong to that one, and another may precede it on the search path.
const PYTHONS: [&str; 2] = ["/usr/bin/python3", "python3"];

/// Makes sure that all programs are there: installs them on Debian as root, says what to type elsewhere.
pub(crate) fn ensure(project: &Project) -> Outcome {
    let is_there = |program: &str| is_there(project, program);
    let packages = missing(is_there);
    if packages.is_empty() {
        return Ok(());
    }
    if !may_install(project) {
        return Err(advice(&packages));
    }
    eprintln!(
        "Installing from Debian, one to four minutes: {}",
        packages.join(", ")
    );
    apt_get(project, &["update"])?;
    let install = ["install", "--yes", "--no-install-recommends"];
    apt_get(project, &[&install, packages.as_slice()].concat())?;
    let still = missing(is_there);
    still.is_empty().then_some(()).ok_or_else(|| advice(&still))
}

fn is_there(project: &Project, program: &str) -> bool {
    match program {
        "numpy" => has_module(project, program),
        // It has only one thing to fetch.
        "npm" => axe::is_there(project) || is_on_path(program),
        program => is_on_path(program),
    }
}

/// Whether a Python of this machine has a module.
fn has_module(project: &Project, module: &str) -> bool {
    let question = format!("import {module}");
    PYTHONS
        .iter()
        .any(|python| answer(project.command(python).args(["-c", &question])).is_some())
}

/// Packages of the programs that are not there.
fn missing(is_there: impl Fn(&str) -> bool) -> Vec<&'static str> {
    let missing = NEEDED.iter().filter(|(program, _)| !is_there(program));
    missing.map(|(_, package)| *package).collect()
}

/// The line to type for a person who may install programs here.
fn advice(packages: &[&str]) -> String {
    let list = packages.join(" ");
    format!(
        "The tests need programs that are not on this machine. On Debian and similar systems type\n\n    sudo \
         apt-get update && sudo apt-get install {list}\n\nOn other systems install:\n- Chromium with its \
         chromedriver,\n- Firefox ESR,\n- WebKitGTK with its WebKitWebDriver and MiniBrowser, and Xvfb for it,\n- poppler \
         (for pdftotext),\n- Python 3 with NumPy,\n- Node.js with npm.\n\nThe command line must find `chromium`, \
         `chromedriver`, `firefox-esr`, `WebKitWebDriver`, `Xvfb`, `pdftotext`, `python3` and `npm`."
    )
}

fn may_install(project: &Project) -> bool {
    let user = answer(project.command("id").arg("-u"));
    let is_debian = Path::new("/etc/debian_version").exists() && is_on_path("apt-get");
    is_debian && user.as_deref() == Some("0")
}

fn apt_get(project: &Project, args: &[&str]) -> Outcome {
    let mut command = project.command("apt-get");
    command.args(args).env("DEBIAN_FRONTEND", "noninteractive");
    finish(&mut command)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_missing_is_asked_for_in_a_line_that_can_be_typed() {
        assert!(missing(|_| true).is_empty());
        let packages = missing(|program| !["chromedriver", "numpy"].contains(&program));
        assert_eq!(packages, ["chromium-driver", "python3-numpy"]);
        assert!(advice(&packages).contains("apt-get install chromium-driver python3-numpy\n"));
    }

    #[test]
    fn a_module_that_every_python_has_is_found() {
        let project = Project::at(Path::new("."));
        assert!(has_module(&project, "json"));
        assert!(!has_module(&project, "no_module_has_this_name"));
    }
}
