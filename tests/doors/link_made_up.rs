//! Links that are whole and true to their checksum, and yet no Taperwright made them.

use taperwright::keep::share::link::{LONGEST, LinkError, PREFIX, decode, encode};

use crate::designs::usual;
use crate::sealed::{
    Payload, Pin, RECIPE, Recipe, Steps, error, payload, sealed, sealed_payload, with_original,
};
use crate::{outside_every_range, says};

/// Something done to a payload, and the words of the refusal.
type Row = (fn(&mut Payload), &'static [&'static str]);

/// Well sealed, but with more after the design than belongs there.
#[test]
fn links_with_trailing_bytes() {
    let mut bytes = with_original(&payload());
    bytes.push(0);
    assert_eq!(error(&sealed(&bytes)), LinkError::MadeUp);
    let bytes = &bytes[..bytes.len() - 2];
    assert_eq!(error(&sealed(bytes)), LinkError::MadeUp);
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
                LinkError::MadeUp,
                "{before:?}"
            );
        }
    }
    let longest = format!("{PREFIX}{}z", "A".repeat(LONGEST));
    let found = error(&longest);
    assert_eq!(found, LinkError::Overlong);
    says(&found.to_string(), &["longer than any", "file of the line"]);
    error(&format!("{PREFIX}{}", "é".repeat(5_000_000)));
}

/// Well sealed, but with choices, lists or steps there are none of.
#[test]
fn links_with_impossible_contents() {
    let rows: [fn(&mut Payload); 15] = [
        |payload| payload.fibre = 8,
        |payload| payload.condition = 2,
        |payload| payload.build = 3,
        |payload| payload.train = 4,
        |payload| payload.pattern = 3,
        |payload| payload.pattern = 255,
        |payload| payload.gears = vec![20; 61],
        |payload| payload.reserved = 1,
        |payload| payload.changed.push((9, 3200)),
        |payload| payload.changed.push((200, 1)),
        |payload| payload.recipe = Recipe::Ready(5),
        |payload| payload.pins = (0..101).map(|_| Pin::Carrier(8, 0, 1)).collect(),
        |payload| payload.pins = vec![Pin::Carrier(8, 2, 1)],
        |payload| payload.points[5].0 = u32::MAX,
        |payload| payload.name = "n".repeat(321),
    ];
    for (row, spoil) in rows.into_iter().enumerate() {
        assert_eq!(
            error(&sealed_payload(spoil)),
            LinkError::MadeUp,
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
        (
            |payload| payload.points.truncate(1),
            &["2 to 1000", "has 1"],
        ),
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
            &["80 teeth together", "List a gear twice"],
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
        says(&found.to_string(), &["in the link cannot be used"]);
    }
}

#[test]
fn numbers_outside_their_range() {
    // A link counts steps from zero, so that nothing negative can stand in it.
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
        assert_eq!(own(bad), Err(LinkError::MadeUp));
    }
}

/// A thousand points and one more fit no link that is read at all.
#[test]
fn a_link_of_too_many_points_is_too_long() {
    let many = sealed_payload(|payload| payload.points = vec![(100, 7600); 1001]);
    assert_eq!(error(&many), LinkError::Overlong);
}
