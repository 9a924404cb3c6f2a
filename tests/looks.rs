//! Every look can be read: the colours of `style/tokens.css`, pair by pair as the sheets use them, keep the least contrast
//! of WCAG 2.2, and no other sheet of the screen has colours of its own.
//!
//! Source: Web Content Accessibility Guidelines 2.2, W3C Recommendation. Contrast ratio and relative luminance by its
//! definitions; least ratios by success criteria 1.4.3 (text) and 1.4.11 (graphics and controls).
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use taperwright::base::choice::Choice;
use taperwright::page::looks::Look;

/// Least contrast of text, success criterion 1.4.3.
const TEXT: f64 = 4.5;
/// Least contrast of what must be seen to understand or to act, success criterion 1.4.11.
const GRAPHIC: f64 = 3.0;

/// Text on what lies under it.
const TEXTS: [(&str, &str); 24] = [
    ("ink", "paper"),
    ("ink", "card"),
    ("ink", "blue-wash"),
    ("ink", "red-wash"),
    ("ink", "steady"),
    ("ink-soft", "paper"),
    ("ink-soft", "card"),
    ("ink-soft", "red-wash"),
    ("blue", "paper"),
    ("blue", "card"),
    ("blue", "red-wash"),
    ("blue", "blue-wash"),
    // A filled button, and a carrier's number on its filled mark.
    ("card", "blue"),
    ("card", "ink"),
    ("red", "paper"),
    ("red", "card"),
    // The tolerance runs behind the captions of a narrow chart.
    ("ink-soft", "steady"),
    ("ink", "silk"),
    // The class in its band and out of it, and the count of warnings on its corner.
    ("steady-edge", "steady"),
    ("steady-edge", "card"),
    ("red", "red-wash"),
    // The row one is at: in the schedule, and in the dressing, where a step may be overdue.
    ("ink-soft", "blue-wash"),
    ("red", "blue-wash"),
    // The number of a step that is done.
    ("silk-edge", "silk"),
];

/// Lines and marks on what lies under or beside them.
const GRAPHICS: [(&str, &str); 27] = [
    // The drawing, the handles, the crosshair: over paper, line and weighed part of it.
    ("blue", "card"),
    ("blue", "silk"),
    ("blue", "silk-weighed"),
    ("blue", "paper"),
    ("blue", "blue-wash"),
    ("ink-soft", "silk"),
    ("ink-soft", "silk-weighed"),
    ("silk-edge", "card"),
    ("silk-edge", "silk"),
    ("silk-edge", "silk-weighed"),
    // The angle in its tolerance.
    ("steady-edge", "card"),
    ("steady-edge", "steady"),
    ("ink", "steady"),
    ("red", "steady"),
    ("red", "card"),
    ("red", "paper"),
    ("red", "red-wash"),
    // Small pictures of a line: while the page opens, and on a choice that is taken.
    ("silk-edge", "paper"),
    ("silk-edge", "blue-wash"),
    // How far the line is braided or dressed.
    ("ink", "silk-weighed"),
    ("rule", "blue-wash"),
    // The machine.
    ("rule", "card"),
    ("rule", "paper"),
    ("thread", "hollow"),
    ("thread-back", "hollow"),
    ("thread-edge", "thread"),
    ("thread-edge", "thread-back"),
];

type Palette = BTreeMap<String, String>;

fn sheets() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("style")
}

fn sheet(name: &str) -> String {
    let text = fs::read_to_string(sheets().join(name)).expect("a sheet is text");
    let parts = text.split("/*");
    let after = |part: &str| part.split_once("*/").map(|(_, code)| code.to_owned());
    let mut code = text.split("/*").next().unwrap_or_default().to_owned();
    parts
        .skip(1)
        .filter_map(after)
        .for_each(|part| code.push_str(&part));
    code
}

/// The rules of the sheet of colours: the media they are for, who they are for, and what they say.
fn rules() -> Vec<(String, String, Palette)> {
    let code = sheet("tokens.css");
    let (mut media, mut found, mut rest) = (String::new(), Vec::new(), code.as_str());
    while let Some(at) = rest.find(['{', '}']) {
        let (head, tail) = (rest[..at].trim().to_owned(), &rest[at + 1..]);
        rest = tail;
        if code.as_bytes()[code.len() - tail.len() - 1] == b'}' {
            media.clear();
        } else if head.starts_with("@media") {
            media = head;
        } else if head.starts_with("@font-face") {
            rest = tail.split_once('}').map_or("", |(_, tail)| tail);
        } else {
            let (body, tail) = tail.split_once('}').expect("a rule ends");
            found.push((media.clone(), head, declarations(body)));
            rest = tail;
        }
    }
    found
}

