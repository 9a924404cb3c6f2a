//! Writing SVG: texts and lines in millimetres on a sheet, nothing that could be run or fetched.

use core::fmt::Write as _;

use crate::design::check::is_unseen;

/// Where a text hangs on its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    /// It begins there.
    Start,
    /// Its middle lies there.
    Middle,
    /// It ends there.
    End,
}

/// How a text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Type {
    /// Size of the type, in millimetres.
    pub(super) size: f64,
    /// Whether it is heavy.
    pub(super) bold: bool,
}

/// Type of a size, in millimetres.
pub(super) const fn plain(size: f64) -> Type {
    Type { size, bold: false }
}

/// The same, heavy.
pub(super) const fn bold(size: f64) -> Type {
    Type { size, bold: true }
}

/// A sheet under way.
#[derive(Default)]
pub(super) struct Sheet {
    out: String,
}

impl Sheet {
    /// A line of text on its foot line.
    pub(super) fn text(&mut self, (x, y): (f64, f64), anchor: Anchor, set: Type, words: &str) {
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let weight = if set.bold { " font-weight=\"700\"" } else { "" };
        let (size, words) = (set.size, escaped(words));
        // Writing to a string cannot fail.
        let _ = writeln!(
            self.out,
            "<text x=\"{x:.2}\" y=\"{y:.2}\" font-size=\"{size:.2}\"{anchor}{weight}>{words}</text>"
        );
    }

    /// Path data, filled or stroked by these attributes, within a transform.
    pub(super) fn path(&mut self, transform: &str, paint: &str, data: &str) {
        let _ = writeln!(
            self.out,
            "<path transform=\"{transform}\" {paint} d=\"{data}\"/>"
        );
    }

    /// A straight rule.
    pub(super) fn rule(&mut self, (x, y): (f64, f64), (to_x, to_y): (f64, f64), width: f64) {
        let _ = writeln!(
            self.out,
            "<line x1=\"{x:.2}\" y1=\"{y:.2}\" x2=\"{to_x:.2}\" y2=\"{to_y:.2}\" stroke=\"#000\" stroke-width=\"{width}\"/>"
        );
    }

    /// A box to tick, by its upper left corner.
    pub(super) fn tick_box(&mut self, (x, y): (f64, f64), side: f64) {
        let _ = writeln!(
            self.out,
            "<rect x=\"{x:.2}\" y=\"{y:.2}\" width=\"{side:.2}\" height=\"{side:.2}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\"/>"
        );
    }

    /// The whole file of a sheet of this size, in millimetres, called so.
    pub(super) fn finish(self, (width, height): (f64, f64), title: &str) -> String {
        format!(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
            <svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" \
            font-family=\"Arial, 'Liberation Sans', Helvetica, sans-serif\" fill=\"#000\">\n\
            <title>{}</title>\n\
            <rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n{}</svg>\n",
            escaped(title),
            self.out
        )
    }
}

/// A text as XML may hold it: characters outside of `Char` (XML 1.0, section 2.2) and control characters are left out, and so
/// are those that cannot be seen or turn the direction of writing; what could be taken for markup is written as a reference
/// (section 2.4, which also wants the `>` of `]]>` so).
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars().filter(|c| is_character(*c) && !is_unseen(*c)) {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

/// XML 1.0, section 2.2: `Char`, less the control characters; Rust’s characters know no surrogates.
fn is_character(c: char) -> bool {
    !c.is_control() && !matches!(c, '\u{fffe}' | '\u{ffff}')
}
