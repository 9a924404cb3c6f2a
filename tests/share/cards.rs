//! The card as a picture is XML and nothing that runs or fetches, holds every row or says how many it does not, and keeps to
//! its page. Read by roxmltree, which is strict; widths by Helvetica's own.
//!
//! Sources: XML 1.0, section 2.2, for the characters; ISO 216 for the page; ISO/IEC 18004 for the code.

use roxmltree::{Document, Node};
use taperwright::choice::Choice as _;
use taperwright::days::Day;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, DraftPoint, demo::demo};
use taperwright::plan::{Action, Event, Plan};
use taperwright::recipe::{DraftStep, StepKind};
use taperwright::share::card_svg::{self, Beside, PAGE};
use taperwright::share::link;
use taperwright::units::show::Units;

use crate::designs::{parsed, usual};
use crate::helvetica;
use crate::hostile::{NAMES, named};
use crate::lines::{any_design, some_of};
use crate::scan::painted;

const ADDRESS: &str = "https://braiding.example/taperwright/#";
/// All a card is made of.
const ELEMENTS: [&str; 6] = ["svg", "title", "rect", "text", "path", "line"];
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

fn card_in(design: &Design, plan: &Plan, units: Units) -> String {
    let link = link_of(design);
    let beside = Beside {
        day: Day::new(2026, 11, 25),
        link: link.as_deref().map_err(String::as_str),
        units,
    };
    card_svg::write(design, plan, beside)
}

fn card(design: &Design) -> String {
    card_in(design, &Plan::of(design), Units::Metric)
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

fn texts(document: &Document<'_>) -> Vec<Text> {
    let text = |node: Node<'_, '_>| {
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
    };
    document
        .descendants()
        .filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "text")))
        .map(text)
        .collect()
}

/// The card's code: path, left and upper edge of its quiet zone, and width of a square, in millimetres.
fn code(document: &Document<'_>) -> Option<(String, [f64; 2], f64)> {
    let node = document
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
            assert_eq!(name.namespace(), Some("http://www.w3.org/2000/svg"));
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
        // The one address is the name of SVG itself, and the link is only in its code.
        assert_eq!(text.matches("://").count(), 1);
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
            .find(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "title")));
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
        for units in [Units::Metric, Units::Imperial] {
            lies_well(&card_in(&design, &plan, units));
        }
    }
}

#[track_caller]
fn lies_well(card: &str) {
    let document = Document::parse(card).expect("well-formed");
    let texts = texts(&document);
    let corner = code(&document).map(|(_, corner, _)| corner);
    for (index, text) in texts.iter().enumerate() {
        let Text {
            words,
            left,
            right,
            top,
            foot,
        } = text;
        assert!(
            *left >= 5.0 && *right <= PAGE.0 - 5.0,
            "“{words}” from {left} to {right}"
        );
        assert!(
            *top >= 5.0 && *foot <= PAGE.1 - 5.0,
            "“{words}” from {top} to {foot}"
        );
        if let Some([x, y]) = corner {
            assert!(*right < x || *foot < y, "“{words}” lies on the code");
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

/// What a card says of rows it has no room for, of schedule and bobbins together.
fn left_out(texts: &[Text]) -> usize {
    let count = |text: &Text| {
        let (count, rest) = text.words.split_once(" more rows have no room here: ")?;
        assert!(
            rest.contains("code or link") && rest.contains("as a table"),
            "{rest}"
        );
        count.parse::<usize>().ok()
    };
    texts.iter().filter_map(count).sum()
}

#[test]
fn every_row_is_there_or_counted_as_left_out() {
    let mut were_some_left_out = false;
    for design in [demo(), usual(), long_line(4), long_line(30), long_line(75)] {
        let plan = Plan::of(&design);
        let card = card_in(&design, &plan, Units::Metric);
        let document = Document::parse(&card).expect("well-formed");
        let texts = texts(&document);
        let boxes = document
            .descendants()
            .filter(|node| node.attribute("stroke-width") == Some("0.2"))
            .count();
        let winds = texts
            .iter()
            .filter(|text| text.words.ends_with("ends") && !text.words.starts_with("Swap"))
            .count();
        let missing = left_out(&texts);
        assert_eq!(
            boxes + winds + missing,
            rows(&plan.events) + plan.bobbins.len()
        );
        assert!(boxes > 20.min(plan.events.len() / 2), "{boxes} rows only");
        were_some_left_out |= missing > 0;
    }
    assert!(were_some_left_out, "no line was long enough to try it");
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
        let (path, [x, y], side) = code(&document).expect("a code");
        // 35 mm and 0.33 mm as for any printed code of ours.
        let whole = (35.0 / side).round();
        assert!(side >= 0.33 && x + whole * side <= PAGE.0 && y + whole * side <= PAGE.1);
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
        let beside = Beside {
            day: None,
            link,
            units: Units::Metric,
        };
        let text = card_svg::write(&design, &plan, beside);
        let document = Document::parse(&text).expect("well-formed");
        assert!(code(&document).is_none());
        let all: Vec<String> = texts(&document)
            .into_iter()
            .map(|text| text.words)
            .collect();
        assert!(all.join(" ").contains(said), "{all:?}");
        lies_well(&text);
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
    ] {
        assert!(all.contains(words), "“{words}” is not on the card");
    }
}
