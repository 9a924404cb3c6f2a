//! A line somebody owns is measured, its taper found and a copy braided: by typing, by paste and by file; nothing that was not
//! understood is lost.

use std::fs;
use std::path::{Path, PathBuf};

use fantoccini::key::Key;
use serde_json::json;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Lookup, Shelf, Writer};
use taperwright::measured::MeasuredLine;

use super::gesture::strike;
use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;

/// An invented double taper of 25 m: places in metres and diameters in millimetres.
const DRAWN: [(f64, f64); 6] = [
    (0.0, 0.8),
    (1.0, 0.8),
    (4.0, 1.1),
    (21.0, 1.1),
    (24.0, 0.8),
    (25.0, 0.8),
];

/// The points of the taper that are shown: place and diameter, in metres.
const POINTS: &str = "return [...document.querySelectorAll('[data-measured-point]')].map((it) => [Number(it.dataset.at), Number(it.dataset.diameter)]);";
/// Pastes a text into the field that has the focus.
const PASTE: &str = "
    const data = new DataTransfer();
    data.setData('text/plain', arguments[0]);
    const field = document.activeElement;
    if (field.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))) {
        document.execCommand('insertText', false, arguments[0]);
    }";

fn drawn_at(place: f64) -> f64 {
    let after = DRAWN.iter().position(|(at, _)| *at >= place).unwrap_or(5);
    let (to, size) = DRAWN[after.max(1)];
    let (from, before) = DRAWN[after.max(1) - 1];
    before + (size - before) * (place - from) / (to - from)
}

/// Readings every quarter of a metre, off by up to 6 µm in a fixed pattern; one of them is wrong.
fn readings() -> Vec<(f64, f64)> {
    let reading = |index: u32| {
        let at = f64::from(index) * 0.25;
        let off = f64::from(index * 7 % 13) - 6.0;
        let wrong = if index == 50 { 0.3 } else { 0.0 };
        (at, drawn_at(at) + off / 1e3 + wrong)
    };
    (0..=100).map(reading).collect()
}

/// The readings as a spreadsheet in German saves them, with two rows nobody understands.
fn table() -> String {
    let rows = readings();
    let rows = rows
        .iter()
        .map(|(at, diameter)| format!("{at:.2};{diameter:.3};").replace('.', ","));
    let rows: Vec<String> = rows.collect();
    format!(
        "Place (m);Diameter (mm);Remark\r\n{}\r\nabout here;0,9;knot\r\n7,1;;lost\r\n",
        rows.join("\r\n")
    )
}

fn file(page: &Page, name: &str, text: &str) -> PathBuf {
    let path = Path::new(page.session.downloads()).join(name);
    fs::write(&path, text).expect("a file can be written");
    path
}

async fn open(page: &Page, path: &Path) {
    let path = path.to_str().expect("a name made here is text");
    let sent = page.control("open-measured").await.send_keys(path).await;
    sent.expect("the file is chosen");
    page.until_there("[data-measured-point='0']").await;
}

async fn points(page: &Page) -> Vec<(f64, f64)> {
    page.ask(POINTS, vec![]).await
}

/// The measured line of a number, as it is kept.
async fn kept(page: &Page, number: u32) -> Option<MeasuredLine> {
    let shelf = Shelf::load(Memory(page.storage().await), Writer(0));
    match shelf.expect("a copy can be read").look(number) {
        Lookup::Kept(kept) => Some(kept.work),
        _ => None,
    }
}

#[test]
fn a_table_becomes_a_taper_and_the_taper_a_line() {
    on_the_page(async |page| {
        dragged(page).await;
        let own = page.texts_of(1).await;
        open(page, &file(page, "old-line.csv", &table())).await;
        let found = points(page).await;
        assert_eq!(found.len(), DRAWN.len(), "{found:?}");
        for ((at, diameter), (metres, millimetres)) in found.iter().zip(DRAWN) {
            assert!((at - metres).abs() < 0.1, "{found:?}");
            assert!((diameter * 1e3 - millimetres).abs() < 0.01, "{found:?}");
        }
        // Both rows that are no readings are named, and stay until they are removed.
        for row in ["103", "104"] {
            page.until_there(&format!("[data-unread='{row}']")).await;
        }
        let line = kept(page, 1).await.expect("it is kept at once");
        assert_eq!(
            (line.draft().readings.len(), line.draft().unread.len()),
            (101, 2)
        );
        page.press("forget-unread").await;
        page.until_gone("[data-unread]").await;
        // The wrong reading is shown as left out, and can be used again.
        page.until_there("[data-left-out='50']").await;
        page.press("use-reading").await;
        page.until_gone("[data-left-out='50']").await;
        page.press("undo-measured").await;
        page.until_there("[data-left-out='50']").await;
        // From what it weighs follows what it is.
        page.enter("measured-whole", "18.5").await;
        page.until_there("[data-measured-density]").await;
        let class = page.words_of("[data-measured-class]").await;
        assert!(
            class.contains("gr, calculated from what was weighed"),
            "{class}"
        );
        page.press_at("[data-keeps=weights]").await;
        page.until_there("[data-copy=copy]").await;
        page.press("braid-this").await;
        page.until_gone(".over.shown").await;
        let copy = until("the copy is kept", async || {
            page.kept().await.filter(|it| it.original().is_some())
        })
        .await;
        assert_eq!(copy.draft().points.len(), DRAWN.len());
        page.until_there("[data-ghost=original]").await;
        assert_eq!(page.texts_of(1).await, own, "the own line is as it was");
    });
}

