//! Opening by dropping: a design file, a measured line or a table of readings, a bench book, a file of everything, or a link to a
//! line, anywhere on the page.

use core::time::Duration;

use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use web_sys::{DragEvent, Element, EventTarget, File};

use super::bench::{Bench, bench};
use super::book::{OpenBook, open_book};
use super::kept::import_backup;
use super::measured::{OpenMeasured, open_measured};
use super::photo::{PhotoLink, photo_link};
use super::places::{Places, places};
use super::window_events::on_window;
use crate::keep::dropped::{self, DropError, Dropped};
use crate::keep::share::link::{self, Linked};
use crate::keep::share::readings::{self, AskedUnits};
use crate::keep::shelf::backup;
use crate::page::browser::drag_drop::{self, DropContent};
use crate::page::browser::files;
use crate::page::places::Place;
use crate::paper::words::photo;

/// Handles what is dragged here from elsewhere. What is dragged within the page is left alone, and so is text dropped into a
/// field; no drop leads away from the page.
#[derive(Clone, Copy)]
struct DropTarget {
    bench: Bench,
    open_book: OpenBook,
    measured: OpenMeasured,
    photo: PhotoLink,
    places: Places,
    /// Whether something from elsewhere is over the page.
    is_over: RwSignal<bool>,
    /// Whether what is dragged is the page's own.
    is_own: StoredValue<bool>,
    /// How many events said that something is over the page.
    events: StoredValue<u32>,
}

/// After this time without an event nothing is over the page any more: not every browser says so.
const PATIENCE: Duration = Duration::from_secs(2);

/// Shows, while something is dragged over the page, what may be dropped.
#[component]
pub(crate) fn DropHint() -> impl IntoView {
    let dropping = DropTarget {
        bench: bench(),
        open_book: open_book(),
        measured: open_measured(),
        photo: photo_link(),
        places: places(),
        is_over: RwSignal::new(false),
        is_own: StoredValue::new(false),
        events: StoredValue::new(0),
    };
    dropping.listen();
    let words = move || {
        if dropping.photo.is_open() {
            "Drop a picture of the braid to measure it."
        } else {
            "Drop to open: a line, a bench book, a backup, or a link to a line. Or a table of readings."
        }
    };
    view! {
        <Show when=move || dropping.is_over.get()>
            <div class="drop-hint" data-dropping="true" aria-hidden="true">
                <p>{words()}</p>
            </div>
        </Show>
    }
}

impl DropTarget {
    fn listen(self) {
        on_window(ev::dragstart, move |_| self.is_own.set_value(true));
        on_window(ev::dragend, move |_| self.end());
        // A browser asks with each of the two whether a drop is taken here. It asks only with `dragenter` when another element comes
        // under the pointer, and opens by itself, in another window, what is let go right then and was not taken.
        on_window(ev::dragenter, move |event| self.over(&event));
        on_window(ev::dragover, move |event| self.over(&event));
        on_window(ev::dragleave, move |event| self.left(&event));
        on_window(ev::drop, move |event| self.dropped(&event));
    }

    fn end(self) {
        self.is_own.set_value(false);
        self.is_over.set(false);
    }

    fn over(self, event: &DragEvent) {
        if is_for_a_field(event) {
            self.is_over.set(false);
            return;
        }
        event.prevent_default();
        let is_admitted = !self.is_own.get_value();
        drag_drop::admit(event, is_admitted);
        self.events
            .update_value(|events| *events = events.wrapping_add(1));
        if self.is_over.get_untracked() != is_admitted {
            self.is_over.set(is_admitted);
            self.watch();
        }
    }

    /// Checks at intervals whether events still come.
    fn watch(self) {
        let before = self.events.get_value();
        let look = move || {
            if self.events.get_value() == before {
                self.is_over.set(false);
            } else if self.is_over.get_untracked() {
                self.watch();
            }
        };
        set_timeout(look, PATIENCE);
    }

    /// Only out of the window is away: from one element to the next there is another to go to.
    fn left(self, event: &DragEvent) {
        if event.related_target().is_none() {
            self.is_over.set(false);
        }
    }

