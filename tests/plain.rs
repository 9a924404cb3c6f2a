//! What a reader sees is plain present-day English: none of the words below, and no sentence of more than 20 words.
//!
//! Every text written in `src` and in the scripts of `style` is read, but for unit tests and attributes that no reader sees.
//! Notices are looked at once more as they come out, with their numbers in them.
#![cfg(not(target_arch = "wasm32"))]

mod common {
    pub(crate) mod designs;
}

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use taperwright::base::units::show::Units;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, demo::demo};
use taperwright::paper::words;
use taperwright::plan::Plan;

use common::designs;

/// Words that no text uses, and what a manual writes instead. Several words stand for their sequence.
const BANNED: [(&str, &str); 51] = [
    ("reckon", "calculate"),
    ("reckons", "calculates"),
    ("reckoned", "calculated"),
    ("reckoning", "calculation"),
    ("anew", "again"),
    ("afresh", "again"),
    ("deed", "action"),
    ("deeds", "actions"),
    ("comes to", "is, settles at"),
    ("comes too", "is too"),
    ("come nearer", "get closer"),
    ("told", "shown"),
    ("tells", "shows"),
    ("goes", "a plain verb"),
    ("behind", "after"),
    ("by now", "now"),
    ("though they be", "even as"),
    ("wished", "wanted"),
    ("wish", "want"),
    ("kept", "saved"),
    ("bench", "the open line"),
    ("put away", "delete"),
    ("put back", "restore"),
    ("take it", "use it"),
    ("taken in", "restored"),
    ("stands in the book", "is in the book"),
    ("stands there", "is there"),
    ("upside down", "the smaller number first"),
    ("just so", "unchanged"),
    ("go on so", "continue"),
    ("lies", "is"),
    ("lie", "is"),
    ("bears", "holds"),
    ("mend", "fix"),
    ("mended", "fixed"),
    ("elsewhere", "in another place"),
    ("otherwise", "differently, or say what"),
    ("besides", "also"),
    ("whence", "from where"),
    ("thereof", "of it"),
    ("whilst", "while"),
    ("lest", "so that not"),
    ("nought", "zero"),
    ("noughts", "zeros"),
    ("passed over", "missed"),
    ("aimed at", "target"),
    ("true to", "like"),
    ("come whole", "whole threads only"),
    ("common practice, no source", "rule of thumb, no source"),
    ("runs backward", "the smaller number first"),
    ("is got", "is installed"),
];

/// A text that may use a word after all: part of its file's path, the word, part of the text, and why.
type Allowed = (&'static str, &'static str, &'static str, &'static str);

const ALLOWED: [Allowed; 6] = [
    (
        "",
        "bench",
        "bench book",
        "the name of the book beside the machine",
    ),
    (
        "braid/recipe/kind.rs",
        "behind",
        "behind a screen",
        "where to stand, not what follows",
    ),
    (
        "units/text/spoken.rs",
        "nought",
        "nought",
        "a word that is recognised in a dictation, never shown",
    ),
    (
        "keep/book/file.rs",
        "bench",
        ".bench.json",
        "the ending of files saved before",
    ),
    (
        "shelf/revision.rs",
        "kept",
        "taperwright kept",
        "the heading of a stored text, older than this rule",
    ),
    (
        "style/boot.js",
        "kept",
        "taperwright kept",
        "the heading of a stored text, older than this rule",
    ),
];

/// Texts that are no sentences, by how they begin: what only a browser reads.
const NO_SENTENCES: [&str; 3] = ["default-src ", "<?xml ", "click dblclick "];

/// The most words of a sentence. A source after “Source:” is not counted.
const MOST_WORDS: usize = 20;

/// Attributes whose texts a reader sees or hears.
const SAID: [&str; 11] = [
    "ground",
    "name",
    "question",
    "word",
    "data-label",
    "aria-label",
    "title",
    "alt",
    "placeholder",
    "label",
    "aria-description",
];

/// A text in a source file.
struct Text {
    file: String,
    line: usize,
    words: String,
}

fn files_under(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder can be listed") {
        let path = entry.expect("an entry").path();
        let ending = path.extension().unwrap_or_default();
        if path.is_dir() {
            files_under(&path, found);
        } else if (ending == "rs" || ending == "js")
            && !path.to_string_lossy().ends_with("_tests.rs")
        {
            found.push(path);
        }
    }
}

