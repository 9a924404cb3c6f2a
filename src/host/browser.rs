//! The programs that the browser tests start. They come from the machine, not from this project.

use super::Outcome;
use super::project::{Project, answer, finish, is_on_path};
use std::path::Path;

/// The browser, the program that drives it, and the reader of printed PDFs, each with the Debian package it comes in.
const NEEDED: [(&str, &str); 3] = [
    ("chromium", "chromium"),
    ("chromedriver", "chromium-driver"),
    ("pdftotext", "poppler-utils"),
];

/// Makes sure that the browser tests can run: installs on Debian as root, says what to type elsewhere.
pub(crate) fn ensure(project: &Project) -> Outcome {
    let packages = missing(is_on_path);
    if packages.is_empty() {
        return Ok(());
    }
    let may_install =
        is_on_path("apt-get") && Path::new("/etc/debian_version").exists() && is_root(project);
    if !may_install {
        return Err(advice(&packages));
    }
    eprintln!(
        "Installing {} from Debian: the browser tests need them. One to three minutes.",
        packages.join(", ")
    );
    install(project, &packages)?;
    let still = missing(is_on_path);
    still.is_empty().then_some(()).ok_or_else(|| advice(&still))
}

fn missing(is_there: impl Fn(&str) -> bool) -> Vec<&'static str> {
    NEEDED
        .iter()
        .filter(|(program, _)| !is_there(program))
        .map(|(_, package)| *package)
        .collect()
}

fn is_root(project: &Project) -> bool {
    answer(project.command("id").arg("-u")).is_some_and(|id| id == "0")
}

fn install(project: &Project, packages: &[&str]) -> Outcome {
    apt_get(project, &["update"])?;
    apt_get(
        project,
        &[&["install", "--yes", "--no-install-recommends"], packages].concat(),
    )
}

fn apt_get(project: &Project, args: &[&str]) -> Outcome {
    finish(
        project
            .command("apt-get")
            .args(args)
            .env("DEBIAN_FRONTEND", "noninteractive"),
    )
    .map_err(|reason| format!("{reason} The line was `apt-get {}`.", args.join(" ")))
}

/// The exact line for whoever may install programs here.
fn advice(packages: &[&str]) -> String {
    let list = packages.join(" ");
    format!(
        "The browser tests need programs that are not on this machine. On Debian and its relatives type\n\n    \
         sudo apt-get update && sudo apt-get install {list}\n\n\
         elsewhere install Chromium, its chromedriver and poppler (for pdftotext), so that `chromium`, \
         `chromedriver` and `pdftotext` start from the command line."
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_missing_is_asked_for() {
        assert_eq!(missing(|_| true), Vec::<&str>::new());
        assert_eq!(
            missing(|program| program == "chromium"),
            ["chromium-driver", "poppler-utils"]
        );
    }

    #[test]
    fn the_advice_can_be_typed_as_it_stands() {
        assert!(
            advice(&["chromium", "poppler-utils"])
                .contains("apt-get install chromium poppler-utils\n")
        );
    }
}
