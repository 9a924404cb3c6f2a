//! Whether the built site still belongs to the sources. The stamp records contents, not times: a fresh checkout, a restored
//! file or a wrong clock cannot deceive it. It covers the compiler too, and the site itself, so that a site which another build
//! left, or half of one, is built again.

use super::project::Project;
use super::{Outcome, rust};
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

/// What the site is made from, as it was at one moment.
pub(crate) struct Sources(u64);

impl Sources {
    /// Reads compiler and sources. Done before a build, so that an edit during the build makes the next one necessary.
    pub(crate) fn now(project: &Project) -> Outcome<Self> {
        Self::with(project, &rust::version(project)?)
    }

    fn with(project: &Project, compiler: &str) -> Outcome<Self> {
        let paths = SOURCES.map(|name| project.root().join(name));
        fingerprint(compiler, project.root(), &paths)
            .map(Self)
            .map_err(|error| format!("The sources cannot be read: {error}."))
    }

    /// Whether `dist` is the finished site of these sources.
    pub(crate) fn are_built(&self, project: &Project) -> bool {
        let recorded = fs::read_to_string(place(project));
        recorded.is_ok_and(|text| self.text(project).is_ok_and(|expected| text == expected))
    }

    /// Records that `dist` is the finished site of these sources.
    pub(crate) fn record(&self, project: &Project) -> Outcome {
        self.text(project)
            .and_then(|text| fs::write(place(project), text))
            .map_err(|error| format!("The finished build cannot be recorded: {error}."))
    }

    fn text(&self, project: &Project) -> io::Result<String> {
        let site = fingerprint("", &project.dist(), &[project.dist()])?;
        Ok(format!("{:016x} {site:016x}\n", self.0))
    }
}

/// Removes the record: until the next one no site counts as built.
pub(crate) fn forget(project: &Project) {
    // Having none is the usual case; one that cannot be removed is overwritten after the build.
    drop(fs::remove_file(place(project)));
}

/// Beside the tools: git ignores that folder, and it is not part of the site.
fn place(project: &Project) -> PathBuf {
    project.tools().join("last-build")
}

/// One number for a text and for names and contents of all files at and below the paths. An absent path counts as empty.
fn fingerprint(text: &str, root: &Path, paths: &[PathBuf]) -> io::Result<u64> {
    let mut files = Vec::new();
    for path in paths {
        collect(path, &mut files)?;
    }
    files.sort();
    let mut hasher = DefaultHasher::new();
    text.hash(&mut hasher);
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

    /// Whether a recorded build still counts after a change, with this compiler.
    fn counts(change: impl FnOnce(&Path) -> io::Result<()>, compiler: &str) -> bool {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path();
        for file in [
            "src/main.rs",
            "dist/index.html",
            ".tools/bin/trunk",
            "index.html",
        ] {
            let file = root.join(file);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, "content").unwrap();
        }
        let project = Project::at(root);
        Sources::with(&project, "1.0")
            .unwrap()
            .record(&project)
            .unwrap();
        change(root).unwrap();
        Sources::with(&project, compiler)
            .unwrap()
            .are_built(&project)
    }

    #[test]
    fn a_recorded_build_counts_until_sources_site_or_compiler_change() {
        assert!(counts(|_| Ok(()), "1.0"));
        assert!(counts(
            |root| fs::write(root.join("README.md"), "news"),
            "1.0"
        ));
        assert!(!counts(|_| Ok(()), "1.1"));
        let changes: [fn(&Path) -> io::Result<()>; 7] = [
            |root| fs::write(root.join("src/main.rs"), "other content"),
            |root| fs::write(root.join("src/new.rs"), ""),
            |root| fs::rename(root.join("src/main.rs"), root.join("src/other.rs")),
            |root| fs::remove_file(root.join("index.html")),
            |root| fs::write(root.join("dist/index.html"), "another site"),
            |root| fs::remove_dir_all(root.join("dist")),
            |root| {
                forget(&Project::at(root));
                Ok(())
            },
        ];
        for (place, change) in changes.into_iter().enumerate() {
            assert!(!counts(change, "1.0"), "change {place}");
        }
    }
}
