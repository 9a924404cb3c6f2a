//! A braid is measured from a photo in the two engines: the program beside the page starts, decodes and reads.
//!
//! Source: the camera of `tests/photo`, which has its own geometry and says the true angle.

use std::fs;

use serde_json::json;

use super::harness::until;
use super::page::Page;
use super::pool::in_both_engines;
use super::render::{Scene, render, truth};
use super::shed::Shed;

in_both_engines!(photo);

const ANGLE: &str = "
    const { si, spread } = document.querySelector('[data-photo=angle]').dataset;
    return [Number(si), Number(spread)];";

/// What is no picture is said, and a picture of a braid is read all the same after it.
async fn photo(shed: &mut Shed, page: &Page) {
    page.press("menu").await;
    page.press_at(".menu [data-action=photo-sheet]").await;
    let scene = Scene::default();
    let choose = async |name: &str, bytes: &[u8]| {
        let path = shed.file(name);
        fs::write(&path, bytes).expect("a file can be written");
        let path = path.to_str().expect("a name made here is text");
        let chosen = page.control("photo").await.send_keys(path).await;
        chosen.expect("the file is chosen");
    };
    choose("words.jpg", b"no picture").await;
    until("the file is refused in words", async || {
        let said = page.words_of(".photo-status").await;
        said.contains("cannot open this file").then_some(())
    })
    .await;
    choose("braid.jpg", &render(&scene).jpeg(90)).await;
    page.until_there("[data-photo-verdict=measured]").await;
    let (angle, spread): (f64, f64) = page.ask(ANGLE, vec![json!(null)]).await;
    let off = (angle - truth(&scene).crown_angle).abs();
    assert!(spread > 0.0 && off < 3.0 * spread, "{angle} ± {spread}");
}
