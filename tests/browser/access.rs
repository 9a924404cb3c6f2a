//! Nobody is kept out: every view meets what can be checked by machine of WCAG 2.2 at levels A and AA, in every size and
//! look. Source of the rules: axe-core, which names the success criterion behind each.

use std::collections::{BTreeMap, BTreeSet};

use super::axe::{Find, Search, search};
use super::cdp::Size;
use super::harness::{WHOLE_TEST, at_a_desk_for, on_the_page};
use super::page::Page;
use super::views::{Look, SIZES, View};

#[test]
fn no_barrier_on_a_tablet_held_sideways() {
    without_barriers(SIZES[0], Look::Light);
}

#[test]
fn no_barrier_on_a_dark_tablet_held_sideways() {
    without_barriers(SIZES[0], Look::Dark);
}

#[test]
fn no_barrier_on_a_tablet_held_upright() {
    without_barriers(SIZES[1], Look::Light);
}

#[test]
fn no_barrier_on_a_dark_tablet_held_upright() {
    without_barriers(SIZES[1], Look::Dark);
}

#[test]
fn no_barrier_on_a_phone() {
    without_barriers(SIZES[2], Look::Light);
}

#[test]
fn no_barrier_on_a_dark_phone() {
    without_barriers(SIZES[2], Look::Dark);
}

#[test]
fn no_barrier_in_a_bright_workshop() {
    on_every_view(async |page| {
        page.choose("look", "bright").await;
        without_barriers_on(page, SIZES[1], Look::Light).await;
    });
}

/// A test that goes through all views one after the other has the time of several.
fn on_every_view(test: impl AsyncFnOnce(&Page)) {
    at_a_desk_for(WHOLE_TEST * 4, async |desk| {
        test(&*desk.visitor().await).await
    });
}

fn without_barriers(size: Size, look: Look) {
    on_every_view(async |page| without_barriers_on(page, size, look).await);
}

async fn without_barriers_on(page: &Page, size: Size, look: Look) {
    page.take_size(size).await;
    look.set(page);
    let (mut barriers, mut undecided) = (Met::default(), Met::default());
    for view in View::ALL {
        view.open(page).await;
        let found = search(page);
        found.assert_looked();
        barriers.note(view, found.barriers().map(Find::to_string));
        undecided.note(view, found.undecided.iter().map(kind));
    }
    println!("{size:?} {look:?}, to be looked at by a person: {undecided:#?}");
    assert!(barriers.is_empty(), "{barriers:#?}");
}

/// What was found, each with the views it was found in.
#[derive(Debug, Default)]
struct Met(BTreeMap<String, BTreeSet<&'static str>>);

impl Met {
    fn note(&mut self, view: View, found: impl Iterator<Item = String>) {
        for one in found {
            self.0.entry(one).or_default().insert(view.word());
        }
    }

    fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// Rule and reason, without the place: what is left to a person is too much to be listed one by one.
fn kind(find: &Find) -> String {
    format!("{}: {}", find.rule, find.summary())
}

impl Search {
    /// What must not be: barriers, and contrasts that only seem undecided.
    fn barriers(&self) -> impl Iterator<Item = &Find> {
        let low = self.undecided.iter().filter(|find| find.is_low_contrast());
        self.violations.iter().chain(low)
    }

    /// A search that met no text, button or target would find nothing wrong either.
    fn assert_looked(&self) {
        for rule in ["color-contrast", "button-name", "target-size"] {
            let is_met = self.passed.iter().any(|passed| passed == rule);
            assert!(is_met, "{rule} was not looked at: {:?}", self.passed);
        }
    }
}

/// Barriers built on purpose: the rule that must find each, and the script that builds it.
const BUILT: [(&str, &str); 5] = [
    (
        "label",
        "document.querySelector('[data-action=point-size]').removeAttribute('aria-label');",
    ),
    (
        "button-name",
        "document.querySelector('[data-action=thinner]').replaceChildren();
         document.querySelector('[data-action=thinner]').removeAttribute('aria-label');",
    ),
    (
        "color-contrast",
        "document.querySelector('.hint').style.color = '#aaaaaa';",
    ),
    (
        "target-size",
        "for (const action of ['thinner', 'thicker']) {
             const { style } = document.querySelector(`[data-action=${action}]`);
             Object.assign(style, { minWidth: 0, minHeight: 0, width: '12px', height: '12px', padding: 0 });
         }",
    ),
    (
        "html-has-lang",
        "document.documentElement.removeAttribute('lang');",
    ),
];

#[test]
fn a_barrier_built_on_purpose_is_found() {
    on_the_page(async |page| {
        for (rule, script) in BUILT {
            View::Bench.open(page).await;
            assert!(!finds(page, rule), "{rule} is found before it is there");
            page.run(script, vec![]).await;
            assert!(finds(page, rule), "{rule} is not found");
        }
    });
}

fn finds(page: &Page, rule: &str) -> bool {
    search(page).barriers().any(|find| find.rule == rule)
}
