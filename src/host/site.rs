//! The finished site: built when it no longer matches its sources, and weighed.

use super::project::{Project, finish};
use super::stamp::{self, Sources};
use super::{Outcome, pack, rust, tools, worker};
use std::fs;
use std::path::Path;

/// Trunk's minifier gives up on the script of wasm-bindgen, which it then takes as it is, with a warning at every build.
const TRUNK_LOG: &str = "trunk=info,trunk::processing::minify=error";

/// Brings `dist` up to date with the sources, installing the tools it takes.
pub(crate) fn build(project: &Project) -> Outcome {
    tools::ensure(project)?;
    let sources = Sources::now(project)?;
    if sources.are_built(project) {
        eprintln!("The site is up to date.");
        return Ok(());
    }
    eprintln!("Building the site: a minute or two the first time, a few seconds after an edit.");
    stamp::forget(project);
    fetch_libraries(project)?;
    bundle(project)?;
    pack::finish(&project.dist())
        .map_err(|error| format!("The site cannot be packed: {error}."))?;
    worker::finish(&project.dist())
        .map_err(|error| format!("The site cannot be finished: {error}."))?;
    sources.record(project)
}

/// Trunk works offline, while `cargo run` fetched only the libraries of this native program. The host's own are named
/// too: macros of the page's libraries run here, and cargo wants theirs when it is offline.
fn fetch_libraries(project: &Project) -> Outcome {
    let targets = ["--target", rust::WASM, "--target", "host-tuple"];
    finish(
        project
            .command("cargo")
            .args(["fetch", "--locked"])
            .args(targets),
    )
    .map_err(|reason| format!("{reason} The libraries of the page could not be fetched."))
}

fn bundle(project: &Project) -> Outcome {
    let mut trunk = project.command(project.tool("trunk"));
    trunk.args(["build", "--release", "--log", TRUNK_LOG]);
    trunk.env("CARGO_ENCODED_RUSTFLAGS", rust::page_flags(project));
    finish(&mut trunk)
        .map_err(|reason| format!("{reason} The site is not built; the reason stands above."))
}

/// Says where the site is and what a visitor downloads.
pub(crate) fn print_sizes(project: &Project) -> Outcome {
    let dist = project.dist();
    let weights = weigh(project, &dist)?;
    println!("The finished site is in {}", dist.display());
    for weight in &weights {
        println!("{}", weight.line());
    }
    println!("{}", Weight::total(&weights).line());
    Ok(())
}

fn weigh(project: &Project, dist: &Path) -> Outcome<Vec<Weight>> {
    let mut files = Vec::new();
    stamp::collect(dist, &mut files)
        .map_err(|error| format!("The site cannot be read: {error}."))?;
    files.sort();
    files
        .iter()
        .map(|file| Weight::of(project, dist, file))
        .collect()
}

/// One file of the site, or all of them, in bytes.
#[derive(Debug, PartialEq, Eq)]
struct Weight {
    name: String,
    raw: usize,
    /// As a web server sends it; unknown where there is no gzip.
    packed: Option<usize>,
}

impl Weight {
    fn of(project: &Project, dist: &Path, file: &Path) -> Outcome<Self> {
        let content = fs::read(file)
            .map_err(|error| format!("{} cannot be read: {error}.", file.display()))?;
        let name = file
            .strip_prefix(dist)
            .unwrap_or(file)
            .display()
            .to_string();
        Ok(Self {
            name,
            raw: content.len(),
            packed: packed_size(project, file),
        })
    }

    fn total(weights: &[Self]) -> Self {
        let raw = weights.iter().map(|weight| weight.raw).sum();
        let packed = weights.iter().map(|weight| weight.packed).sum();
        Self {
            name: "all together".into(),
            raw,
            packed,
        }
    }

    fn line(&self) -> String {
        let packed = self
            .packed
            .map(|bytes| format!("   {:>8} gzipped", kilobytes(bytes)));
        format!(
            "  {:<44} {:>8}{}",
            self.name,
            kilobytes(self.raw),
            packed.unwrap_or_default()
        )
    }
}

/// Lets the machine's gzip do the packing: the size is worth knowing, not worth a library.
fn packed_size(project: &Project, file: &Path) -> Option<usize> {
    let output = project
        .command("gzip")
        .args(["-9", "-c"])
        .arg(file)
        .output()
        .ok()?;
    output.status.success().then_some(output.stdout.len())
}

/// Rounded up to a tenth of 1000 bytes, so that no file weighs nothing.
fn kilobytes(bytes: usize) -> String {
    let tenths = bytes.div_ceil(100);
    format!("{}.{} kB", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_read_as_kilobytes() {
        assert_eq!(kilobytes(0), "0.0 kB");
        assert_eq!(kilobytes(1), "0.1 kB");
        assert_eq!(kilobytes(96_001), "96.1 kB");
    }

    #[test]
    fn a_total_is_packed_only_if_all_parts_are() {
        let part = |packed| Weight {
            name: String::new(),
            raw: 10,
            packed,
        };
        assert_eq!(
            Weight::total(&[part(Some(3)), part(Some(4))]).packed,
            Some(7)
        );
        assert_eq!(Weight::total(&[part(Some(3)), part(None)]).packed, None);
        assert_eq!(Weight::total(&[part(None), part(None)]).raw, 20);
    }
}
