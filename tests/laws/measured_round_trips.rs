//! Measured lines, out and back in: nothing is lost.

use proptest::prelude::*;
use taperwright::base::choice::Choice;
use taperwright::keep::share::link::{self, LONGEST, LinkError, Linked};
use taperwright::keep::share::measured_file;
use taperwright::measured::{
    DraftCut, DraftReading, DraftUnread, MeasuredDraft, MeasuredLine, Trust,
};

use crate::lines::cases;

fn any_reading() -> impl Strategy<Value = DraftReading> {
    let trust = prop_oneof![
        8 => Just(Trust::Judged),
        1 => proptest::sample::select(Trust::ALL)
    ];
    (0.0..40.0_f64, 0.1..4.0_f64, trust).prop_map(|(at_m, diameter_mm, trust)| DraftReading {
        at_m,
        diameter_mm,
        trust,
    })
}

fn any_cut() -> impl Strategy<Value = DraftCut> {
    (0.0..20.0_f64, 0.1..20.0_f64, 0.01..30.0_f64).prop_map(|(from_m, long, mass_g)| DraftCut {
        from_m,
        to_m: from_m + long,
        mass_g,
    })
}

fn any_unread() -> impl Strategy<Value = DraftUnread> {
    (1..3_000_u32, "[a-zé0-9;?]{0,12}", "[A-Za-z .]{0,30}")
        .prop_map(|(row, text, why)| DraftUnread { row, text, why })
}

/// Any measured line with up to so many readings.
pub(crate) fn any_measured(most: usize) -> impl Strategy<Value = MeasuredLine> {
    let grams = || proptest::option::of(0.01..80.0_f64);
    let parts = (
        "[A-Za-zåß ]{0,20}",
        1.0..200.0_f64,
        -4..=4_i8,
        proptest::option::of(40.0..90.0_f64),
        proptest::collection::vec(any_reading(), 0..=most),
        (grams(), grams()),
        proptest::collection::vec(any_cut(), 0..4),
        proptest::collection::vec(any_unread(), 0..4),
    );
    parts.prop_map(
        |(name, micrometer_um, closeness, length_m, readings, (whole_g, head_g), cuts, unread)| {
            let draft = MeasuredDraft {
                name,
                notes: String::new(),
                micrometer_um: micrometer_um.round(),
                closeness,
                length_m,
                readings,
                whole_g,
                head_g,
                cuts,
                unread,
            };
            MeasuredLine::parse(draft).expect("its numbers are within their ranges")
        },
    )
}

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn a_file_holds_the_whole_line(line in any_measured(60)) {
        prop_assert_eq!(measured_file::read(&measured_file::write(&line)), Ok(line));
    }

    /// A link holds the whole line, or is refused for its length before it is sent.
    #[test]
    fn a_link_holds_the_whole_line(line in any_measured(400)) {
        match link::encode_measured(&line) {
            Ok(fragment) => {
                prop_assert!(fragment.len() <= LONGEST);
                let read = link::read(&fragment).expect("it begins as a measured line");
                prop_assert_eq!(read, Ok(Linked::Measured(Box::new(line))));
                prop_assert_eq!(link::decode(&fragment), None, "it is no design");
            }
            Err(error) => prop_assert!(matches!(error, LinkError::TooLong(length) if length > LONGEST)),
        }
    }

    /// What is checked once is sound: checked again it is the same.
    #[test]
    fn a_line_that_was_checked_is_checked_alike(line in any_measured(60)) {
        prop_assert_eq!(MeasuredLine::parse(line.draft().clone()), Ok(line));
    }
}

/// A line of 25 m with a reading every quarter of a metre can be sent as a link.
#[test]
fn a_hundred_readings_can_be_sent() {
    let readings = (0..=100).map(|index| DraftReading {
        at_m: f64::from(index) * 0.25,
        diameter_mm: 0.8 + 0.3 * (f64::from(index) / 16.0).sin().abs(),
        trust: Trust::Judged,
    });
    let line = MeasuredLine::parse(MeasuredDraft {
        name: "Old Heron".to_owned(),
        readings: readings.collect(),
        ..MeasuredDraft::default()
    });
    let fragment = link::encode_measured(&line.expect("it is sound"));
    let length = fragment.expect("it fits a link").len();
    assert!(length < 900, "{length}");
}
