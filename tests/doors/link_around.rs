//! Links with what mail programs, messengers and pens make of their beginning and put after their end.

use taperwright::design::Design;
use taperwright::keep::share::link::{LONGEST, LinkError, PREFIX, decode, fragment_in};

use crate::sealed::error;

/// A line with something of everything in it, as links of both versions.
const GOLDEN: [&str; 2] = [
    include_str!("golden/version-3.link"),
    include_str!("golden/version-4.link"),
];

/// What a text may go on with, as it is and as a browser's address bar or a mail program writes it.
const AFTER: [&str; 40] = [
    ".",
    ",",
    ";",
    ":",
    "!",
    "?",
    "…",
    ")",
    "]",
    "}",
    "»",
    "\"",
    "'",
    "’",
    "”",
    "*",
    "_",
    "-",
    "—",
    "~",
    "|",
    "\\",
    " ",
    "\t",
    "\n",
    "\r\n",
    "\u{a0}",
    "\u{3000}",
    "\u{200b}",
    "\u{feff}",
    "\u{2060}",
    "\u{ad}",
    "。",
    "%2E",
    "%2c",
    "%29",
    "%22",
    "%20",
    "%0D%0A",
    "%E2%80%8B",
];

fn code_of(fragment: &str) -> &str {
    fragment.strip_prefix(PREFIX).expect("it begins so")
}

#[track_caller]
fn opens(fragment: &str, design: &Design) {
    match decode(fragment) {
        Some(Ok(opened)) => assert_eq!(opened, *design, "{fragment:?}"),
        other => panic!("{fragment:?}: {other:?}"),
    }
}

#[test]
fn a_link_opens_whatever_its_beginning_is_written_like() {
    for golden in GOLDEN {
        let design = decode(golden).and_then(Result::ok).expect("a golden link");
        for beginning in [
            "line=", "LINE=", "Line=", "line%3D", "line%3d", "LINE%3D", "#line%3D", "##line=",
            "%6Cine=",
        ] {
            opens(&format!("{beginning}{}", code_of(golden)), &design);
        }
    }
}

#[test]
fn a_link_opens_whatever_stands_after_its_end() {
    for golden in GOLDEN {
        let design = decode(golden).and_then(Result::ok).expect("a golden link");
        for one in AFTER {
            opens(&format!("{golden}{one}"), &design);
            opens(&format!("line%3D{}{one}", code_of(golden)), &design);
            for other in AFTER {
                opens(&format!("{golden}{one}{other}"), &design);
                let message = format!("See https://braiding.example/#{golden}{one}{other}");
                let found = fragment_in(&message).expect("there is a link in it");
                opens(found, &design);
            }
        }
        // The checksum holds, so that these cannot belong to the code either.
        for one in [
            "&from=mail",
            "?from=mail",
            "%26from=mail",
            ").Next",
            "#top",
            "\u{2026}more",
        ] {
            opens(&format!("{golden}{one}"), &design);
        }
    }
}

/// A letter or digit right after the end may be what was put in on the way: told as damage, or not needed for the line.
#[test]
fn a_letter_after_the_end_makes_no_other_line() {
    for golden in GOLDEN {
        let design = decode(golden).and_then(Result::ok).expect("a golden link");
        for one in ["a", "Z", "zz", "0", "%61", "a.", "-a"] {
            match decode(&format!("{golden}{one}")).expect("it begins as a line") {
                Ok(opened) => assert_eq!(opened, design),
                Err(error) => assert!(
                    matches!(error, LinkError::Altered | LinkError::CutOff),
                    "{error:?}"
                ),
            }
        }
    }
}

/// What is left out at the end hides no damage.
#[test]
fn a_link_cut_off_is_cut_off_whatever_stands_after_it() {
    for golden in GOLDEN {
        for end in PREFIX.len()..golden.len() {
            for one in ["", ".", ")", "\u{200b}", "%20", "...", "_"] {
                let cut = format!("{}{one}", &golden[..end]);
                assert_eq!(error(&cut), LinkError::CutOff, "{cut}");
            }
        }
    }
    let letters_after = format!("{}.more", &GOLDEN[1][..100]);
    assert_eq!(error(&letters_after), LinkError::WrongCharacter);
}

#[test]
fn a_fragment_without_end_is_overlong() {
    let golden = GOLDEN[1];
    let endless = format!("{golden}{}", ".".repeat(5 * LONGEST));
    assert_eq!(error(&endless), LinkError::Overlong);
    assert_eq!(decode(&".".repeat(5 * LONGEST)), None);
}
