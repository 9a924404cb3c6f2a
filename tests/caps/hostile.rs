//! Texts made to take up room, of any size.

/// A hostile text: what it begins with, what is said again and again, and what it ends with.
pub(crate) struct Hostile {
    /// What it is.
    pub(crate) name: &'static str,
    head: &'static str,
    unit: &'static str,
    tail: &'static str,
}

impl Hostile {
    /// The text, of so many bytes, or a few fewer.
    pub(crate) fn text(&self, size: usize) -> String {
        let room = size.saturating_sub(self.head.len() + self.tail.len());
        let units = self.unit.repeat(room / self.unit.len());
        // Blanks after it make up for what does not go into units.
        let text = format!("{}{units}{}", self.head, self.tail);
        let blanks = size.saturating_sub(text.len());
        text + &" ".repeat(blanks)
    }
}

const fn hostile(
    name: &'static str,
    head: &'static str,
    unit: &'static str,
    tail: &'static str,
) -> Hostile {
    Hostile {
        name,
        head,
        unit,
        tail,
    }
}

pub(crate) const ALL: [Hostile; 27] = [
    hostile("blanks", "", " ", ""),
    hostile("nothing", "", "\0", ""),
    hostile("brackets", "", "[", ""),
    hostile("braces", "", "{\"a\":", ""),
    hostile("a link's letters", "line=", "A", "z"),
    hostile("links", "line=", "#line=AAAA", "z"),
    hostile("letters no link has", "line=", "é", "z"),
    hostile("an unclosed text", "\"", "n", ""),
    hostile("a text", "\"", "n", "\""),
    hostile("quotes", "", "\"", ""),
    hostile("escapes", "\"", "\\u0041", "\""),
    hostile("lone surrogates", "\"", "\\ud800", "\""),
    hostile("backslashes", "\"", "\\", ""),
    hostile("marks of byte order", "\u{feff}", "\u{feff}", "{}"),
    hostile("numbers", "[0", ",1e308", "]"),
    hostile("numbers too great", "[0", ",1e999", "]"),
    hostile("one number", "", "9", ""),
    hostile("words for no number", "[NaN", ",NaN", "]"),
    hostile("lists", "[[]", ",[]", "]"),
    hostile("one key over and over", "{\"a\":0", ",\"a\":0", "}"),
    hostile(
        "a word for a format",
        "{\"format\":\"",
        "n",
        "\",\"version\":3}",
    ),
    hostile(
        "a format over and over",
        "{\"format\":\"taperwright design\",\"version\":3",
        ",\"format\":\"taperwright design\"",
        "}",
    ),
    hostile(
        "a design with an endless name",
        "{\"format\":\"taperwright design\",\"version\":3,\"design\":{\"name\":\"",
        "\\u0041",
        "\"}}",
    ),
    hostile(
        "a newer design full of points",
        "{\"format\":\"taperwright design\",\"version\":9,\"design\":{\"points\":[",
        "{\"at_m\":0,\"diameter_mm\":1},",
        "]}}",
    ),
    hostile(
        "a book of nameless swatches",
        "{\"format\":\"taperwright bench book\",\"version\":1,\"workshop\":{\"swatches\":[{\"name\":\"\"}",
        ",{\"name\":\"\"}",
        "]}}",
    ),
    hostile(
        "a measured line full of readings",
        "{\"format\":\"taperwright measured line\",\"version\":1,\"measured\":{\"readings\":[{\"at_m\":0,\"diameter_mm\":1}",
        ",{\"at_m\":0,\"diameter_mm\":1}",
        "]}}",
    ),
    hostile(
        "a file of everything with endless lists",
        "{\"format\":\"taperwright backup\",\"version\":1,\"workshops\":[],\"unreadable\":[],\"lines\":[{}",
        ",{}",
        "]}",
    ),
];
