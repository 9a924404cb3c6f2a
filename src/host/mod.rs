//! The workshop behind the page: one native program that brings its own tools, builds the site, serves it to
//! this machine only, and runs every check. It never touches the planning itself.
//!
//! Whatever goes wrong ends as one sentence for the person at the keyboard, so errors here are plain text.

mod access;
mod args;
mod browser;
mod checks;
mod debian;
mod pack;
mod pictures;
mod project;
mod reckoner;
mod rust;
mod serve;
mod site;
mod stamp;
mod step;
mod tools;
mod worker;
#[cfg(test)]
mod worker_tests;

use args::Command;
use project::Project;
use std::process::ExitCode;

/// What a step of the workshop returns: its result, or the sentence that explains the failure.
type Outcome<T = ()> = Result<T, String>;

/// Runs the command that the arguments name; the first argument is the program itself.
pub(crate) fn run(args: impl Iterator<Item = String>) -> ExitCode {
    match Command::parse(args.skip(1)) {
        Ok(command) => report(obey(command)),
        Err(reason) => {
            eprintln!("{reason}\n\n{}", args::HELP);
            ExitCode::from(2)
        }
    }
}

fn obey(command: Command) -> Outcome {
    match command {
        Command::Help => {
            println!("{}", args::HELP);
            Ok(())
        }
        Command::Open { port, build } => open(&Project::find()?, port, build),
        Command::Build => build_and_measure(&Project::find()?),
        Command::Measure => measure(&Project::find()?),
        Command::Pictures => pictures::take(&Project::find()?),
        Command::Test { filter } => checks::run(&Project::find()?, &filter),
    }
}

fn open(project: &Project, port: u16, build: bool) -> Outcome {
    if build {
        site::build(project)?;
    } else if !project.dist().join("index.html").is_file() {
        return Err("There is no built site to open yet. Leave out --no-build.".into());
    }
    serve::serve(&project.dist(), port)
}

fn build_and_measure(project: &Project) -> Outcome {
    site::build(project)?;
    site::print_sizes(project)
}

/// The table of everything measured comes from a benchmark, which steers a browser as the tests do.
fn measure(project: &Project) -> Outcome {
    site::build(project)?;
    browser::ensure(project)?;
    reckoner::ensure(project)?;
    let table = ["bench", "--locked", "--bench", "report"];
    project::finish(project.command("cargo").args(table))
}

fn report(outcome: Outcome) -> ExitCode {
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            eprintln!("\n{reason}");
            ExitCode::FAILURE
        }
    }
}
