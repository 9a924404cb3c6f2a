//! Writing in drawings and on buttons stands out from what is really painted behind it: the searcher of barriers cannot
//! tell that, so it is measured on pictures of the page without its writing.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::json;

use super::axe::evaluate;
use super::harness::on_the_page;
use super::page::Page;
use super::views::View;

/// Least contrast of writing, and of large writing. Source: WCAG 2.2, 1.4.3.
const LEAST: f64 = 4.5;
const LEAST_OF_LARGE: f64 = 3.0;
/// From here on writing is large, in CSS pixels, and from here on when bold: 18 and 14 points of 4 ÷ 3 pixels. Source: WCAG
/// 2.2, definition of large scale.
const LARGE: f64 = 24.0;
const LARGE_IF_BOLD: f64 = 56.0 / 3.0;
/// Weight from which writing is bold, as in CSS.
const BOLD: f64 = 700.0;
/// Share of what lies behind a word that must stand off: lines that cross it are thin.
const SHARE: f64 = 0.8;

/// Hides all writing, so that a picture shows what lies behind it; `false` shows it again.
const HIDE: &str = "
    window.veil ??= document.styleSheets[0];
    if (arguments[0]) {
        veil.insertRule('svg text { fill: transparent !important; }', 0);
        veil.insertRule('button { color: transparent !important; }', 0);
    } else {
        veil.deleteRule(0);
        veil.deleteRule(0);
    }";

/// Every word in sight and uncovered, with its colour, size and weight, its box, and whether it was met before.
const WORDS: &str = r"
    const all = [...document.querySelectorAll('svg text, button:not(:disabled)')];
    const words = all.filter((one) => one.textContent.trim() && one.checkVisibility({ visibilityProperty: true }));
    return words.flatMap((one) => {
        const text = one.textContent.trim();
        const range = document.createRange();
        range.selectNodeContents(one);
        const { left, top, right, bottom } = range.getBoundingClientRect();
        const is_inside = left >= 0 && top >= 0 && right <= innerWidth && bottom <= innerHeight && right > left;
        const home = one.closest('svg') ?? one.closest('button');
        const is_uncovered = (y) => home.contains(document.elementFromPoint((left + right) / 2, y));
        if (met.has(one) || !is_inside || ![top + 1, (top + bottom) / 2, bottom - 1].every(is_uncovered)) return [];
        met.add(one);
        const { color, fill, fontSize, fontWeight } = getComputedStyle(one);
        const paint = (one.closest('svg') ? fill : color).match(/[\d.]+/g).map(Number);
        const scale = one.getScreenCTM?.().a ?? 1;
        return [{
            text, paint, size: parseFloat(fontSize) * scale, weight: Number(fontWeight), box: [left, top, right, bottom],
        }];
    });";

/// How many dots of each colour a picture has in each box.
const COLOURS: &str = r"
    (async (picture, boxes) => {
        const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
        const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        const paper = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d', { willReadFrequently: true });
        paper.drawImage(bitmap, 0, 0);
        return boxes.map(([left, top, right, bottom]) => {
            const [x, y] = [Math.floor(left), Math.floor(top)];
            const { data } = paper.getImageData(x, y, Math.ceil(right) - x, Math.ceil(bottom) - y);
            const counts = {};
            for (let dot = 0; dot < data.length; dot += 4) {
                const colour = data.slice(dot, dot + 3).join(' ');
                counts[colour] = (counts[colour] ?? 0) + 1;
            }
            return counts;
        });
    })";

/// Red, green and blue, from 0 to 255.
type Colour = [f64; 3];

#[derive(Debug, Deserialize)]
struct Word {
    text: String,
    paint: Vec<f64>,
    size: f64,
    weight: f64,
    #[serde(rename = "box")]
    bounds: [f64; 4],
}

impl Word {
    fn least(&self) -> f64 {
        let is_large = self.size >= LARGE || (self.weight >= BOLD && self.size >= LARGE_IF_BOLD);
        if is_large { LEAST_OF_LARGE } else { LEAST }
    }

