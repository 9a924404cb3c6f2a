//! Names that mean harm to whoever reads them as something else than a name.

use taperwright::design::Design;

use crate::designs::{parsed, usual};

/// Formulas, ends of fields, tags and sections, characters no file may hold, and what turns the direction of writing.
pub(crate) const NAMES: [&str; 28] = [
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
    "=HYPERLINK(\"http://example.invalid/\",\"tap\")",
    "BEGIN:VEVENT\r\nSUMMARY:other\r\nEND:VEVENT",
    "CON",
    "aux.txt",
    "NUL .",
    "com1",
    "Lpt\u{b3}",
    "trailing dots and blanks ... ",
    ".hidden",
    "\u{1f468}\u{200d}\u{1f469}\u{200d}\u{1f467}\u{fe0f}",
    "\u{200d}\u{200d}",
    "\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}\u{1f41f}",
    "\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}\u{9b5a}",
    "two\u{85}marks\u{2028}of\u{2029}lines",
];

/// The usual line under such a name.
pub(crate) fn named(name: &str) -> Design {
    let mut draft = usual().draft().clone();
    name.clone_into(&mut draft.name);
    name.clone_into(&mut draft.notes);
    parsed(draft)
}
