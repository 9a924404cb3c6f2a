//! Links, damaged on their way.

use taperwright::design::Design;
use taperwright::keep::share::link::{LinkError, PREFIX, decode, encode};

use crate::designs::usual;
use crate::says;
use crate::sealed::{error, link, payload, sealed_as, sealed_payload, sum};

fn demo_link() -> String {
    encode(&usual()).expect("the demo fits a link")
}

#[test]
fn a_link_made_by_hand_is_the_link() {
    assert_eq!(sealed_payload(|_| ()), demo_link());
}

#[test]
fn fragments_that_are_no_line() {
    for fragment in [
        "",
        "#",
        "top",
        "line",
        "lines=AAAA",
        "%6Cines=AAAA",
        "#view=2",
        " line=AAAA",
    ] {
        assert_eq!(decode(fragment), None, "{fragment}");
    }
}

/// Shorter by any number of characters, a link is known to be cut off: its last letter is missing, or its length.
#[test]
fn links_cut_off_at_every_length() {
    let whole = demo_link();
    for end in PREFIX.len()..whole.len() {
        let cut = error(&whole[..end]);
        assert_eq!(cut, LinkError::CutOff, "cut at {end}");
    }
    says(
        &LinkError::CutOff.to_string(),
        &["cut off", "Ask for it again"],
    );
}

/// Any one character changed to any other of the alphabet, or to what mail programs make of it, is noticed.
#[test]
fn links_altered_at_every_character() {
    let whole = demo_link();
    let others: Vec<char> = ('a'..='z')
        .chain('A'..='Z')
        .chain('0'..='9')
        .chain("-_=+/ .%é\u{202e}".chars())
        .collect();
    for (at, old) in whole.char_indices().skip(PREFIX.len()) {
        for &new in others.iter().filter(|&&new| new != old) {
            let altered = format!("{}{new}{}", &whole[..at], &whole[at + 1..]);
            let found = error(&altered);
            let is_told = matches!(
                found,
                LinkError::Altered | LinkError::WrongCharacter | LinkError::CutOff
            );
            assert!(is_told, "{new} at {at}: {found:?}");
        }
    }
    says(
        &LinkError::Altered.to_string(),
        &["changed on its way", "cannot be used"],
    );
}

#[test]
fn links_with_characters_lost_doubled_or_swapped() {
    let whole = demo_link();
    let code = PREFIX.len()..whole.len() - 1;
    for at in code {
        let (before, after) = whole.split_at(at);
        error(&format!("{before}{}", &after[1..]));
        error(&format!("{before}{}{after}", &after[..1]));
        if after.as_bytes()[0] != after.as_bytes()[1] {
            error(&format!(
                "{before}{}{}{}",
                &after[1..2],
                &after[..1],
                &after[2..]
            ));
        }
    }
}

#[test]
fn links_of_other_versions() {
    let bytes = postcard::to_allocvec(&payload()).expect("counts and text serialise");
    for version in 6..=255 {
        assert_eq!(
            error(&sealed_as(version, &bytes)),
            LinkError::Newer(version)
        );
    }
    says(
        &LinkError::Newer(9).to_string(),
        &["format 9", "up to 5", "Reload the page"],
    );
    // No version 1 or 2 made a payload of today's.
    for version in 0..3 {
        assert_eq!(error(&sealed_as(version, &bytes)), LinkError::Altered);
    }
}

#[test]
fn links_whose_header_lies() {
    let bytes = postcard::to_allocvec(&payload()).expect("counts and text serialise");
    for version in [3, 4, 5] {
        let sealed = |length, flip| {
            let sum = sum(version, length, &bytes) ^ flip;
            error(&link(version, length, sum, &bytes))
        };
        let length = bytes.len();
        assert_eq!(sealed(length, 1), LinkError::Altered);
        assert_eq!(sealed(length - 1, 0), LinkError::Altered);
        assert_eq!(sealed(length + 1, 0), LinkError::CutOff);
        assert_eq!(sealed(65_535, 0), LinkError::CutOff);
        assert_eq!(error(&sealed_as(version, &[])), LinkError::MadeUp);
    }
}

#[test]
fn disguises_are_taken_off_a_name() {
    let fragment = sealed_payload(|payload| payload.name = "a\u{202e}b\u{7}c".to_owned());
    let design = decode(&fragment)
        .and_then(Result::ok)
        .expect("the rest is sound");
    assert_eq!(design.draft().name, "abc");
}

/// Notes of letters that take three bytes each make a link longer than messengers carry; that is said, with the way out.
#[test]
fn designs_too_long_for_a_link_are_told_of_the_file() {
    let mut draft = usual().draft().clone();
    draft.notes = "魚".repeat(400);
    draft.points = (0..100)
        .map(|k| crate::designs::point(f64::from(k) * 0.9, 1.0))
        .collect();
    let design = Design::parse(draft).expect("long notes are allowed");
    let error = encode(&design).expect_err("the link would be cut off");
    says(&error.to_string(), &["1800", "Send its file"]);
}

/// A line of twelve points with much of its own makes a link of 250 characters at most, so that its code is quickly scanned.
#[test]
fn links_of_twelve_points_are_short() {
    use taperwright::design::settings::Setting;
    let mut draft = usual().draft().clone();
    draft.name = "Heron Weir, head of June".to_owned();
    draft.workshop = "Heron Weir, lot A".to_owned();
    // No length or size is round, so that each takes all the bytes it can.
    draft.points = (0..12)
        .map(|at| {
            let at = f64::from(at);
            crate::designs::point(at * 2.7173, 0.7111 + 0.0333 * at.min(11.0 - at))
        })
        .collect();
    let changed = [
        (Setting::LabelLow, 19.5),
        (Setting::EndsPerThread, 11.0),
        (Setting::TargetAngle, 33.3),
        (Setting::Crimp, 2.5),
        (Setting::FibreFraction, 53.5),
        (Setting::AirPressure, 955.25),
        (Setting::LeastCover, 55.5),
        (Setting::BobbinFull, 31.5),
        (Setting::Jar, 95.5),
    ];
    for (setting, value) in changed {
        draft.settings.set(setting, value);
    }
    let design = Design::parse(draft.clone()).expect("all of it is in range");
    let length = encode(&design).expect("it is short").len();
    assert!((150..=250).contains(&length), "{length} characters");
    // Notes, pins and a book's knowledge come on top of that.
    draft.notes = "Oil of last spring; slow.".to_owned();
    let design = Design::parse(draft).expect("notes are allowed");
    let longer = encode(&design).expect("it is short").len();
    println!("{length} characters, {longer} with a note");
    assert!(longer > length);
}
