//! What a check found, one line a finding. The same finding on several files is one.

use super::super::worker::FOLDER;
use std::fmt;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Grade {
    /// The page does not work for everybody, or a new build is not seen.
    Error,
    /// It works, but slower or less guarded than it could.
    Warning,
    /// Worth knowing.
    Note,
}

/// One thing that is wrong, and what to do.
#[derive(Debug)]
pub(super) struct Finding {
    pub(super) grade: Grade,
    /// The files it is about.
    pub(super) files: Vec<String>,
    pub(super) what: String,
}

/// All findings of a check.
#[derive(Debug, Default)]
pub(super) struct Report(Vec<Finding>);

impl Report {
    /// Adds what was found on a file.
    pub(super) fn add(&mut self, grade: Grade, file: &str, what: impl Into<String>) {
        let what = what.into();
        let file = if file == FOLDER { "the page" } else { file }.to_owned();
        let same = |finding: &&mut Finding| finding.grade == grade && finding.what == what;
        match self.0.iter_mut().find(same) {
            Some(finding) => finding.files.push(file),
            None => self.0.push(Finding {
                grade,
                files: vec![file],
                what,
            }),
        }
    }

    /// The findings, those that matter most first.
    pub(super) fn findings(&self) -> Vec<&Finding> {
        let mut findings: Vec<&Finding> = self.0.iter().collect();
        findings.sort_by_key(|finding| finding.grade);
        findings
    }

    /// How many findings are of this grade.
    pub(super) fn count(&self, grade: Grade) -> usize {
        self.0
            .iter()
            .filter(|finding| finding.grade == grade)
            .count()
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        let grade = match self.grade {
            Grade::Error => "error",
            Grade::Warning => "warning",
            Grade::Note => "note",
        };
        write!(out, "{grade}: ")?;
        match self.files.as_slice() {
            [one] => write!(out, "{one}")?,
            [one, other] => write!(out, "{one} and {other}")?,
            [one, other, more @ ..] => write!(out, "{one}, {other} and {} more", more.len())?,
            [] => {}
        }
        write!(out, ": {}", self.what)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_on_several_files_is_one_finding_and_errors_come_first() {
        let mut report = Report::default();
        for file in ["a", FOLDER, "c", "d"] {
            report.add(Grade::Warning, file, "It is slow.");
        }
        report.add(Grade::Error, "a", "It is absent.");
        let lines: Vec<String> = report.findings().iter().map(ToString::to_string).collect();
        assert_eq!(
            lines,
            [
                "error: a: It is absent.",
                "warning: a, the page and 2 more: It is slow."
            ]
        );
        assert_eq!(report.count(Grade::Note), 0);
    }
}
