//! The card as a picture: its sheets one below the other, in millimetres, in one SVG (XML 1.0) without scripts. Nothing is fetched.
//! The line's link is written out as text and drawn as a code.

use core::fmt::Write as _;

use super::envelope::stem;
use crate::design::Design;
use crate::design::check::is_unseen;
use crate::paper::card::{Anchor, Card, Item, Sheet};

/// What stands for the letters: the device's own sans serif, of usual widths.
const LETTERS: &str = "Arial, 'Liberation Sans', Helvetica, sans-serif";

/// The text of the file.
pub fn write(card: &Card) -> String {
    let (width, height) = card.paper.size();
    let all = height * card.sheets.len() as f64;
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
        <svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{all}mm\" viewBox=\"0 0 {width} {all}\" \
        font-family=\"{LETTERS}\" fill=\"#000\">\n\
        <title>{}</title>\n\
        <rect width=\"{width}\" height=\"{all}\" fill=\"#fff\"/>\n",
        escaped(&card.title)
    );
    for (index, sheet) in card.sheets.iter().enumerate() {
        let top = index as f64 * height;
        // Writing to a string cannot fail.
        let _ = writeln!(out, "<g transform=\"translate(0 {top})\">");
        all_of(&mut out, sheet);
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

/// A name for its file, made from the line's title: letters, digits and dashes only.
pub fn name(design: &Design) -> String {
    format!("{}.card.svg", stem(design.title(), "line"))
}

fn all_of(out: &mut String, sheet: &Sheet) {
    for item in &sheet.items {
        // Writing to a string cannot fail.
        let _ = writeln!(out, "{}", element(item));
    }
}

fn element(item: &Item) -> String {
    match item {
        Item::Text {
            at: (x, y),
            anchor,
            set,
            words,
        } => {
            let anchor = match anchor {
                Anchor::Start => String::new(),
                other => format!(" text-anchor=\"{}\"", other.key()),
            };
            let weight = if set.bold { " font-weight=\"700\"" } else { "" };
            let fill = if set.white { " fill=\"#fff\"" } else { "" };
            let (size, words) = (set.size, escaped(words));
            format!(
                "<text x=\"{x:.2}\" y=\"{y:.2}\" font-size=\"{size:.2}\"{anchor}{weight}{fill}>{words}</text>"
            )
        }
        Item::Path { place, paint, data } => {
            let edge = paint.edge().map_or_else(String::new, |width| {
                format!(" stroke=\"#000\" stroke-width=\"{width}\"")
            });
            let crisp = if *paint == crate::paper::card::Paint::Squares {
                " shape-rendering=\"crispEdges\""
            } else {
                ""
            };
            let (transform, fill) = (place.transform(), paint.fill());
            format!("<path transform=\"{transform}\" fill=\"{fill}\"{edge}{crisp} d=\"{data}\"/>")
        }
        Item::Rule {
            from: (x, y),
            to: (to_x, to_y),
            width,
        } => format!(
            "<line x1=\"{x:.2}\" y1=\"{y:.2}\" x2=\"{to_x:.2}\" y2=\"{to_y:.2}\" stroke=\"#000\" stroke-width=\"{width}\"/>"
        ),
        Item::TickBox { at: (x, y), side } => format!(
            "<rect x=\"{x:.2}\" y=\"{y:.2}\" width=\"{side:.2}\" height=\"{side:.2}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\"/>"
        ),
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
