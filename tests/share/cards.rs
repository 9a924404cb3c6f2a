//! The card as a picture is XML and nothing that runs or fetches, holds every row or says how many it does not, and keeps to
//! its page. Read by roxmltree, which is strict; widths by Helvetica's own.
//!
//! Sources: XML 1.0, section 2.2, for the characters; ISO 216 for the page; ISO/IEC 18004 for the code.

use roxmltree::{Document, Node};
use taperwright::base::choice::Choice as _;
use taperwright::base::units::show::Units;
use taperwright::braid::recipe::{DraftStep, StepKind};
use taperwright::design::settings::Setting;
use taperwright::design::{Design, DraftPoint, demo::demo};
use taperwright::keep::book::machine_notes::TENSION_ROOM;
use taperwright::keep::share::card_svg;
use taperwright::keep::share::link;
use taperwright::paper::card::{Card, CardDetails, MAKER_ROOM, Paper, maker};
use taperwright::plan::days::Day;
use taperwright::plan::{Action, Event, Plan};

use crate::designs::{parsed, usual};
use crate::helvetica;
use crate::hostile::{NAMES, named};
use crate::lines::{any_design, some_of};
use crate::scan::painted;
use crate::up_and_down::up_and_down;

const MAKER: &str = "Heron Weir, at the bench";
const SVG: &str = "http://www.w3.org/2000/svg";
const ADDRESS: &str = "https://braiding.example/taperwright/#";
/// All a card is made of.
const ELEMENTS: [&str; 7] = ["svg", "title", "g", "rect", "text", "path", "line"];
const ATTRIBUTES: [&str; 19] = [
    "width",
    "height",
    "viewBox",
    "font-family",
    "fill",
    "x",
    "y",
    "font-size",
    "font-weight",
    "text-anchor",
    "transform",
    "d",
    "stroke",
    "stroke-width",
    "x1",
    "x2",
    "y1",
    "y2",
    "shape-rendering",
];

fn link_of(design: &Design) -> Result<String, String> {
    let fragment = link::encode(design).map_err(|error| error.to_string())?;
    Ok(format!("{ADDRESS}{fragment}"))
}

/// A card as it is asked for here: by a named maker, on a known day.
fn card_on(design: &Design, plan: &Plan, units: Units, paper: Paper) -> Card {
    card_with(design, plan, units, paper, "")
}

/// The same with a note of how the carriers pull.
fn card_with(design: &Design, plan: &Plan, units: Units, paper: Paper, tension: &str) -> Card {
    let link = link_of(design);
    let beside = CardDetails {
        maker: MAKER,
        tension,
        day: Day::new(2026, 11, 25),
        link: link.as_deref().map_err(String::as_str),
        units,
        paper,
    };
    Card::of(design, plan, beside)
}

fn card(design: &Design) -> String {
    let card = card_on(design, &Plan::of(design), Units::Metric, Paper::A4);
    card_svg::write(&card)
}

/// A text on the card with its box, in millimetres.
struct Text {
    words: String,
    left: f64,
    right: f64,
    top: f64,
    foot: f64,
}

fn number(node: &Node<'_, '_>, name: &str) -> f64 {
    let value = node.attribute(name).expect(name);
    value.parse().expect("a number")
}

/// The sheets of a picture, from the first.
fn sheets<'a, 'input>(document: &'a Document<'input>) -> Vec<Node<'a, 'input>> {
    let root = document.root_element();
    root.children()
        .filter(|node| node.has_tag_name((SVG, "g")))
        .collect()
}

fn text(node: Node<'_, '_>) -> Text {
    let words = node.text().unwrap_or_default().to_owned();
    let (x, y, size) = (
        number(&node, "x"),
        number(&node, "y"),
        number(&node, "font-size"),
    );
    let width = helvetica::width(&words, size, node.has_attribute("font-weight"));
    let left = match node.attribute("text-anchor") {
        None => x,
        Some("middle") => x - width / 2.0,
        Some("end") => x - width,
        Some(other) => panic!("no such anchor: {other}"),
    };
    // Capitals of Helvetica are 0.718 high, its descenders 0.207 deep: the same metrics.
    let (top, foot) = (y - 0.718 * size, y + 0.207 * size);
    Text {
        words,
        left,
        right: left + width,
        top,
        foot,
    }
}

/// The texts of a sheet.
fn texts_on(sheet: &Node<'_, '_>) -> Vec<Text> {
    let all = sheet.descendants();
    all.filter(|node| node.has_tag_name((SVG, "text")))
        .map(text)
        .collect()
}

