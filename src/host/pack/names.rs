//! Short names for what the program asks of the page. Each carries a fingerprint of sixteen digits, which no packer makes any
//! smaller, once in the program and once in the script that joins it.

use std::collections::HashMap;
use wasmparser::{Parser, Payload};

/// Digits at the end of a name that was given by the tool which joins program and page.
const FINGERPRINT: usize = 16;

/// The short name of each that has a fingerprint.
#[derive(Debug, Default)]
pub(crate) struct Names(HashMap<String, String>);

impl Names {
    /// Of the functions that a module asks for, in their order.
    ///
    /// # Errors
    /// When the bytes are no module.
    pub(crate) fn of(module: &[u8]) -> wasmparser::Result<Self> {
        let mut names = HashMap::new();
        for payload in Parser::new(0).parse_all(module) {
            if let Payload::ImportSection(section) = payload? {
                for import in section.into_imports() {
                    let name = import?.name;
                    if is_fingerprinted(name) {
                        let short = format!("i{}", names.len());
                        names.entry(name.to_owned()).or_insert(short);
                    }
                }
            }
        }
        Ok(Self(names))
    }

    /// The short name of one; its own where it has none.
    pub(crate) fn short<'name>(&'name self, name: &'name str) -> &'name str {
        self.0.get(name).map_or(name, String::as_str)
    }

    /// A script with all of them in the place of the long ones.
    pub(crate) fn in_script(&self, script: &str) -> String {
        let is_part = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
        let mut short = String::with_capacity(script.len());
        let mut rest = script;
        while let Some(from) = rest.find(is_part) {
            let word = &rest[from..];
            let to = word.find(|letter| !is_part(letter)).unwrap_or(word.len());
            short.push_str(&rest[..from]);
            short.push_str(self.short(&word[..to]));
            rest = &word[to..];
        }
        short + rest
    }
}

fn is_fingerprinted(name: &str) -> bool {
    let digits = name.rsplit('_').next().unwrap_or_default();
    digits.len() == FINGERPRINT && digits.bytes().all(|byte| byte.is_ascii_hexdigit())
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{EntityType, ImportSection, Module, TypeSection};

    fn module(names: &[&str]) -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], []);
        let mut imports = ImportSection::new();
        for name in names {
            imports.import("page", name, EntityType::Function(0));
        }
        let mut module = Module::new();
        module.section(&types).section(&imports);
        module.finish()
    }

    #[test]
    fn names_with_a_fingerprint_become_short_ones_everywhere_and_others_stay() {
        let (one, other) = ("take_0123456789abcdef", "take_fedcba9876543210");
        let names = Names::of(&module(&["given", one, other, "cast_0001"])).unwrap();
        assert_eq!(names.short("given"), "given");
        let script = format!("given: 1, {one}: 2, {other}: 3, my_{one}: 4, cast_0001: 5 {one}");
        assert_eq!(
            names.in_script(&script),
            format!("given: 1, i0: 2, i1: 3, my_{one}: 4, cast_0001: 5 i0")
        );
        assert_eq!(names.in_script("no word – of them"), "no word – of them");
    }
}
