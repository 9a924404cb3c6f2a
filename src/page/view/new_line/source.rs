//! A machine with its yarn, as a thing with a name: that of a workshop saved here, of the line open now, or of the example.

use crate::base::choice::Choice as _;
use crate::design::Design;
use crate::design::demo::demo;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::shelf::{Lookup, ShelfEntry};
use crate::page::view::bench::{Bench, StorageState, shelf};
use crate::page::view::book::kept_books;
use crate::plan::days::Day;
use leptos::prelude::*;

/// Where machine and yarn come from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Source {
    /// The key by which tests find it: a number of a workshop, `open` or `example`.
    pub(super) key: String,
    /// What it is called.
    pub(super) name: String,
    /// Carriers, gears and yarn in few words.
    pub(super) facts: String,
    /// A design with its settings; its drawing means nothing.
    pub(super) design: Design,
    /// The name of the workshop, where it is one: its book goes with the new line.
    workshop: Option<String>,
}

impl Source {
    fn of(key: &str, name: &str, design: Design, more: &str) -> Self {
        Self {
            key: key.to_owned(),
            name: name.to_owned(),
            facts: format!("{}{more}", facts(&design)),
            design,
            workshop: None,
        }
    }

    fn of_workshop(entry: &ShelfEntry) -> Option<Self> {
        let Lookup::Kept(kept) = shelf().ok()?.look::<Workshop>(entry.number) else {
            return None;
        };
        let workshop = kept.work;
        let lines = match workshop.records.len() {
            0 => " No line in its book yet.".to_owned(),
            1 => " One line in its book.".to_owned(),
            count => format!(" {count} lines in its book."),
        };
        let saved = entry.changed.map(Day::words_with_year);
        let saved = saved.map_or_else(String::new, |day| format!(" Saved {day}."));
        let more = format!("{lines}{saved}");
        let name = workshop.title().to_owned();
        let source = Self::of(&entry.number.to_string(), &name, workshop.base, &more);
        Some(Self {
            workshop: Some(workshop.name),
            ..source
        })
    }

    /// A design begun here, with the workshop it belongs to.
    pub(super) fn named(&self, design: &Design) -> Result<Design, String> {
        let Some(workshop) = self.workshop.clone() else {
            return Ok(design.clone());
        };
        let named = Edit::Workshop(workshop).apply(design);
        named.map_err(|refusal| refusal.to_string())
    }
}

/// All there are, the one to begin with first: the workshop of the line open now, else that line, else the example.
pub(super) fn all(bench: Bench) -> Vec<Source> {
    let open = bench.settled.get_untracked();
    let home = open.draft().workshop.clone();
    let mut all: Vec<Source> = kept_books()
        .iter()
        .filter_map(Source::of_workshop)
        .collect();
    all.sort_by_key(|source| source.workshop.as_ref() != Some(&home));
    let is_example = bench
        .storage_state
        .with_untracked(|state| *state == StorageState::New);
    if !is_example {
        let name = format!("As in “{}”", open.title());
        let at_home = !home.is_empty()
            && all
                .first()
                .is_some_and(|first| first.workshop.as_ref() == Some(&home));
        let source = Source::of("open", &name, open, "");
        all.insert(usize::from(at_home), source);
    }
    all.push(Source::of(
        "example",
        "Example workshop",
        demo(),
        " Invented.",
    ));
    all
}

/// `16 carriers. Gears 20–40. Silk 20/22 denier.`
fn facts(design: &Design) -> String {
    let number = |setting| crate::base::units::show::trimmed(design.setting(setting), 1);
    let gears = &design.draft().gears;
    let gears = match (gears.first(), gears.last()) {
        (Some(first), Some(last)) if first != last => format!(" Gears {first} to {last}."),
        _ => String::new(),
    };
    format!(
        "{} carriers.{gears} Yarn: {} {}/{} denier.",
        design.track().carriers(),
        design.draft().fibre.name(),
        number(Setting::LabelLow),
        number(Setting::LabelHigh),
    )
}