/// The texts of all sheets.
fn texts(document: &Document<'_>) -> Vec<Text> {
    sheets(document).iter().flat_map(texts_on).collect()
}

/// The code on a sheet: path, left and upper edge of its quiet zone, and width of a square, in millimetres.
fn code(sheet: &Node<'_, '_>) -> Option<(String, [f64; 2], f64)> {
    let node = sheet
        .descendants()
        .find(|node| node.has_attribute("shape-rendering"))?;
    let transform = node.attribute("transform").expect("the code has a place");
    let numbers: Vec<f64> = transform
        .split(|c: char| !(c.is_ascii_digit() || c == '.'))
        .filter_map(|piece| piece.parse().ok())
        .collect();
    let [x, y, side] = numbers[..] else {
        panic!("{transform}")
    };
    let path = node.attribute("d").expect("a path").to_owned();
    Some((path, [x - 4.0 * side, y - 4.0 * side], side))
}

/// Many carriers, and as many stops as a line can have.
fn long_line(swings: u32) -> Design {
    let mut draft = usual().draft().clone();
    draft.settings.set(Setting::HornGears, 32.0);
    draft.settings.set(Setting::MostThreads, 64.0);
    draft.settings.set(Setting::FewestThreads, 6.0);
    draft.settings.set(Setting::EndsPerThread, 3.0);
    let point = |index: u32| DraftPoint {
        at_m: f64::from(index) * 1.2,
        diameter_mm: if index.is_multiple_of(2) { 0.5 } else { 1.0 },
    };
    draft.points = (0..=swings).map(point).collect();
    draft.recipe = StepKind::ALL
        .iter()
        .map(|&kind| DraftStep::usual(kind))
        .collect();
    parsed(draft)
}

#[test]
fn a_card_is_xml_that_neither_runs_nor_fetches_anything() {
    for design in NAMES
        .map(named)
        .into_iter()
        .chain(some_of(&any_design(), 8))
        .chain([demo()])
    {
        let text = card(&design);
        let document = Document::parse(&text).expect("well-formed");
        for node in document.descendants().filter(Node::is_element) {
            let name = node.tag_name();
            assert_eq!(name.namespace(), Some(SVG));
            assert!(ELEMENTS.contains(&name.name()), "{}", name.name());
            for attribute in node.attributes() {
                assert!(
                    ATTRIBUTES.contains(&attribute.name()),
                    "{}",
                    attribute.name()
                );
                assert!(!attribute.value().contains("url("), "{}", attribute.value());
            }
        }
        // The name of SVG itself is an address, and the link is written out as a text.
        assert!(text.matches("://").count() <= 2);
    }
}

#[test]
fn a_hostile_name_stands_on_the_card_as_words() {
    for name in NAMES {
        let design = named(name);
        let text = card(&design);
        let document = Document::parse(&text).expect("well-formed");
        let title = document
            .descendants()
            .find(|node| node.has_tag_name((SVG, "title")));
        // Two characters that a name may have and XML may not.
        let wanted = design.title().replace(['\u{fffe}', '\u{ffff}'], "");
        assert_eq!(title.and_then(|node| node.text()), Some(wanted.as_str()));
        let squeezed = |text: &str| text.split_whitespace().collect::<String>();
        let first: String = texts(&document)
            .iter()
            .take(2)
            .map(|text| squeezed(&text.words))
            .collect();
        assert!(first.starts_with(&squeezed(&wanted)), "{first}");
    }
}

/// XML 1.0, section 2.2: no control character but tab, line feed and carriage return; neither U+FFFE nor U+FFFF.
#[test]
fn a_card_holds_no_character_that_xml_forbids() {
    for name in NAMES {
        let text = card(&named(name));
        let is_wrong = |c: &char| {
            (c.is_control() && *c != '\n') || matches!(c, '\u{fffe}' | '\u{ffff}' | '\u{202e}')
        };
        assert_eq!(text.chars().find(is_wrong), None, "{name:?}");
    }
}

#[test]
fn all_that_is_written_lies_on_the_page_and_nothing_upon_another() {
    let wide = named(&"W".repeat(80));
    let lines = [demo(), usual(), long_line(8), long_line(60), wide];
    for design in lines.into_iter().chain(some_of(&any_design(), 24)) {
        let plan = Plan::of(&design);
        for (units, paper) in [
            (Units::Metric, Paper::A4),
            (Units::Imperial, Paper::A4),
            (Units::Imperial, Paper::Letter),
        ] {
            let card = card_on(&design, &plan, units, paper);
            let text = card_svg::write(&card);
            let document = Document::parse(&text).expect("well-formed");
            let sheets = sheets(&document);
            assert_eq!(sheets.len(), card.sheets.len());
            for sheet in &sheets {
                lies_well(sheet, paper);
            }
        }
    }
}

