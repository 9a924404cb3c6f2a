//! A braid is measured from a photo, however the picture comes to the page. What is no picture, and a picture without a braid, is
//! answered in words; nothing shown is lost by it.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use serde_json::json;
use taperwright::page::photo_message::PhotoUnopened;
use taperwright::paper::words::photo as words;

use super::drops::{CHART, Load};
use super::gesture::escape;
use super::harness::{on_the_page, until};
use super::page::Page;
use super::render::{Pattern, Photo, Scene, Subject, render, truth};

/// What opens the sheet from anywhere.
const IN_MENU: &str = ".menu [data-action=photo-sheet]";
/// The braid was measured.
pub(super) const MEASURED: &str = "[data-photo-verdict=measured]";
/// Nothing was, and that is said.
const REFUSED: &str = "[data-photo-verdict=refused]";
/// The measured angle and crossings: value and spread.
pub(super) const NUMBER: &str = "
    const one = document.querySelector(`[data-photo=${arguments[0]}]`);
    return one && [Number(one.dataset.si), Number(one.dataset.spread)];";
/// Puts both ends of the line on the rule a pixel on, by keys.
pub(super) const SET_RULE: &str = "
    for (const end of ['from', 'to']) {
        const handle = document.querySelector(`[data-photo-handle=rule-${end}]`);
        for (const kind of ['keydown', 'keyup'])
            handle.dispatchEvent(new KeyboardEvent(kind, { key: 'ArrowRight', bubbles: true, cancelable: true }));
    }";
/// Pastes a JPEG of these bytes, written in base64.
const PASTE: &str = "
    const bytes = Uint8Array.from(atob(arguments[0]), (letter) => letter.charCodeAt(0));
    const data = new DataTransfer();
    data.items.add(new File([bytes], 'braid.jpg', { type: 'image/jpeg' }));
    document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));";

/// The braid of the pictures: one that the camera of the tests knows.
pub(super) fn scene() -> Scene {
    Scene::default()
}

fn taken() -> &'static Photo {
    static PHOTO: OnceLock<Photo> = OnceLock::new();
    PHOTO.get_or_init(|| render(&scene()))
}

/// A file of this name with these bytes.
pub(super) fn file(page: &Page, name: &str, bytes: &[u8]) -> PathBuf {
    let path = Path::new(page.session.downloads()).join(name);
    fs::write(&path, bytes).expect("a file can be written");
    path
}

/// A picture of a braid of so many threads, one over one.
pub(super) fn braid_of(page: &Page, threads: u32) -> PathBuf {
    let scene = Scene {
        threads,
        pattern: Pattern::Diamond,
        ..scene()
    };
    file(page, "other-braid.jpg", &render(&scene).jpeg(90))
}

/// The picture of the braid.
pub(super) fn braid(page: &Page) -> PathBuf {
    file(page, "braid.jpg", &taken().jpeg(90))
}

/// A picture of the ground alone.
fn ground(page: &Page) -> PathBuf {
    let plain = Scene {
        subject: Subject::Plain,
        ..scene()
    };
    file(page, "ground.jpg", &render(&plain).jpeg(90))
}

/// Opens the sheet for itself.
pub(super) async fn open(page: &Page) {
    page.press_at(IN_MENU).await;
    page.until_there(".over.shown [data-photo-for=line]").await;
}

/// Chooses a picture on the open sheet.
pub(super) async fn choose(page: &Page, path: &Path) {
    let path = path.to_str().expect("a name made here is text");
    let sent = page.control("photo").await.send_keys(path).await;
    sent.expect("the file is chosen");
}

/// Opens the sheet with the braid measured.
pub(super) async fn measured(page: &Page) {
    open(page).await;
    choose(page, &braid(page)).await;
    page.until_there(MEASURED).await;
}

/// A measured number with its spread, in SI units.
pub(super) async fn number(page: &Page, key: &str) -> Option<(f64, f64)> {
    page.ask(NUMBER, vec![json!(key)]).await
}

/// Waits until the status says this.
async fn until_status(page: &Page, said: &str) {
    until(&format!("it says “{said}”"), async || {
        page.words_of(".photo-status")
            .await
            .starts_with(said)
            .then_some(())
    })
    .await;
}

/// The angle is that of the camera's braid at its crowns; the reading may be off by three times its own error.
async fn is_right(page: &Page) {
    let truth = truth(&scene());
    let (angle, spread) = number(page, "angle").await.expect("an angle");
    assert!(spread > 0.0, "{spread}");
    assert!(
        (angle - truth.crown_angle).abs() < 3.0 * spread,
        "{angle} ± {spread}: {truth:?}"
    );
    let (crossings, _) = number(page, "crossings").await.expect("crossings");
    assert!(crossings > 0.0, "{crossings}");
}

