//! Where the project lies, and how other programs are started in it.

use super::Outcome;
use std::env;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// `cargo run` tells the program about its own package through these. Handed on, they would make nested cargo calls
/// rebuild what is already built. Settings of trunk in the surroundings would give every machine another site.
const PREFIXES_KEPT_BACK: [&str; 4] = ["CARGO_PKG_", "CARGO_MANIFEST_", "CARGO_BIN_", "TRUNK_"];
const NAMES_KEPT_BACK: [&str; 4] = [
    "CARGO",
    "CARGO_CRATE_NAME",
    "CARGO_PRIMARY_PACKAGE",
    "OUT_DIR",
];

/// The checked-out project on this machine.
pub(crate) struct Project {
    root: PathBuf,
}

impl Project {
    /// Looks where `cargo run` says the project is, then from the current folder upwards. The place is never compiled
    /// in, so a moved or copied project finds itself.
    pub(crate) fn find() -> Outcome<Self> {
        let told = env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
        let here = env::current_dir().ok();
        let root = [told, here]
            .into_iter()
            .flatten()
            .find_map(|start| root_above(&start));
        root.map(|root| Self { root }).ok_or_else(|| {
            "Start this inside the Taperwright project: no Trunk.toml was found here or above."
                .into()
        })
    }

    /// A project at a folder chosen by a test.
    #[cfg(test)]
    pub(crate) fn at(root: &Path) -> Self {
        Self {
            root: root.to_path_buf(),
        }
    }

    /// The folder that holds `Cargo.toml`.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The finished site.
    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// The tools that belong to this project alone.
    pub(crate) fn tools(&self) -> PathBuf {
        self.root.join(".tools")
    }

    /// A program of `.tools/bin`.
    pub(crate) fn tool(&self, program: &str) -> PathBuf {
        self.tools()
            .join("bin")
            .join(format!("{program}{}", env::consts::EXE_SUFFIX))
    }

    /// A program ready to start in the project: own tools first on the path, no keyboard, a clean environment.
    pub(crate) fn command(&self, program: impl AsRef<std::ffi::OsStr>) -> Command {
        let mut command = Command::new(program);
        command
            .current_dir(&self.root)
            .stdin(Stdio::null())
            .env("PATH", self.path_with_tools());
        for (name, _) in env::vars_os().filter(|(name, _)| is_kept_back(name)) {
            command.env_remove(name);
        }
        tame_no_color(&mut command);
        command
    }

    fn path_with_tools(&self) -> OsString {
        let old = env::var_os("PATH").unwrap_or_default();
        let folders = std::iter::once(self.tools().join("bin")).chain(env::split_paths(&old));
        // Joining fails only if the project's own path holds the separator; the old path then still finds cargo.
        env::join_paths(folders).unwrap_or(old)
    }
}

/// Trunk reads `NO_COLOR` as a switch and refuses every value but `true` and `false`; to all others any value means yes.
fn tame_no_color(command: &mut Command) {
    match env::var_os("NO_COLOR") {
        Some(value) if value.is_empty() => command.env_remove("NO_COLOR"),
        Some(_) => command.env("NO_COLOR", "true"),
        None => command,
    };
}

/// Whether a program of this name can be started from the search path.
pub(crate) fn is_on_path(program: &str) -> bool {
    let file = format!("{program}{}", env::consts::EXE_SUFFIX);
    env::var_os("PATH")
        .is_some_and(|path| env::split_paths(&path).any(|folder| folder.join(&file).is_file()))
}

/// Runs a command to its end with its output passed through; a sentence comes back if it could not run or failed.
pub(crate) fn finish(command: &mut Command) -> Outcome {
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command
        .status()
        .map_err(|error| format!("`{name}` could not be started: {error}."))?;
    status
        .success()
        .then_some(())
        .ok_or_else(|| format!("`{name}` did not succeed ({status})."))
}

/// What a command prints, or nothing if it cannot run or fails.
pub(crate) fn answer(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    output
        .status
        .success()
        .then(|| String::from_utf8_lossy(&output.stdout).trim().to_string())
}

fn root_above(start: &Path) -> Option<PathBuf> {
    let holds_project = |folder: &&Path| {
        ["Cargo.toml", "Trunk.toml"]
            .iter()
            .all(|name| folder.join(name).is_file())
    };
    start.ancestors().find(holds_project).map(Path::to_path_buf)
}

fn is_kept_back(name: &std::ffi::OsStr) -> bool {
    let name = name.to_string_lossy();
    NAMES_KEPT_BACK.contains(&name.as_ref())
        || PREFIXES_KEPT_BACK
            .iter()
            .any(|prefix| name.starts_with(prefix))
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
    fn only_what_belongs_to_this_package_is_kept_from_children() {
        for name in [
            "CARGO_PKG_NAME",
            "CARGO_MANIFEST_DIR",
            "CARGO_BIN_NAME",
            "CARGO",
            "TRUNK_BUILD_DIST",
        ] {
            assert!(is_kept_back(name.as_ref()), "{name}");
        }
        for name in [
            "CARGO_HOME",
            "CARGO_TARGET_DIR",
            "RUSTUP_TOOLCHAIN",
            "PATH",
            "CI",
        ] {
            assert!(!is_kept_back(name.as_ref()), "{name}");
        }
    }

    #[test]
    fn own_tools_come_first_on_the_path() {
        let project = Project::at(Path::new("here"));
        let path = project.path_with_tools();
        assert_eq!(
            env::split_paths(&path).next(),
            Some(PathBuf::from("here/.tools/bin"))
        );
    }
}