fn declarations(body: &str) -> Palette {
    let each = body.split(';').filter_map(|one| one.split_once(':'));
    each.map(|(name, value)| {
        (
            name.trim().trim_start_matches("--").to_owned(),
            value.trim().to_owned(),
        )
    })
    .collect()
}

/// What the only rule of this kind says, over what the light one does.
fn palette(media: &str, who: &str) -> Palette {
    let all = rules();
    let is = |rule: &&(String, String, Palette)| rule.0 == media && rule.1 == who;
    let found: Vec<_> = all.iter().filter(is).collect();
    assert_eq!(found.len(), 1, "{media} {who}");
    let mut palette = all[0].2.clone();
    palette.extend(found[0].2.clone());
    palette
}

const SCREEN: &str = "@media screen";
const AS_DEVICE: &str = r#":root:where(:not([data-look]), [data-look="device"])"#;

fn chosen(look: Look) -> Palette {
    match look {
        Look::Light | Look::Device => palette("", ":root"),
        Look::Dark | Look::Bright => {
            palette(SCREEN, &format!(r#":root[data-look="{}"]"#, look.key()))
        }
    }
}

fn by_device(wishes: &str) -> Palette {
    palette(&format!("{SCREEN} and {wishes}"), AS_DEVICE)
}

fn every_palette() -> Vec<(String, Palette)> {
    let mut all: Vec<_> = Look::ALL
        .iter()
        .map(|&look| (look.name().to_owned(), chosen(look)))
        .collect();
    for wishes in [
        "(prefers-color-scheme: dark)",
        "(prefers-contrast: more)",
        "(prefers-color-scheme: dark) and (prefers-contrast: more)",
    ] {
        all.push((wishes.to_owned(), by_device(wishes)));
    }
    all
}

/// Relative luminance of `#rrggbb`, as WCAG 2.2 defines it.
fn luminance(colour: &str) -> f64 {
    let digits = colour
        .strip_prefix('#')
        .filter(|digits| digits.len() == 6)
        .unwrap_or_else(|| panic!("{colour} is not #rrggbb"));
    let number = u32::from_str_radix(digits, 16).expect("digits of a colour");
    let part = |shift: u32| {
        let value = f64::from((number >> shift) & 0xff) / 255.0;
        if value <= 0.04045 {
            value / 12.92
        } else {
            ((value + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * part(16) + 0.7152 * part(8) + 0.0722 * part(0)
}

/// Contrast ratio of two colours, as WCAG 2.2 defines it.
fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// The definition as calculated here meets its own end points, and two greys that are widely published as the lightest and
/// the next lighter one on white: #767676 passes 4.5:1 and #777777 fails (from memory).
#[test]
fn contrast_is_that_of_the_guidelines() {
    assert!((contrast("#ffffff", "#000000") - 21.0).abs() < 1e-9);
    assert!((contrast("#123456", "#123456") - 1.0).abs() < 1e-12);
    assert!(contrast("#767676", "#ffffff") > TEXT);
    assert!(contrast("#777777", "#ffffff") < TEXT);
}

#[test]
fn every_look_can_be_read() {
    for (name, palette) in every_palette() {
        let rows = TEXTS.map(|pair| (pair, TEXT)).into_iter();
        for ((front, back), least) in rows.chain(GRAPHICS.map(|pair| (pair, GRAPHIC))) {
            let found = contrast(&palette[front], &palette[back]);
            assert!(
                found >= least,
                "{name}: {front} on {back} has {found:.2}, wants {least}"
            );
        }
    }
}

/// A bright workshop wants more: success criterion 1.4.6 asks 7:1 of text, and 4.5:1 is what lines get here.
#[test]
fn the_bright_look_has_more_contrast() {
    for palette in [chosen(Look::Bright), by_device("(prefers-contrast: more)")] {
        for (pairs, least) in [(&TEXTS[..], 7.0), (&GRAPHICS[..], TEXT)] {
            for (front, back) in pairs {
                let found = contrast(&palette[*front], &palette[*back]);
                assert!(found >= least, "{front} on {back} has {found:.2}");
            }
        }
        assert_eq!([&palette["paper"], &palette["ink"]], ["#ffffff", "#000000"]);
    }
}

#[test]
fn what_the_device_wishes_is_what_can_be_chosen() {
    assert_eq!(
        by_device("(prefers-color-scheme: dark)"),
        chosen(Look::Dark)
    );
    assert_eq!(by_device("(prefers-contrast: more)"), chosen(Look::Bright));
}

#[test]
fn every_look_has_every_colour_and_says_what_it_is() {
    let is_colour = |(_, value): &(&String, &String)| value.starts_with('#');
    let names = |palette: &Palette| {
        let colours = palette.iter().filter(is_colour);
        colours.map(|(name, _)| name.clone()).collect::<Vec<_>>()
    };
    let light = names(&chosen(Look::Light));
    for (media, who, own) in rules() {
        let scheme = own.get("color-scheme").map(String::as_str);
        if media.contains("forced-colors") {
            let all: Vec<_> = own
                .keys()
                .filter(|name| *name != "on-blue")
                .cloned()
                .collect();
            let is_drawn = |name: &&String| !name.starts_with("thread") && *name != "hollow";
            let wanted: Vec<_> = light.iter().filter(is_drawn).cloned().collect();
            assert_eq!(all, wanted, "{media}");
            continue;
        }
        assert_eq!(names(&own), light, "{media} {who}");
        let is_dark = luminance(&own["paper"]) < 0.2;
        let wanted = if is_dark { "dark" } else { "light" };
        let inherits = scheme.is_none() && !is_dark;
        assert!(inherits || scheme == Some(wanted), "{media} {who}");
    }
}

/// The sheets of the screen, but for the one of colours.
fn screen_sheets() -> Vec<String> {
    let names = fs::read_dir(sheets()).expect("the sheets can be listed");
    let names = names.map(|entry| entry.expect("a sheet").file_name());
    let names = names.map(|name| name.into_string().expect("a plain name"));
    let is_wanted = |name: &String| {
        let is_sheet = Path::new(name)
            .extension()
            .is_some_and(|kind| kind == "css");
        is_sheet && name != "tokens.css" && name != "card.css"
    };
    names.filter(is_wanted).collect()
}

/// Colours as words or numbers, in the sheets of the screen. The card's are its own: black on white for any printer.
#[test]
fn only_the_sheet_of_colours_has_colours() {
    let names = screen_sheets();
    for name in &names {
        let code = sheet(name);
        // A selector may begin with a # too, but stands before the brace.
        for body in code
            .split('{')
            .skip(1)
            .filter_map(|rest| rest.split('}').next())
        {
            let literal = body
                .split_whitespace()
                .find(|word| word.contains('#') && !word.contains("url("));
            assert_eq!(literal, None, "{name}");
            for word in ["rgb(", "hsl(", "white", "black", "gray", "grey"] {
                let is_there = body
                    .split([' ', ';'])
                    .any(|one| one.starts_with(word) && !one.starts_with("white-space"));
                assert!(!is_there, "{name}: {word}");
            }
        }
    }
    assert!(names.len() >= 4, "only {names:?} were looked at");
}

/// Whatever colour a sheet asks for, there is one.
#[test]
fn no_sheet_asks_for_a_colour_that_is_not_there() {
    let light = chosen(Look::Light);
    let mut asked = 0;
    let names = screen_sheets().into_iter().chain(["card.css".to_owned()]);
    let names: Vec<_> = names.collect();
    let all: String = names.iter().map(|name| sheet(name)).collect();
    for name in &names {
        for used in sheet(name).split("var(--").skip(1) {
            let token = used
                .split([')', ','])
                .next()
                .unwrap_or_default()
                .trim()
                .to_owned();
            asked += 1;
            let is_set_here = all.contains(&format!("--{token}:"));
            assert!(is_set_here || light.contains_key(&token), "{name}: {token}");
        }
    }
    assert!(asked > 100, "only {asked} were asked for");
}

/// What the device paints round an installed page, and before it is there, is paper.
#[test]
fn the_device_is_told_the_colour_of_the_paper() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let read = |name: &str| fs::read_to_string(root.join(name)).expect("a text");
    let light = palette("", ":root")["paper"].clone();
    let dark = by_device("(prefers-color-scheme: dark)")["paper"].clone();
    let manifest = serde_json::from_str::<Value>(&read("style/taperwright.webmanifest"));
    let manifest = manifest.expect("the manifest is JSON");
    for key in ["theme_color", "background_color"] {
        assert_eq!(manifest[key], Value::from(light.as_str()), "{key}");
    }
    for (look, colour) in [("light", light), ("dark", dark)] {
        let told = format!(
            "<meta name=\"theme-color\" content=\"{colour}\" media=\"(prefers-color-scheme: {look})\">"
        );
        assert!(read("index.html").contains(&told), "{told}");
    }
}