/// Printers cannot reach 4 mm from the edge: common practice, no source. Five are asked for.
#[track_caller]
fn lies_well(sheet: &Node<'_, '_>, paper: Paper) {
    let (width, height) = paper.size();
    let texts = texts_on(sheet);
    assert!(texts.len() > 2, "an empty sheet");
    let corner = code(sheet).map(|(_, corner, _)| corner);
    for (index, text) in texts.iter().enumerate() {
        let Text {
            words,
            left,
            right,
            top,
            foot,
        } = text;
        assert!(
            *left >= 5.0 && *right <= width - 5.0,
            "“{words}” from {left} to {right}"
        );
        assert!(
            *top >= 5.0 && *foot <= height - 5.0,
            "“{words}” from {top} to {foot}"
        );
        if let Some([x, y]) = corner {
            let is_beside = *right < x || *foot < y || *left > x + 35.0 || *top > y + 35.0;
            assert!(is_beside, "“{words}” lies on the code");
        }
        let meets = |other: &&Text| {
            other.left < *right
                && *left < other.right
                && other.top < *foot - 0.05
                && *top < other.foot - 0.05
        };
        if let Some(other) = texts[index + 1..].iter().find(meets) {
            panic!("“{words}” lies upon “{}”", other.words);
        }
    }
}

/// Rows of the card's schedule: a gear that is changed where threads are has none of its own.
fn rows(events: &[Event]) -> usize {
    let shares = |pair: &&[Event]| {
        matches!(pair[1].action, Action::Gear { .. })
            && pair[0].action.is_of_threads()
            && pair[0].at == pair[1].at
    };
    events.len() - events.windows(2).filter(shares).count()
}

#[test]
fn every_row_stands_on_the_card() {
    let mut most_sheets = 0;
    for design in [demo(), usual(), long_line(4), long_line(30), long_line(75)] {
        let plan = Plan::of(&design);
        let card = card(&design);
        let document = Document::parse(&card).expect("well-formed");
        let boxes = document
            .descendants()
            .filter(|node| node.has_tag_name((SVG, "rect")) && node.has_attribute("x"))
            .count();
        let winds = texts(&document)
            .iter()
            .filter(|text| text.words.ends_with("ends") && !text.words.starts_with("Swap"))
            .count();
        assert_eq!(boxes, rows(&plan.events));
        assert_eq!(winds, plan.bobbins.len());
        most_sheets = most_sheets.max(sheets(&document).len());
    }
    assert!(most_sheets > 2, "no line was long enough to try it");
}

#[test]
fn sixteen_changes_stand_on_one_sheet_and_more_go_on_to_others() {
    let changes = |design: &Design| Plan::of(design).thread_changes();
    for paper in [Paper::A4, Paper::Letter] {
        for units in [Units::Metric, Units::Imperial] {
            let count = |design: &Design| {
                let card = card_on(design, &Plan::of(design), units, paper);
                card.sheets.len()
            };
            let sixteen = up_and_down(22);
            assert_eq!(changes(&sixteen), 16);
            assert_eq!(
                (count(&demo()), count(&sixteen)),
                (1, 1),
                "{paper:?} {units:?}"
            );
            let ninety = up_and_down(96);
            assert!(changes(&ninety) >= 90);
            assert!(
                (2..=3).contains(&count(&ninety)),
                "{paper:?} {units:?}: {}",
                count(&ninety)
            );
        }
    }
}

/// However long the note of the carriers' tension is, all of it stands on the card, upon nothing else, and the example still fits
/// one sheet; without a note the card says nothing of it.
#[test]
fn the_note_of_the_tension_stands_on_the_card() {
    let plan = Plan::of(&demo());
    let words = "Wool ".repeat(TENSION_ROOM);
    let longest: String = words.chars().take(TENSION_ROOM - 1).chain(['x']).collect();
    for note in ["blue spring, third notch", longest.as_str()] {
        for paper in [Paper::A4, Paper::Letter] {
            let card = card_with(&demo(), &plan, Units::Metric, paper, note);
            assert_eq!(card.sheets.len(), 1);
            let text = card_svg::write(&card);
            let document = Document::parse(&text).expect("well-formed");
            let all: Vec<String> = texts(&document).into_iter().map(|it| it.words).collect();
            let said = format!("Carriers: {note}.");
            assert!(all.join(" ").contains(&said), "{all:?}");
            for sheet in &sheets(&document) {
                lies_well(sheet, paper);
            }
        }
    }
    assert!(!card(&demo()).contains("Carriers: "));
}

