//! The parts of Rust that the project needs beyond the compiler.

use super::Outcome;
use super::project::{Project, answer, finish, is_on_path};
use std::env;
use std::path::{Path, PathBuf};

/// The target of everything that runs in the browser.
pub(crate) const WASM: &str = "wasm32-unknown-unknown";

/// What the published page is compiled with. To be cut in two (`split.rs`), it must say what each function and each constant
/// refers to; the cut leaves that out again.
const PAGE: [&str; 6] = [
    "--cfg",
    "erase_components",
    "--cfg",
    "split",
    "-Cstrip=none",
    "-Clink-arg=--emit-relocs",
];

/// Flags for the published page, in the form cargo wants. They replace those of `.cargo/config.toml`, so they repeat them; and
/// they give neutral names to folders of this machine, which would otherwise be in the messages of panics.
pub(crate) fn page_flags(project: &Project) -> String {
    let home = |variable, folder| {
        let usual = || env::home_dir().unwrap_or_default().join(folder);
        env::var_os(variable).map_or_else(usual, PathBuf::from)
    };
    let folders = [
        (home("CARGO_HOME", ".cargo"), "cargo"),
        (home("RUSTUP_HOME", ".rustup"), "rust"),
        (project.root().to_path_buf(), "taperwright"),
    ];
    let mut flags = PAGE.map(str::to_owned).to_vec();
    for (folder, name) in folders {
        flags.push(format!("--remap-path-prefix={}={name}", folder.display()));
    }
    flags.join("\u{1f}")
}

/// Makes sure that Rust can compile for the browser. Rust without rustup can have the target too, so rustc is asked for its
/// library folder first.
pub(crate) fn ensure_target(project: &Project) -> Outcome {
    let mut question = project.command("rustc");
    question.args(["--print", "target-libdir", "--target", WASM]);
    if answer(&mut question).is_some_and(|folder| Path::new(&folder).is_dir()) {
        return Ok(());
    }
    eprintln!("Adding {WASM} to Rust: a download of about 20 MB.");
    rustup(project, &["target", "add", WASM])
}

/// Makes sure that the formatter and the linter are there: rustup's minimal profile has neither.
pub(crate) fn ensure_components(project: &Project) -> Outcome {
    for (component, command) in [("rustfmt", "fmt"), ("clippy", "clippy")] {
        if answer(project.command("cargo").args([command, "--version"])).is_none() {
            eprintln!("Adding {component} to Rust: a download of a few megabytes.");
            rustup(project, &["component", "add", component])?;
        }
    }
    Ok(())
}

/// The compiler and its version, as it states them.
pub(crate) fn version(project: &Project) -> Outcome<String> {
    answer(project.command("rustc").arg("-vV")).ok_or_else(|| "`rustc` does not start.".into())
}

fn rustup(project: &Project, args: &[&str]) -> Outcome {
    if !is_on_path("rustup") {
        let line = args.join(" ");
        return Err(format!(
            "Rust lacks a part that `rustup {line}` would add, but rustup is not on this machine. Install Rust with \
             rustup, or add the part the way this Rust was installed."
        ));
    }
    finish(project.command("rustup").args(args))
}
