//! Builds the page that times the core in a browser (`tests/bench/in_browser`): compiled as the site is, joined to the browser
//! by the tool the site is joined with.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const TARGET: &str = "wasm32-unknown-unknown";

/// Puts the page into a folder that is there: `index.html` with all it loads. Served from there and opened with a line's code
/// after `#`, it writes milliseconds as JSON into its element `times`, whose `data-state` is then `done`; on trouble it is
/// `failed`. `?runs=50&batch=20` before the `#` sets how often plans are timed, and how many at a time.
///
/// The first build takes some minutes, since the libraries are compiled too.
///
/// # Errors
/// What is missing, or what the compiler said.
pub(crate) fn build(into: &Path) -> Result<(), String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let tool = root.join(".tools/bin/wasm-bindgen");
    if !tool.exists() {
        return Err("wasm-bindgen is not installed; type: cargo run -- build".to_owned());
    }
    let module = compile(root)?;
    let mut bindgen = Command::new(tool);
    bindgen.args(["--target", "web", "--no-typescript", "--out-dir"]);
    run(bindgen.arg(into).arg(module))?;
    for page in ["index.html", "page.js"] {
        let from = crate_folder(root).join(page);
        fs::copy(&from, into.join(page)).map_err(|error| format!("{}: {error}", from.display()))?;
    }
    Ok(())
}

fn crate_folder(root: &Path) -> PathBuf {
    root.join("tests/bench/in_browser")
}

/// Compiled in its own folder, so that cargo finds the flags of the page in `.cargo/config.toml`.
fn compile(root: &Path) -> Result<PathBuf, String> {
    let target = root.join("target");
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.args([
        "build",
        "--quiet",
        "--release",
        "--locked",
        "--target",
        TARGET,
        "--target-dir",
    ]);
    run(cargo.arg(&target).current_dir(crate_folder(root)))?;
    Ok(target.join(TARGET).join("release/in_browser.wasm"))
}

fn run(command: &mut Command) -> Result<(), String> {
    let output = command.output().map_err(|error| error.to_string())?;
    let said = String::from_utf8_lossy(&output.stderr);
    output
        .status
        .success()
        .then_some(())
        .ok_or_else(|| said.into_owned())
}
