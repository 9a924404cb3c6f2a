//! The third file of the program: what reads photographs, beside the page (`src/page/photo_worker`). It is a program of its own, of
//! the same package, compiled without the page. Its script is wasm-bindgen's with `style/photo.js` at its end.
//!
//! It calculates on millions of pixels, so this package is compiled for speed here, not for size; its libraries are those of the
//! page, compiled once for both.

use super::order::packable;
use super::project::{Project, finish};
use super::split::name;
use super::worker::{PAGE, place_of};
use super::{Outcome, rust};
use std::fs;
use std::io::{Error, Result};
use std::path::{Path, PathBuf};
use std::process::Command;

/// The program's name in the site, before the number of its content; its element in the page.
const NAME: &str = "photo";
/// What wasm-bindgen names its files. The development loop leaves them so.
const SCRIPT: &str = "photo.js";
const PROGRAM: &str = "photo_bg.wasm";
/// The end of the script.
const END: &str = include_str!("../../style/photo.js");

/// What cargo compiles.
const BUILD: &str = "build --locked --bin photo --features photo-worker --target";
const BINDGEN: &str =
    "--target web --no-typescript --remove-name-section --remove-producers-section";

/// Puts the program into the finished site, and its name into the page.
///
/// # Errors
/// When it cannot be compiled or joined, or the page has no place for its name.
pub(crate) fn add(project: &Project) -> Outcome {
    let mut cargo = compile(project, "release");
    cargo
        .arg("--release")
        .env("CARGO_ENCODED_RUSTFLAGS", rust::page_flags(project));
    finish(&mut cargo)?;
    let folder = join(project, &project.target(), "release")?;
    replace(&folder, &project.dist()).map_err(|error| trouble(&error))
}

/// Compiles the program for the development loop, in the loop's own folder and with its settings for cargo. The answer is where
/// its files are.
///
/// # Errors
/// When it cannot be compiled or joined.
pub(crate) fn beside_the_loop(
    project: &Project,
    target: &Path,
    settings: &[(&str, &str)],
) -> Outcome<PathBuf> {
    let mut cargo = compile(project, "dev");
    cargo.env("CARGO_TARGET_DIR", target);
    finish(cargo.envs(settings.iter().copied()))?;
    let folder = join(project, target, "debug")?;
    let script = folder.join(SCRIPT);
    let whole =
        fs::read_to_string(&script).and_then(|text| fs::write(&script, joined(&text, PROGRAM)?));
    whole.map_err(|error| trouble(&error))?;
    Ok(folder)
}

fn trouble(error: &Error) -> String {
    format!("The program that reads photographs cannot be finished: {error}.")
}

fn compile(project: &Project, profile: &str) -> Command {
    let mut cargo = project.cargo(BUILD);
    cargo.arg(rust::WASM);
    cargo.args([
        "--config",
        &format!("profile.{profile}.package.taperwright.opt-level=3"),
    ]);
    cargo
}

/// Joins the compiled program to the browser; the folder with its two files.
fn join(project: &Project, target: &Path, profile: &str) -> Outcome<PathBuf> {
    let folder = target.join("photo");
    // A file of another build must not be taken for one of this.
    drop(fs::remove_dir_all(&folder));
    let whole = target.join(rust::WASM).join(profile).join("photo.wasm");
    let mut bindgen = project.command(project.tool("wasm-bindgen"));
    bindgen.arg(whole).arg("--out-dir").arg(&folder);
    finish(bindgen.args(BINDGEN.split_whitespace()))?;
    Ok(folder)
}

/// Puts the files into the site, each under a name that has the number of its content, and the script's name into the page.
fn replace(folder: &Path, dist: &Path) -> Result<()> {
    let program = packable(&fs::read(folder.join(PROGRAM))?).map_err(Error::other)?;
    let program_name = name(NAME, "_bg", &program, "wasm");
    let script = joined(&fs::read_to_string(folder.join(SCRIPT))?, &program_name)?;
    let script_name = name(NAME, "", script.as_bytes(), "js");
    let page = named(&fs::read_to_string(dist.join(PAGE))?, &script_name)?;
    fs::write(dist.join(program_name), program)?;
    fs::write(dist.join(script_name), script)?;
    fs::write(dist.join(PAGE), page)
}

/// wasm-bindgen's script with the end that starts the program of this name.
fn joined(script: &str, program: &str) -> Result<String> {
    let wrong = |what: &str| Error::other(format!("{what} was expected in the script"));
    if !script.contains("__wbg_init as default") {
        return Err(wrong("the function that starts the program"));
    }
    // Whatever it imported would be one more file.
    if script.lines().any(|line| line.starts_with("import ")) {
        return Err(wrong("no import"));
    }
    let whole = format!("{script}\n{END}");
    if !script.contains(PROGRAM) || !END.contains(PROGRAM) {
        return Err(wrong(PROGRAM));
    }
    Ok(whole.replace(PROGRAM, program))
}

/// The page with the name of the script in its element.
fn named(page: &str, script: &str) -> Result<String> {
    let missing = || Error::other("the page has no place for the name of its script");
    let place = place_of(page, NAME).ok_or_else(missing)?;
    Ok(format!(
        "{}{script}{}",
        &page[..place.start],
        &page[place.end..]
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What wasm-bindgen writes, as far as it matters here.
    const BOUND: &str = "async function __wbg_init(at) {\n    at = new URL('photo_bg.wasm', import.meta.url);\n}\n\n\
        export { initSync, __wbg_init as default };\n";

    #[test]
    fn the_script_starts_its_program_and_imports_nothing() {
        let script = joined(BOUND, "photo-0123_bg.wasm").unwrap();
        assert!(script.starts_with("async function __wbg_init"));
        assert!(script.contains("fetch(new URL(\"photo-0123_bg.wasm\", import.meta.url)"));
        assert!(!script.contains(PROGRAM));
    }

    #[test]
    fn scripts_of_another_form_are_refused() {
        let other = [
            BOUND.replace("as default", "as start"),
            BOUND.replace(PROGRAM, "other.wasm"),
            format!("import {{ f }} from './more.js';\n{BOUND}"),
        ];
        for script in other {
            let said = joined(&script, "photo-0123_bg.wasm")
                .unwrap_err()
                .to_string();
            assert!(said.ends_with("was expected in the script"), "{said}");
        }
    }

    #[test]
    fn the_page_names_the_script() {
        let page = include_str!("../../index.html");
        // The development loop serves it by this name.
        assert_eq!(&page[place_of(page, NAME).unwrap()], SCRIPT);
        for page in [
            page,
            "<meta content=photo.js name=photo><p>photo.js",
            "<meta name=photo content=photo.js>",
        ] {
            let named = named(page, "photo-0123456789abcdef.js").unwrap();
            assert_eq!(
                &named[place_of(&named, NAME).unwrap()],
                "photo-0123456789abcdef.js"
            );
            assert_eq!(named.len(), page.len() + 17);
        }
        assert!(named("<meta name=\"other\" content=\"photo.js\">", "a.js").is_err());
    }
}
