//! Somebody who works by the keyboard is never left with the focus on nothing, and hears each thing once.
//!
//! Sources: WCAG 2.2, success criteria 2.4.3 "Focus Order", 2.4.7 "Focus Visible", 3.3.1 "Error Identification", 4.1.3 "Status
//! Messages".

use fantoccini::key::Key;
use serde_json::json;
use taperwright::design::demo::demo;
use taperwright::keep::share::link;

use super::gesture::{chord, strike};
use super::harness::{at_a_desk, on_the_page, until};
use super::page::Page;

/// Puts the focus on a control, and presses it by the keyboard.
async fn strike_at(page: &Page, selector: &str) {
    page.seek(selector).await;
    let script = "document.querySelector(arguments[0]).focus();";
    page.run(script, vec![json!(selector)]).await;
    strike(page, Key::Enter).await;
}

/// Waits until a control that can be used has the focus.
async fn until_somewhere(page: &Page) {
    let script = "
        const active = document.activeElement;
        return Boolean(active?.matches('button:enabled, a[href], summary, input, select')) && active.checkVisibility();";
    until("a control has the focus", async || {
        page.ask::<bool>(script, vec![]).await.then_some(())
    })
    .await;
}

#[test]
fn what_disappears_hands_the_focus_on() {
    at_a_desk(async |desk| {
        let shared = link::encode(&demo()).expect("short");
        let page = desk.visitor_by(&format!("#{shared}")).await;
        strike_at(&page, "[data-action=keep-copy]").await;
        page.until_gone("[data-action=keep-copy]").await;
        until_somewhere(&page).await;
        page.enter("ends_per_thread", "15").await;
        page.enter("ends_per_thread", "16").await;
        for action in ["undo", "redo"] {
            let selector = format!("[data-action={action}]:enabled");
            while page.matching(&selector).await > 0 {
                strike_at(&page, &selector).await;
                page.at_rest().await;
            }
            page.until_gone(&selector).await;
            until_somewhere(&page).await;
        }
    });
}

#[test]
fn undone_and_redone_are_said_once() {
    on_the_page(async |page| {
        page.enter("point-size", "0.95").await;
        let said = "
            window.said = [];
            for (const status of document.querySelectorAll('[role=status]')) {
                new MutationObserver(() => said.push(status.textContent)).observe(status, { subtree: true, childList: true, characterData: true });
            }
            document.activeElement.blur();";
        page.run(said, vec![]).await;
        for (letter, word) in [('z', "Undone."), ('y', "Redone.")] {
            chord(page, letter).await;
            let heard = until(word, async || {
                let all: Vec<String> = page.ask("return window.said;", vec![]).await;
                (!all.is_empty()).then_some(all)
            })
            .await;
            page.at_rest().await;
            let with_it = heard.iter().filter(|one| one.contains(word));
            assert_eq!(with_it.count(), 1, "{heard:?}");
            page.run("window.said = [];", vec![]).await;
        }
    });
}

#[test]
fn what_is_refused_is_said_with_its_field() {
    on_the_page(async |page| {
        page.enter("point-size", "thick").await;
        is_described(page, "[data-action=point-size]").await;
        page.enter("point-size", "1.0").await;
        page.until_gone("[data-action=point-size][aria-invalid=true]")
            .await;
        page.go_to("dress").await;
        let day = "[data-action=dressing-start]";
        for wrong in ["", "1850-03-09"] {
            let enter = "
                const field = document.querySelector(arguments[0]);
                field.value = arguments[1];
                field.dispatchEvent(new Event('change', { bubbles: true }));";
            page.run(enter, vec![json!(day), json!(wrong)]).await;
            is_described(page, day).await;
        }
    });
}

/// Waits until a field is marked as refused and names the words that say why.
async fn is_described(page: &Page, field: &str) {
    page.until_there(&format!("{field}[aria-invalid=true]"))
        .await;
    let script = "
        const field = document.querySelector(arguments[0]);
        return document.getElementById(field.getAttribute('aria-describedby'))?.textContent ?? '';";
    let said: String = page.ask(script, vec![json!(field)]).await;
    assert!(
        said.contains("between") || said.contains("number"),
        "{said}"
    );
}
