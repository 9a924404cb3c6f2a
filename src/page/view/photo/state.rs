//! The picture that is measured, what is read from it, and how the reader is asked.

use leptos::prelude::*;
use web_sys::Blob;

use crate::base::units::Length;
use crate::page::browser::photo_reader::{
    OpenedPicture, PhotoAnswer, PhotoReader, PictureCrop, small_picture,
};
use crate::paper::chart::photo_handles::{PhotoHandle, PhotoLines};
use crate::photo::{Asked, Estimate, KnownDiameter, PhotoReading, PhotoRefusal, PhotoScale, Point};

/// What is said of the picture that is still shown.
const BEFORE_STAYS: &str = " The picture from before is still here.";

/// What the reader does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Work {
    /// Nothing is asked.
    None,
    /// An answer is awaited.
    Coming,
    /// It did not come, or has failed.
    Broken,
}

/// What is on the sheet. Answers of the reader may come after it was closed.
#[derive(Clone, Copy)]
pub(super) struct PhotoState {
    pub(super) work: RwSignal<Work>,
    /// What is to be said: of a file that does not open, of a choice that was none.
    pub(super) said: RwSignal<String>,
    /// The picture shown.
    pub(super) picture: RwSignal<Option<OpenedPicture>, LocalStorage>,
    /// The lines over it.
    pub(super) lines: RwSignal<PhotoLines>,
    /// The handle that the buttons move.
    pub(super) chosen: RwSignal<Option<PhotoHandle>>,
    /// Whether the maker has set the edges.
    pub(super) has_own_edges: RwSignal<bool>,
    /// Threads in the braid, where they are known.
    pub(super) threads: RwSignal<Option<u32>>,
    /// What the picture shows.
    pub(super) reading: RwSignal<Option<Result<PhotoReading, PhotoRefusal>>>,
    /// The diameter of the braid, as far as it is known.
    pub(super) diameter: RwSignal<Option<KnownDiameter>>,
    /// How long the line on a rule is; nothing where the diameter gives the scale.
    pub(super) rule: RwSignal<Option<Length>>,
    /// Which ends of that line the maker has put somewhere: until both are, it is no scale.
    rule_ends: RwSignal<Vec<PhotoHandle>>,
    /// Whether the reading is of what is asked now.
    is_current: RwSignal<bool>,
    reader: StoredValue<Option<PhotoReader>, LocalStorage>,
    /// The file asked for last, and that of the picture shown.
    asked: StoredValue<Option<Blob>, LocalStorage>,
    file: StoredValue<Option<Blob>, LocalStorage>,
    /// Whether the reader has the picture shown. After a file that did not open it has none.
    is_held: StoredValue<bool>,
    /// Whether it opens that picture once more.
    is_again: StoredValue<bool>,
}

impl PhotoState {
    /// Without a picture.
    pub(super) fn new(diameter: Option<KnownDiameter>, threads: Option<u32>) -> Self {
        let state = Self {
            work: RwSignal::new(Work::None),
            said: RwSignal::new(String::new()),
            picture: RwSignal::new_local(None),
            lines: RwSignal::new(PhotoLines::default()),
            chosen: RwSignal::new(None),
            has_own_edges: RwSignal::new(false),
            threads: RwSignal::new(threads),
            reading: RwSignal::new(None),
            diameter: RwSignal::new(diameter),
            rule: RwSignal::new(None),
            rule_ends: RwSignal::new(Vec::new()),
            is_current: RwSignal::new(false),
            reader: StoredValue::new_local(None),
            asked: StoredValue::new_local(None),
            file: StoredValue::new_local(None),
            is_held: StoredValue::new(false),
            is_again: StoredValue::new(false),
        };
        let reader = PhotoReader::start(move |answer| state.hear(answer));
        state.reader.set_value(Some(reader));
        state
    }

    /// Measures another picture. The one shown stays until that is open.
    pub(super) fn open(self, file: &Blob) {
        self.asked.set_value(Some(file.clone()));
        self.is_again.set_value(false);
        self.ask_for(file, self.asked_of_another());
    }

    /// What is asked of a picture that is not the one shown: its edges are looked for.
    fn asked_of_another(self) -> Asked {
        Asked {
            edges: None,
            threads: self.threads.get_untracked(),
        }
    }

    fn ask_for(self, file: &Blob, asked: Asked) {
        self.said.set(String::new());
        self.work.set(Work::Coming);
        self.is_held.set_value(false);
        self.with_reader(|reader| reader.open(file, asked));
    }

    /// Reads the picture shown with the lines as they are.
    pub(super) fn read(self) {
        if !self.is_steady() {
            return self.with_reader(|reader| reader.read(self.asked_of_another()));
        }
        self.said.set(String::new());
        self.is_current.set(false);
        let has_own = self.has_own_edges.get_untracked();
        let asked = Asked {
            edges: has_own.then(|| self.lines.with_untracked(|lines| lines.edges)),
            threads: self.threads.get_untracked(),
        };
        if self.is_held.get_value() {
            self.work.set(Work::Coming);
            return self.with_reader(|reader| reader.read(asked));
        }
        if let Some(file) = self.file.get_value() {
            self.is_again.set_value(true);
            self.ask_for(&file, asked);
        }
    }

    /// Asks again for what failed.
    pub(super) fn try_again(self) {
        if self.is_again.get_value() {
            return self.read();
        }
        if let Some(file) = self.asked.get_value() {
            self.open(&file);
        }
    }

