//! Words of the trade are explained where they stand, with the keyboard too, and all of them in a list.

use std::collections::{BTreeMap, BTreeSet};

use fantoccini::key::Key;
use serde_json::json;
use taperwright::base::choice::Choice as _;
use taperwright::page::places::Place;
use taperwright::paper::terms::Term;

use super::harness::{on_the_page, until};
use super::page::Page;

/// Buttons of words by key, and the words explained beside figures and settings, in the place or on the sheet shown.
const USED: &str = r"
    const sheet = document.querySelector('.over.shown');
    const outside = (element) => !element.matches('[popover]')
        && (element.checkVisibility() || element.closest('details:not([open])')) && (sheet ? sheet.contains(element) : !element.closest('.over'));
    const keys = (selector) => [...document.querySelectorAll(selector)].filter(outside).map((one) => one.dataset.term);
    return [keys('button[data-term]'), keys('div[data-term]')];";

/// What is open, what it says, whether it lies in the window, and which word the keyboard is on.
const OPEN: &str = r"
    const open = document.querySelector('[data-term]:popover-open');
    const box = open?.getBoundingClientRect();
    return {
        open: open?.dataset.term ?? null, says: open?.textContent ?? '',
        inside: !box || (box.left >= 0 && box.top >= 0 && box.right <= innerWidth && box.bottom <= innerHeight),
        at: document.activeElement?.matches('button[data-term]') ? document.activeElement.dataset.term : null,
    };";

/// Puts the keyboard on the first button of a word.
const FOCUS: &str = r"
    const shown = document.querySelector('.over.shown') ?? document.querySelector('[data-shows]');
    const all = [...shown.querySelectorAll(`button[data-term='${arguments[0]}']`)];
    const button = all.find((one) => one.checkVisibility()) ?? all[0];
    for (let fold = button.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;
    button.focus();";

/// Notes of the list by key, each once its row is opened; and whether it has a drawing.
const LISTED: &str = r"
    const rows = [...document.querySelectorAll('.over.shown [data-word]')];
    for (const row of rows) row.querySelector('summary').click();
    return rows.map((row) => [row.dataset.word, row.querySelector('.note').textContent, !!row.querySelector('svg path')]);";

/// Sheets with words that are explained, but for the list of all words.
const SHEETS: [&str; 8] = [
    "all-figures",
    "workshop-sheet",
    "questions",
    "numbers",
    "plans",
    "compare",
    "new-line",
    "cautions",
];

#[derive(Debug, serde::Deserialize)]
struct Seen {
    open: Option<String>,
    says: String,
    inside: bool,
    at: Option<String>,
}

async fn seen(page: &Page, what: &str, wish: impl Fn(&Seen) -> bool) -> Seen {
    until(&format!("the note comes or goes: {what}"), async || {
        let open: Seen = page.ask(OPEN, vec![]).await;
        wish(&open).then_some(open)
    })
    .await
}

async fn key(page: &Page, key: Key) {
    let at = page.session.client.active_element().await;
    let pressed = at
        .expect("something has the keyboard")
        .send_keys(&char::from(key).to_string())
        .await;
    pressed.expect("a key is pressed");
}

/// The words with a button here, and all explained here.
async fn used(page: &Page) -> (BTreeSet<String>, BTreeSet<String>) {
    let (buttons, beside): (BTreeSet<String>, BTreeSet<String>) = page.ask(USED, vec![]).await;
    let all = buttons.union(&beside).cloned().collect();
    (buttons, all)
}

/// All words explained in any place or on a sheet that has such words.
async fn used_anywhere(page: &Page) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for &place in Place::ALL {
        page.go_to(place.key()).await;
        all.extend(used(page).await.1);
    }
    for sheet in SHEETS {
        page.press(sheet).await;
        page.until_there(".over.shown").await;
        all.extend(used(page).await.1);
        page.close_sheet().await;
    }
    all
}

