//! Files of measured lines, bad in every way: refused in words, and nothing of them is guessed at.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde_json::{Value, json};
use taperwright::keep::dropped::{self, DropError, Dropped};
use taperwright::keep::share::link;
use taperwright::keep::share::measured_file::{MeasuredFileError, glimpse, read, write};
use taperwright::measured::{DraftReading, MeasuredDraft, MeasuredLine, Trust};

use crate::says;

fn line() -> MeasuredLine {
    let readings = (0..30_u8).map(|index| DraftReading {
        at_m: f64::from(index) * 0.5,
        diameter_mm: 0.8 + 0.01 * f64::from(index),
        trust: [Trust::Judged, Trust::Used, Trust::LeftOut][usize::from(index) % 3],
    });
    let line = MeasuredLine::parse(MeasuredDraft {
        name: "Old Heron".to_owned(),
        readings: readings.collect(),
        whole_g: Some(18.2),
        ..MeasuredDraft::default()
    });
    line.expect("it is sound")
}

fn spoiled(spoil: impl FnOnce(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(&write(&line())).expect("JSON");
    spoil(&mut file);
    file.to_string()
}

#[test]
fn a_file_opens_by_its_own_door_and_by_dropping() {
    let text = write(&line());
    assert_eq!(read(&text), Ok(line()));
    assert_eq!(read(&format!("\u{feff}{text}")), Ok(line()));
    assert_eq!(
        dropped::read(&text),
        Ok(Dropped::Measured(Box::new(line())))
    );
}

#[test]
fn cut_off_anywhere_it_says_so() {
    let text = write(&line());
    for end in (2..text.len()).step_by(7) {
        let found = read(&text[..end]);
        assert_eq!(found, Err(MeasuredFileError::CutOff), "{end} bytes");
    }
}

#[test]
fn what_is_not_such_a_file_is_told_apart() {
    for text in ["", "null", "[]", "{\"format\":\"a recipe\",\"version\":1}"] {
        assert_eq!(read(text), Err(MeasuredFileError::NotMeasured), "{text}");
    }
    let newer = spoiled(|file| file["version"] = json!(2));
    assert_eq!(read(&newer), Err(MeasuredFileError::Newer(2)));
    assert_eq!(glimpse(&newer), Some(line()));
    assert_eq!(glimpse(&write(&line())), None);
    let unknown = spoiled(|file| {
        file["version"] = json!(2);
        file["measured"]["colour"] = json!("green");
    });
    assert_eq!(glimpse(&unknown), None);
    let large = " ".repeat(1_000_001);
    assert_eq!(read(&large), Err(MeasuredFileError::TooLarge));
}

/// Something done to a file, and words of the refusal.
type Row = (fn(&mut Value), &'static [&'static str]);

#[test]
fn what_no_line_can_have_is_refused() {
    let rows: [Row; 11] = [
        (
            |it| it["readings"][3]["diameter_mm"] = json!(20.0),
            &["20", "0.1 to 10"],
        ),
        (
            |it| it["readings"][3]["at_m"] = json!(-1.0),
            &["distance from the tip"],
        ),
        (
            |it| it["readings"] = json!(vec![json!({"at_m": 1.0, "diameter_mm": 1.0}); 2001]),
            &["2001", "2000"],
        ),
        (
            |it| it["readings"][0]["trust"] = json!("perhaps"),
            &["damaged"],
        ),
        (|it| it["length_m"] = json!(3.0), &["3 m", "14.5 m"]),
        (|it| it["whole_g"] = json!(0.0), &["weight"]),
        (|it| it["micrometer_um"] = json!(0.0), &["micrometer"]),
        (
            |it| it["cuts"] = json!([{"from_m": 2.0, "to_m": 1.0, "mass_g": 1.0}]),
            &["piece 1"],
        ),
        (|it| it["name"] = json!("n".repeat(81)), &["81", "80"]),
        (
            |it| it["unread"] = json!(vec![json!({"row": 1, "text": "x", "why": "?"}); 501]),
            &["501", "500"],
        ),
        (|it| it["weight"] = json!(1), &["damaged"]),
    ];
    for (row, (spoil, words)) in rows.into_iter().enumerate() {
        let text = spoiled(|file| spoil(&mut file["measured"]));
        let error = read(&text).expect_err("it was spoiled");
        says(&error.to_string(), words);
        assert_eq!(
            dropped::read(&text),
            Err(DropError::Measured(error)),
            "row {row}"
        );
    }
}

#[test]
fn a_link_of_a_measured_line_is_damaged_by_any_change() {
    let fragment = link::encode_measured(&line()).expect("it fits");
    let start = link::MEASURED_PREFIX.len();
    for at in start..fragment.len() {
        let other = if &fragment[at..=at] == "A" { "B" } else { "A" };
        let changed = format!("{}{other}{}", &fragment[..at], &fragment[at + 1..]);
        let read = link::read(&changed).expect("it begins as a measured line");
        assert!(read.is_err(), "character {at}");
        let cut = link::read(&fragment[..at]).expect("it begins as a measured line");
        assert_eq!(cut, Err(link::LinkError::CutOff));
    }
    let in_words = format!("Look at https://taper.example/#{fragment}.");
    assert_eq!(link::fragment_in(&in_words), Some(fragment.as_str()));
}

/// Whole and true to its checksum, but with any byte of its payload another: read as a line that there could be, or refused.
#[test]
fn a_link_with_other_contents_is_a_line_or_is_refused() {
    let fragment = link::encode_measured(&line()).expect("it fits");
    let code = &fragment[link::MEASURED_PREFIX.len()..fragment.len() - 1];
    let bytes = URL_SAFE_NO_PAD.decode(code).expect("it is base64url");
    let (mut lines, mut refused) = (0, 0);
    for at in 7..bytes.len() {
        for other in [0, 1, 0x7f, 0x80, 0xff] {
            let mut changed = bytes.clone();
            changed[at] = other;
            let sum = crc32fast::hash(&[&changed[..3], &changed[7..]].concat());
            changed[3..7].copy_from_slice(&sum.to_le_bytes());
            let fragment = format!(
                "{}{}z",
                link::MEASURED_PREFIX,
                URL_SAFE_NO_PAD.encode(&changed)
            );
            match link::read(&fragment).expect("it begins as a measured line") {
                Ok(link::Linked::Measured(line)) => {
                    lines += 1;
                    assert_eq!(read(&write(&line)), Ok(*line));
                }
                Ok(found) => panic!("{found:?}"),
                Err(error) => {
                    refused += 1;
                    assert!(error.to_string().ends_with('.'), "{error}");
                }
            }
        }
    }
    assert!(lines > 20 && refused > 20, "{lines} {refused}");
}
