//! A move of a drag writes what changed and nothing else: no part of the page is made again, no word and no attribute written that
//! stays as it was.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::json;

use super::drag::belly;
use super::gesture::{Hand, Pointer};
use super::harness::on_the_page;
use super::page::Page;

/// Where figures and shapes stand: attributes that a drag may write. All else of an element stays.
const FIGURES: [&str; 14] = [
    "d",
    "x",
    "x1",
    "x2",
    "width",
    "transform",
    "viewBox",
    "data-si",
    "data-station",
    "data-ends",
    "data-mass",
    "data-off",
    "aria-valuetext",
    "aria-label",
];

/// What one move may change at most.
const MOST: usize = 60;

/// Sizes of the window: a tablet upright, and lying down, where tables stand beside the chart.
const SIZES: [(u32, u32); 2] = [(820, 1180), (1180, 820)];

/// Notes every change to the document from now on.
const WATCH: &str = r"
    window.changes = [];
    const told = ({ type, target, attributeName, oldValue, addedNodes, removedNodes }) => ({
        kind: type,
        name: attributeName ?? '',
        place: (target.nodeType === 1 ? target : target.parentElement)?.outerHTML.slice(0, 120) ?? '',
        same: type === 'attributes' && target.getAttribute(attributeName) === oldValue,
        nodes: [...addedNodes, ...removedNodes].length,
    });
    window.watcher = new MutationObserver((all) => window.changes.push(...all.map(told)));
    window.watcher.observe(document, {
        subtree: true, childList: true, attributes: true, attributeOldValue: true, characterData: true,
    });";

/// What changed, once two frames have passed since.
const CHANGES: &str = r"
    const [done] = arguments;
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(window.changes))));";

/// What the cells of threads and gears say and which have room to say it; what is written on the chart; what is warned of.
const LEVELS: &str = r"
    const cells = [...document.querySelectorAll('[data-ribbon] [data-value]')].map((cell) => cell.dataset.value + cell.textContent);
    const notes = [...document.querySelectorAll('[data-note]')].map((note) => note.dataset.note);
    const warnings = document.querySelector('.shell [data-figure=class]').closest('button').querySelector('.warnings');
    return [...cells, ...notes, warnings?.textContent ?? ''];";

#[derive(Debug, Deserialize)]
struct Change {
    kind: String,
    name: String,
    place: String,
    same: bool,
    nodes: usize,
}

#[test]
fn a_move_that_changes_no_level_touches_only_paths_and_figures() {
    for size in SIZES {
        on_the_page(async |page| {
            page.session.resize(size);
            page.reload().await;
            for pointer in [Pointer::Mouse, Pointer::Finger] {
                moves(page, pointer).await;
            }
        });
    }
}

/// Drags the belly by single pixels and looks at every move that leaves the levels as they were. A finger moves it along the line:
/// across it goes by whole threads.
async fn moves(page: &Page, pointer: Pointer) {
    let mut hand = Hand::take(page, pointer, belly()).await;
    let is_finger = pointer == Pointer::Finger;
    hand.glide(if is_finger { (8.0, 0.0) } else { (0.0, 8.0) });
    page.run("window.changes = [];", vec![]).await;
    page.ask_later::<Vec<Change>>(CHANGES, vec![]).await;
    let mut looked_at = 0;
    for step in 0..8 {
        let before: Vec<String> = page.ask(LEVELS, vec![]).await;
        page.run(WATCH, vec![]).await;
        let (x, y) = hand.at;
        let aside = f64::from(step % 2);
        hand.go(if is_finger {
            (x + 1.0, y + aside)
        } else {
            (x + aside, y + 1.0)
        });
        let changes: Vec<Change> = page.ask_later(CHANGES, vec![]).await;
        page.run("window.watcher.disconnect();", vec![]).await;
        let after: Vec<String> = page.ask(LEVELS, vec![]).await;
        if before == after && !changes.is_empty() {
            looked_at += 1;
            check(&changes);
        }
    }
    hand.let_go();
    assert!(looked_at >= 3, "only {looked_at} moves left the levels");
    page.at_rest().await;
}

fn check(changes: &[Change]) {
    let mut count = BTreeMap::new();
    for change in changes {
        *count.entry((&change.kind, &change.name)).or_insert(0) += 1;
    }
    println!("{} changes: {count:?}", changes.len());
    for change in changes {
        let Change {
            kind, name, place, ..
        } = change;
        assert_eq!(change.nodes, 0, "rebuilt, in {place}");
        let is_figure = kind == "characterData" || FIGURES.contains(&name.as_str());
        // Which band of the ruler the weight lies in, and whether in any, is the verdict.
        let is_verdict = name == "class"
            && (place.starts_with("<rect x=") || place.contains("data-action=\"all-figures\""));
        assert!(is_figure || is_verdict, "no figure: {name} of {place}");
        assert!(!change.same, "written though it stays: {name} of {place}");
    }
    assert!(changes.len() <= MOST, "{} changes", changes.len());
}

/// The test must see what it forbids.
#[test]
fn what_a_move_must_not_do_is_seen() {
    on_the_page(async |page| {
        let forbidden = [
            (
                "rebuilt",
                "document.querySelector('.sight').append(document.createElement('p'));",
            ),
            (
                "no figure",
                "document.querySelector('.sight').setAttribute('class', 'other');",
            ),
            (
                "written though it stays",
                "const line = document.querySelector('.silhouette'); line.setAttribute('d', line.getAttribute('d'));",
            ),
        ];
        for (word, script) in forbidden {
            page.run(WATCH, vec![]).await;
            page.run(script, vec![json!(0)]).await;
            let changes: Vec<Change> = page.ask_later(CHANGES, vec![]).await;
            page.run("window.watcher.disconnect();", vec![]).await;
            let said = std::panic::catch_unwind(|| check(&changes));
            let said = said.expect_err("it was let pass");
            let said = said.downcast_ref::<String>().expect("words");
            assert!(said.contains(word), "{said}");
        }
    });
}
