//! The tools that turn Rust into a site, and the driver of Firefox, of which Debian has no package. What is missing or of another
//! version is compiled into the project's own `.tools` folder, so no other project on the machine is affected.

use super::project::{Project, answer, finish};
use super::{Outcome, rust};
use std::fs;

/// 0.22 asks for a newer Rust than the one this project promises to build with.
const TRUNK_VERSION: &str = "0.21.14";

/// It steers the Firefox of any Debian that is supported.
const GECKODRIVER_VERSION: &str = "0.37.1";

/// The tools work on a few megabytes for a moment: compiling them fast matters more than fast code.
const PROFILE: [(&str, &str); 3] = [
    ("CARGO_PROFILE_RELEASE_LTO", "off"),
    ("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16"),
    ("CARGO_PROFILE_RELEASE_DEBUG", "0"),
];

struct Tool {
    package: &'static str,
    program: &'static str,
    version: String,
    /// Trunk only gathers files. wasm-bindgen rewrites the whole program, so it gets a little optimisation.
    opt_level: &'static str,
    options: &'static str,
}

/// Makes sure that the site can be built.
pub(crate) fn ensure(project: &Project) -> Outcome {
    rust::ensure_target(project)?;
    ensure_all(project, &[trunk(), bindgen(project)?])
}

/// Makes sure that Firefox can be steered.
pub(crate) fn ensure_driver(project: &Project) -> Outcome {
    ensure_all(project, &[geckodriver()])
}

fn ensure_all(project: &Project, tools: &[Tool]) -> Outcome {
    let missing = tools.iter().filter(|tool| !is_installed(project, tool));
    let missing: Vec<&Tool> = missing.collect();
    for tool in &missing {
        install(project, tool)?;
    }
    if !missing.is_empty() {
        // Compiled parts that nothing needs again, half a gigabyte. They stay until all is done, so that tools share
        // them and an interrupted install continues.
        drop(fs::remove_dir_all(parts(project)));
    }
    Ok(())
}

fn trunk() -> Tool {
    Tool {
        package: "trunk",
        program: "trunk",
        version: TRUNK_VERSION.into(),
        opt_level: "0",
        // The default features download other tools and look for updates.
        options: "--no-default-features",
    }
}

fn geckodriver() -> Tool {
    Tool {
        package: "geckodriver",
        program: "geckodriver",
        version: GECKODRIVER_VERSION.into(),
        opt_level: "0",
        options: "",
    }
}

/// The tool must equal the library to the patch, so the lock file alone decides its version.
fn bindgen(project: &Project) -> Outcome<Tool> {
    let lock = fs::read_to_string(project.root().join("Cargo.lock"))
        .map_err(|error| format!("Cargo.lock cannot be read: {error}."))?;
    let version = locked_version(&lock, "wasm-bindgen")
        .ok_or("Cargo.lock does not name the version of wasm-bindgen.")?;
    Ok(Tool {
        package: "wasm-bindgen-cli",
        program: "wasm-bindgen",
        version: version.into(),
        opt_level: "1",
        options: "",
    })
}

fn locked_version<'lock>(lock: &'lock str, package: &str) -> Option<&'lock str> {
    let (_, rest) = lock.split_once(&format!("name = \"{package}\"\nversion = \""))?;
    rest.split('"').next()
}

/// A tool counts as installed only if it starts and states its version, as in `trunk 0.21.14`.
fn is_installed(project: &Project, tool: &Tool) -> bool {
    let said = answer(project.command(project.tool(tool.program)).arg("--version"));
    said.is_some_and(|said| said.split_whitespace().nth(1) == Some(&tool.version))
}

/// Cargo puts the program in place only when it is complete.
fn install(project: &Project, tool: &Tool) -> Outcome {
    let Tool {
        package,
        program,
        version,
        opt_level,
        options,
    } = tool;
    eprintln!("Compiling {program} {version} into .tools, once: one to three minutes.");
    let words = format!("install {package} --version {version} --locked --force {options}");
    let mut cargo = project.cargo(&words);
    cargo.arg("--root").arg(project.tools());
    cargo.arg("--target-dir").arg(parts(project));
    cargo
        .envs(PROFILE)
        .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", opt_level);
    finish(&mut cargo)?;
    let is_installed = is_installed(project, tool).then_some(());
    is_installed.ok_or_else(|| format!("{program} does not start. Delete .tools and try again."))
}

fn parts(project: &Project) -> std::path::PathBuf {
    project.tools().join("compiling")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lock_file_decides_the_version() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"9.9.9\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.128\"\nsource = \"somewhere\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen"), Some("0.2.128"));
        assert_eq!(locked_version(lock, "wasm"), None);
        assert_eq!(locked_version("", "wasm-bindgen"), None);
    }

    #[test]
    fn a_tool_that_does_not_start_is_not_installed() {
        let folder = tempfile::tempdir().unwrap();
        let project = Project::at(folder.path());
        assert!(!is_installed(&project, &trunk()));
        fs::create_dir_all(project.tools().join("bin")).unwrap();
        fs::write(project.tool("trunk"), "half a file").unwrap();
        assert!(!is_installed(&project, &trunk()));
    }
}
