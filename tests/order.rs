//! The order of the house: each folder of `src` imports only from those above it in the list of `src/lib.rs`, and no files
//! import each other in a circle.
//!
//! Read are paths as they are written: `crate::…`, `super::…`, and those that begin with a child module. A name that a
//! module only hands on (`pub use`) belongs to the file that defines it. Unit tests at the foot of a file are passed over.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use petgraph::algo::tarjan_scc;
use petgraph::graphmap::DiGraphMap;

/// The folders in their order. The native program stands beside the library and imports nothing of it.
const FLOORS: [&str; 11] = [
    "base", "turnover", "braid", "design", "measured", "photo", "plan", "edit", "paper", "keep",
    "page",
];

type Module = Vec<String>;

/// The modules of a crate: for each the text of its file, without comments, strings and unit tests.
#[derive(Default)]
struct House {
    files: BTreeMap<Module, String>,
    /// Names handed on by `pub use`: module and name, to the path behind it.
    exports: BTreeMap<(Module, String), Module>,
}

impl House {
    fn read(root: &Path) -> Self {
        let mut house = Self::default();
        house.read_folder(root, &mut Vec::new());
        house.collect_exports();
        house
    }

    fn read_folder(&mut self, folder: &Path, module: &mut Module) {
        for entry in fs::read_dir(folder).expect("the folder can be listed") {
            let path = entry.expect("the folder can be listed").path();
            let name = path.file_stem().expect("a file has a name");
            let name = name.to_string_lossy().into_owned();
            if path.is_dir() {
                module.push(name);
                self.read_folder(&path, module);
                module.pop();
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let own = (name != "mod").then_some(name);
                let module = module.iter().cloned().chain(own).collect();
                let text = fs::read_to_string(&path).expect("a source file is text");
                self.files.insert(module, code_of(&text));
            }
        }
    }

    fn collect_exports(&mut self) {
        let mut exports = BTreeMap::new();
        for (module, text) in &self.files {
            for (is_export, path) in uses(text) {
                let (Some(absolute), true) = (self.absolute(module, &path), is_export) else {
                    continue;
                };
                if let Some(name) = absolute.last().cloned() {
                    exports.insert((module.clone(), name), absolute);
                }
            }
        }
        self.exports = exports;
    }

    /// A path as written in a module, from the root of the crate; `None` where it leads out of the crate.
    fn absolute(&self, module: &Module, path: &[String]) -> Option<Module> {
        let first = path.first()?;
        let mut base = module.clone();
        let mut rest = path;
        match first.as_str() {
            "crate" => {
                base.clear();
                rest = &path[1..];
            }
            "self" => rest = &path[1..],
            "super" => {
                while rest.first().is_some_and(|step| step == "super") {
                    base.pop();
                    rest = &rest[1..];
                }
            }
            child => {
                base.push(child.to_owned());
                let is_child = self.files.contains_key(&base);
                base.pop();
                is_child.then_some(())?;
            }
        }
        Some(base.into_iter().chain(rest.iter().cloned()).collect())
    }

    /// The file that defines what an absolute path names.
    fn file_of(&self, path: &Module) -> Option<Module> {
        let mut path = path.clone();
        // A name may be handed on more than once; never in a circle.
        for _ in 0..8 {
            let longest = (0..=path.len()).rev();
            let mut modules = longest.map(|length| path[..length].to_vec());
            let module = modules.find(|module| self.files.contains_key(module))?;
            let handed_on = path
                .get(module.len())
                .and_then(|name| self.exports.get(&(module.clone(), name.clone())));
            match handed_on {
                Some(target) if *target != path => {
                    let rest = path[module.len() + 1..].to_vec();
                    path = target.iter().cloned().chain(rest).collect();
                }
                _ => return Some(module),
            }
        }
        None
    }

    /// Which file imports from which. What a file hands on it imports only where it also uses it.
    fn imports(&self) -> BTreeSet<(String, String)> {
        let mut found = BTreeSet::new();
        for (module, text) in &self.files {
            let body = without_uses(text);
            let is_used = |name: &String| {
                let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
                body.split(|letter: char| !is_part(letter))
                    .any(|word| word == name)
            };
            let inline = paths(&body).into_iter().map(|path| (false, path));
            for (is_export, path) in uses(text).into_iter().chain(inline) {
                let target = self
                    .absolute(module, &path)
                    .and_then(|path| self.file_of(&path));
                if let Some(target) = target
                    && (!is_export || path.last().is_some_and(is_used))
                    && target != *module
                {
                    found.insert((module.join("/"), target.join("/")));
                }
            }
        }
        found
    }
}

/// Code without comments, string literals and unit tests, so that only paths are left to be found.
fn code_of(text: &str) -> String {
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    let mut code = String::new();
    for line in text.lines() {
        let line = line.split("//").next().unwrap_or_default();
        // Serde names a module in a string: `with = "crate::base::choice"`.
        code.push_str(&line.replace('"', " "));
        code.push('\n');
    }
    code
}

/// Every path that a `use` names, groups taken apart, and whether it is handed on to others.
fn uses(text: &str) -> Vec<(bool, Module)> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("use ") {
        let line_start = text[..at].rfind('\n').map_or(0, |end| end + 1);
        let before = text[line_start..at].trim();
        let is_export = before.starts_with("pub");
        if !(before.is_empty() || is_export) {
            continue;
        }
        let tree = text[at + 4..].split(';').next().unwrap_or_default();
        let tree: String = tree.split_whitespace().collect::<Vec<_>>().join(" ");
        take_apart(&tree, &[], &mut |path| found.push((is_export, path)));
    }
    found
}

