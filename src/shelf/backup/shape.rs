//! A look at a file before any of it is taken apart: how deep it is nested, and how many pieces it has.

use super::MOST_PIECES;

/// Deepest nesting of braces and brackets; the file has three.
const DEEPEST: usize = 8;

/// Whether a text is nested no deeper, and has no more pieces, than a file of everything may. Braces within texts do not
/// count.
pub(super) fn is_admissible(text: &str) -> bool {
    let (mut depth, mut pieces) = (0_usize, 0_usize);
    let (mut in_text, mut escaped) = (false, false);
    for byte in text.bytes() {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if in_text => escaped = true,
            b'"' => in_text = !in_text,
            _ if in_text => {}
            b'{' | b'[' => (depth, pieces) = (depth + 1, pieces + 1),
            b'}' | b']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        // The file itself and its three lists are four.
        if depth > DEEPEST || pieces > MOST_PIECES + 4 {
            return false;
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::{DEEPEST, MOST_PIECES, is_admissible};

    #[test]
    fn braces_count_outside_texts_only() {
        assert!(is_admissible(&"[".repeat(DEEPEST)));
        assert!(!is_admissible(&"[".repeat(DEEPEST + 1)));
        assert!(is_admissible(&format!("[\"{}\"]", "{".repeat(100))));
        assert!(is_admissible(&format!("[\"\\\"{}\"]", "{".repeat(100))));
        assert!(!is_admissible(&format!("[\"\\\\\"{}", "{".repeat(100))));
        assert!(is_admissible(&"{}".repeat(MOST_PIECES)));
        assert!(!is_admissible(&"{}".repeat(MOST_PIECES + 5)));
    }
}
