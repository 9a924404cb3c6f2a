//! A text of JSON taken out of its quotes, in one piece of memory no larger than the text itself: the reader of all other
//! JSON grows by doubling, which is too much for texts of megabytes.

/// The text between these quotes; `None` where it is none.
pub(super) fn unescaped(quoted: &str) -> Option<String> {
    let mut rest = quoted.strip_prefix('"')?.strip_suffix('"')?;
    let mut text = String::with_capacity(rest.len());
    while let Some(at) = rest.find('\\') {
        text.push_str(&rest[..at]);
        let (letter, behind) = escaped(&rest[at + 1..])?;
        text.push(letter);
        rest = behind;
    }
    text.push_str(rest);
    Some(text)
}

/// The letter that stands after a backslash, and what comes after it.
fn escaped(rest: &str) -> Option<(char, &str)> {
    let mut letters = rest.chars();
    let letter = match letters.next()? {
        letter @ ('"' | '\\' | '/') => letter,
        'b' => '\u{8}',
        'f' => '\u{c}',
        'n' => '\n',
        'r' => '\r',
        't' => '\t',
        'u' => return numbered(letters.as_str()),
        _ => return None,
    };
    Some((letter, letters.as_str()))
}

/// The letter of four hexadecimal digits, or of twice four where the first are half of a pair (RFC 8259, section 7).
fn numbered(rest: &str) -> Option<(char, &str)> {
    let (first, behind) = unit(rest)?;
    if let Some(letter) = char::from_u32(u32::from(first)) {
        return Some((letter, behind));
    }
    let (second, behind) = unit(behind.strip_prefix("\\u")?)?;
    let letter = char::decode_utf16([first, second]).next()?.ok()?;
    Some((letter, behind))
}

fn unit(rest: &str) -> Option<(u16, &str)> {
    let digits = rest.get(..4)?;
    let are_digits = digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    let unit = u16::from_str_radix(digits, 16).ok()?;
    are_digits.then_some((unit, &rest[4..]))
}

// The crate that makes up texts is not built for the browser.
#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use super::unescaped;
    use proptest::prelude::*;

    /// Against `serde_json`, which reads the rest of the file.
    #[track_caller]
    fn is_as_read_elsewhere(quoted: &str) {
        let elsewhere: Option<String> = serde_json::from_str(quoted).ok();
        assert_eq!(unescaped(quoted), elsewhere, "{quoted}");
    }

    #[test]
    fn escapes_of_every_kind() {
        for inner in [
            "",
            "plain é 魚",
            r#"\"\\\/\b\f\n\r\t"#,
            r"\u0041\u00e9\u9B5A",
            r"\ud800\udf48",
            r"a\ud800\udf48b",
            r"\ud800",
            r"\udf48",
            r"\ud800\u0041",
            r"\ud800\ud800",
            r"\u004",
            r"\u+041",
            r"\uzzzz",
            r"\x",
            r"\",
        ] {
            is_as_read_elsewhere(&format!("\"{inner}\""));
        }
    }

    proptest! {
        // The same texts every time, so that a failure can be repeated.
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            rng_seed: proptest::test_runner::RngSeed::Fixed(0x7A9E),
            ..ProptestConfig::default()
        })]

        #[test]
        fn whatever_is_written_reads_back(text in any::<String>()) {
            let quoted = serde_json::to_string(&text).expect("a text has a form in JSON");
            prop_assert_eq!(unescaped(&quoted), Some(text));
        }

        #[test]
        fn runs_of_escapes(inner in "(\\\\u[dD][89a-fA-F][0-9a-f]{2}|\\\\[nu\"]|[a-f0-9]){0,12}") {
            is_as_read_elsewhere(&format!("\"{inner}\""));
        }
    }
}