    /// The edges are looked for again.
    pub(super) fn find_edges(self) {
        self.has_own_edges.set(false);
        self.read();
    }

    /// The maker says how many threads the braid has, or that they are to be counted.
    pub(super) fn set_threads(self, threads: Option<u32>) {
        if self.threads.get_untracked() != threads {
            self.threads.set(threads);
            self.read();
        }
    }

    /// What a handle holds is at another place; for the reader that is so once it is let go.
    pub(super) fn move_to(self, handle: PhotoHandle, to: Point) {
        self.lines.update(|lines| *lines = lines.moved(handle, to));
    }

    /// Whether what was read is what is asked: it is used only then.
    pub(super) fn is_current(self) -> bool {
        self.is_current.get() && self.work.get() != Work::Coming
    }

    /// Whether the picture shown is the one that counts, so that lines can be moved: not while another one is opened.
    pub(super) fn is_steady(self) -> bool {
        let is_coming = self.work.get_untracked() == Work::Coming;
        !is_coming || self.is_held.get_value() || self.is_again.get_value()
    }

    /// A handle was let go: with other edges the picture is read again.
    pub(super) fn let_go(self, handle: PhotoHandle) {
        match handle {
            PhotoHandle::Edge(..) => {
                self.has_own_edges.set(true);
                self.read();
            }
            PhotoHandle::Rule(_) => self.rule_ends.update(|ends| {
                if !ends.contains(&handle) {
                    ends.push(handle);
                }
            }),
        }
    }

    fn with_reader(self, ask: impl FnOnce(&PhotoReader)) {
        self.reader.with_value(|reader| reader.as_ref().map(ask));
    }

    /// What the reader says. Once the sheet is closed nobody listens.
    fn hear(self, answer: PhotoAnswer) {
        if self.work.try_get_untracked().is_none() {
            return;
        }
        match answer {
            PhotoAnswer::Opened(picture) => self.show(picture),
            PhotoAnswer::Unopened(why) => {
                self.is_again.set_value(false);
                let is_shown = self.picture.with_untracked(Option::is_some);
                let before = if is_shown { BEFORE_STAYS } else { "" };
                self.said.set(format!("{why}{before}"));
                self.work.set(Work::None);
            }
            PhotoAnswer::Read(reading) => {
                // Edges set by hand are where the search begins; shown is what was measured.
                if let Ok(reading) = &*reading {
                    self.lines.update(|lines| lines.edges = reading.edges);
                }
                self.is_current.set(true);
                self.reading.set(Some(*reading));
                self.work.set(Work::None);
            }
            PhotoAnswer::Broken => {
                // What is shown can be read again, once there is another reader.
                let is_shown = self.is_held.get_value();
                self.is_again.update_value(|again| *again |= is_shown);
                self.is_held.set_value(false);
                self.work.set(Work::Broken);
            }
        }
    }

    fn show(self, picture: OpenedPicture) {
        self.is_held.set_value(true);
        if !self.is_again.get_value() {
            let size = (f64::from(picture.width), f64::from(picture.height));
            self.file.set_value(self.asked.get_value());
            self.lines.set(PhotoLines::first(size));
            self.has_own_edges.set(false);
            self.chosen.set(None);
            self.rule.set(None);
            self.rule_ends.set(Vec::new());
            self.is_current.set(false);
            self.reading.set(None);
        }
        self.is_again.set_value(false);
        self.picture.set(Some(picture));
    }

    /// Whether both ends of the line on the rule were put somewhere.
    pub(super) fn is_rule_set(self) -> bool {
        self.rule_ends.with(|ends| ends.len() == 2)
    }

    /// Whether the scale is a diameter that is only planned.
    pub(super) fn is_scale_planned(self) -> bool {
        let is_planned = |known| matches!(known, Some(KnownDiameter::Planned(_)));
        self.rule.get().is_none() && is_planned(self.diameter.get())
    }

    /// What gives the scale now.
    pub(super) fn scale(self) -> Option<PhotoScale> {
        match self.rule.get() {
            Some(length) => self
                .is_rule_set()
                .then(|| PhotoScale::Rule(self.lines.with(|it| it.rule), length)),
            None => self.diameter.get().map(KnownDiameter::scale),
        }
    }

    /// Reads what the picture shows; `None` where it shows nothing.
    pub(super) fn with_reading<T>(self, read: impl FnOnce(&PhotoReading) -> T) -> Option<T> {
        self.reading
            .with(|reading| reading.as_ref()?.as_ref().ok().map(read))
    }

    /// Crossings along a rib, per metre.
    pub(super) fn crossings(self) -> Option<Estimate> {
        let scale = self.scale()?;
        self.with_reading(|reading| reading.crossings(scale))?
    }

    /// Diameter in metres.
    pub(super) fn measured_diameter(self) -> Option<Estimate> {
        let scale = self.scale()?;
        self.with_reading(|reading| reading.diameter(scale))?
    }

    /// The part of the picture round the braid, small, as an address to save.
    pub(super) fn small_picture(self) -> Option<String> {
        let edges = self.with_reading(|reading| reading.edges)?;
        self.picture.with(|picture| {
            let OpenedPicture {
                width,
                height,
                bitmap,
            } = picture.as_ref()?;
            let crop = PictureCrop::round_edges(edges, *width, *height);
            small_picture(bitmap, crop)
        })
    }
}
