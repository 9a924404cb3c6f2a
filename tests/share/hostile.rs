//! Names that mean harm to whoever reads them as something else than a name.

use taperwright::design::Design;

use crate::designs::{parsed, usual};

/// Formulas, ends of fields, tags and sections, characters no file may hold, and what turns the direction of writing.
pub(crate) const NAMES: [&str; 14] = [
    "=cmd|' /C calc'!A0",
    "+1+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1+1",
    "two\r\nlines",
    "\"quoted\", and more",
    "Äschenweiß für Öse",
    "\"><img src=x onerror=alert(1)>",
    "]]> & &amp; &#0; <!-- --",
    "null \u{0} and bell \u{7}",
    "right \u{202e}tfel",
    "../../etc/passwd",
    "\u{fffe}\u{ffff} none",
];

/// The usual line under such a name.
pub(crate) fn named(name: &str) -> Design {
    let mut draft = usual().draft().clone();
    name.clone_into(&mut draft.name);
    name.clone_into(&mut draft.notes);
    parsed(draft)
}
