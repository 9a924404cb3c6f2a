//! A look at a text of JSON before any of it is taken apart: how deep it is nested, how many pieces it has, and how long the
//! longest text in it is. It allocates nothing and goes over the text once.

/// What a kind of file may be like at most.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shape {
    /// Deepest nesting of braces and brackets.
    pub(crate) depth: usize,
    /// Most braces and brackets.
    pub(crate) pieces: usize,
    /// Longest text, in bytes as it stands in the file, escapes counted as written.
    pub(crate) text: usize,
    /// Names of values that may be longer, in pieces of the depth at which a file of everything has its own.
    pub(crate) long: &'static [&'static str],
}

/// Depth of the pieces of a file of everything: the file, its lists, their pieces.
const DEPTH_OF_LONG: usize = 3;

/// Where the look has got to.
#[derive(Default)]
struct Look<'a> {
    depth: usize,
    pieces: usize,
    /// The text read last, without its quotes.
    last: &'a [u8],
    /// The name the value that comes belongs to.
    name: &'a [u8],
}

impl Shape {
    /// Whether a text keeps to it. Braces within texts do not count.
    pub(crate) fn admits(&self, text: &str) -> bool {
        let bytes = text.as_bytes();
        let (mut look, mut at) = (Look::default(), 0);
        while let Some(&byte) = bytes.get(at) {
            at += 1;
            match byte {
                b'"' => {
                    let end = end_of_text(bytes, at);
                    look.last = &bytes[at..end];
                    at = end + 1;
                    if !self.admits_text(&look, &bytes[at.min(bytes.len())..]) {
                        return false;
                    }
                }
                b':' => look.name = look.last,
                b'{' | b'[' => (look.depth, look.pieces) = (look.depth + 1, look.pieces + 1),
                b'}' | b']' => look.depth = look.depth.saturating_sub(1),
                _ => {}
            }
            if look.depth > self.depth || look.pieces > self.pieces {
                return false;
            }
        }
        true
    }

    /// Whether the text read last is short, or the value of one of the long names.
    fn admits_text(&self, look: &Look, rest: &[u8]) -> bool {
        let is_long = |name: &&str| name.as_bytes() == look.name;
        let is_name = || rest.trim_ascii_start().first() == Some(&b':');
        look.last.len() <= self.text
            || (look.depth == DEPTH_OF_LONG && self.long.iter().any(is_long) && !is_name())
    }
}

/// Where the text that begins here ends: at its closing quote, or at the end of everything.
pub(crate) fn end_of_text(bytes: &[u8], from: usize) -> usize {
    let mut at = from;
    while let Some(found) = bytes[at.min(bytes.len())..]
        .iter()
        .position(|byte| matches!(byte, b'"' | b'\\'))
    {
        at += found;
        if bytes[at] == b'"' {
            return at;
        }
        // What is escaped is passed over.
        at += 2;
    }
    bytes.len()
}

#[cfg(test)]
mod tests {
    use super::Shape;

    const SHAPE: Shape = Shape {
        depth: 4,
        pieces: 10,
        text: 5,
        long: &["file"],
    };

    fn admits(text: &str) -> bool {
        SHAPE.admits(text)
    }

    #[test]
    fn braces_count_outside_texts_only() {
        assert!(admits("[[[["));
        assert!(!admits("[[[[["));
        assert!(admits("[\"{{{{{\"]"));
        assert!(admits("[\"\\\"{{{\"]"));
        assert!(!admits("[\"\\\\\"{{{{"));
        assert!(admits(&"{}".repeat(10)));
        assert!(!admits(&"{}".repeat(11)));
    }

    #[test]
    fn texts_are_short_but_for_those_that_may_be_long() {
        assert!(admits("\"12345\""));
        assert!(!admits("\"123456\""));
        assert!(!admits("\"12345\\u0020\""));
        assert!(!admits("\"never closed"));
        assert!(admits("{\"l\":[{\"file\":\"123456\"}]}"));
        assert!(!admits("{\"file\":\"123456\"}"));
        assert!(!admits("{\"l\":[{\"text\":\"123456\"}]}"));
        assert!(!admits("{\"l\":[{\"file\":0,\"123456\" :1}]}"));
        assert!(!admits("{\"l\":[{\"a\":\"file\",\"b\":\"123456\"}]}"));
        // An escape at the very end is no reason to read on.
        assert!(admits("\"\\") && admits("\"a\\\""));
    }
}
