//! What comes out of the printer: a PDF, taken apart by poppler.

use std::fs;
use std::path::Path;
use std::process::Command;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};
use tempfile::TempDir;

use super::harness::program;
use super::page::Page;
use super::scan::{Greys, Place};

/// Dots to the inch at which a sheet is looked at.
const RESOLUTION: usize = 72;
/// Grey below which a dot counts as ink; 255 is white.
const INK: u8 = 200;

/// A printed sheet.
#[derive(Debug, PartialEq)]
pub(super) struct Sheet {
    /// Width and height, in points.
    pub(super) size: (f64, f64),
    /// Words in the order of reading.
    pub(super) words: Vec<Word>,
}

/// A word and its box, in points from the upper left corner.
#[derive(Debug, PartialEq)]
pub(super) struct Word {
    pub(super) text: String,
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

/// A picture of a sheet in grey.
#[derive(PartialEq)]
pub(super) struct Picture {
    width: usize,
    dots: Vec<u8>,
}

/// Everything printed.
pub(super) struct Print {
    folder: TempDir,
    /// Its sheets.
    pub(super) sheets: Vec<Sheet>,
}

impl Print {
    /// Prints what the page would print now.
    pub(super) fn of(page: &Page) -> Self {
        Self::with(
            page,
            &json!({"preferCSSPageSize": true, "printBackground": true}),
        )
    }

    /// The same, with options of the browser's own for the paper.
    pub(super) fn with(page: &Page, options: &Value) -> Self {
        let answer = page.session.cdp("Page.printToPDF", options);
        let pdf = answer["data"].as_str().expect("a print has data");
        let folder = tempfile::tempdir().expect("a folder for the print can be made");
        let pdf = STANDARD.decode(pdf).expect("a print is base64");
        fs::write(folder.path().join("card.pdf"), pdf).expect("the print can be written");
        let sheets = sheets(&poppler(
            folder.path(),
            "pdftotext",
            &["-bbox", "card.pdf", "-"],
        ));
        Self { folder, sheets }
    }

    /// What the code at a place of the first sheet says, as a scanner reads it that looks only there.
    pub(super) fn codes_at(&self, place: Place) -> Vec<String> {
        Greys::of_sheet(self.folder.path(), "card.pdf")
            .cut(place)
            .codes()
    }

    /// The first sheet as a PNG that can be looked at.
    pub(super) fn png(&self) -> Vec<u8> {
        let resolution = (2 * RESOLUTION).to_string();
        let options = ["-png", "-singlefile", "-r", &resolution, "card.pdf", "card"];
        poppler(self.folder.path(), "pdftoppm", &options);
        fs::read(self.folder.path().join("card.png")).expect("the picture is there")
    }

    /// The first sheet as a picture.
    pub(super) fn picture(&self) -> Picture {
        let resolution = RESOLUTION.to_string();
        let options = [
            "-gray",
            "-singlefile",
            "-r",
            &resolution,
            "card.pdf",
            "card",
        ];
        poppler(self.folder.path(), "pdftoppm", &options);
        let file = fs::read(self.folder.path().join("card.pgm")).expect("the picture is there");
        Picture::read(&file)
    }
}

impl Sheet {
    /// How often a text stands on the sheet as whole words, however they are spaced.
    pub(super) fn count(&self, text: &str) -> usize {
        let wanted = squeezed(text);
        let starts_at = |place: usize| {
            let mut met = String::new();
            let words = self.words[place..].iter();
            let mut lengths = words.map(|word| {
                met.push_str(&squeezed(&word.text));
                (met.len(), met == wanted)
            });
            let last = lengths.find(|(length, _)| *length >= wanted.len());
            last.is_some_and(|(_, is_it)| is_it)
        };
        (0..self.words.len())
            .filter(|place| starts_at(*place))
            .count()
    }
}

impl Picture {
    /// Reads the plainest format there is for grey pictures.
    fn read(file: &[u8]) -> Self {
        let mut head = file.splitn(4, u8::is_ascii_whitespace);
        let mut next = || head.next().expect("a picture has a head");
        let (kind, width, _, rest) = (next(), next(), next(), next());
        assert_eq!(kind, b"P5");
        let width = str::from_utf8(width).expect("a width is text");
        let dots = rest.splitn(2, u8::is_ascii_whitespace).nth(1);
        Self {
            width: width.parse().expect("a width is a number"),
            dots: dots.expect("a picture has dots").to_vec(),
        }
    }

    /// Share of the sheet that is printed on.
    pub(super) fn inked(&self) -> f64 {
        self.dots.iter().filter(|dot| **dot < INK).count() as f64 / self.dots.len() as f64
    }

    /// Whether a frame of so many dots along the edge of the sheet is blank.
    pub(super) fn has_blank_edge(&self, dots: usize) -> bool {
        let rows: Vec<&[u8]> = self.dots.chunks_exact(self.width).collect();
        let is_edge = |at: usize, size: usize| at < dots || at + dots >= size;
        let mut places = rows.iter().enumerate().flat_map(|(row, line)| {
            line.iter()
                .enumerate()
                .map(move |(column, dot)| (row, column, *dot))
        });
        places.all(|(row, column, dot)| {
            dot >= INK || !(is_edge(row, rows.len()) || is_edge(column, self.width))
        })
    }
}

fn squeezed(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

/// Runs one of poppler's programs in a folder; returns what it says.
pub(super) fn poppler(folder: &Path, name: &str, options: &[&str]) -> String {
    let run = Command::new(program(name))
        .args(options)
        .current_dir(folder)
        .output();
    let output = run.expect("a program that was found starts");
    assert!(output.status.success(), "{name} {options:?}: {output:?}");
    String::from_utf8(output.stdout).expect("poppler writes text")
}

/// The sheets in poppler's list of boxes.
fn sheets(list: &str) -> Vec<Sheet> {
    let sheet = |part: &str| Sheet {
        size: (number(part, "width"), number(part, "height")),
        words: part.split("<word ").skip(1).map(word).collect(),
    };
    list.split("<page ").skip(1).map(sheet).collect()
}

fn word(part: &str) -> Word {
    let text = part.split(['>', '<']).nth(1).expect("a word has a text");
    let plain = [
        ("&quot;", "\""),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&amp;", "&"),
    ];
    Word {
        text: plain.iter().fold(text.to_owned(), |text, (code, sign)| {
            text.replace(code, sign)
        }),
        left: number(part, "xMin"),
        top: number(part, "yMin"),
        right: number(part, "xMax"),
        bottom: number(part, "yMax"),
    }
}

/// The first attribute of this name.
fn number(part: &str, name: &str) -> f64 {
    let value = part
        .split(&format!("{name}=\""))
        .nth(1)
        .and_then(|rest| rest.split('"').next());
    value
        .and_then(|value| value.parse().ok())
        .expect("a box has numbers")
}
