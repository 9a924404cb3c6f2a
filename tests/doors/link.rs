//! Links, damaged on their way or made up by somebody.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use taperwright::design::Design;
use taperwright::share::link::{LONGEST, LinkError, PREFIX, decode, encode};

use crate::designs::usual;
use crate::{outside_every_range, says};

/// The payload as the format describes it, version 3; postcard writes a struct's fields one after another.
#[derive(serde::Serialize)]
struct Payload {
    name: String,
    notes: String,
    fibre: u8,
    condition: u8,
    build: u8,
    pattern: u8,
    train: u8,
    mounted: (u64, u64),
    gears: Vec<u32>,
    settings: Vec<u32>,
    pins: Vec<Pin>,
    points: Vec<(u32, u32)>,
    /// Place in the table and count of steps, of what is not the default.
    changed: Vec<(u8, u32)>,
    workshop: String,
    recipe: Recipe,
    learned: Option<Learned>,
}

/// Dressing steps: kinds, counts of their values, what they are warmed in.
type Steps = Vec<(u8, Vec<u32>, u8)>;

/// The recipe, as the format describes it: a ready one, or its steps.
#[derive(serde::Serialize)]
enum Recipe {
    Ready(u8),
    Own(Steps),
}

/// What was learnt, as the format describes it.
#[derive(serde::Serialize)]
struct Learned {
    spreads: [u32; 7],
    correlations: [i8; 21],
    scatter: u32,
    swatches: u32,
    lines: u32,
}

/// A pin as the format describes it.
#[derive(serde::Serialize)]
enum Pin {
    Place(u32, u32, bool, u32),
    Carrier(u32, u8, u32),
    Wheels(u32, u32, u32, u32, u32),
}

/// The usual recipe: hours and millibars in tenths, temperatures and shares whole.
const RECIPE: [(u8, &[u32]); 12] = [
    (0, &[10]),
    (1, &[20, 1000, 0]),
    (3, &[120]),
    (4, &[1680, 45]),
    (6, &[5040]),
    (7, &[5]),
    (8, &[10]),
    (9, &[10, 1000, 50]),
    (5, &[720]),
    (11, &[20]),
    (12, &[5]),
    (13, &[5]),
];

/// Something done to a payload, and the words of the refusal.
type Row = (fn(&mut Payload), &'static [&'static str]);

/// A payload that reads as the usual design.
fn payload() -> Payload {
    let design = usual();
    let draft = design.draft();
    // Positions count tenths of a millimetre behind the point before; sizes tenths of a micrometre.
    let points = vec![
        (0, 7600),
        (1524, 7600),
        (24_384, 10_750),
        (199_644, 10_750),
        (24_384, 7600),
        (1524, 7600),
    ];
    let gears = (15..=30).collect();
    Payload {
        name: draft.name.clone(),
        notes: draft.notes.clone(),
        fibre: 0,
        condition: 0,
        build: 0,
        pattern: 1,
        train: 0,
        mounted: (0, 0),
        gears,
        settings: Vec::new(),
        pins: Vec::new(),
        points,
        // A machine constant of 3.2 mm, in thousandths, is all that is not usual.
        changed: vec![(9, 3200)],
        workshop: String::new(),
        recipe: Recipe::Ready(0),
        learned: None,
    }
}

/// A link of these bytes behind a header of our making.
fn link(version: u8, length: usize, sum: u32, bytes: &[u8]) -> String {
    let length = u16::try_from(length).expect("the tests write short links");
    let mut whole = vec![version];
    whole.extend(length.to_le_bytes());
    whole.extend(sum.to_le_bytes());
    whole.extend(bytes);
    format!("{PREFIX}{}z", URL_SAFE_NO_PAD.encode(whole))
}

/// A link whose header is true to its bytes.
fn sealed(bytes: &[u8]) -> String {
    link(3, bytes.len(), crc32fast::hash(bytes), bytes)
}

fn sealed_payload(spoil: impl FnOnce(&mut Payload)) -> String {
    let mut payload = payload();
    spoil(&mut payload);
    sealed(&postcard::to_allocvec(&payload).expect("counts and text serialise"))
}

