//! What a host should send with the files of the site: headers with every answer, the cache rule by a file's name, the media
//! type by its ending. Our own server sends it, the file `_headers` of a built site says it, and `check-host` looks for it.

use super::listed::List;
use super::worker::{FOLDER, HEADERS, LIST, PAGE, WORKER};
use std::fmt::Write as _;
use std::fs;
use std::io::{Error, Result};
use std::path::Path;

/// What the page may do: run its own program and styles, and nothing from anywhere else. `index.html` says the same for
/// hosts that send no headers, but for the last: only a header can forbid other sites to show the page within theirs.
/// Source: W3C Content Security Policy 3, section 3.3.
pub(crate) const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; \
    base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// Headers of every answer: their names in small letters, and their values.
pub(crate) const FOR_ALL: [(&str, &str); 3] = [
    ("content-security-policy", POLICY),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
];

/// How long a browser may use what it has without asking the host.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cache {
    /// A name with a hash in it never changes its content: a year is the longest that the cache rules provide for.
    Forever,
    /// All other files are asked for again each time, so that a new build is seen at once.
    AskAgain,
    /// The browser keeps the worker in its own way. A second copy, kept by an older browser or a proxy, could keep an old build
    /// for a day.
    Never,
}

impl Cache {
    /// The rule for a file, by its address or name.
    pub(crate) fn of(path: &str) -> Self {
        let name = path.rsplit('/').next().unwrap_or_default();
        match name {
            WORKER => Self::Never,
            name if is_hashed(name) => Self::Forever,
            _ => Self::AskAgain,
        }
    }

    /// The value of the header `Cache-Control`.
    pub(crate) fn value(self) -> &'static str {
        match self {
            Self::Forever => "public, max-age=31536000, immutable",
            Self::AskAgain => "no-cache",
            Self::Never => "no-store",
        }
    }
}

/// Trunk names hashed files `name-hash.css`, and the program `name-hash_bg.wasm`. The hash is a 64-bit number in
/// hexadecimal without leading zeros; eight digits are enough to tell it from a word.
fn is_hashed(name: &str) -> bool {
    let stem = name.rsplit_once('.').map_or("", |(stem, _)| stem);
    let hash = stem
        .strip_suffix("_bg")
        .unwrap_or(stem)
        .rsplit_once('-')
        .map_or("", |(_, hash)| hash);
    (8..=16).contains(&hash.len()) && hash.bytes().all(|digit| digit.is_ascii_hexdigit())
}

/// The media type of files with one ending.
pub(crate) struct MediaType {
    ending: &'static str,
    /// The type to send, as the standard of the format names it.
    pub(crate) name: &'static str,
    /// An older name that browsers take as well.
    older: Option<&'static str>,
    /// Whether browsers refuse a file of another type, or read it as something else.
    pub(crate) is_needed: bool,
}

impl MediaType {
    const fn new(ending: &'static str, name: &'static str, is_needed: bool) -> Self {
        Self {
            ending,
            name,
            older: None,
            is_needed,
        }
    }

    const fn or(self, older: &'static str) -> Self {
        Self {
            older: Some(older),
            ..self
        }
    }

    /// The type of a file by its name; `None` for an ending that the site does not use.
    pub(crate) fn of(name: &str) -> Option<&'static Self> {
        let name = if name == FOLDER { PAGE } else { name };
        let (_, ending) = name.rsplit_once('.')?;
        TYPES.iter().find(|media| media.ending == ending)
    }

    /// Whether a host may send this as the type, without its parameters.
    pub(crate) fn admits(&self, sent: &str) -> bool {
        let is_it = |name: &str| name.eq_ignore_ascii_case(sent);
        is_it(self.name) || self.older.is_some_and(is_it)
    }

    /// The value of the header `Content-Type`: texts say how their letters are written.
    fn value(&self) -> String {
        let is_text = self.name.starts_with("text/");
        let letters = if is_text { "; charset=utf-8" } else { "" };
        format!("{}{letters}", self.name)
    }
}