#[test]
fn every_word_is_explained_outside_the_list_too() {
    on_the_page(async |page| {
        // Some fields are shown only for other machines and builds.
        page.choose("build", "both").await;
        page.until_there("[data-action=heavier_ends]").await;
        let mut all = used_anywhere(page).await;
        page.choose("train", "fixed-centres").await;
        page.until_there("[data-action=pair_sum_teeth]").await;
        all.extend(used(page).await.1);
        // A line of the demo's kind ends in a tip.
        all.insert(Term::RunningLine.key().to_owned());
        let wanted: BTreeSet<_> = Term::ALL.map(|term| term.key().to_owned()).into();
        assert_eq!(all, wanted);
    });
}

#[test]
fn a_word_is_opened_and_closed_by_keyboard() {
    on_the_page(async |page| {
        let mut opened = BTreeSet::new();
        for &place in Place::ALL {
            page.go_to(place.key()).await;
            for word in used(page).await.0.difference(&opened.clone()) {
                opens_and_closes(page, word).await;
                opened.insert(word.clone());
            }
        }
        // On a sheet too, which stays open.
        for sheet in SHEETS {
            page.open_sheet(sheet).await;
            for word in used(page).await.0 {
                opens_and_closes(page, &word).await;
                assert_eq!(page.matching(".over.shown").await, 1, "{sheet}, {word}");
                opened.insert(word);
            }
        }
        assert!(opened.len() >= 20, "{opened:?}");
    });
}

/// Opens a word by Enter and closes it by Escape; the keyboard is where it was.
async fn opens_and_closes(page: &Page, word: &str) {
    let term = Term::from_key(word).expect("a word of the trade");
    page.run(FOCUS, vec![json!(word)]).await;
    key(page, Key::Enter).await;
    let open = seen(page, word, |now| now.open.as_deref() == Some(word)).await;
    assert!(open.says.contains(term.note()), "{word}: {}", open.says);
    assert!(open.inside, "{word} is not wholly seen");
    key(page, Key::Escape).await;
    let shut = seen(page, word, |now| now.open.is_none()).await;
    assert_eq!(shut.at.as_deref(), Some(word), "the keyboard is lost");
}

#[test]
fn a_note_goes_by_its_button_and_by_a_tap_elsewhere() {
    on_the_page(async |page| {
        page.go_to("threads").await;
        for (word, away) in [
            ("lay", "[popover]:popover-open button"),
            ("rib", ".place-head h2"),
        ] {
            page.unfold_word(word).await;
            page.press_at(&format!(".machine button[data-term={word}]"))
                .await;
            seen(page, word, |now| now.open.as_deref() == Some(word)).await;
            page.press_at(away).await;
            seen(page, word, |now| now.open.is_none()).await;
        }
    });
}

#[test]
fn a_word_is_opened_in_the_middle_of_its_figure() {
    on_the_page(async |page| {
        page.press("all-figures").await;
        let note = r"
            const row = document.querySelector('[data-figure=longest-float]').closest('details');
            row.querySelector('summary').click();
            return row.textContent;";
        let words: String = page.ask(note, vec![]).await;
        assert!(words.contains(Term::Float.note()), "{words}");
    });
}

#[test]
fn the_list_has_every_word_with_its_note_and_drawing() {
    on_the_page(async |page| {
        page.press("words").await;
        page.until_there("[data-word]").await;
        let listed: Vec<(String, String, bool)> = page.ask(LISTED, vec![]).await;
        let listed: BTreeMap<_, _> = listed
            .into_iter()
            .map(|(word, note, drawn)| (word, (note, drawn)))
            .collect();
        assert_eq!(listed.len(), Term::ALL.len());
        for term in Term::ALL {
            let (note, drawn) = &listed[term.key()];
            assert_eq!(note.trim(), term.note());
            assert_eq!(*drawn, term.picture().is_some(), "{}", term.name());
        }
    });
}

impl Page {
    /// Unfolds what the first button of a word stands in.
    async fn unfold_word(&self, word: &str) {
        let script = r"
            const button = document.querySelector(`button[data-term='${arguments[0]}']`);
            for (let fold = button.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;";
        self.run(script, vec![json!(word)]).await;
    }
}