#[track_caller]
fn error(fragment: &str) -> LinkError {
    decode(fragment)
        .expect("the fragment begins as a line")
        .expect_err("a bad link was read")
}

fn demo_link() -> String {
    encode(&usual()).expect("the demo fits a link")
}

#[test]
fn a_link_made_by_hand_is_the_link() {
    assert_eq!(sealed_payload(|_| ()), demo_link());
}

/// Steps spelled out read as the ready recipe they are; with one of them changed they are the maker's own.
#[test]
fn steps_are_read_one_by_one() {
    let own = |change: fn(&mut Steps)| {
        let steps = RECIPE.iter();
        let mut steps = steps
            .map(|&(kind, counts)| (kind, counts.to_vec(), 0))
            .collect();
        change(&mut steps);
        let fragment = sealed_payload(|payload| payload.recipe = Recipe::Own(steps));
        decode(&fragment).expect("it begins as a line")
    };
    assert_eq!(own(|_| ()), Ok(usual()));
    let warmer = own(|steps| steps[3].1[1] = 46).expect("a valid design");
    assert_eq!(warmer.draft().recipe[3].celsius, 46.0);
    assert_eq!(
        encode(&warmer).map(|fragment| decode(&fragment)),
        Ok(Some(Ok(warmer)))
    );
    for bad in [
        (|steps: &mut Steps| steps[0].0 = 14) as fn(&mut _),
        |steps| steps[0].1.push(0),
        |steps| steps[3].1.clear(),
        |steps| steps[3].2 = 3,
        |steps| steps.extend((0..29).map(|_| (0, vec![10], 0))),
    ] {
        assert_eq!(own(bad), Err(LinkError::Altered));
    }
}

#[test]
fn fragments_that_are_no_line() {
    for fragment in [
        "",
        "#",
        "top",
        "line",
        "lines=AAAA",
        "LINE=AAAA",
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
                LinkError::Altered | LinkError::CutOff | LinkError::Newer(_)
            );
            assert!(is_told, "{new} at {at}: {found:?}");
        }
    }
    says(
        &LinkError::Altered.to_string(),
        &["altered", "cannot be trusted"],
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
    for version in [4, 5, 255] {
        let newer = link(version, bytes.len(), crc32fast::hash(&bytes), &bytes);
        assert_eq!(error(&newer), LinkError::Newer(version));
    }
    says(
        &LinkError::Newer(9).to_string(),
        &["format 9", "up to 3", "Reload the page"],
    );
    assert_eq!(
        error(&link(0, bytes.len(), crc32fast::hash(&bytes), &bytes)),
        LinkError::Altered
    );
}

#[test]
fn links_whose_header_lies() {
    let bytes = postcard::to_allocvec(&payload()).expect("counts and text serialise");
    let (length, sum) = (bytes.len(), crc32fast::hash(&bytes));
    assert_eq!(error(&link(3, length, sum ^ 1, &bytes)), LinkError::Altered);
    assert_eq!(error(&link(3, length - 1, sum, &bytes)), LinkError::Altered);
    assert_eq!(error(&link(3, length + 1, sum, &bytes)), LinkError::CutOff);
    assert_eq!(error(&link(3, 65_535, sum, &bytes)), LinkError::CutOff);
    assert_eq!(
        error(&link(3, 0, crc32fast::hash(&[]), &[])),
        LinkError::Altered
    );
}

/// Well sealed, but with more behind the design than belongs there.
#[test]
fn links_with_trailing_bytes() {
    let mut bytes = postcard::to_allocvec(&payload()).expect("counts and text serialise");
    bytes.push(0);
    assert_eq!(error(&sealed(&bytes)), LinkError::Altered);
    let bytes = &bytes[..bytes.len() - 2];
    assert_eq!(error(&sealed(bytes)), LinkError::Altered);
}