/// Sources: of scripts RFC 9239, of WebAssembly the W3C's Web API, of manifests W3C Web Application Manifest, of typefaces
/// RFC 8081, the others from the list that IANA keeps.
const TYPES: [MediaType; 10] = [
    MediaType::new("css", "text/css", true),
    MediaType::new("html", "text/html", true),
    MediaType::new("js", "text/javascript", true).or("application/javascript"),
    MediaType::new("json", "application/json", false),
    MediaType::new("png", "image/png", false),
    MediaType::new("svg", "image/svg+xml", true),
    MediaType::new("txt", "text/plain", false),
    MediaType::new("wasm", "application/wasm", true),
    MediaType::new("webmanifest", "application/manifest+json", false).or("application/json"),
    MediaType::new("woff2", "font/woff2", false).or("application/font-woff2"),
];

/// Writes the file `_headers` for the build in this folder.
///
/// # Errors
/// When the build has no list, or the folder cannot be written.
pub(crate) fn leave(dist: &Path) -> Result<()> {
    let list = List::parse(&fs::read(dist.join(LIST))?).map_err(Error::other)?;
    let files = list.files.keys().map(String::as_str);
    fs::write(dist.join(HEADERS), rules(files.chain([LIST, WORKER])))
}

/// A path on a line of its own, its headers indented below. A wildcard cannot tell hashed names from others, and some hosts join
/// the values of two rules that fit: so each file has its own rule, and the one for all names none of the same headers.
fn rules<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut text = String::from(
        "# For hosts that read this file: what to send with each file of this build.\n/*\n",
    );
    let mut add = |name: &str, value: &str| {
        // Writing to a text cannot fail.
        let _ = writeln!(text, "  {name}: {value}");
    };
    for (name, value) in FOR_ALL {
        add(name, value);
    }
    for name in names {
        let paths = if name == FOLDER {
            vec!["", PAGE]
        } else {
            vec![name]
        };
        for path in paths {
            let _ = write!(
                text,
                "\n/{path}\n  cache-control: {}\n",
                Cache::of(name).value()
            );
            if let Some(media) = MediaType::of(name) {
                let _ = writeln!(text, "  content-type: {}", media.value());
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_states_the_same_policy_as_the_header() {
        let page = include_str!("../../index.html");
        let policy = POLICY.strip_suffix("; frame-ancestors 'none'").unwrap();
        assert!(page.contains(&format!("content=\"{policy}\"")));
    }

    #[test]
    fn only_a_hash_in_the_name_makes_a_file_permanent() {
        for name in [
            "a-0123456789abcdef.css",
            "taperwright-123456789abcdef_bg.wasm",
            "a-b-0123456789abcdef.js",
        ] {
            assert!(is_hashed(name), "{name}");
        }
        for name in [
            "",
            "worker.js",
            "index.html",
            "icon-192.png",
            "line-card.svg",
            "0123456789abcdef.css",
            "a-0123456789abcdef",
        ] {
            assert!(!is_hashed(name), "{name}");
        }
    }

    #[test]
    fn no_two_rules_of_a_file_name_the_same_header() {
        let text = rules(["./", "a-0123456789abcdef.js", "inside/b.png", WORKER].into_iter());
        let blocks: Vec<&str> = text.split("\n\n").collect();
        assert!(blocks[0].contains("\n/*\n  content-security-policy: default-src 'none';"));
        assert!(!blocks[0].contains("cache-control") && !blocks[0].contains(" content-type"));
        let page = "  cache-control: no-cache\n  content-type: text/html; charset=utf-8";
        let script = "content-type: text/javascript; charset=utf-8";
        assert_eq!(
            blocks[1..],
            [
                format!("/\n{page}"),
                format!("/index.html\n{page}"),
                format!(
                    "/a-0123456789abcdef.js\n  cache-control: public, max-age=31536000, immutable\n  {script}"
                ),
                "/inside/b.png\n  cache-control: no-cache\n  content-type: image/png".to_owned(),
                format!("/worker.js\n  cache-control: no-store\n  {script}\n"),
            ]
        );
    }
}
