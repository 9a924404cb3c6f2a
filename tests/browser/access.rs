//! Nobody is kept out, and everything is seen: each view is opened once in each size, and looked at for these things.
//!
//! - Barriers: what can be checked by machine of WCAG 2.2 at levels A and AA, and good practice beyond it. Source of the rules:
//!   axe-core, which names the success criterion of each. What it leaves to a person is printed.
//! - Contrast of writing in drawings and on buttons, in each look: see [`super::contrast`].
//! - Targets that a finger hits, and nothing beyond the window's edge: see [`super::layout`].
//! - Pictures in each look, which are left in `target/screens`: see [`super::screens`]. No two views may look the same.

use std::collections::{BTreeMap, BTreeSet};

use super::axe::{Find, Search, search};
use super::cdp::Size;
use super::contrast::faults;
use super::harness::{WHOLE_TEST, at_a_desk_for, on_the_page};
use super::layout::{small_targets, too_wide};
use super::look::Look;
use super::page::Page;
use super::screens::{centre, further_down, picture};
use super::views::{SIZES, View};

#[test]
fn every_view_on_a_tablet_held_sideways() {
    every_view(SIZES[0]);
}

#[test]
fn every_view_on_a_tablet_held_upright() {
    every_view(SIZES[1]);
}

#[test]
fn every_view_on_a_small_tablet_held_sideways() {
    every_view(SIZES[2]);
}

#[test]
fn every_view_on_a_small_tablet_held_upright() {
    every_view(SIZES[3]);
}

#[test]
fn every_view_on_a_phone() {
    every_view(SIZES[4]);
}

/// Views with writing in drawings: there contrast is measured on what is painted.
const DRAWN: [View; 4] = [View::Draw, View::Threads, View::AtMachine, View::Card];

/// This goes through all views one after the other and looks at each in every look, so it has the time of three tests.
fn every_view(size: Size) {
    at_a_desk_for(WHOLE_TEST * 3, async |desk| {
        let page = desk.visitor().await;
        page.take_size(size).await;
        let looks = [Look::Light, Look::Dark, Look::Bright];
        let mut seen = looks.map(Seen::in_look);
        for view in View::ALL {
            view.open(&page).await;
            for seen in &mut seen {
                seen.search(&page, view).await;
            }
            centre(&page, view).await;
            for seen in &mut seen {
                seen.take_pictures(&page, view, size).await;
            }
            for seen in &mut seen {
                seen.compare_contrasts(&page, view).await;
            }
        }
        for seen in seen {
            seen.assert_good(size);
        }
    });
}

/// What was seen of all views in one look.
struct Seen {
    look: Look,
    barriers: Met,
    undecided: Met,
    pale: Met,
    unfit: Met,
    pictures: Vec<Vec<u8>>,
}

impl Seen {
    fn in_look(look: Look) -> Self {
        Self {
            look,
            barriers: Met::default(),
            undecided: Met::default(),
            pale: Met::default(),
            unfit: Met::default(),
            pictures: Vec::new(),
        }
    }

    async fn search(&mut self, page: &Page, view: View) {
        self.look.set(page).await;
        let found = search(page);
        found.assert_looked();
        self.barriers
            .note(view, found.barriers().map(Find::to_string));
        self.undecided.note(view, found.undecided.iter().map(kind));
        let unfit = small_targets(page).await.into_iter();
        self.unfit.note(view, unfit.chain(too_wide(page).await));
    }

    async fn take_pictures(&mut self, page: &Page, view: View, size: Size) {
        self.look.set(page).await;
        let taken = picture(page, view.word(), size, self.look).await;
        self.pictures.push(taken);
        // What is drawn in one look is laid out in the others alike. Further down two states of one place may look the same.
        if self.look == Look::Light {
            further_down(page, view, size, self.look).await;
        }
    }

    async fn compare_contrasts(&mut self, page: &Page, view: View) {
        if DRAWN.contains(&view) {
            self.look.set(page).await;
            self.pale.note(view, faults(page).await.into_iter());
        }
    }

    fn assert_good(mut self, size: Size) {
        let Self { look, .. } = self;
        println!(
            "{size:?} {look:?}, to be looked at by a person: {:#?}",
            self.undecided
        );
        let Self {
            barriers,
            pale,
            unfit,
            ..
        } = &self;
        assert!(barriers.is_empty(), "{size:?} {look:?}: {barriers:#?}");
        assert!(pale.is_empty(), "{size:?} {look:?}: {pale:#?}");
        assert!(unfit.is_empty(), "{size:?} {look:?}: {unfit:#?}");
        let count = self.pictures.len();
        assert!(count >= View::ALL.len(), "only {count} pictures");
        self.pictures.sort_unstable();
        self.pictures.dedup();
        assert_eq!(
            self.pictures.len(),
            count,
            "{look:?}: two views look the same"
        );
    }
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
        "document.querySelector('.summary dt').style.color = '#aaaaaa';",
    ),
    (
        "target-size",
        "for (const name of ['one', 'two']) {
             const button = document.createElement('button');
             button.textContent = name;
             Object.assign(button.style, {
                 display: 'inline-block', minWidth: 0, minHeight: 0, width: '12px', height: '12px', padding: 0, overflow: 'hidden',
             });
             document.querySelector('[data-shows]').prepend(button);
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
            View::Draw.open(page).await;
            assert!(!finds(page, rule), "{rule} is found before it is there");
            page.run(script, vec![]).await;
            assert!(finds(page, rule), "{rule} is not found");
        }
    });
}

fn finds(page: &Page, rule: &str) -> bool {
    search(page).barriers().any(|find| find.rule == rule)
}
