//! Whether the built site still belongs to the sources. The stamp records fingerprints of contents, not times: a fresh
//! checkout, a restored file or a wrong clock cannot deceive it. The site is fingerprinted too, so that a site which
//! another build left behind, or only half of one, is built again.

use super::Outcome;
use super::project::Project;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io;
use std::path::{Path, PathBuf};

/// Everything the site is made from.
const SOURCES: [&str; 7] = [
    ".cargo",
    "src",
    "style",
    "index.html",
    "Cargo.toml",
    "Cargo.lock",
    "Trunk.toml",
];

/// The sources as they were at one moment.
pub(crate) struct Sources(u64);

impl Sources {
    /// Reads the sources. Taken before a build, so that an edit during the build makes the next one necessary.
    pub(crate) fn now(project: &Project) -> Outcome<Self> {
        let paths = SOURCES.map(|name| project.root().join(name));
        fingerprint(project.root(), &paths)
            .map(Self)
            .map_err(|error| format!("The sources cannot be read: {error}."))
    }

    /// Whether `dist` is the finished site of these sources.
    pub(crate) fn are_built(&self, project: &Project) -> bool {
        let recorded = fs::read_to_string(place(project));
        recorded.is_ok_and(|text| self.text(project).is_ok_and(|expected| text == expected))
    }

    /// Records that `dist` now is the finished site of these sources.
    pub(crate) fn record(&self, project: &Project) -> Outcome {
        let written = self
            .text(project)
            .and_then(|text| fs::write(place(project), text));
        written.map_err(|error| format!("The finished build cannot be recorded: {error}."))
    }

    fn text(&self, project: &Project) -> io::Result<String> {
        let site = fingerprint(&project.dist(), &[project.dist()])?;
        Ok(format!("sources {:016x}\nsite {site:016x}\n", self.0))
    }
}

/// Forgets the last build: from here until the next record no site counts as built.
pub(crate) fn forget(project: &Project) {
    // Nothing to forget is the usual case; a stamp that cannot be removed is overwritten after the build.
    drop(fs::remove_file(place(project)));
}

/// Beside the tools: git ignores that folder, and a host that is handed `dist` does not get the stamp.
fn place(project: &Project) -> PathBuf {
    project.tools().join("last-build")
}

/// One number for names and contents of all files at and below the paths. A path that is absent counts as empty.
fn fingerprint(root: &Path, paths: &[PathBuf]) -> io::Result<u64> {
    let mut files = Vec::new();
    for path in paths {
        collect(path, &mut files)?;
    }
    files.sort();
    let mut hasher = DefaultHasher::new();
    for file in files {
        file.strip_prefix(root).unwrap_or(&file).hash(&mut hasher);
        fs::read(&file)?.hash(&mut hasher);
    }
    Ok(hasher.finish())
}

/// Adds the file, or every file below the folder.
pub(super) fn collect(path: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    if path.is_dir() {
        for entry in fs::read_dir(path)? {
            collect(&entry?.path(), files)?;
        }
    } else if path.is_file() {
        files.push(path.to_path_buf());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use tempfile::TempDir;

    fn built_project() -> (TempDir, Project) {
        let folder = tempfile::tempdir().unwrap();
        for (file, text) in [
            ("src/main.rs", "fn main() {}"),
            ("index.html", "page"),
            ("dist/index.html", "site"),
        ] {
            let path = folder.path().join(file);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        let project = Project::at(folder.path());
        fs::create_dir_all(project.tools()).unwrap();
        Sources::now(&project).unwrap().record(&project).unwrap();
        (folder, project)
    }

    fn is_built(project: &Project) -> bool {
        Sources::now(project).unwrap().are_built(project)
    }

    #[track_caller]
    fn stale_after(change: impl FnOnce(&Path) -> io::Result<()>) {
        let (folder, project) = built_project();
        assert!(is_built(&project));
        change(folder.path()).unwrap();
        assert!(!is_built(&project));
    }

    #[test]
    fn a_recorded_build_counts_until_something_changes() {
        stale_after(|root| fs::write(root.join("src/main.rs"), "fn main() { }"));
        stale_after(|root| fs::write(root.join("src/new.rs"), ""));
        stale_after(|root| fs::rename(root.join("src/main.rs"), root.join("src/other.rs")));
        stale_after(|root| fs::remove_file(root.join("index.html")));
    }

    #[test]
    fn a_site_of_another_build_or_none_does_not_count() {
        stale_after(|root| fs::write(root.join("dist/index.html"), "another site"));
        stale_after(|root| fs::remove_dir_all(root.join("dist")));
    }

    #[test]
    fn a_build_in_progress_does_not_count() {
        let (_folder, project) = built_project();
        forget(&project);
        assert!(!is_built(&project));
    }

    #[test]
    fn files_outside_the_sources_do_not_matter() {
        let (folder, project) = built_project();
        fs::write(folder.path().join("README.md"), "news").unwrap();
        assert!(is_built(&project));
    }
}
