//! The parts of Rust itself that the project needs beyond the compiler.

use super::Outcome;
use super::project::{Project, answer, finish, is_on_path};
use std::env;
use std::path::{Path, PathBuf};

/// The target of everything that runs in the browser.
pub(crate) const WASM: &str = "wasm32-unknown-unknown";

/// Flags for the published page, in the form cargo wants: those of `.cargo/config.toml`, which setting any replaces, and
/// neutral names for the folders of this machine, which would otherwise stand in the messages of panics.
pub(crate) fn page_flags(project: &Project) -> String {
    let mut flags = vec!["--cfg".to_owned(), "erase_components".to_owned()];
    let homes = [("CARGO_HOME", ".cargo"), ("RUSTUP_HOME", ".rustup")];
    let named = homes.into_iter().filter_map(|(variable, folder)| {
        let home = env::home_dir().map(|home| home.join(folder));
        env::var_os(variable).map(PathBuf::from).or(home)
    });
    for (folder, name) in
        named
            .chain([project.root().to_path_buf()])
            .zip(["cargo", "rust", "taperwright"])
    {
        flags.push(format!("--remap-path-prefix={}={name}", folder.display()));
    }
    flags.join("\u{1f}")
}

/// Makes sure that Rust can compile for the browser. Rust without rustup can bring the target too, so rustc is asked
/// for its library folder first.
pub(crate) fn ensure_target(project: &Project) -> Outcome {
    let mut question = project.command("rustc");
    question.args(["--print", "target-libdir", "--target", WASM]);
    let folder = answer(&mut question);
    if folder.is_some_and(|folder| Path::new(&folder).is_dir()) {
        return Ok(());
    }
    eprintln!("Adding {WASM} to Rust: the browser runs WebAssembly. A download of about 20 MB.");
    rustup(project, &["target", "add", WASM])
}

/// Makes sure that the formatter and the linter are there: rustup's minimal profile leaves both out.
pub(crate) fn ensure_components(project: &Project) -> Outcome {
    for (component, subcommand) in [("rustfmt", "fmt"), ("clippy", "clippy")] {
        if answer(project.command("cargo").args([subcommand, "--version"])).is_none() {
            eprintln!(
                "Adding {component} to Rust: the checks need it. A download of a few megabytes."
            );
            rustup(project, &["component", "add", component])?;
        }
    }
    Ok(())
}

fn rustup(project: &Project, args: &[&str]) -> Outcome {
    let line = format!("rustup {}", args.join(" "));
    if !is_on_path("rustup") {
        return Err(format!(
            "Rust lacks a part that `{line}` would add, but rustup is not on this machine. \
             Install Rust through rustup, or add the part the way this Rust was installed."
        ));
    }
    finish(project.command("rustup").args(args))
        .map_err(|reason| format!("{reason} The line was `{line}`."))
}
