//! Links and files as released versions wrote them: they open as the line they were, for good. Those of versions that were never
//! released are refused in words, and nothing of them is guessed at.

use serde_json::{Value, json};
use taperwright::design::settings::Setting;
use taperwright::design::{Design, demo::demo};
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file as book;
use taperwright::keep::dropped::{self, DropError};
use taperwright::keep::share::file::{self, FileError};
use taperwright::keep::share::link::{self, LinkError};

use crate::says;

/// A line with something of everything in it, as a link of version 3.
const THIRD: &str = include_str!("golden/version-3.link");
/// The same line as a link of version 4.
const FOURTH: &str = include_str!("golden/version-4.link");
/// The same line as a link of version 5.
const FIFTH: &str = include_str!("golden/version-5.link");
/// The same line as a file of version 3.
const FILE: &str = include_str!("golden/version-3.json");

/// Links that versions 1 and 2 made.
pub(crate) const UNRELEASED: [(u8, &str); 3] = [
    (
        1,
        "line=AckAzefluBdIZXJvbiBXZWlyIGRvdWJsZSB0YXBlclJJbnZlbnRlZCBleGFtcGxlOiB0aGUgSGVyb24gV2VpciB3b3Jrc2hvcCwgaXRzIG1hY2hpbmUgYW5kIHRoaXMgbGluZSBkbyBub3QgZXhpc3QuAAABExAREhMUFRYXGBkaGxwdHh8gISIZ0A-YEQ7wAbwFlgEQCCiyGZQjlgHIAaYEhAeiB2TMCIQH3AaEAmTMCAqgBgYAukD0C7pAkO4B4lS8uAviVJDuAbpA9Au6QAz",
    ),
    (
        1,
        "line=AXgABQ2FTglSZWVkIFBvb2wfb2YgYW4gb2xkZXIgcGFnZQp3aXRoIHR3byBsaW5lcwEBAgMUFB8Z0A-YEQ7wAbwFlgEYCSiyGZQjlgHIAaYEhAeiB2TMCIQH3AaEAn3MCAqgBgYAukD0C7pAkO4B4lS8uAviVJDuAbpA9Au6QAz",
    ),
    (
        2,
        "line=AuoApLYEchdIZXJvbiBXZWlyIGRvdWJsZSB0YXBlclJJbnZlbnRlZCBleGFtcGxlOiB0aGUgSGVyb24gV2VpciB3b3Jrc2hvcCwgaXRzIG1hY2hpbmUgYW5kIHRoaXMgbGluZSBkbyBub3QgZXhpc3QuAAAAAQAAABMQERITFBUWFxgZGhscHR4fICEiKtAPmBEO8AG8BZYBCAgoshmUI5YByAGmBLYHogdkzAiEB9wGrAJkzAgPoAYQFPQDrAK4F_oBlgFQ0gb6AWSsAtgEMpADANgEAAYAukD0C7pAkO4B4lS8uAviVJDuAbpA9Au6QAz",
    ),
];

