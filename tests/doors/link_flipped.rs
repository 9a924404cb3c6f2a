//! Every letter of a good code changed to every other letter there is: told as damage each time, never as a link of another
//! version that a reload could open, and never opened as any line.

use taperwright::keep::share::link::{LinkError, PREFIX};

use crate::designs::usual;
use crate::sealed::{error, payload, sealed_as};

/// The letters of base64url. Source: RFC 4648, section 5.
const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// Good codes of every version read: one line with something of everything, and the usual one.
fn good() -> Vec<String> {
    let usual_bytes = postcard::to_allocvec(&payload()).expect("counts and text serialise");
    vec![
        include_str!("golden/version-3.link").to_owned(),
        include_str!("golden/version-4.link").to_owned(),
        sealed_as(3, &usual_bytes),
        sealed_as(4, &usual_bytes),
    ]
}

#[test]
fn the_codes_are_good() {
    use taperwright::keep::share::link::decode;
    assert_eq!(decode(&good()[0]), decode(&good()[1]));
    for fragment in &good()[2..] {
        assert_eq!(decode(fragment), Some(Ok(usual())));
    }
}

#[test]
fn no_changed_letter_is_taken_for_another_version_or_line() {
    for whole in good() {
        assert!(whole.is_ascii());
        for at in PREFIX.len()..whole.len() {
            for letter in LETTERS.chars() {
                let changed = format!("{}{letter}{}", &whole[..at], &whole[at + 1..]);
                if changed == whole {
                    continue;
                }
                let found = error(&changed);
                let is_damage = matches!(found, LinkError::Altered | LinkError::CutOff);
                assert!(is_damage, "{letter} at {at} of {whole}: {found:?}");
            }
        }
    }
}

/// Links of versions that were never released open no line either, and ask for no reload.
#[test]
fn changed_links_of_unreleased_versions_open_nothing() {
    for (_, whole) in crate::golden::UNRELEASED {
        for at in PREFIX.len()..whole.len() {
            for letter in LETTERS.chars() {
                let found = error(&format!("{}{letter}{}", &whole[..at], &whole[at + 1..]));
                assert!(
                    !matches!(found, LinkError::Newer(_)),
                    "{letter} at {at} of {whole}"
                );
            }
        }
    }
}

/// The first letter alone holds most of the version: changed, no sentence speaks of formats or of a reload.
#[test]
fn a_changed_first_letter_never_asks_for_a_reload() {
    for whole in good() {
        let code = &whole[PREFIX.len()..];
        for letter in LETTERS.chars().filter(|letter| !code.starts_with(*letter)) {
            let said = error(&format!("{PREFIX}{letter}{}", &code[1..])).to_string();
            let speaks_of_versions = ["format", "Reload", "newer"]
                .iter()
                .any(|word| said.contains(word));
            assert!(!speaks_of_versions, "{said}");
            assert!(said.contains("changed on its way"), "{said}");
        }
    }
}