/// The order of first changes beside the carriers: each of those that change once, numbered from 1 without a gap.
#[test]
fn the_map_tells_the_order_in_which_carriers_come() {
    let (design, plan) = (demo(), Plan::of(&demo()));
    let text = card(&design);
    let document = Document::parse(&text).expect("well-formed");
    let said: Vec<String> = texts(&document)
        .into_iter()
        .map(|text| text.words)
        .collect();
    let mut carriers: Vec<_> = plan
        .events
        .iter()
        .filter_map(|event| event.action.carrier())
        .collect();
    carriers.sort_unstable();
    carriers.dedup();
    assert!(carriers.len() >= 4);
    for number in 1..=carriers.len() {
        let wanted = format!("+{number}");
        assert_eq!(
            said.iter().filter(|words| **words == wanted).count(),
            1,
            "{wanted}"
        );
    }
    assert!(!said.contains(&format!("+{}", carriers.len() + 1)));
}

#[test]
fn changes_stand_in_their_order() {
    let plan = Plan::of(&demo());
    let text = card(&demo());
    let document = Document::parse(&text).expect("well-formed");
    let found: Vec<String> = texts(&document)
        .into_iter()
        .map(|text| text.words)
        .filter(|words| words.starts_with("Add ") || words.starts_with("Drop "))
        .collect();
    let wanted: Vec<String> = plan
        .events
        .iter()
        .filter_map(|event| {
            let (way, number) = event
                .action
                .carrier()
                .map(|c| (c.direction.short(), c.number + 1))?;
            let verb = if matches!(event.action, Action::Add { .. }) {
                "Add"
            } else {
                "Drop"
            };
            Some(format!("{verb} {way} {number}"))
        })
        .collect();
    assert!(wanted.len() > 8);
    assert_eq!(found, wanted);
}

#[test]
fn the_code_on_the_card_opens_the_same_line() {
    for design in [demo(), usual(), named(NAMES[8])] {
        let text = card(&design);
        let document = Document::parse(&text).expect("well-formed");
        let sheets = sheets(&document);
        let (path, [x, y], side) = sheets.iter().find_map(code).expect("a code");
        // 35 mm and 0.33 mm as for any printed code of ours.
        let whole = (35.0 / side).round();
        let (width, height) = Paper::A4.size();
        assert!(side >= 0.33 && x + whole * side <= width && y + whole * side <= height);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let (_, read) = painted(&path, whole as usize).read();
        let fragment = read.strip_prefix(ADDRESS).expect("our address");
        assert_eq!(link::decode(fragment), Some(Ok(design)));
    }
}

#[test]
fn where_there_is_no_code_the_card_says_why() {
    let design = demo();
    let plan = Plan::of(&design);
    let long = format!("{ADDRESS}{}", "a".repeat(900));
    let whys = [
        (Err("Too long to send."), "Too long to send."),
        (Ok(long.as_str()), "No code to scan"),
    ];
    for (link, said) in whys {
        let beside = CardDetails {
            maker: "",
            tension: "",
            day: None,
            link,
            units: Units::Metric,
            paper: Paper::Letter,
        };
        let text = card_svg::write(&Card::of(&design, &plan, beside));
        let document = Document::parse(&text).expect("well-formed");
        let sheets = sheets(&document);
        assert!(sheets.iter().all(|sheet| code(sheet).is_none()));
        let all: Vec<String> = texts(&document)
            .into_iter()
            .map(|text| text.words)
            .collect();
        assert!(all.join(" ").contains(said), "{all:?}");
        for sheet in &sheets {
            lies_well(sheet, Paper::Letter);
        }
    }
}

#[test]
fn the_card_says_class_weight_day_and_dangers() {
    let text = card(&demo());
    let document = Document::parse(&text).expect("well-formed");
    let all: Vec<String> = texts(&document)
        .into_iter()
        .map(|text| text.words)
        .collect();
    let all = all.join(" ");
    let grains = Plan::of(&demo()).head_mass.expect("long enough").grains();
    for words in [
        "Class 5",
        &format!("{grains:.1}"),
        "Wed 25 Nov 2026",
        "Machine at rest",
        "catch fire",
        "Blades slip",
        MAKER,
        "Oil under vacuum",
        "The code opens this line",
    ] {
        assert!(all.contains(words), "“{words}” is not on the card");
    }
}

#[test]
fn a_makers_name_has_no_unseen_characters_and_an_end() {
    assert_eq!(maker("  Heron\u{202e} Weir\n"), "Heron Weir");
    assert_eq!(maker(&"W".repeat(10_000)).chars().count(), MAKER_ROOM);
}
