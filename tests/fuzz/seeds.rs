//! What the fuzzer begins with: the golden links, files and stores of every released version, and today's.

use std::collections::BTreeMap;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use taperwright::base::choice::Choice as _;
use taperwright::braid::recipe::ReadyRecipe;
use taperwright::braid::track::Direction;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::pin::DraftPin;
use taperwright::edit::sketch::Sketch;
use taperwright::keep::share::{file, link, steps};

use crate::harness::everything::everything;
use crate::harness::storage::{ENTRY, KEY, SEAL};

const LINKS: [&str; 2] = [
    include_str!("../doors/golden/version-3.link"),
    include_str!("../doors/golden/version-4.link"),
];
const STORE: &str = include_str!("../shelf/golden/form-1.json");

/// Target, name and bytes of every seed.
pub(crate) fn all() -> Vec<(&'static str, String, Vec<u8>)> {
    let mut seeds = Vec::new();
    let mut add = |target, seeds_of: Vec<Vec<u8>>| {
        let numbered = seeds_of.into_iter().enumerate();
        seeds.extend(numbered.map(|(at, bytes)| (target, at.to_string(), bytes)));
    };
    add("link", links());
    add("file", files());
    add("readings", readings());
    add("storage", stores());
    seeds
}

fn designs() -> [Design; 3] {
    [demo(), pinned(), plain()]
}

fn plain() -> Design {
    let mut draft = demo().draft().clone();
    draft.points.truncate(2);
    draft.gears.truncate(1);
    (draft.name, draft.notes) = (String::new(), String::new());
    Design::parse(draft).expect("two points and a gear are enough")
}

/// With a pin of every kind, a recipe of its own, a workshop, and places left empty.
fn pinned() -> Design {
    let mut draft = demo().draft().clone();
    draft.pins = vec![
        DraftPin::Place {
            threads: 8,
            heavy: 0,
            rising: true,
            at_m: 0.5,
        },
        DraftPin::Carrier {
            threads: 8,
            direction: Direction::Clockwise,
            number: 1,
        },
        DraftPin::Swap {
            heavy: 0,
            direction: Direction::CounterClockwise,
            number: 3,
        },
        DraftPin::Wheels {
            threads: 9,
            heavy: 0,
            at_m: 0.6,
            driver: 20,
            driven: 40,
        },
    ];
    draft.recipe = ReadyRecipe::ALL
        .iter()
        .flat_map(|ready| ready.steps())
        .take(8)
        .collect();
    "Heron Weir, lot A".clone_into(&mut draft.workshop);
    Design::parse(draft).expect("pins and steps are allowed")
}

fn links() -> Vec<Vec<u8>> {
    let today = designs().map(|design| link::encode(&design).expect("it fits a link"));
    let texts = LINKS.into_iter().map(str::to_owned).chain(today);
    texts
        .flat_map(|text| [[&[0], text.as_bytes()].concat(), unsealed(&text)])
        .collect()
}

/// The version and the payload of a link, without its length and checksum.
fn unsealed(fragment: &str) -> Vec<u8> {
    let code = fragment
        .trim_start_matches(link::PREFIX)
        .trim_end_matches('z');
    let bytes = URL_SAFE_NO_PAD.decode(code).expect("a link is base64url");
    [&bytes[..1], &bytes[7..]].concat()
}

fn files() -> Vec<Vec<u8>> {
    let today = designs().map(|design| file::write_small(&design));
    let store = entries(STORE);
    let is_book = |key: &&String| key.starts_with("taperwright/workshop/");
    let key = store.keys().find(is_book).expect("a bench book is kept");
    let (_, book) = store[key].split_once("\n\n").expect("a head and a file");
    let texts = today
        .into_iter()
        .chain([book.to_owned(), everything(&store)]);
    texts.map(String::into_bytes).collect()
}

/// Tables in the forms that are read, each after a byte that asks for nothing. Invented numbers.
fn readings() -> Vec<Vec<u8>> {
    let tables = [
        "Place (m)\tDiameter (mm)\n0.5\t0.95\n1\t0.97\n",
        "sep=;\r\nAbstand [m];d1 (mm);d2 (mm);Remark\r\n0,5;0,95;0,94;\r\n1,0;0,97;;\"two\nlines\"\r\n",
        "# Line: Heron Weir,\r\nplace (m),diameter (mm)\r\n0.5,0.95\r\n",
        "dist in ft,d / thou\n3 ft 6,38\n\"10' 6\"\"\",40 thou\n",
        "| Place | Diameter |\n|---|---|\n| 0.5 m | 0.95 mm |\n",
        "0,5   0,95\n1,200 0,97\n",
        "0.5 m 0.95 mm\n1 m 0.97 mm\n",
        "Place;0,5;1;1,5\nd;0,95;0,97;1,02",
        "Place;Diameter\nm;1/1000\"\n0.5;38\n-1;40\n;41\n2000;42\nend",
        "No;Place;1;2;3\n1;500;950;\u{d8};-\n2;1,000;960;955;9 elbows",
        "\u{666}\u{66b}\u{665}\t\u{660}\u{66b}\u{669}",
        "0.5,0.95,\"open\n1,0.97,\n",
    ];
    tables
        .iter()
        .map(|table| [&[0], table.as_bytes()].concat())
        .collect()
}

fn entries(store: &str) -> BTreeMap<String, String> {
    serde_json::from_str(store).expect("texts under keys")
}

fn stores() -> Vec<Vec<u8>> {
    let raw = packed(entries(STORE));
    let line = file::write_small(&plain());
    let steps = steps::write(&Sketch::new(plain()));
    let state = |number: u32, revision: u32, base: &str, name: &str| {
        let head = format!(
            "{SEAL}taperwright/line/{number} 0123456789abcdef {revision} 0fedcba987654321 {base} 3 {name}"
        );
        (head, line.clone())
    };
    let aside = |key: &str, text: &str| (key.to_owned(), text.to_owned());
    let sealed = packed([
        state(1, 1, "none", "Reed Pool"),
        state(2, 3, "none", ""),
        aside("taperwright/steps/1", &steps),
        aside("taperwright/line/3", "half a li"),
        aside(
            "taperwright/line/4",
            &line.replace("\"version\":4", "\"version\":5"),
        ),
    ]);
    // What two tabs wrote at one moment, to one line and to two.
    let tangled = packed([
        state(1, 1, "none", "Reed Pool"),
        sibling(1, "0123456789abcdef", "0fedcba987654322"),
        sibling(1, "0123456789abcdee", "0fedcba987654323"),
        aside("taperwright/open", "1"),
        aside("taperwright/exported", "2026-11-26 3"),
    ]);
    vec![raw, sealed, tangled]
}

fn packed(entries: impl IntoIterator<Item = (String, String)>) -> Vec<u8> {
    let entry = |(key, text): (String, String)| [key.as_bytes(), &[KEY], text.as_bytes()].concat();
    entries
        .into_iter()
        .map(entry)
        .collect::<Vec<_>>()
        .join(&ENTRY)
}

/// Another state of the first revision, of another tab.
fn sibling(number: u32, id: &str, writer: &str) -> (String, String) {
    let mut draft = plain().draft().clone();
    writer.clone_into(&mut draft.name);
    let file = file::write_small(&Design::parse(draft).expect("any name will do"));
    let key = format!("{SEAL}taperwright/line/{number} {id} 1 {writer} none 3 {writer}");
    (key, file)
}
