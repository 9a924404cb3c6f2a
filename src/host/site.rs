//! The finished site: built when it no longer matches its sources, and weighed.

use super::packed::ENDINGS;
use super::project::{Project, finish};
use super::stamp::{self, Sources};
use super::{Outcome, headers, packed, photo, rust, split, tools, worker};
use std::fs;
use std::path::Path;

/// Trunk's minifier gives up on the script of wasm-bindgen, which it then takes as it is, with a warning at every build.
pub(crate) const TRUNK_LOG: &str = "trunk=info,trunk::processing::minify=error";

/// Brings `dist` up to date with the sources, installing the tools it takes.
pub(crate) fn build(project: &Project) -> Outcome {
    tools::ensure(project)?;
    let sources = Sources::now(project)?;
    if sources.are_built(project) {
        eprintln!("The site is up to date.");
        return Ok(());
    }
    eprintln!("Building the site: a minute or two.");
    stamp::forget(project);
    let mut trunk = project.command(project.tool("trunk"));
    trunk.args(["build", "--release", "--log", TRUNK_LOG]);
    trunk.env("CARGO_ENCODED_RUSTFLAGS", rust::page_flags(project));
    // Trunk reads it as a switch and takes no value but `true` and `false`.
    trunk.env_remove("NO_COLOR");
    finish(&mut trunk)?;
    split::cut(project)?;
    photo::add(project)?;
    worker::finish(&project.dist())
        .and_then(|()| headers::leave(&project.dist()))
        .and_then(|()| packed::leave(&project.dist()))
        .map_err(|error| format!("The site cannot be finished: {error}."))?;
    sources.record(project)
}

/// Says where the site is and what a visitor downloads: each file as it is, and packed by Brotli and by gzip.
pub(crate) fn print_sizes(project: &Project) -> Outcome {
    let dist = project.dist();
    let rows = sizes(&dist).map_err(|error| format!("The site cannot be read: {error}."))?;
    println!("The finished site is in {}", dist.display());
    println!(
        "{:<44} {:>12} {:>12} {:>12}",
        "bytes", "plain", "Brotli", "gzip"
    );
    for (name, [plain, br, gz]) in rows {
        println!("{name:<44} {plain:>12} {br:>12} {gz:>12}");
    }
    Ok(())
}

/// Bytes of every file, plain and packed both ways, and of all together. What has no packed copy is sent plain.
fn sizes(dist: &Path) -> std::io::Result<Vec<(String, [u64; 3])>> {
    let mut files = Vec::new();
    stamp::collect(dist, &mut files)?;
    files.sort();
    let mut rows = Vec::new();
    let mut sum = [0; 3];
    for file in files {
        let ending = file
            .extension()
            .and_then(|ending| ending.to_str())
            .unwrap_or_default();
        if ENDINGS.contains(&ending) || file.ends_with(worker::HEADERS) {
            continue;
        }
        let plain = fs::metadata(&file)?.len();
        let packed = ENDINGS.map(|packed| {
            let copy = file.with_extension(format!("{ending}.{packed}"));
            fs::metadata(copy).map_or(plain, |copy| copy.len())
        });
        let row = [plain, packed[0], packed[1]];
        sum = [sum[0] + row[0], sum[1] + row[1], sum[2] + row[2]];
        rows.push((
            file.strip_prefix(dist)
                .unwrap_or(&file)
                .display()
                .to_string(),
            row,
        ));
    }
    rows.push(("all together".to_owned(), sum));
    Ok(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_without_packed_copies_is_sent_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        for (name, bytes) in [
            ("a.js", 10),
            ("a.js.br", 3),
            ("a.js.gz", 4),
            ("b.png", 7),
            ("_headers", 9),
        ] {
            fs::write(folder.path().join(name), vec![0; bytes]).unwrap();
        }
        let row = |name: &str, bytes| (name.to_owned(), bytes);
        assert_eq!(
            sizes(folder.path()).unwrap(),
            [
                row("a.js", [10, 3, 4]),
                row("b.png", [7, 7, 7]),
                row("all together", [17, 10, 11])
            ]
        );
    }
}
