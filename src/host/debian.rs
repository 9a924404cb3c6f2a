//! Programs that belong to the machine: found on its search path, or installed from Debian's packages.

use super::Outcome;
use super::project::{Project, answer, finish, is_on_path};
use std::path::Path;

/// Programs that something here starts.
pub(super) struct Needed {
    /// Each program, or part of one, with the Debian package it comes in.
    pub(super) programs: &'static [(&'static str, &'static str)],
    /// Who needs them, as the subject of a sentence.
    pub(super) by: &'static str,
    /// How long an install takes.
    pub(super) patience: &'static str,
    /// What to do where there is no Debian.
    pub(super) elsewhere: &'static str,
}

impl Needed {
    /// Makes sure that all are there: installs on Debian as root, says what to type elsewhere.
    pub(super) fn ensure(&self, project: &Project) -> Outcome {
        self.ensure_by(project, is_on_path)
    }

    /// The same for what is not found on the search path: whether it is there is asked otherwise.
    pub(super) fn ensure_by(&self, project: &Project, is_there: impl Fn(&str) -> bool) -> Outcome {
        let packages = self.missing(&is_there);
        if packages.is_empty() {
            return Ok(());
        }
        if !may_install(project) {
            return Err(self.advice(&packages));
        }
        let list = packages.join(", ");
        eprintln!(
            "{} need {list}. Installing from Debian: {}.",
            self.by, self.patience
        );
        install(project, &packages)?;
        let still = self.missing(&is_there);
        still
            .is_empty()
            .then_some(())
            .ok_or_else(|| self.advice(&still))
    }

    /// Packages of those programs that are not there.
    pub(super) fn missing(&self, is_there: impl Fn(&str) -> bool) -> Vec<&'static str> {
        let programs = self.programs.iter();
        let missing = programs.filter(|(program, _)| !is_there(program));
        missing.map(|(_, package)| *package).collect()
    }

    /// The exact line for whoever may install programs here.
    pub(super) fn advice(&self, packages: &[&str]) -> String {
        let Self { by, elsewhere, .. } = self;
        let list = packages.join(" ");
        format!(
            "{by} need programs that are not on this machine. On Debian and its relatives type\n\n    \
             sudo apt-get update && sudo apt-get install {list}\n\n{elsewhere}"
        )
    }
}

fn may_install(project: &Project) -> bool {
    is_on_path("apt-get") && Path::new("/etc/debian_version").exists() && is_root(project)
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
