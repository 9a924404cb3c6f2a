//! Which of the six places is shown, and how one gets to another: by the bar, by the browser's own back and forward, by the
//! address. A place is built when it is shown and dropped when it is left; where it was scrolled to is remembered.
//!
//! A sheet over a place is a step of the browser's history too, so that a tablet's Back closes it.

use leptos::ev;
use leptos::html::Section;
use leptos::prelude::*;
use web_sys::Event;

use super::bench::{Bench, StorageState};
use super::entries::Entries;
use super::window_events::on_window;
use crate::base::choice::Choice as _;
use crate::page::browser::storage::{keep_hint, preference};
use crate::page::browser::{address, text_input};
use crate::page::places::{Entry, Place};

/// Key under which the place last shown, and how far it was scrolled, are kept.
const PLACE_KEY: &str = "taperwright/place";
/// The attribute of the document that names the place shown.
const ATTRIBUTE: &str = "data-place";

/// The place shown.
#[derive(Clone, Copy)]
pub(crate) struct Places {
    bench: Bench,
    now: RwSignal<Place>,
    /// How far each place was scrolled when it was left, in pixels.
    scrolled: StoredValue<[i32; Place::ALL.len()]>,
    /// The element that scrolls.
    holder: NodeRef<Section>,
    /// What may stand open in the place shown: it is not left before that is settled.
    entries: StoredValue<Option<Entries>>,
    /// Whether a step back is under way that the page itself began.
    is_returning: StoredValue<bool>,
    /// The place wanted once that step is made.
    wanted: StoredValue<Option<Place>>,
}

/// The places of this page.
pub(crate) fn places() -> Places {
    expect_context::<Places>()
}

impl Places {
    /// Opens at the place of the address, else where the history or the last visit left off, else at Draw.
    pub(crate) fn open(bench: Bench) -> Self {
        let (last, scrolled) = last_visit();
        let is_preview = bench
            .storage_state
            .with_untracked(|state| *state == StorageState::Preview);
        let known = address::entry().map(|entry| entry.place);
        let first =
            address::place()
                .or(known)
                .unwrap_or(if is_preview { Place::Draw } else { last });
        let mut all = [0; Place::ALL.len()];
        if first == last {
            all[first as usize] = scrolled;
        }
        let places = Self {
            bench,
            now: RwSignal::new(first),
            scrolled: StoredValue::new(all),
            holder: NodeRef::new(),
            entries: StoredValue::new(None),
            is_returning: StoredValue::new(false),
            wanted: StoredValue::new(None),
        };
        address::replace(Entry::of(first));
        places.follow_history();
        places.follow_sheets();
        places.name_document();
        places.remember_when_hidden();
        places
    }

    /// The place shown.
    pub(crate) fn now(self) -> Place {
        self.now.get()
    }

    /// Where it is shown.
    pub(super) fn holder(self) -> NodeRef<Section> {
        self.holder
    }

    /// What may stand open in the place being built, until the component that says so is disposed of.
    pub(crate) fn wait_for(self, entries: Entries) {
        self.entries.set_value(Some(entries));
        on_cleanup(move || {
            self.entries.try_set_value(None);
        });
    }

    /// Shows another place, and closes any sheet over this one.
    pub(crate) fn go(self, place: Place) {
        self.bench.sheet.set(None);
        if self.is_returning.get_value() {
            self.wanted.set_value(Some(place));
        } else if place != self.now.get_untracked() && self.may_leave() {
            self.show(place);
            address::push(Entry::of(place));
        }
    }

    fn may_leave(self) -> bool {
        self.entries.get_value().is_none_or(Entries::are_settled)
    }

    fn show(self, place: Place) {
        let before = self.now.get_untracked();
        if place == before {
            return;
        }
        self.scrolled
            .update_value(|scrolled| scrolled[before as usize] = self.scroll_top());
        self.bench.abort();
        self.now.set(place);
        self.remember();
    }

    fn scroll_top(self) -> i32 {
        let holder = self.holder.get_untracked();
        holder.map_or(0, |holder| holder.scroll_top())
    }

    /// Scrolls the place that has just been built to where it was left.
    pub(super) fn restore_scroll(self) {
        let top = self
            .scrolled
            .with_value(|scrolled| scrolled[self.now.get_untracked() as usize]);
        if let Some(holder) = self.holder.get_untracked() {
            holder.set_scroll_top(top);
        }
    }

    /// The browser's back and forward, and places typed into the address.
    fn follow_history(self) {
        on_window(ev::popstate, move |_| {
            self.is_returning.set_value(false);
            let known = address::entry();
            let place = known.map(|entry| entry.place).or_else(address::place);
            if self.bench.sheet.with_untracked(Option::is_some) {
                self.bench.sheet.set(None);
            }
            if place.is_some_and(|place| place != self.now.get_untracked()) && !self.may_leave() {
                return address::push(Entry::of(self.now.get_untracked()));
            }
            let place = place.unwrap_or_default();
            self.show(place);
            if known != Some(Entry::of(place)) {
                address::replace(Entry::of(place));
            }
            if let Some(wanted) = self.wanted.try_update_value(Option::take).flatten() {
                self.go(wanted);
            }
        });
    }

    /// A sheet that opens is a step, and one that is closed takes that step back.
    fn follow_sheets(self) {
        let is_open = Memo::new(move |_| self.bench.sheet.with(Option::is_some));
        Effect::watch(
            move || is_open.get(),
            move |&is_open, _, _| {
                let entry = Entry {
                    place: self.now.get_untracked(),
                    has_sheet: true,
                };
                let stands_at = address::entry();
                if is_open && !self.is_returning.get_value() {
                    address::push(entry);
                } else if !is_open && stands_at.is_some_and(|entry| entry.has_sheet) {
                    self.is_returning.set_value(true);
                    address::back();
                }
            },
            false,
        );
    }

    fn name_document(self) {
        Effect::new(move |_| {
            let place = self.now.get();
            let line = self.bench.settled.with(|design| design.title().to_owned());
            document().set_title(&format!("{} · {line} · Taperwright", place.name()));
            if let Some(root) = document().document_element() {
                // Refused for a bad name only.
                let _ = root.set_attribute(ATTRIBUTE, place.key());
            }
        });
    }

    fn remember_when_hidden(self) {
        for kind in ["visibilitychange", "pagehide"] {
            on_window(ev::Custom::<Event>::new(kind), move |_| {
                if text_input::is_hidden_by(kind) {
                    self.remember();
                }
            });
        }
    }

    /// Keeps the place, and how far it is scrolled, for the next visit. A hint: where it cannot be kept, Draw opens.
    fn remember(self) {
        let place = self.now.get_untracked();
        let words = format!("{} {}", place.key(), self.scroll_top());
        keep_hint(PLACE_KEY, &words);
    }
}

/// The place last shown, and how far it was scrolled.
fn last_visit() -> (Place, i32) {
    let kept = preference(PLACE_KEY).unwrap_or_default();
    let (key, scrolled) = kept.split_once(' ').unwrap_or((&kept, ""));
    let place = Place::from_key(key).unwrap_or_default();
    (place, scrolled.parse().unwrap_or_default())
}
