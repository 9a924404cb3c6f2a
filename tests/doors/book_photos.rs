//! What a bench book holds of photos: own errors and small pictures.

use serde_json::{Value, json};
use taperwright::design::demo::demo;
use taperwright::keep::book::file::{read, write};
use taperwright::keep::book::swatch::SwatchField;
use taperwright::keep::book::{PICTURE_ROOM, PictureRefusal, SmallPicture, Workshop};
use taperwright::photo::Estimate;
use taperwright::plan::Plan;
use taperwright::plan::run::{Measured, Run};

use crate::book_file::{book, of_version, refused};
use crate::small_pictures::{ADDRESS, JPEGS, address, jpeg_of, largest, picture};

/// A braid of 46.2° ± 0.5° with 3120 ± 30 crossings a metre.
const ANGLE: Estimate = Estimate {
    value: 0.806_342_1,
    error: 0.008_726_6,
};
const CROSSINGS: Estimate = Estimate {
    value: 3120.0,
    error: 30.0,
};

/// A run with an angle from a photo on its lead-in.
fn run() -> Run {
    let design = demo();
    let adjusted = Plan::of(&design).unadjusted();
    let run = Run::default().tick(&adjusted);
    let at = run.stands_at(&adjusted);
    let checked = run.checked(&adjusted, &design, at, Measured::angle_by_photo(ANGLE));
    checked.expect("such a braid can be")
}

/// A book with all of it.
fn full() -> Workshop {
    let mut book = book();
    book.swatches[0].take_photo(ANGLE, Some(CROSSINGS), Some(picture()));
    book.records[0].run = Some(run());
    book
}

fn spoiled(spoil: impl FnOnce(&mut Value)) -> String {
    let mut tree: Value = serde_json::from_str(&write(&full())).expect("a file is JSON");
    spoil(&mut tree["workshop"]);
    tree.to_string()
}

#[test]
fn all_of_it_reads_back() {
    assert_eq!(read(&write(&full())), Ok(full()));
    assert_eq!(full().admitted(), Ok(full()));
    let written: Value = serde_json::from_str(&write(&full())).expect("a file is JSON");
    let swatch = &written["workshop"]["swatches"][0];
    assert_eq!(
        [&swatch["angle_deg"], &swatch["angle_error_deg"]],
        [&json!(46.2), &json!(0.5)]
    );
    assert_eq!(
        [&swatch["crossings"], &swatch["crossings_error"]],
        [&json!(31.2), &json!(0.3)]
    );
    assert_eq!(swatch["crossings_over_m"], json!(0.01));
    assert_eq!(swatch["picture"], json!(format!("{ADDRESS}{}", JPEGS[0])));
    let check = &written["workshop"]["records"][0]["run"]["checks"][0];
    assert_eq!(check["error"], json!(0.5));
}

/// What did not come from a photo is written as before.
#[test]
fn a_book_without_photos_is_one_of_version_4_but_for_its_number() {
    let text = write(&book());
    assert!(!text.contains("error") && !text.contains("picture"));
    for version in [4, 5] {
        assert_eq!(read(&of_version(version, &book())), Ok(book()));
    }
}

/// A file of version 4 has none of it; one that has some is damaged.
#[test]
fn version_4_had_none_of_it() {
    let only = |change: fn(&mut Workshop)| {
        let mut some = book();
        change(&mut some);
        for version in [3, 4] {
            let things = ["damaged", "format", "has no"];
            refused(&of_version(version, &some), &things);
        }
        refused(&of_version(4, &some), &["no readings of photos"]);
        assert_eq!(read(&write(&some)), Ok(some));
    };
    only(|book| book.swatches[0].take_photo(ANGLE, None, None));
    only(|book| {
        book.swatches[0].take_photo(ANGLE, Some(CROSSINGS), None);
        book.swatches[0].set(SwatchField::Angle, None);
    });
    only(|book| book.swatches[0].picture = Some(picture()));
    only(|book| book.records[0].run = Some(run()));
    // Not even where it could not be.
    for error in [json!(-1), json!(0), json!("NaN"), json!(1e300)] {
        let text = spoiled(|book| {
            book["swatches"][0] = json!({"name": "", "angle_deg": 45, "angle_error_deg": error});
            book["records"] = json!([]);
        });
        let old = text.replacen("\"version\":5", "\"version\":4", 1);
        refused(&old, &["no readings of photos"]);
        assert!(read(&text).is_ok());
    }
}