    /// What is wrong with it before these colours, each with its count of dots.
    fn fault(&self, behind: &BTreeMap<String, u32>) -> Option<String> {
        let [red, green, blue, ..] = self.paint[..] else {
            return Some(format!("“{}” has no colour", self.text));
        };
        let stands_off = |colour: &str| contrast([red, green, blue], dots(colour)) >= self.least();
        let all: u32 = behind.values().sum();
        let good = behind.iter().filter(|(colour, _)| stands_off(colour));
        let good: u32 = good.map(|(_, count)| count).sum();
        let share = f64::from(good) / f64::from(all);
        let Self { text, size, .. } = self;
        (share < SHARE).then(|| {
            format!("“{text}” of {size:.0} px in {red} {green} {blue} stands off {share:.2} of what is behind it")
        })
    }
}

fn dots(colour: &str) -> Colour {
    let numbers: Vec<f64> = colour
        .split(' ')
        .filter_map(|part| part.parse().ok())
        .collect();
    numbers.try_into().expect("a colour has three parts")
}

/// Contrast ratio of two colours. Source: WCAG 2.2, definitions of contrast ratio and relative luminance.
fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn luminance(colour: Colour) -> f64 {
    let linear = |part: f64| match part / 255.0 {
        low if low <= 0.04045 => low / 12.92,
        high => ((high + 0.055) / 1.055).powf(2.4),
    };
    let [red, green, blue] = colour.map(linear);
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// Black on white has the most there is, 21. Source: WCAG 2.2, definition of contrast ratio. On white #767676 is the lightest
/// grey to pass, by 4.54, and #777777 fails by 4.48. Both from memory.
#[test]
fn contrasts_are_reckoned_as_published() {
    let white = [255.0; 3];
    assert!((contrast([0.0; 3], white) - 21.0).abs() < 1e-9);
    assert!((contrast([118.0; 3], white) - 4.54).abs() < 0.005);
    assert!((contrast(white, [119.0; 3]) - 4.48).abs() < 0.005);
}

/// A light grey on the light sheet, on three kinds of writing.
const PALE: &str = "document.styleSheets[0].insertRule(
    '.figures-of-axes text, .ribbon text { fill: #c0c0c0 !important; } ');
    document.querySelector('[data-action=place][data-place=wind]').style.color = '#c0c0c0';";

#[test]
fn pale_writing_made_on_purpose_is_found() {
    on_the_page(async |page| {
        View::Draw.open(page).await;
        let before = faults(page).await;
        assert!(before.is_empty(), "{before:#?}");
        View::Draw.open(page).await;
        page.run(PALE, vec![]).await;
        let found = faults(page).await;
        for word in ["“0.8”", "“14”", "“Wind”"] {
            let is_found = found.iter().any(|fault| fault.contains(word));
            assert!(is_found, "{word} is not found: {found:#?}");
        }
    });
}

/// Words that do not stand out, in the whole of a place or sheet, looked at half a window at a time. They are measured in several
/// views, in every look and size, by [`super::access`].
pub(super) async fn faults(page: &Page) -> Vec<String> {
    page.run("window.met = new Set();", vec![]).await;
    let (mut faults, mut count) = (Vec::new(), 0);
    for place in 0.. {
        let script = "
            const shown = document.querySelector('.over.shown .over-body') ?? document.querySelector('[data-shows]');
            const top = arguments[0] * shown.clientHeight / 2;
            shown.scrollTop = top;
            return shown.scrollTop >= top - 1;";
        if !page.ask::<bool>(script, vec![json!(place)]).await {
            break;
        }
        let words: Vec<Word> = page.ask(WORDS, vec![]).await;
        count += words.len();
        if !words.is_empty() {
            let behind = behind(page, &words).await;
            let pairs = words.iter().zip(&behind);
            faults.extend(pairs.filter_map(|(word, behind)| word.fault(behind)));
        }
    }
    assert!(count > 10, "only {count} words were met");
    faults
}

/// What lies behind each word: colours with their counts of dots.
async fn behind(page: &Page, words: &[Word]) -> Vec<BTreeMap<String, u32>> {
    page.run(HIDE, vec![json!(true)]).await;
    let shot = page.session.cdp("Page.captureScreenshot", &json!({}));
    page.run(HIDE, vec![json!(false)]).await;
    let boxes: Vec<[f64; 4]> = words.iter().map(|word| word.bounds).collect();
    let script = format!("{COLOURS}({}, {})", shot["data"], json!(boxes));
    serde_json::from_value(evaluate(page, &script)).expect("the answer has its form")
}
