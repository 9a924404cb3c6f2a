//! Damaged links.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use taperwright::design::Design;
use taperwright::keep::share::link::{LinkError, PREFIX, decode, encode};

use crate::damaged;
use crate::designs::usual;

const GOLDEN: [&str; 2] = [
    include_str!("../doors/golden/version-3.link"),
    include_str!("../doors/golden/version-4.link"),
];

/// What became of a link: one of the answers, or another line than was sent.
#[derive(Debug, Default)]
struct Tally {
    same: u32,
    other: u32,
    none: u32,
    cut_off: u32,
    wrong_character: u32,
    altered: u32,
    newer: u32,
    unreleased: u32,
    overlong: u32,
    made_up: u32,
    refused: u32,
}

impl Tally {
    fn count(&mut self, sent: &Design, fragment: &str) {
        let place = match decode(fragment) {
            None => &mut self.none,
            Some(Ok(design)) if design == *sent => &mut self.same,
            Some(Ok(_)) => &mut self.other,
            Some(Err(LinkError::CutOff)) => &mut self.cut_off,
            Some(Err(LinkError::WrongCharacter)) => &mut self.wrong_character,
            Some(Err(LinkError::Altered)) => &mut self.altered,
            Some(Err(LinkError::Newer(_))) => &mut self.newer,
            Some(Err(LinkError::Unreleased(_))) => &mut self.unreleased,
            Some(Err(LinkError::Overlong)) => &mut self.overlong,
            Some(Err(LinkError::MadeUp)) => &mut self.made_up,
            Some(Err(LinkError::Refused(_))) => &mut self.refused,
            Some(Err(LinkError::TooLong(_))) => panic!("a link that was read is too long to write"),
        };
        *place += 1;
    }
}

/// Whatever happens to the letters of a link, none is taken for another line. A damage that puts in what a link ends with, or
/// is undone by another, leaves the same.
#[test]
fn letters_damaged() {
    for golden in GOLDEN {
        let sent = decode(golden).and_then(Result::ok).expect("a golden link");
        let mut tally = Tally::default();
        for fragment in damaged(golden, 20_000) {
            tally.count(&sent, &fragment);
        }
        println!("{tally:?}");
        assert_eq!(
            (tally.other, tally.refused, tally.made_up),
            (0, 0, 0),
            "{tally:?}"
        );
        assert_eq!((tally.newer, tally.unreleased), (0, 0), "{tally:?}");
        assert!(tally.altered > 1_000 && tally.cut_off > 100, "{tally:?}");
        assert!(
            tally.wrong_character > 1_000 && tally.none > 100,
            "{tally:?}"
        );
    }
}

/// The payload damaged, its length corrected: CRC-32 finds every burst of up to 32 bits for certain, and of anything longer lets
/// pass one in 2³² (Koopman 2002, "32-bit cyclic redundancy codes for internet applications", from memory). So among twenty thousand none
/// is to be expected: of hundreds of thousands of runs one.
#[test]
fn payloads_damaged() {
    let sent = usual();
    let whole = encode(&sent).expect("it is short");
    let code = whole[PREFIX.len()..].trim_end_matches('z');
    let bytes = URL_SAFE_NO_PAD.decode(code).expect("it is base64url");
    // One letter to a byte, so that damage to the text is damage to the payload.
    let letters: String = bytes[7..].iter().copied().map(char::from).collect();
    let mut tally = Tally::default();
    for damaged in damaged(&letters, 20_000) {
        let payload = damaged
            .chars()
            .map(|letter| u32::from(letter).to_le_bytes()[0]);
        let mut link = bytes[..7].to_vec();
        link.extend(payload);
        let length = u16::try_from(link.len() - 7).expect("it is short");
        link[1..3].copy_from_slice(&length.to_le_bytes());
        tally.count(&sent, &format!("{PREFIX}{}z", URL_SAFE_NO_PAD.encode(link)));
    }
    println!("{tally:?}");
    let collisions = tally.other + tally.refused + tally.made_up;
    assert_eq!(collisions, 0, "{tally:?}");
    assert!(tally.altered > 19_000, "{tally:?}");
}

/// A version byte changed to any other is told as damage: never another line, nor one of another version.
#[test]
fn versions_damaged() {
    for golden in GOLDEN {
        let sent = decode(golden).and_then(Result::ok).expect("a golden link");
        let bytes = URL_SAFE_NO_PAD.decode(golden[PREFIX.len()..].trim_end_matches('z'));
        let bytes = bytes.expect("it is base64url");
        let mut tally = Tally::default();
        for version in (0..=255).filter(|version| *version != bytes[0]) {
            let mut link = bytes.clone();
            link[0] = version;
            tally.count(&sent, &format!("{PREFIX}{}z", URL_SAFE_NO_PAD.encode(link)));
        }
        assert_eq!(tally.altered, 255, "{tally:?}");
    }
}

/// Every way a link can fail has a sentence of its own, with what to do about it.
#[test]
fn every_failure_has_a_sentence_of_its_own() {
    let refused = {
        let mut draft = usual().draft().clone();
        draft.gears.clear();
        Design::parse(draft).expect_err("no gears")
    };
    let failures = [
        LinkError::Overlong,
        LinkError::CutOff,
        LinkError::WrongCharacter,
        LinkError::Altered,
        LinkError::MadeUp,
        LinkError::Newer(9),
        LinkError::Unreleased(1),
        LinkError::Refused(refused),
        LinkError::TooLong(2_000),
    ];
    let mut said: Vec<String> = failures.iter().map(ToString::to_string).collect();
    said.push(taperwright::keep::dropped::DropError::NoLink.to_string());
    for words in &said {
        assert!(words.ends_with('.'), "{words}");
    }
    said.sort();
    said.dedup();
    assert_eq!(said.len(), failures.len() + 1);
}
