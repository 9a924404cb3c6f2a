//! One check: how it runs, what its failure means, and the line that repeats it.

use super::Outcome;
use super::project::{Project, finish};
use std::time::Instant;

/// One check.
pub(super) struct Step {
    /// What is looked at.
    pub(super) title: &'static str,
    /// The sentence that a failure deserves.
    failure: &'static str,
    action: Action,
}

/// What a check does.
enum Action {
    /// Runs cargo with these arguments; the flags are for rustdoc.
    Cargo(Vec<String>, Option<&'static str>),
    /// Runs a part of this program. The line runs it alone, where there is such a line.
    Own(fn(&Project) -> Outcome, Option<&'static str>),
}

impl Step {
    /// A check by cargo; the words are its arguments.
    pub(super) fn cargo(title: &'static str, failure: &'static str, words: &str) -> Self {
        let args = words.split(' ').map(String::from).collect();
        let action = Action::Cargo(args, None);
        Self {
            title,
            failure,
            action,
        }
    }

    /// A check by this program itself, and the line that repeats it.
    pub(super) fn own(
        title: &'static str,
        run: fn(&Project) -> Outcome,
        line: Option<&'static str>,
    ) -> Self {
        Self {
            title,
            failure: "The checks after it need it.",
            action: Action::Own(run, line),
        }
    }

    /// The same check, to which a warning of rustdoc is a failure.
    pub(super) fn without_rustdoc_warnings(mut self) -> Self {
        if let Action::Cargo(_, flags) = &mut self.action {
            *flags = Some("-D warnings");
        }
        self
    }

    /// The same check with more arguments.
    pub(super) fn with_args(mut self, more: &[String]) -> Self {
        if let Action::Cargo(args, _) = &mut self.action {
            args.extend_from_slice(more);
        }
        self
    }

    /// Runs the check to its end and says how long it took.
    pub(super) fn run(&self, project: &Project) -> Outcome {
        let start = Instant::now();
        let outcome = match &self.action {
            Action::Own(run, _) => run(project),
            Action::Cargo(args, flags) => run_cargo(project, args, *flags),
        };
        outcome.map_err(|reason| self.complaint(&reason))?;
        println!("   passed in {:.1} s", start.elapsed().as_secs_f64());
        Ok(())
    }

    /// The line that runs this check alone in a shell.
    pub(super) fn line(&self) -> Option<String> {
        match &self.action {
            Action::Own(_, line) => line.map(String::from),
            Action::Cargo(args, flags) => Some(cargo_line(args, *flags)),
        }
    }

    /// What failed, why, and how to repeat it.
    pub(super) fn complaint(&self, reason: &str) -> String {
        let Self { title, failure, .. } = self;
        let again = self.line().map(|line| {
            format!("\nTo run this check alone:\n\n    {line}\n\nTo run all: cargo run -- test")
        });
        format!(
            "Failed: {title}. {failure} {reason}{}",
            again.unwrap_or_default()
        )
    }
}

fn run_cargo(project: &Project, args: &[String], rustdocflags: Option<&str>) -> Outcome {
    let mut command = project.command("cargo");
    command.args(args);
    command.envs(rustdocflags.map(|flags| ("RUSTDOCFLAGS", flags)));
    finish(&mut command)
}

fn cargo_line(args: &[String], rustdocflags: Option<&str>) -> String {
    let flags = rustdocflags.map(|flags| format!("RUSTDOCFLAGS={} ", quoted(flags)));
    let args: Vec<String> = args.iter().map(|arg| quoted(arg)).collect();
    format!("{}cargo {}", flags.unwrap_or_default(), args.join(" "))
}

/// The word as a shell takes it for one word.
fn quoted(word: &str) -> String {
    let is_plain = |letter: char| letter.is_ascii_alphanumeric() || "-_=./:,".contains(letter);
    if !word.is_empty() && word.chars().all(is_plain) {
        return word.into();
    }
    format!("'{}'", word.replace('\'', r"'\''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_of_a_check_can_be_pasted_into_a_shell() {
        let step = Step::cargo("", "", "doc --no-deps").without_rustdoc_warnings();
        let line = "RUSTDOCFLAGS='-D warnings' cargo doc --no-deps";
        assert_eq!(step.line().as_deref(), Some(line));
        let more = ["two words".into(), "*".into(), "it's".into()];
        let step = Step::cargo("", "", "test").with_args(&more);
        let line = r"cargo test 'two words' '*' 'it'\''s'";
        assert_eq!(step.line().as_deref(), Some(line));
    }

    #[test]
    fn a_failure_says_what_failed_and_how_to_repeat_it() {
        let step = Step::cargo("layout", "Not as agreed.", "fmt --check");
        let complaint = step.complaint("`cargo` did not succeed.");
        assert!(complaint.starts_with("Failed: layout. Not as agreed. `cargo` did not succeed."));
        assert!(complaint.contains("\n    cargo fmt --check\n"));
    }

    #[test]
    fn a_failing_part_of_this_program_fails_its_step() {
        let project = Project::at(std::path::Path::new("."));
        let step = Step::own("site", |_| Err("No luck.".into()), Some("cargo run"));
        let complaint = step.run(&project).unwrap_err();
        assert!(complaint.contains("No luck.") && complaint.contains("\n    cargo run\n"));
    }
}
