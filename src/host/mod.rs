//! The program behind `cargo run`: it installs the tools, builds the site, serves it to this machine only, and runs every
//! check. It has no part in the planning itself.
//!
//! Every error ends as a message for the person at the keyboard, so errors here are plain text.

mod args;
mod axe;
mod checks;
mod debian;
mod deployed;
mod develop;
mod headers;
mod listed;
mod order;
mod packed;
mod photo;
mod project;
mod rust;
mod serve;
mod site;
mod split;
mod stamp;
mod tools;
mod worker;
#[cfg(test)]
mod worker_tests;

use args::Command;
use project::{Project, finish};
use std::process::ExitCode;

/// The result of a step, or the message that explains its failure.
type Outcome<T = ()> = Result<T, String>;

/// Runs the command that the arguments name.
pub(crate) fn run() -> ExitCode {
    let command = Command::parse(std::env::args_os()).unwrap_or_else(|refusal| refusal.exit());
    match Project::find().and_then(|project| obey(&project, command)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            eprintln!("\n{reason}");
            ExitCode::FAILURE
        }
    }
}

fn obey(project: &Project, command: Command) -> Outcome {
    match command {
        Command::Open { port, is_built } => open(project, port, is_built),
        Command::Build => {
            site::build(project)?;
            site::print_sizes(project)
        }
        Command::Serve { port } => develop::run(project, port),
        Command::Test { filter } => checks::run(project, &filter),
        Command::Prepare => prepare(project),
        Command::CheckHost { address } => deployed::check(&project.dist(), &address),
        Command::Pictures => pictures(project),
        Command::Measure => {
            prepare(project)?;
            finish(&mut project.cargo("bench --locked --bench report"))
        }
        Command::Endure => endure(project),
    }
}

fn open(project: &Project, port: u16, is_built: bool) -> Outcome {
    if !is_built {
        site::build(project)?;
    } else if !project.dist().join("index.html").is_file() {
        return Err("There is no built site to serve yet. Leave out --no-build.".into());
    }
    serve::serve(serve::site(&project.dist()), port)
}

fn prepare(project: &Project) -> Outcome {
    site::build(project)?;
    debian::ensure(project)?;
    tools::ensure_driver(project)?;
    axe::ensure(project)
}

/// Browser tests whose promise holds the more, the more often they try it, made to try it often.
fn endure(project: &Project) -> Outcome {
    prepare(project)?;
    let mut tests =
        project.cargo("test --locked --test browser -- sudden:: random_edits:: faults:: heap::");
    finish(tests.env("SUDDEN_DEATHS", "20").env("RANDOM_EDITS", "2000"))
}

/// Browser tests take the pictures.
fn pictures(project: &Project) -> Outcome {
    prepare(project)?;
    let folder = project.target().join("screens");
    // A picture of a view that no longer exists would mislead; having none yet is the usual case.
    drop(std::fs::remove_dir_all(&folder));
    finish(&mut project.cargo("test --locked --test browser -- access::every_view screens::"))?;
    println!("The pictures are in {}", folder.display());
    Ok(())
}
