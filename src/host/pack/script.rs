//! Scripts without their comments and indents. Line breaks stay, so that no statement runs into the next.

/// The script without whole lines of comment, empty lines, and blanks at the ends of lines. One with a text over several lines
/// stays as it is: there, blanks count.
pub(crate) fn bare(script: &str) -> String {
    if script.lines().any(is_text_open) {
        return script.to_owned();
    }
    let mut is_inside = false;
    let lines = script.lines().map(str::trim);
    let kept = lines.filter(|line| !line.is_empty() && !is_comment(line, &mut is_inside));
    kept.flat_map(|line| [line, "\n"]).collect()
}

/// Whether a text of several lines begins or ends here.
fn is_text_open(line: &str) -> bool {
    line.matches('`').count() % 2 == 1
}

/// Whether a line is nothing but comment; whether a comment goes on behind it is noted.
fn is_comment(line: &str, is_inside: &mut bool) -> bool {
    let was_inside = *is_inside;
    let begins = line.starts_with("/*");
    if was_inside || begins {
        *is_inside = !line.ends_with("*/");
    }
    was_inside || begins || line.starts_with("//")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_indents_go_and_what_is_done_stays() {
        let script = "// What it does.\nfunction one() {\n    /**\n     * @returns {number}\n     */\n\n    return 1; // one\n  /* short */\n}\n";
        assert_eq!(bare(script), "function one() {\nreturn 1; // one\n}\n");
        assert_eq!(bare(&bare(script)), bare(script));
    }

    #[test]
    fn a_text_of_several_lines_is_left_alone() {
        let script = "  // Said below.\n  say(`one\n    // two`);\n";
        assert_eq!(bare(script), script);
        assert_eq!(bare("  say(`one`);\n"), "say(`one`);\n");
    }
}
