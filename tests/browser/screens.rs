//! Pictures of views, of every part of the reading column, and of the printed card, left in `target/screens`. The tests of
//! [`super::access`] take those of every view; `cargo run -- pictures` runs them and this one.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::json;

use super::cdp::Size;
use super::harness::on_the_page;
use super::page::Page;
use super::paper::Print;
use super::views::{Look, View};

/// The sections of the reading column, in their order; the first are built with the page, the others in their turn.
const PARTS: &str = ".reading > section, .lower > section";

/// First bytes of any PNG, and the name of its first part; width and height stand after it. Source: the PNG
/// specification, from memory.
const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR";

#[test]
fn a_picture_of_the_printed_card() {
    on_the_page(async |page| {
        let printed = Print::of(page).png();
        let (width, height) = size_of(&printed);
        // A4 is as much higher than wide as the diagonal of a square is longer than its side (ISO 216).
        let ratio = f64::from(height) / f64::from(width);
        assert!((ratio - 2_f64.sqrt()).abs() < 0.01, "{width} × {height}");
        leave(&printed, "card-printed");
    });
}

/// Each part of the reading column of the bench, brought to where it is read. The page is then scrolled back to its top.
pub(super) async fn parts(page: &Page, size: Size, look: Look) -> Vec<Vec<u8>> {
    let names = "return [...document.querySelectorAll(arguments[0])].map(({ id, className }) => id || className.split(' ')[0]);";
    let parts: Vec<String> = page.ask(names, vec![json!(PARTS)]).await;
    assert!(parts.len() > 5, "parts are missing: {parts:?}");
    let mut taken = Vec::new();
    for (place, part) in parts.iter().enumerate() {
        let script = "document.querySelectorAll(arguments[0])[arguments[1]].scrollIntoView();";
        page.run(script, vec![json!(PARTS), json!(place)]).await;
        taken.push(picture(page, &format!("bench-{part}"), size, look).await);
    }
    let back =
        "for (const it of document.querySelectorAll('*')) if (it.scrollTop) it.scrollTop = 0;";
    page.run(back, vec![]).await;
    taken
}

/// Brings what a view is about to where it is seen.
pub(super) async fn centre(page: &Page, view: View) {
    if let Some(subject) = view.subject() {
        let script = "document.querySelector(arguments[0]).scrollIntoView({ block: 'center' });";
        page.run(script, vec![json!(subject)]).await;
    }
}

/// A picture of what is seen of a view now, of which a copy is left.
pub(super) async fn picture(page: &Page, view: &str, size: Size, look: Look) -> Vec<u8> {
    page.until_drawn().await;
    let picture = page.session.client.screenshot().await;
    let picture = picture.expect("a picture is taken");
    assert_eq!(
        size_of(&picture),
        size,
        "{view} is not of the window's size"
    );
    let (width, height) = size;
    leave(
        &picture,
        &format!("{view}-{width}x{height}-{}", look.word()),
    );
    picture
}

fn leave(picture: &[u8], name: &str) {
    let folder = folder();
    fs::create_dir_all(&folder).expect("a folder for pictures can be made");
    fs::write(folder.join(format!("{name}.png")), picture).expect("a picture can be written");
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screens")
}

/// Width and height of a PNG.
fn size_of(picture: &[u8]) -> Size {
    let rest = picture.strip_prefix(SIGNATURE).expect("a picture is a PNG");
    let number = |place: usize| {
        let bytes = rest[place..place + 4].try_into();
        u32::from_be_bytes(bytes.expect("four bytes are four bytes"))
    };
    (number(0), number(4))
}
