//! The tools that turn Rust into a site. What is missing or of another version is installed into the project's own
//! `.tools` folder, so that no other project on the machine notices.

use super::project::{Project, answer, finish};
use super::{Outcome, rust};
use std::fs;

/// The bundler. 0.22 asks for a newer Rust than the one this project promises to build with.
const TRUNK_VERSION: &str = "0.21.14";

/// Both tools work on a few megabytes for a moment: compiling them fast matters more than fast code.
const QUICK_PROFILE: [(&str, &str); 4] = [
    ("CARGO_PROFILE_RELEASE_LTO", "off"),
    ("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16"),
    ("CARGO_PROFILE_RELEASE_DEBUG", "0"),
    ("CARGO_PROFILE_RELEASE_OPT_LEVEL", "1"),
];

struct Tool {
    package: &'static str,
    program: &'static str,
    version: String,
    options: &'static [&'static str],
    purpose: &'static str,
    patience: &'static str,
}

/// Makes sure that the site can be built; says what it installs, and is silent when there is nothing to do.
pub(crate) fn ensure(project: &Project) -> Outcome {
    rust::ensure_target(project)?;
    ensure_tool(project, &trunk())?;
    ensure_tool(project, &bindgen(project)?)
}

fn trunk() -> Tool {
    Tool {
        package: "trunk",
        program: "trunk",
        version: TRUNK_VERSION.into(),
        // The default features fetch other tools and look for updates; this build does neither.
        options: &["--no-default-features"],
        purpose: "gathers program, styles and page into the site",
        patience: "two to five minutes",
    }
}

/// The tool must equal the library to the patch, so the lock file alone decides its version.
fn bindgen(project: &Project) -> Outcome<Tool> {
    let lock = fs::read_to_string(project.root().join("Cargo.lock"))
        .map_err(|error| format!("Cargo.lock cannot be read: {error}."))?;
    let version = locked_version(&lock, "wasm-bindgen")
        .ok_or("Cargo.lock does not name wasm-bindgen's version.")?;
    Ok(Tool {
        package: "wasm-bindgen-cli",
        program: "wasm-bindgen",
        version: version.into(),
        options: &[],
        purpose: "joins WebAssembly to the browser",
        patience: "one to three minutes",
    })
}

fn locked_version<'lock>(lock: &'lock str, package: &str) -> Option<&'lock str> {
    let name = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| line.trim() != name);
    lines
        .nth(1)?
        .trim()
        .strip_prefix("version = \"")?
        .strip_suffix('"')
}

fn ensure_tool(project: &Project, tool: &Tool) -> Outcome {
    let found = installed_version(project, tool);
    if found.as_deref() == Some(tool.version.as_str()) {
        return Ok(());
    }
    announce(tool, found.as_deref());
    install(project, tool)?;
    match installed_version(project, tool) {
        Some(version) if version == tool.version => Ok(()),
        _ => Err(format!(
            "{} was installed but does not start. Delete .tools and try again.",
            tool.program
        )),
    }
}

/// A tool counts as installed only if it starts and says its version: half a file on the disk does neither.
fn installed_version(project: &Project, tool: &Tool) -> Option<String> {
    let said = answer(project.command(project.tool(tool.program)).arg("--version"))?;
    version_in(&said).map(String::from)
}

/// Tools answer with their name, their version and sometimes more: `trunk 0.21.14`.
fn version_in(said: &str) -> Option<&str> {
    said.split_whitespace().nth(1)
}

fn announce(tool: &Tool, found: Option<&str>) {
    let Tool {
        program,
        version,
        purpose,
        patience,
        ..
    } = tool;
    let instead = found
        .map(|found| format!(" in place of {found}"))
        .unwrap_or_default();
    eprintln!("Installing {program} {version}{instead} into .tools: it {purpose}.");
    eprintln!(
        "This is compiled here, once: {patience}. If interrupted, the next start carries on."
    );
}

/// Cargo puts the program in place only when it is complete. The compiled parts stay in a folder of their own until
/// then, so an interrupted install loses nothing.
fn install(project: &Project, tool: &Tool) -> Outcome {
    let parts = project.tools().join("compiling");
    let mut command = project.command("cargo");
    command.args([
        "install",
        tool.package,
        "--version",
        &tool.version,
        "--locked",
        "--force",
    ]);
    command
        .args(tool.options)
        .arg("--root")
        .arg(project.tools())
        .arg("--target-dir")
        .arg(&parts);
    command.envs(QUICK_PROFILE);
    finish(&mut command)
        .map_err(|reason| format!("{reason} {} is not installed.", tool.package))?;
    // Half a gigabyte that nobody needs again; should it stay behind, the site is built all the same.
    drop(fs::remove_dir_all(parts));
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOCK: &str = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"9.9.9\"\n\n\
                        [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.128\"\nsource = \"somewhere\"\n";

    #[test]
    fn the_lock_file_decides_the_version() {
        assert_eq!(locked_version(LOCK, "wasm-bindgen"), Some("0.2.128"));
        assert_eq!(locked_version(LOCK, "wasm"), None);
        assert_eq!(locked_version("", "wasm-bindgen"), None);
    }

    #[test]
    fn versions_are_read_from_what_tools_say() {
        assert_eq!(version_in("trunk 0.21.14"), Some("0.21.14"));
        assert_eq!(
            version_in("wasm-bindgen 0.2.128 (abc)\nmore"),
            Some("0.2.128")
        );
        assert_eq!(version_in("broken"), None);
    }

    #[test]
    fn a_tool_that_does_not_start_is_not_installed() {
        let folder = tempfile::tempdir().unwrap();
        let project = Project::at(folder.path());
        assert_eq!(installed_version(&project, &trunk()), None);
        fs::create_dir_all(project.tools().join("bin")).unwrap();
        fs::write(project.tool("trunk"), "half a file").unwrap();
        assert_eq!(installed_version(&project, &trunk()), None);
    }
}