fn opened(fragment: &str) -> Design {
    let design = link::decode(fragment).expect("it begins as a line");
    design.unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn both_links_and_the_file_are_one_line() {
    let by_file = file::read(FILE).unwrap_or_else(|error| panic!("{error}"));
    for fragment in [THIRD, FOURTH, FIFTH] {
        assert_eq!(opened(fragment), by_file);
    }
    let draft = by_file.draft();
    assert_eq!(
        (draft.name.as_str(), draft.workshop.as_str()),
        ("Reed Pool", "Heron Weir, lot A")
    );
    assert_eq!(
        (draft.points.len(), draft.pins.len(), draft.recipe.len()),
        (12, 4, 8)
    );
    assert_eq!(draft.points[3].at_m, 3.6);
    assert_eq!(by_file.setting(Setting::LeastCover), 55.5);
    // Written again they are the same, but for what the file is older than.
    assert_eq!(link::encode(&by_file).as_deref(), Ok(FIFTH));
    let mut written: Value = serde_json::from_str(&file::write(&by_file)).expect("JSON");
    let settings = written["design"]["settings"]
        .as_object_mut()
        .expect("a map");
    let later = settings.remove(Setting::StopPrice.key());
    assert_eq!(later, Some(json!(Setting::StopPrice.default_value())));
    let design = written["design"].as_object_mut().expect("a map");
    assert_eq!(design.remove("original"), Some(Value::Null));
    assert_eq!(written["version"], json!(4));
    written["version"] = json!(3);
    let golden: Value = serde_json::from_str(FILE).expect("JSON");
    assert_eq!(written, golden);
}

#[test]
fn links_of_unreleased_versions_are_refused() {
    for (version, fragment) in UNRELEASED {
        let error = link::decode(fragment).expect("it begins as a line");
        let error = error.expect_err("a link of an unreleased version was read");
        assert_eq!(error, LinkError::Unreleased(version));
        says(
            &error.to_string(),
            &[
                &format!("format {version}"),
                "never released",
                "formats 3 to 5",
                "Ask for a new link",
            ],
        );
    }
}

/// Cut off anywhere or altered, such a link is told as damaged first.
#[test]
fn damaged_links_of_unreleased_versions_are_damaged() {
    for (_, fragment) in UNRELEASED {
        for length in link::PREFIX.len()..fragment.len() {
            let cut = link::decode(&fragment[..length]).expect("it begins as a line");
            assert_eq!(cut, Err(LinkError::CutOff), "{length} characters");
        }
        // Twenty characters from the end lies the payload.
        let (before, after) = fragment.split_at(fragment.len() - 20);
        let other = if after.starts_with('A') { 'B' } else { 'A' };
        let altered = link::decode(&format!("{before}{other}{}", &after[1..]));
        assert_eq!(altered, Some(Err(LinkError::Altered)));
    }
}

#[test]
fn files_of_unreleased_versions_are_refused_at_every_door() {
    for version in [1, 2] {
        let old = FILE.replacen("\"version\": 3", &format!("\"version\": {version}"), 1);
        assert_ne!(old, FILE);
        let error = file::read(&old).expect_err("a file of an unreleased version was read");
        assert_eq!(error, FileError::Unreleased(version));
        says(
            &error.to_string(),
            &[
                &format!("format {version}"),
                "never released",
                "formats 3 and 4",
                "saved later",
            ],
        );
        assert_eq!(dropped::read(&old), Err(DropError::Line(error)));
        assert_eq!(file::glimpse(&old), None);
    }
}

/// A line in a bench book whose design was frozen by an unreleased version is kept to the letter, and says why it is unread.
#[test]
fn a_frozen_design_of_an_unreleased_version_is_kept_unread() {
    let (version, fragment) = UNRELEASED[2];
    let code = &fragment[link::PREFIX.len()..];
    let mut text: serde_json::Value =
        serde_json::from_str(&book::write(&Workshop::new("lot A".to_owned(), &demo())))
            .expect("a book is JSON");
    text["workshop"]["records"] = json!([{ "name": "first", "design": code }]);
    let workshop = book::read(&text.to_string()).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        workshop.records[0].design.design(),
        Err(&LinkError::Unreleased(version))
    );
    assert!(book::write(&workshop).contains(code), "the code was lost");
}

/// A design frozen in version 3 is read, and its code goes out as it came in.
#[test]
fn a_frozen_design_of_version_3_keeps_its_code() {
    let code = &THIRD[link::PREFIX.len()..];
    let mut text: serde_json::Value =
        serde_json::from_str(&book::write(&Workshop::new("lot A".to_owned(), &demo())))
            .expect("a book is JSON");
    text["workshop"]["records"] = json!([{ "name": "first", "design": code }]);
    let workshop = book::read(&text.to_string()).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(workshop.records[0].design.design(), Ok(&opened(THIRD)));
    assert!(
        book::write(&workshop).contains(code),
        "the code was changed"
    );
}
