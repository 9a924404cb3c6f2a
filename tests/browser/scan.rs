//! Codes read off pictures by rqrr, which shares nothing with the writer of the code: off the screen, and off a sheet as
//! poppler paints it.

use std::fs;
use std::ops::Range;
use std::path::Path;

use rqrr::PreparedImage;
use serde_json::json;

use super::axe::evaluate;
use super::page::Page;
use super::paper::poppler;

/// Dots to the inch at which a sheet is painted: what an office scanner does.
const RESOLUTION: &str = "300";

/// Width, height and greys, row by row, of a picture in PNG.
const GREYS: &str = r"
    (async (picture) => {
        const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
        const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        const { width, height } = bitmap;
        const paper = new OffscreenCanvas(width, height).getContext('2d');
        paper.drawImage(bitmap, 0, 0);
        const { data } = paper.getImageData(0, 0, width, height);
        const greys = Array.from({ length: width * height }, (_, dot) =>
            Math.round((data[4 * dot] + data[4 * dot + 1] + data[4 * dot + 2]) / 3));
        return [width, height, greys];
    })";

/// Where the code is on the first sheet: left, top, right and bottom of its squares, as shares of the sheet.
const PLACE: &str = r"
    const code = document.querySelector('[shape-rendering]');
    const sheet = code.closest('svg').getBoundingClientRect();
    const { left, top, right, bottom } = code.getBoundingClientRect();
    const [across, down] = [(x) => (x - sheet.left) / sheet.width, (y) => (y - sheet.top) / sheet.height];
    return [across(left), down(top), across(right), down(bottom)];";

/// Share of a code's side that is cut out with it on each side: within the quiet zone of 4 squares, also of the largest code
/// that is printed, which has 97 squares on a side.
const AROUND: f64 = 0.04;

/// Shares of a sheet: left, top, right and bottom.
pub(super) type Place = [f64; 4];

/// A picture in greys, 0 black and 255 white.
pub(super) struct Greys {
    width: usize,
    height: usize,
    dots: Vec<u8>,
}

impl Greys {
    /// What is to be seen of the page now.
    pub(super) fn of_screen(page: &Page) -> Self {
        let shot = page.session.cdp("Page.captureScreenshot", &json!({}));
        let answer = evaluate(page, &format!("{GREYS}({})", shot["data"]));
        let (width, height, dots) = serde_json::from_value(answer).expect("a picture");
        Self {
            width,
            height,
            dots,
        }
    }

    /// The first sheet of a PDF in a folder.
    pub(super) fn of_sheet(folder: &Path, pdf: &str) -> Self {
        let options = ["-gray", "-singlefile", "-r", RESOLUTION, pdf, "painted"];
        poppler(folder, "pdftoppm", &options);
        Self::of_pgm(&fs::read(folder.join("painted.pgm")).expect("the picture is there"))
    }

    /// Reads the plainest format there is for grey pictures.
    fn of_pgm(file: &[u8]) -> Self {
        let mut head = file.splitn(5, u8::is_ascii_whitespace);
        let mut next = || head.next().expect("a picture has a head");
        let (kind, width, height, _most, dots) = (next(), next(), next(), next(), next());
        assert_eq!(kind, b"P5");
        let number = |digits: &[u8]| {
            str::from_utf8(digits)
                .ok()
                .and_then(|text| text.parse().ok())
        };
        Self {
            width: number(width).expect("a width"),
            height: number(height).expect("a height"),
            dots: dots.to_vec(),
        }
    }

    /// The part of the picture at a place and a little around it. A whole sheet has much that looks like the corners of a code,
    /// more or less of it as the letters are shaped; the reader of codes may lose its way among them.
    pub(super) fn cut(&self, [left, top, right, bottom]: Place) -> Self {
        let (across, down) = (AROUND * (right - left), AROUND * (bottom - top));
        let columns = dots(left - across, right + across, self.width);
        let rows = dots(top - down, bottom + down, self.height);
        let (width, height) = (columns.len(), rows.len());
        let row = |row: usize| &self.dots[row * self.width..][columns.clone()];
        Self {
            width,
            height,
            dots: rows.flat_map(row).copied().collect(),
        }
    }

    /// Everything that codes in the picture say.
    pub(super) fn codes(&self) -> Vec<String> {
        let shade = |x: usize, y: usize| self.dots[y * self.width + x];
        let mut image = PreparedImage::prepare_from_greyscale(self.width, self.height, shade);
        let grids = image.detect_grids();
        let read = grids.iter().filter_map(|grid| grid.decode().ok());
        read.map(|(_, text)| text).collect()
    }
}

/// The dots from one share of a side to another.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of a side, rounded, is a number of dots"
)]
fn dots(from: f64, to: f64, side: usize) -> Range<usize> {
    let dot = |share: f64| (share.clamp(0.0, 1.0) * side as f64).round() as usize;
    dot(from)..dot(to)
}

impl Page {
    /// Where the code is on the first sheet of the card that is on screen.
    pub(super) async fn place_of_code(&self) -> Place {
        self.ask(PLACE, vec![]).await
    }
}
