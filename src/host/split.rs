//! Cuts the program in two. What the first use needs is the first file; what comes later (`src/page/view/later.rs`) is the
//! second, which the first asks for. Both share one memory and one table of functions.
//!
//! Trunk knows no such thing and joins the whole program to the browser. So its two files are replaced: the compiled program
//! is cut, the first part joined by wasm-bindgen, and the little script that loads the second is put into wasm-bindgen's own,
//! so that it costs no request.

use super::Outcome;
use super::order::packable;
use super::project::{Project, finish};
use super::rust::WASM;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{Error, Result};
use std::path::Path;
use wasm_split_cli_support::{Options, transform};

/// The program's name in the site, before the number of its content.
const NAME: &str = "taperwright";
/// The name of the second file's cut, as `later.rs` has it.
const LATER: &str = "later";
/// The script that loads the second file, as the cut names it.
const LINK: &str = "./link.js";
/// How the cut starts the second file, and how it is started here.
const STREAMED: &str = "WebAssembly.instantiateStreaming(src, imports)";
const LOADED: &str = "__wbg_load(await src, imports)";
/// Names of functions and of tools are for developers; the relocations have been worked in.
const BINDGEN: &str = "--target web --no-typescript --keep-lld-exports --remove-name-section --remove-producers-section";

/// Replaces the program in the site by its two parts.
///
/// # Errors
/// When the program cannot be cut or joined, or the site does not look as trunk leaves it.
pub(crate) fn cut(project: &Project) -> Outcome {
    let folder = project.target().join("split");
    let whole = project.target().join(WASM).join("release/taperwright.wasm");
    let trouble = |what: &str| format!("The program cannot be cut in two: {what}.");
    // Files of another cut must not be taken for this one's.
    drop(fs::remove_dir_all(&folder));
    let whole = fs::read(whole).map_err(|error| trouble(&error.to_string()))?;
    let first = folder.join("taperwright.wasm");
    let mut options = Options::new(&whole);
    options.output_dir = &folder;
    options.main_out_path = &first;
    options.link_name = LINK;
    options.main_module = "./taperwright.js";
    let parts = transform(options).map_err(|error| trouble(&error.to_string()))?;
    let expected = folder.join(format!("split_{LATER}.wasm"));
    if parts.split_modules != [expected] {
        return Err(trouble(&format!(
            "one second file is expected, not {:?}",
            parts.split_modules
        )));
    }
    let mut bindgen = project.command(project.tool("wasm-bindgen"));
    bindgen
        .arg(&first)
        .arg("--out-dir")
        .arg(folder.join("site"));
    finish(bindgen.args(BINDGEN.split_whitespace()))?;
    replace(&folder, &project.dist()).map_err(|error| trouble(&error.to_string()))
}

/// Puts the parts into the site, each under a name that has the number of its content.
fn replace(folder: &Path, dist: &Path) -> Result<()> {
    let read = |name: &str| fs::read(folder.join(name));
    let later = packable(&read(&format!("split_{LATER}.wasm"))?).map_err(Error::other)?;
    let later_name = name(LATER, "", &later, "wasm");
    let first = packable(&read("site/taperwright_bg.wasm")?).map_err(Error::other)?;
    let first_name = name(NAME, "_bg", &first, "wasm");
    let script = fs::read_to_string(folder.join("site/taperwright.js"))?;
    let link = fs::read_to_string(folder.join("link.js"))?;
    let script = joined(&script, &link, &later_name)?;
    let script_name = name(NAME, "", script.as_bytes(), "js");

    let page = fs::read_to_string(dist.join("index.html"))?;
    let (page, left) = renamed(
        &page,
        [("data-js=", &script_name), ("data-wasm=", &first_name)],
    )?;
    for name in left {
        fs::remove_file(dist.join(name))?;
    }
    fs::write(dist.join(later_name), later)?;
    fs::write(dist.join(first_name), first)?;
    fs::write(dist.join(script_name), script)?;
    fs::write(dist.join("index.html"), page)
}

/// `start-0123456789abcdef_end.kind`: a name that never changes its content.
pub(super) fn name(start: &str, end: &str, content: &[u8], kind: &str) -> String {
    let mut hasher = DefaultHasher::new();
    content.hash(&mut hasher);
    format!("{start}-{:016x}{end}.{kind}", hasher.finish())
}

