//! Where the project is, and how other programs are started in it.

use super::Outcome;
use std::env;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Variables that begin like this do not reach other programs: cargo describes this package with them, and builds again what
/// depends on them when they change; and settings of trunk would give every machine another site.
const HIDDEN: [&str; 5] = [
    "CARGO_PKG_",
    "CARGO_MANIFEST_",
    "CARGO_BIN_",
    "TRUNK_",
    "OUT_DIR",
];

/// The checked-out project on this machine.
pub(crate) struct Project {
    root: PathBuf,
}

impl Project {
    /// Looks where `cargo run` says that the project is, then from the current folder upwards. The place is not compiled in,
    /// so a moved or copied project finds itself.
    pub(crate) fn find() -> Outcome<Self> {
        let starts = [
            env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from),
            env::current_dir().ok(),
        ];
        let root = starts
            .into_iter()
            .flatten()
            .find_map(|start| root_above(&start));
        root.map(|root| Self { root }).ok_or_else(|| {
            "Start this inside the Taperwright project: there is no Trunk.toml in this folder or above it."
                .into()
        })
    }

    /// A project at a folder chosen by a test.
    #[cfg(test)]
    pub(crate) fn at(root: &Path) -> Self {
        let root = root.to_path_buf();
        Self { root }
    }

    /// The folder that holds `Cargo.toml`.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The finished site.
    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// Where cargo compiles.
    pub(crate) fn target(&self) -> PathBuf {
        let target = env::var_os("CARGO_TARGET_DIR").unwrap_or_else(|| "target".into());
        self.root.join(target)
    }

    /// The tools that belong to this project alone.
    pub(crate) fn tools(&self) -> PathBuf {
        self.root.join(".tools")
    }

    /// A program of `.tools/bin`.
    pub(crate) fn tool(&self, program: &str) -> PathBuf {
        self.tools().join("bin").join(program)
    }

    /// A program ready to start in the project: own tools first on the search path, no keyboard.
    pub(crate) fn command(&self, program: impl AsRef<OsStr>) -> Command {
        let mut command = Command::new(program);
        let old = env::var_os("PATH").unwrap_or_default();
        let folders = std::iter::once(self.tools().join("bin")).chain(env::split_paths(&old));
        // Joining fails only if the project's own path holds the separator; the old path then still finds cargo.
        let path = env::join_paths(folders).unwrap_or(old);
        command
            .current_dir(&self.root)
            .stdin(Stdio::null())
            .env("PATH", path);
        for (name, _) in env::vars_os().filter(|(name, _)| is_hidden(name)) {
            command.env_remove(name);
        }
        command
    }

    /// Cargo with these words as its arguments.
    pub(crate) fn cargo(&self, words: &str) -> Command {
        let mut command = self.command("cargo");
        command.args(words.split_whitespace());
        command
    }
}

/// Whether the search path holds a program of this name.
pub(crate) fn is_on_path(program: &str) -> bool {
    let path = env::var_os("PATH").unwrap_or_default();
    env::split_paths(&path).any(|folder| folder.join(program).is_file())
}

/// Runs a command to its end and passes its output through.
///
/// # Errors
/// That it could not start, or failed.
pub(crate) fn finish(command: &mut Command) -> Outcome {
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command
        .status()
        .map_err(|error| format!("`{name}` could not be started: {error}."))?;
    status
        .success()
        .then_some(())
        .ok_or_else(|| format!("`{name}` failed ({status})."))
}

/// What a command prints; nothing if it cannot run or fails.
pub(crate) fn answer(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    let said = String::from_utf8_lossy(&output.stdout).trim().to_owned();
    output.status.success().then_some(said)
}

fn root_above(start: &Path) -> Option<PathBuf> {
    let names = ["Cargo.toml", "Trunk.toml"];
    let holds_project = |folder: &&Path| names.iter().all(|name| folder.join(name).is_file());
    start.ancestors().find(holds_project).map(Path::to_path_buf)
}

fn is_hidden(name: &OsStr) -> bool {
    let name = name.to_string_lossy();
    name == "CARGO" || HIDDEN.iter().any(|start| name.starts_with(start))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn the_project_is_found_from_a_folder_inside_it() {
        let folder = tempfile::tempdir().unwrap();
        let inside = folder.path().join("src/host");
        fs::create_dir_all(&inside).unwrap();
        fs::write(folder.path().join("Cargo.toml"), "").unwrap();
        assert_eq!(root_above(&inside), None);
        fs::write(folder.path().join("Trunk.toml"), "").unwrap();
        assert_eq!(root_above(&inside).as_deref(), Some(folder.path()));
    }

    #[test]
    fn settings_of_the_user_reach_other_programs_and_those_of_this_package_do_not() {
        for name in [
            "CARGO_PKG_NAME",
            "CARGO_MANIFEST_DIR",
            "CARGO",
            "TRUNK_BUILD_DIST",
        ] {
            assert!(is_hidden(name.as_ref()), "{name}");
        }
        for name in [
            "CARGO_HOME",
            "CARGO_TARGET_DIR",
            "RUSTUP_TOOLCHAIN",
            "PATH",
            "CI",
        ] {
            assert!(!is_hidden(name.as_ref()), "{name}");
        }
    }

    #[test]
    fn own_tools_are_found_first() {
        let command = Project::at(Path::new("here")).command("trunk");
        let mut variables = command.get_envs();
        let path = variables
            .find(|(name, _)| *name == "PATH")
            .unwrap()
            .1
            .unwrap();
        let first = env::split_paths(path).next();
        assert_eq!(first, Some(PathBuf::from("here/.tools/bin")));
    }
}