#[test]
fn readings_are_typed_one_after_another_with_one_hand() {
    on_the_page(async |page| {
        page.press("my-lines").await;
        page.press("measure-line").await;
        page.until_there("[data-action=reading-diameter]").await;
        page.run(
            "document.querySelector('[data-action=reading-diameter]').focus();",
            vec![],
        )
        .await;
        for (typed, next) in [
            ("0.80", "0.5"),
            ("0,81", "1"),
            ("0.9 mm", "1.5"),
            ("nought point nine five", "2"),
        ] {
            page.run(PASTE, vec![json!(typed)]).await;
            strike(page, Key::Enter).await;
            until("the next place is proposed", async || {
                let place = page.value("reading-place").await;
                (place == next).then_some(())
            })
            .await;
            assert_eq!(page.value("reading-diameter").await, "");
            page.until_focused("[data-action=reading-diameter]").await;
        }
        // What is no size is said at the field and stays there.
        page.run(PASTE, vec![json!("0.9x")]).await;
        strike(page, Key::Enter).await;
        page.until_there(".reading-entry .wrong input[aria-invalid=true]")
            .await;
        assert_eq!(page.value("reading-diameter").await, "0.9x");
        page.enter("reading-diameter", "").await;
        let line = kept(page, 1).await.expect("it is kept");
        let sizes: Vec<f64> = line
            .draft()
            .readings
            .iter()
            .map(|one| one.diameter_mm)
            .collect();
        assert_eq!(sizes, [0.8, 0.81, 0.9, 0.95]);
        // It is there after a reload, under its name.
        page.enter("measured-name", "Old Heron").await;
        page.reload().await;
        page.press("my-lines").await;
        page.until_there("[data-action=open-measured-line]").await;
        page.press("open-measured-line").await;
        page.until_there("[data-measured-point='1']").await;
        assert_eq!(page.value("measured-name").await, "Old Heron");
    });
}

#[test]
fn a_pasted_table_is_read_again_in_other_units() {
    on_the_page(async |page| {
        page.press("my-lines").await;
        page.press("measure-line").await;
        page.until_there("[data-action=paste-readings]").await;
        page.run(
            "document.querySelector('[data-action=paste-readings]').focus();",
            vec![],
        )
        .await;
        page.run(PASTE, vec![json!("10\t32\n20\t40\n30\t43\n")])
            .await;
        page.press("read-table").await;
        page.until_there("[data-table-read='3']").await;
        page.choose("table-place-unit", "ft").await;
        page.choose("table-diameter-unit", "thou").await;
        until("the table is read in feet", async || {
            let line = kept(page, 1).await?;
            let last = line.draft().readings.last().copied()?;
            let is_so =
                (last.at_m - 9.144).abs() < 1e-6 && (last.diameter_mm - 1.0922).abs() < 1e-6;
            (is_so && line.draft().readings.len() == 3).then_some(())
        })
        .await;
        // Nothing in it: the field says so and keeps the text.
        page.enter("paste-readings", "no numbers here").await;
        page.press("read-table").await;
        until("it says what is wrong", async || {
            page.said_beside("paste-readings").await
        })
        .await;
        assert_eq!(page.value("paste-readings").await.trim(), "no numbers here");
    });
}

#[test]
fn a_link_shows_a_measured_line_before_it_is_kept() {
    on_the_page(async |page| {
        open(page, &file(page, "old-line.csv", &table())).await;
        let line = kept(page, 1).await.expect("it is kept");
        let fragment = taperwright::keep::share::link::encode_measured(&line).expect("it fits");
        page.go(&format!("#{fragment}")).await;
        page.reload().await;
        page.until_there("[data-measured-point='5']").await;
        assert_eq!(kept(page, 2).await, None, "it is a preview");
        page.press("keep-measured").await;
        until("it is kept beside the first", async || {
            (kept(page, 2).await == Some(line.clone())).then_some(())
        })
        .await;
        // Closed, it stays closed: the step back leads to the link once more.
        page.press("measured-sheet-close").await;
        page.until_gone(".over.shown").await;
        page.at_rest().await;
        assert_eq!(page.matching(".over.shown").await, 0);
        page.reload().await;
        assert_eq!(
            page.matching(".over.shown").await,
            0,
            "it is in the address no more"
        );
    });
}

/// A belly that is 12 µm thicker in its middle: seen where the taper keeps close to the readings, and not where it is simple.
#[test]
fn a_simpler_taper_has_fewer_points() {
    on_the_page(async |page| {
        let swollen = |at: f64| (12.0 - (at - 12.5).abs() * 1.5).max(0.0) / 1e3;
        let rows = readings().into_iter().filter(|(at, _)| *at != 12.5);
        let rows = rows.map(|(at, diameter)| format!("{at};{:.4}", diameter + swollen(at)));
        let table = format!(
            "Place (m);Diameter (mm)\n{}",
            rows.collect::<Vec<_>>().join("\n")
        );
        open(page, &file(page, "swollen.csv", &table)).await;
        let usual = points(page).await.len();
        let set = "
            const slider = document.querySelector('[data-action=closeness]');
            slider.value = arguments[0];
            slider.dispatchEvent(new Event('input', { bubbles: true }));";
        page.run(set, vec![json!(-4)]).await;
        let simpler = until("it has fewer points", async || {
            let count = points(page).await.len();
            (count < usual).then_some(count)
        })
        .await;
        assert!(simpler >= 2, "{simpler} {usual}");
        let line = kept(page, 1).await.expect("it is kept");
        assert_eq!(line.draft().closeness, -4);
        // One step back, whatever the hand did at the slider.
        page.run(set, vec![json!(-3)]).await;
        page.press("undo-measured").await;
        until("the slider is back", async || {
            let line = kept(page, 1).await?;
            (line.draft().closeness == 0).then_some(())
        })
        .await;
    });
}