/// wasm-bindgen's script with the loader of the second file in it.
fn joined(script: &str, link: &str, later: &str) -> Result<String> {
    let wrong = |what: &str| Error::other(format!("{what} was expected in the scripts"));
    // In one script, what one half takes from the other is there by its name.
    let asked = script
        .lines()
        .find(|line| line.starts_with("import ") && line.contains(LINK))
        .ok_or_else(|| wrong("the import of the loader"))?;
    let held = asked
        .split_whitespace()
        .nth(3)
        .ok_or_else(|| wrong("the loader's name"))?;
    let (start, link) = link.split_once('\n').ok_or_else(|| wrong("the loader"))?;
    let loader = format!("__wasm_split_load_{LATER}");
    if !start.contains("initSync") || !link.contains(&loader) {
        return Err(wrong("the loader's import and its name"));
    }
    let mut link = link.to_owned();
    for (old, new) in [
        // Asked for once more, it must not come out of the browser's cache again.
        (
            format!("fetch(new URL(\"./split_{LATER}.wasm\", import.meta.url))"),
            format!(
                "fetch(new URL(\"./{later}\", import.meta.url), {{ cache: document.documentElement.dataset.again ?? \"default\" }})"
            ),
        ),
        // wasm-bindgen's way also works on hosts that do not know the kind of the file.
        (STREAMED.to_owned(), LOADED.to_owned()),
    ] {
        if link.matches(&old).count() != 1 {
            return Err(wrong(&old));
        }
        link = link.replace(&old, &new);
    }
    Ok(format!(
        "{}\n{link}\nconst {held} = {{ {loader} }};\n",
        script.replacen(asked, "", 1)
    ))
}

/// The page with the names at these attributes changed, wherever it has them, and the names it had.
fn renamed<const N: usize>(page: &str, names: [(&str, &str); N]) -> Result<(String, Vec<String>)> {
    let mut page = page.to_owned();
    let mut left = Vec::new();
    for (attribute, name) in names {
        let missing = || Error::other(format!("the page has no {attribute}"));
        let (_, value) = page.split_once(attribute).ok_or_else(missing)?;
        let value = value.trim_start_matches('"').split(['"', ' ', '>']).next();
        let old = value
            .ok_or_else(missing)?
            .trim_start_matches("./")
            .to_owned();
        // It asks for them early, too.
        page = page.replace(&old, name);
        left.push(old);
    }
    Ok((page, left))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SCRIPT: &str = "import * as import1 from \"./link.js\"\n\nuse(import1);\n";
    const LINKED: &str = "import { initSync } from \"./taperwright.js\";\n\n\
        export const __wasm_split_load_later = load(() => {\n    const src = fetch(new URL(\"./split_later.wasm\", import.meta.url));\n    \
        return async (imports) => (WebAssembly.instantiateStreaming(src, imports));\n});\n";

    #[test]
    fn two_scripts_become_one_that_imports_nothing() {
        let script = joined(SCRIPT, LINKED, "later-0123.wasm").unwrap();
        assert!(
            !script.contains("import {") && !script.contains("import *"),
            "{script}"
        );
        assert!(script.contains("new URL(\"./later-0123.wasm\", import.meta.url), { cache: "));
        assert!(script.contains("(__wbg_load(await src, imports))"));
        assert!(script.ends_with("\nconst import1 = { __wasm_split_load_later };\n"));
    }

    #[test]
    fn scripts_of_another_form_are_refused() {
        for word in [
            "import *",
            "initSync",
            "split_later.wasm",
            "Streaming",
            "load_later",
        ] {
            let other = |text: &str| text.replace(word, "other");
            let said = joined(&other(SCRIPT), &other(LINKED), "later.wasm").unwrap_err();
            assert!(said.to_string().contains("was expected"), "{word}: {said}");
        }
    }

    #[test]
    fn the_page_names_the_new_files() {
        for page in [
            "<link href=\"./a-1.js\"><meta data-js=\"./a-1.js\" data-wasm=\"./a-1.wasm\">",
            "<meta data-wasm=./a-1.wasm data-js=./a-1.js><link href=./a-1.js>",
        ] {
            let names = [("data-js=", "b-2.js"), ("data-wasm=", "c-3.wasm")];
            let (new, left) = renamed(page, names).unwrap();
            assert_eq!(left, ["a-1.js", "a-1.wasm"]);
            let expected = page
                .replace("a-1.js", "b-2.js")
                .replace("a-1.wasm", "c-3.wasm");
            assert_eq!(new, expected);
        }
        assert!(renamed("<meta>", [("data-js=", "b.js")]).is_err());
    }
}