/// An own error that cannot be is left out, its number stays, and the usual error holds.
#[test]
fn errors_that_cannot_be_are_left_out() {
    let text = |value: f64| json!(value.to_string());
    let impossible = [
        json!(0),
        json!(-0.5),
        json!(1e-300),
        json!(90),
        json!(1e300),
        text(f64::NAN),
        text(f64::INFINITY),
        text(f64::NEG_INFINITY),
    ];
    for error in impossible {
        for name in ["angle_error_deg", "crossings_error"] {
            let text = spoiled(|book| book["swatches"][0][name] = error.clone());
            let read = read(&text).expect("the rest is sound");
            let swatch = &read.swatches[0];
            let left = [swatch.angle_error_deg, swatch.crossings_error];
            let wanted = match name {
                "angle_error_deg" => [None, Some(0.3)],
                _ => [Some(0.5), None],
            };
            assert_eq!(left, wanted, "{name} {error}");
            assert_eq!(
                (swatch.angle_deg, swatch.crossings),
                (Some(46.2), Some(31.2))
            );
            assert!(swatch.picture.is_some());
        }
        if error.is_number() {
            let check = |book: &mut Value| {
                book["records"][0]["run"]["checks"][0]["error"] = error.clone();
            };
            let read = read(&spoiled(check)).expect("the rest is sound");
            let run = read.records[0].run.as_ref().expect("a run");
            assert_eq!((run.checks[0].error, run.checks[0].value), (None, 46.2));
        }
    }
    // Nor does an error stay without its number, or beside a diameter.
    let alone = read(&spoiled(|book| {
        book["swatches"][0]["angle_deg"] = json!(null);
        book["swatches"][0]["crossings"] = json!(null);
        book["records"][0]["run"]["checks"][0]["kind"] = json!("diameter");
    }));
    let alone = alone.expect("the rest is sound");
    let swatch = &alone.swatches[0];
    assert_eq!(
        (swatch.angle_error_deg, swatch.crossings_error),
        (None, None)
    );
    let run = alone.records[0].run.as_ref().expect("a run");
    assert_eq!(run.checks[0].error, None);
    for wrong in [json!("wide"), json!([]), json!({})] {
        refused(
            &spoiled(|book| book["swatches"][0]["angle_error_deg"] = wrong.clone()),
            &["damaged"],
        );
    }
}

/// Nothing but a small JPEG is a picture; what else stands in its place is refused in words.
#[test]
fn other_pictures_are_refused() {
    let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" onload=\"alert(1)\"/>";
    let png = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==";
    let jpeg = JPEGS[0];
    let whole = jpeg_of(0);
    let trailed = [whole.as_slice(), b"<script>"].concat();
    let large = [
        &whole[..2],
        &[0xFF, 0xC0, 0, 11, 8, 0xFF, 0xFF, 0xFF, 0xFF, 1, 1, 17, 0],
        &whole[2..],
    ];
    let rows: Vec<(String, &str)> = vec![
        (String::new(), "not a JPEG"),
        (format!("data:image/svg+xml,{svg}"), "not a JPEG"),
        (format!("data:image/png;base64,{png}"), "not a JPEG"),
        (format!("{ADDRESS}{png}"), "not a JPEG"),
        (address(svg.as_bytes()), "not a JPEG"),
        (
            address(b"<html><script>alert(1)</script></html>"),
            "not a JPEG",
        ),
        (
            "data:text/html,<script>alert(1)</script>".to_owned(),
            "not a JPEG",
        ),
        (format!("DATA:image/jpeg;base64,{jpeg}"), "not a JPEG"),
        (format!(" {ADDRESS}{jpeg}"), "not a JPEG"),
        ("https://example.org/a.jpg".to_owned(), "not a JPEG"),
        ("javascript:alert(1)".to_owned(), "not a JPEG"),
        (ADDRESS.to_owned(), "not a JPEG"),
        (format!("{ADDRESS}{jpeg}\n"), "do not belong"),
        (
            format!("{ADDRESS}{jpeg}\" onerror=\"alert(1)"),
            "do not belong",
        ),
        (
            format!("{ADDRESS}{}", jpeg.replace('/', "_")),
            "do not belong",
        ),
        (
            format!("{ADDRESS}{}", jpeg.trim_end_matches('=')),
            "do not belong",
        ),
        (format!("{ADDRESS}{}", &jpeg[..101]), "do not belong"),
        (address(&trailed), "does not end"),
        (address(&whole[..whole.len() - 2]), "does not end"),
        (address(&[0xFF, 0xD8, 0xFF, 0xD9]), "does not end"),
        (address(&large.concat()), "65535 × 65535 pixels"),
        (address(&jpeg_of(24_000)), "room for 32000"),
        ("é".repeat(PICTURE_ROOM), "room for 32000"),
    ];
    for (picture, word) in rows {
        let text = spoiled(|book| book["swatches"][0]["picture"] = json!(picture));
        refused(&text, &["damaged", word]);
    }
    for wrong in [
        json!(7),
        json!([]),
        json!({"address": ADDRESS}),
        json!(true),
    ] {
        let text = spoiled(|book| book["swatches"][0]["picture"] = wrong);
        refused(&text, &["damaged", "not of the right kind"]);
    }
}

/// Both kinds of JPEG that browsers write are taken, up to the last byte there is room for.
#[test]
fn pictures_of_browsers_are_taken() {
    for jpeg in JPEGS {
        let text = format!("{ADDRESS}{jpeg}");
        let picture = SmallPicture::parse(&text).expect("it is a JPEG");
        assert_eq!((picture.width(), picture.height()), (24, 16));
        assert_eq!(picture.address(), text);
    }
    let largest = largest();
    let letters = largest.address().len();
    assert!(
        letters <= PICTURE_ROOM && letters + 4 > PICTURE_ROOM,
        "{letters}"
    );
    let more = jpeg_of(24_000);
    let refusal = SmallPicture::parse(&address(&more));
    assert!(
        matches!(refusal, Err(PictureRefusal::TooLong(_))),
        "{refusal:?}"
    );
    let mut book = full();
    book.swatches[0].picture = Some(largest);
    assert_eq!(read(&write(&book)), Ok(book));
}
