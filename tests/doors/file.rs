//! Design files, damaged in every way.

use serde_json::{Value, json};
use taperwright::design::settings::Setting;
use taperwright::keep::share::file::{FileError, LARGEST, read, write};

use crate::designs::usual;
use crate::{outside_every_range, says};

/// Something done to the tree of a file, and the words of the refusal.
type Row = (fn(&mut Value), &'static [&'static str]);

/// The usual file as a tree, with something done to it.
fn spoiled(spoil: impl FnOnce(&mut Value)) -> String {
    let mut tree: Value = serde_json::from_str(&write(&usual())).expect("a file is JSON");
    spoil(&mut tree);
    tree.to_string()
}

#[track_caller]
fn refused(text: &str, things: &[&str]) {
    let error = read(text).expect_err("a damaged file was read");
    says(&error.to_string(), things);
}

#[test]
fn the_file_itself_reads() {
    assert_eq!(read(&spoiled(|_| ())), Ok(usual()));
}

#[test]
fn texts_that_are_no_design_file() {
    let others = [
        "",
        " ",
        "{}",
        "[]",
        "null",
        "42",
        "\"line\"",
        "<svg/>",
        "\0\0\0",
        "{\"format\":\"other\",\"version\":1}",
    ];
    for text in others {
        assert_eq!(read(text), Err(FileError::NotADesign), "{text}");
        refused(text, &["not a Taperwright design file"]);
    }
    for version in [json!(-1), json!("1"), json!(1.5), json!(null), json!([])] {
        assert_eq!(
            read(&spoiled(|file| file["version"] = version)),
            Err(FileError::NotADesign)
        );
    }
}

#[test]
fn files_of_a_newer_version() {
    for version in [5_u32, 6, u32::MAX] {
        let text = spoiled(|file| file["version"] = json!(version));
        assert_eq!(read(&text), Err(FileError::Newer(version)));
        refused(&text, &[&version.to_string(), "up to 4", "Reload the page"]);
    }
    // What a newer version holds is its own affair.
    assert_eq!(
        read("{\"format\": \"taperwright design\", \"version\": 5, \"line\": []}"),
        Err(FileError::Newer(5))
    );
}

#[test]
fn files_cut_off_anywhere() {
    let whole = write(&usual());
    for end in (0..whole.len()).filter(|&end| whole.is_char_boundary(end)) {
        // Before the first brace there is nothing, and after the last there is only a line end.
        let expected = match end {
            0 => FileError::NotADesign,
            _ => FileError::CutOff,
        };
        assert_eq!(read(&whole[..end]), Err(expected), "cut at {end}");
    }
    refused(
        &whole[..200],
        &["was cut off", "end is missing", "another copy"],
    );
}

#[test]
fn settings_missing_unknown_or_misspelt() {
    let must_be_there = |setting: &Setting| !setting.may_be_missing();
    for setting in Setting::ALL.into_iter().filter(must_be_there) {
        let key = setting.key();
        let take = |file: &mut Value| {
            file["design"]["settings"]
                .as_object_mut()
                .and_then(|settings| settings.remove(key))
        };
        refused(
            &spoiled(|file| assert!(take(file).is_some(), "{key} is not in the file")),
            &["damaged", key, "missing"],
        );
    }
    refused(
        &spoiled(|file| file["design"]["settings"]["crimp"] = json!(2.0)),
        &["damaged", "crimp", "not known"],
    );
    for key in [
        "name",
        "notes",
        "fibre",
        "condition",
        "build",
        "pattern",
        "mounted",
        "train",
        "gears",
        "settings",
        "pins",
        "points",
    ] {
        let take = |file: &mut Value| {
            file["design"]
                .as_object_mut()
                .and_then(|design| design.remove(key))
        };
        refused(
            &spoiled(|file| assert!(take(file).is_some())),
            &["damaged", "missing", key],
        );
    }
    refused(
        &spoiled(|file| file["design"]["colour"] = json!("green")),
        &["damaged", "colour"],
    );
    refused(
        &spoiled(|file| file["design"]["points"][1]["weight"] = json!(1)),
        &["damaged", "weight"],
    );
    refused(&spoiled(|file| file["design"] = json!(null)), &["damaged"]);
}

