//! Pictures of views, of what is reached by scrolling in them, and of the printed card, left in `target/screens`. The tests of
//! [`super::access`] take those of every view; `cargo run -- pictures` runs them and this one.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::json;

use super::cdp::Size;
use super::harness::on_the_page;
use super::look::Look;
use super::page::Page;
use super::paper::Print;
use super::views::View;

/// Scrolls what is shown to so many times its height; whether there was that much to scroll. Negative ones lead to its top.
const SCROLL: &str = "
    const shown = document.querySelector('.over.shown .over-body') ?? document.querySelector('[data-shows]');
    const before = shown.scrollTop;
    shown.scrollTop = arguments[0] * shown.clientHeight * 0.9;
    return shown.scrollTop > before + 1;";

/// No more screens than this are taken of one view: the list of words is long, and alike.
const LAST_SCREEN: u32 = 5;

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

/// What a place or a sheet shows further down, one screen after the other. It is then scrolled back to its top.
pub(super) async fn further_down(page: &Page, view: View, size: Size, look: Look) -> Vec<Vec<u8>> {
    let mut taken = Vec::new();
    page.run(SCROLL, vec![json!(-1)]).await;
    for screen in 1..=LAST_SCREEN {
        if !page.ask::<bool>(SCROLL, vec![json!(screen)]).await {
            break;
        }
        let name = format!("{}-{}", view.word(), screen + 1);
        taken.push(picture(page, &name, size, look).await);
    }
    page.run(SCROLL, vec![json!(-1)]).await;
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