/// Gives every path of a tree of imports: `a::{b, c::{d, e}}` names `a::b`, `a::c::d` and `a::c::e`.
fn take_apart(tree: &str, before: &[String], found: &mut dyn FnMut(Module)) {
    let (head, group) = match tree.split_once('{') {
        Some((head, group)) => {
            let group = group.trim_end();
            (head, Some(group.strip_suffix('}').unwrap_or(group)))
        }
        None => (tree, None),
    };
    let head = head.split(" as ").next().unwrap_or_default();
    let steps = head
        .split("::")
        .map(str::trim)
        .filter(|step| !step.is_empty());
    let mut path = before.to_vec();
    path.extend(steps.map(str::to_owned));
    let Some(group) = group else {
        if path
            .last()
            .is_some_and(|last| last == "self" || last == "*")
        {
            path.pop();
        }
        found(path);
        return;
    };
    let (mut depth, mut start) = (0_usize, 0);
    for (at, letter) in group.char_indices().chain([(group.len(), ',')]) {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            ',' if depth == 0 => {
                let part = group[start..at].trim();
                if !part.is_empty() {
                    take_apart(part, &path, found);
                }
                start = at + 1;
            }
            _ => {}
        }
    }
}

/// The code with its statements of import taken out.
fn without_uses(text: &str) -> String {
    let mut body = String::new();
    let mut in_use = false;
    for line in text.lines() {
        let start = line.trim_start();
        let start = start.strip_prefix("pub").map_or(start, |rest| {
            rest.split_once("use ").map_or(start, |_| "use ")
        });
        in_use |= start.starts_with("use ");
        if !in_use {
            body.push_str(line);
            body.push('\n');
        }
        in_use &= !line.contains(';');
    }
    body
}

/// Every path written out in the code.
fn paths(text: &str) -> Vec<Module> {
    let is_part = |letter: char| letter.is_alphanumeric() || letter == '_' || letter == ':';
    let words = text.split(|letter: char| !is_part(letter));
    let paths = words.filter(|word| word.contains("::"));
    let steps = paths.map(|path| path.split("::").filter(|step| !step.is_empty()));
    steps
        .map(|steps| steps.map(str::to_owned).collect())
        .collect()
}

fn library() -> House {
    let mut house = House::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"));
    house.files.retain(|module, _| {
        module
            .first()
            .is_some_and(|floor| FLOORS.contains(&floor.as_str()))
    });
    house
}

fn circles(imports: &BTreeSet<(String, String)>) -> Vec<Vec<&str>> {
    let arrows = imports
        .iter()
        .map(|(from, to)| (from.as_str(), to.as_str()));
    let graph: DiGraphMap<&str, ()> = DiGraphMap::from_edges(arrows);
    let mut circles = tarjan_scc(&graph);
    circles.retain(|files| files.len() > 1);
    for files in &mut circles {
        files.sort_unstable();
    }
    circles
}

#[test]
fn each_folder_imports_only_from_those_above_it() {
    let imports = library().imports();
    let floor = |file: &str| {
        let first = file.split('/').next().unwrap_or_default();
        FLOORS.iter().position(|floor| *floor == first)
    };
    assert!(
        imports.len() > 500,
        "only {} imports were found",
        imports.len()
    );
    let against: Vec<_> = imports
        .iter()
        .filter(|(from, to)| floor(to) > floor(from))
        .collect();
    assert!(against.is_empty(), "against the order: {against:#?}");
}

#[test]
fn no_files_import_each_other_in_a_circle() {
    let imports = library().imports();
    let circles = circles(&imports);
    let within = |files: &Vec<&str>| -> Vec<String> {
        let inside = |file: &String| files.contains(&file.as_str());
        let arrows = imports
            .iter()
            .filter(|(from, to)| inside(from) && inside(to));
        arrows.map(|(from, to)| format!("{from} -> {to}")).collect()
    };
    let shown: Vec<_> = circles.iter().map(within).collect();
    assert!(circles.is_empty(), "{} circles: {shown:#?}", circles.len());
}

#[test]
fn the_list_of_folders_is_that_of_the_manual() {
    let manual = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/lib.rs"));
    let manual = manual.expect("the crate has a manual");
    let rows = manual
        .lines()
        .filter_map(|line| line.strip_prefix("//! | [`"));
    let listed: Vec<_> = rows.filter_map(|row| row.split('`').next()).collect();
    assert_eq!(listed, FLOORS);
}

/// The tests above must see what they look for.
#[test]
fn circles_are_seen_through_groups_children_and_names_handed_on() {
    let file = |text: &str| code_of(text);
    let module = |path: &str| path.split('/').map(str::to_owned).collect::<Module>();
    let mut house = House::default();
    for (path, text) in [
        (
            "a",
            "pub mod b;\nmod c;\npub use c::Thing;\nuse crate::d::{self, e::{F, G}};",
        ),
        (
            "a/b",
            "use super::Thing; // use super::c::Other;\nlet x = crate::d::e::g();",
        ),
        (
            "a/c",
            "fn f() {}\n#[cfg(test)]\nmod tests { use super::super::b::X; }",
        ),
        ("d", "pub mod e;"),
        ("d/e", "#[serde(with = \"crate::a::b\")]"),
    ] {
        house.files.insert(module(path), file(text));
    }
    house.collect_exports();
    let imports = house.imports();
    let arrows: Vec<_> = imports
        .iter()
        .map(|(from, to)| format!("{from}>{to}"))
        .collect();
    assert_eq!(arrows, ["a>d", "a>d/e", "a/b>a/c", "a/b>d/e", "d/e>a/b"]);
    assert_eq!(circles(&imports), [["a/b", "d/e"]]);
}
