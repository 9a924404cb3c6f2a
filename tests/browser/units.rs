//! Units are the reader's business: the texts change, the line does not.

use std::collections::BTreeMap;

use super::harness::{on_the_page, until};
use super::memory::dragged;
use super::page::Page;

/// Figures that are lengths along the line or across it.
const WITH_UNITS: [&str; 3] = ["length", "tip-diameter", "belly-diameter"];

#[test]
fn other_units_change_words_and_no_number() {
    on_the_page(async |page| {
        let (state, _) = dragged(page).await;
        let kept = page.storage().await;
        let metric = words(page).await;
        let imperial = switched(page, "imperial", &metric).await;
        for key in WITH_UNITS {
            assert_ne!(imperial[key], metric[key], "{key}");
        }
        assert_eq!(page.state().await, state);
        let keeps = page.storage().await;
        assert!(kept.iter().all(|(key, text)| keeps.get(key) == Some(text)));
        page.reload().await;
        assert_eq!(words(page).await, imperial, "the choice is forgotten");
        assert_eq!(switched(page, "metric", &imperial).await, metric);
        assert_eq!(page.state().await, state);
    });
}

/// The words of every figure, and of the first change in the schedule.
async fn words(page: &Page) -> BTreeMap<String, String> {
    page.open_sheet("all-figures").await;
    let figures = "
        const figures = [...document.querySelectorAll('[data-figure]')];
        return Object.fromEntries(figures.map((f) => [f.dataset.figure, f.textContent]));";
    let mut words: BTreeMap<String, String> = page.ask(figures, vec![]).await;
    page.close_sheet().await;
    page.go_to("threads").await;
    let line = page.words_of("[data-event]:nth-of-type(2)").await;
    words.insert("line".to_owned(), line);
    words
}

/// The words after the units have been switched.
async fn switched(
    page: &Page,
    to: &str,
    from: &BTreeMap<String, String>,
) -> BTreeMap<String, String> {
    page.press(to).await;
    until("the words change", async || {
        Some(words(page).await).filter(|words| words["line"] != from["line"])
    })
    .await
}