#[test]
fn a_picture_that_is_chosen_is_measured() {
    on_the_page(async |page| {
        open(page).await;
        for hint in words::HINTS {
            page.until_said(hint).await;
        }
        page.until_said(words::STAYS_HERE).await;
        choose(page, &braid(page)).await;
        page.until_there(MEASURED).await;
        is_right(page).await;
        let said = page.words_of(MEASURED).await;
        // The belly of the open line has another count of threads: nothing is compared.
        assert!(said.ends_with("on the surface."), "{said}");
        let size: [u32; 2] = page
            .ask(
                "const { width, height } = document.querySelector('.photo-frame canvas'); return [width, height];",
                vec![],
            )
            .await;
        assert_eq!(size, [scene().width, scene().height]);
        let status = "return document.querySelector('.photo-status').textContent;";
        assert_eq!(page.ask::<String>(status, vec![]).await, "");
        // The same once more: the same file counts as a choice too.
        choose(page, &braid(page)).await;
        page.until_there(MEASURED).await;
        is_right(page).await;
        assert_eq!(page.storage().await.len(), 0, "nothing of it is kept");
    });
}

#[test]
fn a_picture_that_is_pasted_or_dropped_is_measured() {
    on_the_page(async |page| {
        open(page).await;
        let text = base64_of(&taken().jpeg(90));
        page.run(PASTE, vec![json!(text)]).await;
        page.until_there(MEASURED).await;
        is_right(page).await;
        page.press("photo-sheet-close").await;
        page.until_gone(".over.shown").await;
        // Elsewhere a dropped picture is answered.
        Load::files(page, &[braid(page)]).drop(CHART);
        page.until_said(words::DROPPED).await;
        open(page).await;
        assert_eq!(page.matching(MEASURED).await, 0, "it begins empty");
        Load::files(page, &[braid(page)]).drop(CHART);
        page.until_there(MEASURED).await;
        is_right(page).await;
        // A text that is pasted is no picture.
        let paste = "document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData: new DataTransfer(), bubbles: true }));";
        page.run(paste, vec![]).await;
        until_status(page, words::NONE_PASTED).await;
        page.until_there(MEASURED).await;
    });
}

/// The letters of bytes in base64, which a script can read.
fn base64_of(bytes: &[u8]) -> String {
    use base64::Engine as _;
    base64::engine::general_purpose::STANDARD.encode(bytes)
}

#[test]
fn what_is_no_picture_is_said_and_the_picture_stays() {
    on_the_page(async |page| {
        measured(page).await;
        let before = number(page, "angle").await;
        for (name, bytes, why) in [
            ("empty.jpg", &b""[..], PhotoUnopened::Empty),
            ("notes.jpg", b"bread, silk", PhotoUnopened::NotAPicture),
        ] {
            choose(page, &file(page, name, bytes)).await;
            until_status(page, &why.to_string()).await;
            page.until_there(MEASURED).await;
            assert_eq!(number(page, "angle").await, before, "{name}");
        }
        // The camera may be refused, or nobody chooses.
        for input in ["photo", "photo-camera"] {
            choose(page, &file(page, "empty.jpg", b"")).await;
            until_status(page, &PhotoUnopened::Empty.to_string()).await;
            let cancel = "document.querySelector(`[data-action=${arguments[0]}]`).dispatchEvent(new Event('cancel', { bubbles: true }));";
            page.run(cancel, vec![json!(input)]).await;
            until_status(page, words::NONE_CHOSEN).await;
            page.until_there(MEASURED).await;
            assert_eq!(number(page, "angle").await, before);
        }
        // Two at once are none.
        let two = [braid(page), ground(page)];
        Load::files(page, &two).drop(CHART);
        until("it says so on the sheet", async || {
            let said = page.words_of(".photo-status").await;
            said.contains("2 things at once").then_some(())
        })
        .await;
        page.until_there(MEASURED).await;
        // What does not open leaves a picture that can be read again.
        page.press_at("[data-photo-handle=edge-1-from]").await;
        page.press("photo-move").await;
        page.until_there("[data-action=photo-find-edges]").await;
        page.until_there("[data-photo-verdict]").await;
    });
}

#[test]
fn a_picture_without_a_braid_is_refused_in_words() {
    on_the_page(async |page| {
        open(page).await;
        choose(page, &ground(page)).await;
        page.until_there(REFUSED).await;
        let said = page.words_of(REFUSED).await;
        assert!(said.matches(". ").count() >= 1, "{said}");
        assert_eq!(page.count("photo-use").await, 0);
        assert_eq!(number(page, "angle").await, None);
        // The lines are there all the same, for a maker who sees the braid.
        assert_eq!(page.matching("[data-photo-handle]").await, 4);
        choose(page, &braid(page)).await;
        page.until_there(MEASURED).await;
        is_right(page).await;
    });
}

#[test]
fn a_sheet_that_is_closed_while_it_works_is_forgotten() {
    on_the_page(async |page| {
        for _ in 0..3 {
            open(page).await;
            choose(page, &braid(page)).await;
            escape(page).await;
            page.until_gone(".over.shown").await;
        }
        measured(page).await;
        is_right(page).await;
    });
}