/// Well sealed, but with lists that claim to be longer than any memory: refused at once.
#[test]
fn links_with_hostile_lengths() {
    let endless = [0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x01];
    let nearly = [0xFF, 0xFF, 0xFF, 0xFF, 0x07];
    for length in [&endless[..], &nearly[..]] {
        for before in [
            &[][..],
            &[0],
            // Gears, settings, pins, points.
            &[0, 0, 0, 0, 0, 1, 0, 0, 0],
            &[0, 0, 0, 0, 0, 1, 0, 0, 0, 0],
            &[0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0],
            &[0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0],
        ] {
            assert_eq!(
                error(&sealed(&[before, length].concat())),
                LinkError::Altered,
                "{before:?}"
            );
        }
    }
    let longest = format!("{PREFIX}{}z", "A".repeat(LONGEST));
    let found = error(&longest);
    assert_eq!(found, LinkError::Overlong);
    says(&found.to_string(), &["longer than any", "design file"]);
    error(&format!("{PREFIX}{}", "é".repeat(5_000_000)));
}

/// Well sealed, but with choices, lists or steps there are none of.
#[test]
fn links_with_impossible_contents() {
    let rows: [fn(&mut Payload); 16] = [
        |payload| payload.fibre = 8,
        |payload| payload.condition = 2,
        |payload| payload.build = 3,
        |payload| payload.train = 4,
        |payload| payload.pattern = 3,
        |payload| payload.pattern = 255,
        |payload| payload.gears = vec![20; 61],
        |payload| payload.settings.push(0),
        |payload| payload.changed.push((9, 3200)),
        |payload| payload.changed.push((200, 1)),
        |payload| payload.recipe = Recipe::Ready(5),
        |payload| payload.pins = (0..101).map(|_| Pin::Carrier(8, 0, 1)).collect(),
        |payload| payload.pins = vec![Pin::Carrier(8, 2, 1)],
        |payload| payload.points = vec![(100, 7600); 201],
        |payload| payload.points[5].0 = u32::MAX,
        |payload| payload.name = "n".repeat(321),
    ];
    for (row, spoil) in rows.into_iter().enumerate() {
        assert_eq!(
            error(&sealed_payload(spoil)),
            LinkError::Altered,
            "row {row}"
        );
    }
}

/// Well sealed and readable, but nothing that could be braided: the design's own refusal, with the value named.
#[test]
fn links_to_designs_that_could_not_be_braided() {
    let rows: [Row; 11] = [
        (
            |payload| payload.gears.clear(),
            &["at least one change gear"],
        ),
        (|payload| payload.gears[0] = 7, &["7", "8 to 200"]),
        (|payload| payload.points.truncate(1), &["2 to 200", "has 1"]),
        (
            |payload| payload.points[3].0 = 99,
            &["Points 3 and 4", "10 mm"],
        ),
        (|payload| payload.points[2].1 = 0, &["0", "0.1 to 10"]),
        (|payload| payload.name = "n".repeat(81), &["81", "80"]),
        (
            |payload| payload.mounted.0 = 1 << 40,
            &["no clockwise place 41", "8 each way"],
        ),
        (
            |payload| payload.mounted.1 = 1,
            &["at least two carriers each way"],
        ),
        (
            |payload| payload.train = 2,
            &["80 teeth together", "stand twice"],
        ),
        (
            |payload| payload.pins = vec![Pin::Place(99, 0, true, 5)],
            &["Pin 1", "64"],
        ),
        (
            |payload| payload.pins = vec![Pin::Wheels(8, 0, 5, 7, 40)],
            &["7", "8 to 200"],
        ),
    ];
    for (spoil, words) in rows {
        let found = error(&sealed_payload(spoil));
        assert!(matches!(found, LinkError::Refused(_)), "{found:?}");
        says(&found.to_string(), words);
        says(&found.to_string(), &["design cannot be used"]);
    }
}

#[test]
fn numbers_outside_their_range() {
    // A link counts steps from nought, so that nothing negative can stand in it.
    for (setting, value, words) in outside_every_range()
        .into_iter()
        .filter(|&(_, value, _)| value > 0.0)
    {
        let quanta = setting.rule().quanta(value);
        let fragment = sealed_payload(|payload| {
            payload
                .changed
                .retain(|&(place, _)| usize::from(place) != setting as usize);
            payload.changed.push((setting as u8, quanta));
            payload.changed.sort_unstable();
        });
        let things = [0, 2, 3].map(|word| words[word].as_str());
        says(&error(&fragment).to_string(), &things);
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
    says(&error.to_string(), &["1800", "Send the design file"]);
}