/// The texts of a source file, in Rust or in JavaScript: both write them alike but for raw and single-quoted ones.
fn texts_of(file: &str, source: &str) -> Vec<Text> {
    let end = source.find("#[cfg(test)]\nmod ").unwrap_or(source.len());
    let is_script = Path::new(file)
        .extension()
        .is_some_and(|ending| ending == "js");
    let (source, mut found, mut at) = (&source[..end], Vec::new(), 0);
    while let Some(next) = source[at..].chars().next() {
        let rest = &source[at..];
        let hashes = rest
            .strip_prefix('r')
            .map(|raw| raw.len() - raw.trim_start_matches('#').len())
            .filter(|hashes| rest[1 + hashes..].starts_with('"'))
            .filter(|_| !source[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_'));
        if rest.starts_with("//") {
            at += rest.find('\n').unwrap_or(rest.len());
        } else if let Some(hashes) = hashes {
            let close = format!("\"{}", "#".repeat(hashes));
            let begin = at + hashes + 2;
            let length = source[begin..].find(&close).expect("a raw text ends");
            at = begin + length + close.len();
        } else if next == '"' || is_script && next == '`' {
            let length = length_of(&rest[1..], next);
            let words = source[at + 1..at + 1 + length].to_owned();
            if is_seen(&source[..at]) {
                let line = source[..at].matches('\n').count() + 1;
                let file = file.to_owned();
                found.push(Text {
                    file,
                    line,
                    words: unescaped(&words),
                });
            }
            at += length + 2;
        } else if next == '\'' && !is_script {
            at += letter(rest);
        } else {
            at += next.len_utf8();
        }
    }
    found
}

/// How long a text is up to the quotation mark that ends it.
fn length_of(rest: &str, quote: char) -> usize {
    let mut is_escaped = false;
    let end = rest.find(|c| {
        let ends = c == quote && !is_escaped;
        is_escaped = c == '\\' && !is_escaped;
        ends
    });
    end.expect("a text ends")
}

/// The length of a letter in single marks; 1 where the mark begins a lifetime.
fn letter(rest: &str) -> usize {
    let inner: Vec<char> = rest[1..].chars().take(12).collect();
    let length = match inner[..] {
        ['\\', ..] => inner[2..].iter().position(|&c| c == '\'').map(|at| at + 2),
        [_, '\'', ..] => Some(1),
        _ => None,
    };
    length.map_or(1, |length| {
        2 + inner[..length].iter().map(|c| c.len_utf8()).sum::<usize>()
    })
}

/// Without continuations of a line; other escapes as spaces.
fn unescaped(text: &str) -> String {
    let mut parts = text.split("\\\n");
    let first = parts.next().unwrap_or_default().to_owned();
    let joined = parts.fold(first, |all, part| all + part.trim_start());
    joined
        .replace("\\n", "\n")
        .replace("\\u{202f}", "\u{202f}")
        .replace('\\', " ")
}

/// Whether a reader sees a text after such code: not the values of attributes that only programs read.
fn is_seen(before: &str) -> bool {
    let code = before.trim_end();
    let Some(code) = code
        .strip_suffix('=')
        .filter(|code| !code.ends_with(['=', '!', '<', '>', ' ']))
    else {
        return true;
    };
    let name = code
        .rsplit(|c: char| !(c.is_alphanumeric() || "-_:".contains(c)))
        .next();
    name.is_none_or(|name| SAID.contains(&name) || name.contains('_'))
}

fn all_texts() -> Vec<Text> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut paths = Vec::new();
    files_under(&root.join("src"), &mut paths);
    files_under(&root.join("style"), &mut paths);
    paths.sort();
    let texts = paths.iter().flat_map(|path| {
        let file = path
            .strip_prefix(root)
            .expect("found below it")
            .to_string_lossy();
        let source = fs::read_to_string(path).expect("a source file is text");
        texts_of(&file, &source)
    });
    texts.collect()
}

/// Where a word stands in a text as a word: hyphens, strokes and lines join names that only programs read.
fn places(text: &str, word: &str) -> Vec<usize> {
    let is_part = |c: char| c.is_alphanumeric() || "_-/".contains(c);
    let lower = text.to_lowercase();
    let found = lower.match_indices(word).filter(|(at, _)| {
        let before = lower[..*at].chars().next_back().is_some_and(is_part);
        let after = lower[at + word.len()..].chars().next().is_some_and(is_part);
        !before && !after
    });
    found.map(|(at, _)| at).collect()
}

#[test]
fn no_text_uses_a_banned_word() {
    let (mut faults, mut used) = (Vec::new(), BTreeSet::new());
    for text in all_texts() {
        for (word, instead) in BANNED {
            let mut count = places(&text.words, word).len();
            for (index, (file, allowed, part, _)) in ALLOWED.iter().enumerate() {
                if *allowed == word && text.file.contains(file) {
                    let excused = places(&text.words, part).len();
                    used.extend((excused > 0).then_some(index));
                    count = count.saturating_sub(excused);
                }
            }
            if count > 0 {
                let Text { file, line, words } = &text;
                faults.push(format!("{file}:{line}: “{word}” ({instead}): {words}"));
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{} texts:\n{}",
        faults.len(),
        faults.join("\n")
    );
    let stale: Vec<&Allowed> = (0..ALLOWED.len())
        .filter(|index| !used.contains(index))
        .map(|index| &ALLOWED[index])
        .collect();
    assert!(stale.is_empty(), "exceptions nothing needs: {stale:?}");
}

/// The sentences of a text, without its source and without marks that are no words.
fn sentences(text: &str) -> Vec<Vec<&str>> {
    let is_word = |word: &str| word.len() > 2 && word.chars().all(char::is_alphabetic);
    let is_drawing = !text.split(' ').any(is_word);
    if is_drawing || NO_SENTENCES.iter().any(|start| text.starts_with(start)) {
        return Vec::new();
    }
    let text = text.split("Source:").next().unwrap_or_default();
    let mut all = vec![Vec::new()];
    for line in text.lines() {
        for word in line.split(' ') {
            if word.contains(|c: char| c.is_alphanumeric() || c == '{') {
                all.last_mut().expect("one at least").push(word);
            }
            if word
                .trim_end_matches(['”', '"', ')'])
                .ends_with(['.', '!', '?'])
            {
                all.push(Vec::new());
            }
        }
        all.push(Vec::new());
    }
    all
}

fn long_ones(text: &str) -> Vec<String> {
    let long = sentences(text)
        .into_iter()
        .filter(|words| words.len() > MOST_WORDS);
    long.map(|words| format!("{} words: {}", words.len(), words.join(" ")))
        .collect()
}

#[test]
fn no_sentence_is_long() {
    let faults: Vec<String> = all_texts()
        .iter()
        .flat_map(|text| {
            let place = format!("{}:{}", text.file, text.line);
            long_ones(&text.words)
                .into_iter()
                .map(move |long| format!("{place}: {long}"))
        })
        .collect();
    assert!(
        faults.is_empty(),
        "{} sentences:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

/// Designs in which something is wrong, so that many kinds of notice come out.
fn troubled() -> Vec<Design> {
    let drawing = [
        (0.0, 0.76),
        (0.2, 0.76),
        (2.6, 1.3),
        (18.0, 1.3),
        (21.0, 0.7),
        (21.2, 0.7),
    ];
    let settings = [
        vec![(Setting::MachineConstant, 3.2)],
        vec![(Setting::MachineConstant, 9.0)],
        vec![(Setting::MachineConstant, 1.0), (Setting::LeadIn, 0.0)],
        vec![
            (Setting::EndsPerThread, 4.0),
            (Setting::MachineConstant, 3.2),
        ],
        vec![
            (Setting::EndsPerThread, 40.0),
            (Setting::MachineConstant, 3.2),
        ],
        vec![(Setting::BobbinFull, 20.0), (Setting::LeastSpacing, 900.0)],
    ];
    let drawn = settings
        .iter()
        .map(|settings| designs::design(settings, &drawing));
    drawn.chain([demo()]).collect()
}

#[test]
fn no_sentence_of_a_notice_is_long_with_its_numbers() {
    let mut headings = BTreeSet::new();
    for design in troubled() {
        for notice in &Plan::of(&design).notices {
            headings.insert(words::heading(notice));
            for units in [Units::Metric, Units::Imperial] {
                let said = words::notice(notice, units);
                assert!(
                    long_ones(&said).is_empty(),
                    "{:?}\n{said}",
                    long_ones(&said)
                );
            }
        }
    }
    assert!(
        headings.len() >= 6,
        "too few kinds to say much: {headings:?}"
    );
}

/// The reader of sources finds what is seen, and only that.
#[test]
fn texts_are_found_in_a_source() {
    let source = "// \"not this\"\nlet a = \"one {b} \\\n    two\"; // no\nview! { <p class=\"behind\" aria-label=\"three\">\"four\"</p> }\nlet c = '\"'; f(r#\"raw\"#, &'static x, \"five\");\n#[cfg(test)]\nmod tests { \"six\" }";
    let found: Vec<String> = texts_of("a.rs", source)
        .into_iter()
        .map(|text| text.words)
        .collect();
    assert_eq!(found, ["one {b} two", "three", "four", "five"]);
    assert_eq!(places("Kept, all-kept and kept", "kept").len(), 2);
    assert_eq!(long_ones(&"word ".repeat(21)).len(), 1);
    assert!(
        long_ones("One two. Three four. Source: a b c d e f g h i j k l m n o p q r s t u v.")
            .is_empty()
    );
}