#[test]
fn values_of_the_wrong_kind() {
    refused(
        &spoiled(|file| file["design"]["fibre"] = json!("wool")),
        &["damaged", "wool"],
    );
    refused(
        &spoiled(|file| file["design"]["pattern"] = json!("Diamond")),
        &["damaged", "Diamond"],
    );
    refused(
        &spoiled(|file| file["design"]["gears"] = json!("15-30")),
        &["damaged"],
    );
    for value in [json!(null), json!("45"), json!(true), json!([45])] {
        refused(
            &spoiled(|file| file["design"]["settings"]["target_angle_deg"] = value),
            &["damaged"],
        );
    }
    // JSON has no word for what is no number; what overflows is refused by the reader.
    for word in ["NaN", "Infinity", "-Infinity", "1e999"] {
        let text = write(&usual()).replacen(
            "\"target_angle_deg\": 45.0",
            &format!("\"target_angle_deg\": {word}"),
            1,
        );
        assert!(text.contains(word));
        assert!(read(&text).is_err(), "{word} was read");
    }
}

#[test]
fn numbers_outside_their_range() {
    for (setting, value, words) in outside_every_range() {
        let text = spoiled(|file| file["design"]["settings"][setting.key()] = json!(value));
        refused(&text, &words.each_ref().map(String::as_str));
    }
}

#[test]
fn designs_that_could_not_be_braided() {
    let rows: [Row; 8] = [
        (
            |file| file["design"]["gears"] = json!([]),
            &["at least one change gear"],
        ),
        (
            |file| file["design"]["gears"] = json!([20.5]),
            &["20.5", "whole number"],
        ),
        (
            |file| file["design"]["points"] = json!([]),
            &["2 to 1000", "has 0"],
        ),
        (
            |file| file["design"]["points"][3]["at_m"] = json!(2.5908),
            &["Points 3 and 4", "2.5908 m", "10 mm"],
        ),
        (
            |file| file["design"]["points"][3]["diameter_mm"] = json!(-1.0),
            &["-1", "0.1 to 10"],
        ),
        (
            |file| file["design"]["settings"]["horn_gears"] = json!(7),
            &["7 horn gears", "even"],
        ),
        (
            |file| file["design"]["settings"]["label_low_denier"] = json!(30),
            &["smaller number first", "30", "22"],
        ),
        (
            |file| file["design"]["name"] = json!("n".repeat(81)),
            &["81", "80"],
        ),
    ];
    for (spoil, words) in rows {
        let text = spoiled(spoil);
        assert!(
            matches!(read(&text), Err(FileError::Refused(_))),
            "{words:?}"
        );
        refused(&text, words);
        refused(&text, &["design cannot be used"]);
    }
}

#[test]
fn huge_files() {
    let huge = " ".repeat(LARGEST + 1);
    refused(&huge, &["too large", "1000000 bytes"]);
    // As deep and as long as fits: refused without a stack or a memory running over.
    assert!(read(&"[".repeat(LARGEST)).is_err());
    let mut points = spoiled(|file| {
        let point = file["design"]["points"][0].clone();
        file["design"]["points"] = json!(vec![point; 20_000]);
    });
    refused(&points, &["2 to 1000", "has 20000"]);
    points.insert_str(0, "  ");
    assert!(points.len() < LARGEST);
}

/// Names are cleaned at this door too.
#[test]
fn disguises_are_taken_off_a_name() {
    let text = spoiled(|file| file["design"]["name"] = json!("a\u{202e}b\u{7}c"));
    assert_eq!(read(&text).expect("the rest is sound").draft().name, "abc");
}

/// What is told of a damaged file names what stands in it: one short line, whatever that is.
#[test]
fn what_is_told_is_clean_and_short() {
    for (old, new) in [
        ("\"clockwise\"", "\"clock\u{7f}\u{202e}wise\"".to_owned()),
        ("\"silk\"", "\"\\u0007\\u202esilk\"".to_owned()),
        ("\"gears\"", format!("\"{}\"", "é".repeat(40_000))),
    ] {
        let text = write(&usual()).replacen(old, &new, 1);
        let error = read(&text).expect_err("it is damaged");
        assert!(matches!(error, FileError::Damaged(_)), "{error:?}");
        let said = error.to_string();
        let is_wrong = |c: char| c.is_control() || c == '\u{202e}';
        assert!(
            said.chars().count() < 200 && !said.contains(is_wrong),
            "{said:?}"
        );
    }
    let twice = write(&usual()).replacen(
        "\"settings\": {",
        "\"settings\": {\"crimp_percent\": 2.0,",
        1,
    );
    refused(&twice, &["crimp_percent", "twice"]);
}