    fn dropped(self, event: &DragEvent) {
        let is_own = self.is_own.get_value();
        self.end();
        if is_for_a_field(event) {
            return;
        }
        event.prevent_default();
        if !is_own {
            self.take(drag_drop::content(event));
        }
    }

    fn take(self, drop: DropContent) {
        match drop {
            DropContent::Files(files) => match <[File; 1]>::try_from(files) {
                Ok([file]) => spawn_local(self.open(file)),
                Err(files) => self.say(&DropError::Several(files.len())),
            },
            DropContent::Text(text) => self.look_for_link(&text),
            DropContent::Nothing => {}
        }
    }

    async fn open(self, file: File) {
        if is_picture(&file) {
            return self.measure(&file);
        }
        if file.size() > backup::LARGEST as f64 {
            return self.say(&DropError::Unknown);
        }
        let text = files::text(&file).await;
        if let Some(text) = text.as_deref().filter(|text| backup::is_one(text)) {
            self.uncover();
            return self.bench.say(import_backup(self.open_book, text));
        }
        // What is not of ours, but text, may be a table of readings; what is wrong with that is then said.
        if let Some(text) = text.as_ref().filter(|text| is_table(&file, text)) {
            self.uncover();
            return self.measured.take_file(Some(text.clone()));
        }
        match text.map(|text| dropped::read(&text)) {
            Some(Ok(Dropped::Line(design))) => {
                self.uncover();
                self.bench.take_in(*design);
            }
            Some(Ok(Dropped::Book(workshop))) => {
                self.open_book.take_in(*workshop);
                self.places.go(Place::Weigh);
            }
            Some(Ok(Dropped::Measured(line))) => self.measured.take_in(*line),
            // A picture of a kind that the browser does not know by its name: the reader says so, or reads it.
            Some(Err(DropError::Unknown)) if self.photo.is_open() => self.photo.measure(&file),
            Some(Err(said)) => self.say(&said),
            None => {
                self.uncover();
                self.bench
                    .say("The browser could not read the file.".to_owned());
            }
        }
    }

    /// A picture is measured where one is asked for; elsewhere it is said where that is.
    fn measure(self, file: &File) {
        if self.photo.is_open() {
            self.photo.measure(file);
        } else {
            self.uncover();
            self.bench.say(photo::DROPPED.to_owned());
        }
    }

    fn look_for_link(self, text: &str) {
        match link::fragment_in(text).and_then(link::read) {
            Some(Ok(Linked::Line(design))) => {
                self.uncover();
                self.bench.look_at(*design);
            }
            Some(Ok(Linked::Measured(line))) => self.measured.look_at(*line),
            Some(Err(said)) => self.say(&DropError::Link(said)),
            None => self.say(&DropError::NoLink),
        }
    }

    fn say(self, said: &DropError) {
        if self.photo.is_open() {
            // The picture there stays.
            return self.photo.tell(said.to_string());
        }
        self.uncover();
        self.bench.say(said.to_string());
    }

    /// Closes what covers the bench, so that what is opened or said is seen.
    fn uncover(self) {
        self.bench.sheet.set(None);
    }
}

/// Whether a file is a picture by its kind.
fn is_picture(file: &File) -> bool {
    file.type_().starts_with("image/")
}

/// Whether a file is to be opened as a table of readings: one of a spreadsheet by its name, or a text that reads as one.
fn is_table(file: &File, text: &str) -> bool {
    let name = file.name().to_lowercase();
    let has_end = |ends: &[&str]| ends.iter().any(|end| name.ends_with(end));
    let is_text = has_end(&[".txt"]) && readings::read(text, &AskedUnits::default()).is_ok();
    has_end(&[".csv", ".tsv"]) || is_text
}

/// Whether text is dragged over a field that takes it.
fn is_for_a_field(event: &DragEvent) -> bool {
    let takes_text = |target: EventTarget| {
        let field = "input[type=text]:enabled:read-write, textarea:enabled:read-write";
        let element = target.dyn_into::<Element>().ok();
        element.is_some_and(|element| element.matches(field).unwrap_or(false))
    };
    !drag_drop::are_files(event) && event.target().is_some_and(takes_text)
}
