//! The number of a build, and the worker that keeps a copy of the site in the browser. The number follows from the contents of
//! all files, so that another site is another build. The list beside them holds the SHA-256 of each, so that a browser keeps none
//! that a host sent damaged.

use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::fs;
use std::io::{Error, Result};
use std::ops::Range;
use std::path::Path;

/// The worker's name in the site.
pub(crate) const WORKER: &str = "worker.js";
/// The list of all files of the build.
pub(crate) const LIST: &str = "build.json";
/// The page; the worker asks for it by its folder, since some hosts send whoever asks for the file there.
pub(crate) const PAGE: &str = "index.html";
/// The page in the list: its folder.
pub(crate) const FOLDER: &str = "./";
/// What a host should send: for the host, so no file of the build.
pub(crate) const HEADERS: &str = "_headers";
/// Endings of packed copies: a browser gets them under the name of the file they are of.
const PACKED: [&str; 2] = [".br", ".gz"];
/// How the worker begins, up to the number of its build.
pub(crate) const NUMBERED: &str = "const BUILD = \"";
/// The worker, but for what it must know of the site.
const SOURCE: &str = include_str!("../../style/worker.js");

/// Writes the number of the build into the page, and list and worker beside it. A second time, it changes nothing.
///
/// # Errors
/// When the folder cannot be read or written, holds no page with a place for the number, or a file whose name is no address.
pub(crate) fn finish(dist: &Path) -> Result<()> {
    let page = fs::read_to_string(dist.join(PAGE))?;
    let place = place_of_number(&page)
        .ok_or_else(|| Error::other("the page has no place for the build's number"))?;
    let mut names = Vec::new();
    collect(dist, "", &mut names)?;
    names.retain(|name| {
        let is_packed = PACKED.iter().any(|ending| name.ends_with(ending));
        !is_packed && ![WORKER, LIST, PAGE, HEADERS].contains(&name.as_str())
    });
    names.sort();
    let mut files = Vec::with_capacity(names.len() + 1);
    for name in names {
        let sum = sha256(&fs::read(dist.join(&name))?);
        files.push((name, sum));
    }
    let number = number(&files, [&page[..place.start], &page[place.end..]]);
    let page = format!("{}{number}{}", &page[..place.start], &page[place.end..]);
    fs::write(dist.join(PAGE), &page)?;
    files.push((FOLDER.to_owned(), sha256(page.as_bytes())));
    fs::write(dist.join(LIST), list(&number, &files))?;
    let worker = format!("{NUMBERED}{number}\";\n\n{SOURCE}");
    fs::write(dist.join(WORKER), worker)
}

/// The build with its files and the SHA-256 of each, for the worker.
fn list(number: &str, files: &[(String, String)]) -> String {
    let rows: Vec<String> = files
        .iter()
        .map(|(name, sum)| format!("\"{name}\": \"{sum}\""))
        .collect();
    let rows = rows.join(",\n    ");
    format!("{{\n  \"build\": \"{number}\",\n  \"files\": {{\n    {rows}\n  }}\n}}\n")
}

/// A fingerprint of all files, of the page without its number, and of the worker.
fn number(files: &[(String, String)], page: [&str; 2]) -> String {
    let files = files.iter().map(|(name, sum)| format!("{name} {sum}"));
    let parts = page.into_iter().chain([SOURCE]);
    let sums: Vec<String> = parts
        .map(|part| sha256(part.as_bytes()))
        .chain(files)
        .collect();
    sha256(sums.join("\n").as_bytes())[..16].to_owned()
}

/// SHA-256 in hexadecimal digits. Source: FIPS 180-4.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    let mut digits = String::new();
    for byte in Sha256::digest(bytes) {
        // Writing to a text cannot fail.
        let _ = write!(digits, "{byte:02x}");
    }
    digits
}

/// Where the number stands in the page: the content of the element named `build`.
pub(crate) fn place_of_number(page: &str) -> Option<Range<usize>> {
    place_of(page, "build")
}

/// Where the content of the element of this name stands in the page, which the build may have stripped of quotes: letters, digits,
/// and what an address may have beside them.
pub(crate) fn place_of(page: &str, name: &str) -> Option<Range<usize>> {
    let bare = format!("name={name}");
    let at = [format!("name=\"{name}\""), bare.clone() + " ", bare + ">"]
        .iter()
        .find_map(|name| page.find(name))?;
    let start = page[..at].rfind('<')?;
    let end = at + page[at..].find('>')?;
    let content = "content=";
    let value = start + page[start..end].find(content)? + content.len();
    let value = value + usize::from(page[value..].starts_with('"'));
    let length = page[value..].find(|letter: char| !is_plain(letter))?;
    Some(value..value + length)
}

/// Adds the addresses of all files below a folder.
fn collect(folder: &Path, above: &str, names: &mut Vec<String>) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().into_string().unwrap_or_default();
        let name = format!("{above}{}", address(&name)?);
        if entry.file_type()?.is_dir() {
            collect(&entry.path(), &format!("{name}/"), names)?;
        } else {
            names.push(name);
        }
    }
    Ok(())
}

/// Whether a letter needs no escape in an address or in a script.
fn is_plain(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || "-_.".contains(letter)
}

/// The name, where it needs no escapes in an address or in a script.
///
/// # Errors
/// When it is empty or needs them.
pub(crate) fn address(name: &str) -> Result<&str> {
    let all = !name.is_empty() && name.chars().all(is_plain);
    all.then_some(name)
        .ok_or_else(|| Error::other(format!("“{name}” is no plain name for an address")))
}
