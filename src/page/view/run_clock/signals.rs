//! Sound, shaking and voice of the run clock, and what of them the browser refuses.

use leptos::prelude::*;

use super::settings::ClockSettings;
use crate::page::browser::chime::{Chime, shake};
use crate::page::browser::voice::{self, VoiceError};
use crate::plan::run::Signal;

/// Pitch of the signals, in hertz, and how often they sound. Our own choice: low enough for old ears.
const SOON: (u32, f32) = (2, 587.0);
const STOP: (u32, f32) = (4, 784.0);

/// What gives signals.
#[derive(Clone, Copy)]
pub(crate) struct Signals {
    settings: ClockSettings,
    chime: StoredValue<Option<Chime>, LocalStorage>,
    /// Whether the last signal could not be heard.
    pub(crate) is_silent: RwSignal<bool>,
    /// Why nothing was spoken when it should have been.
    pub(crate) unspoken: RwSignal<Option<VoiceError>>,
    /// The last signal given, until the machine is stopped or the step is done.
    pub(crate) last: RwSignal<Option<Signal>>,
}

impl Signals {
    pub(super) fn new(settings: ClockSettings) -> Self {
        Self {
            settings,
            chime: StoredValue::new_local(None),
            is_silent: RwSignal::new(false),
            unspoken: RwSignal::new(None),
            last: RwSignal::new(None),
        }
    }

    /// Something was pressed: from now on the browser may allow sound.
    pub(crate) fn allow(self) {
        self.last.set(None);
        if !self.settings.sound.get_untracked() {
            return;
        }
        self.chime.update_value(|chime| match chime {
            Some(chime) => chime.wake(),
            None => *chime = Chime::ask(),
        });
        self.is_silent.set(self.chime.with_value(Option::is_none));
    }

    /// Gives a signal.
    pub(super) fn give(self, signal: Signal) {
        self.last.set(Some(signal));
        let (times, pitch) = match signal {
            Signal::Soon => SOON,
            Signal::Stop => STOP,
        };
        if self.settings.sound.get_untracked() {
            let is_heard = self
                .chime
                .with_value(|chime| chime.as_ref().is_some_and(|chime| chime.play(times, pitch)));
            self.is_silent.set(!is_heard);
            // Many devices cannot shake; where the sound is heard, nothing is missed.
            let _ = shake(times);
        }
        if self.settings.voice.get_untracked() {
            self.speak(match signal {
                Signal::Soon => "The stop is near.",
                Signal::Stop => "Stop the machine now.",
            });
        }
    }

    /// Speaks some words.
    pub(crate) fn speak(self, words: &str) {
        let failed = move |why| {
            self.unspoken.try_set(Some(why));
        };
        self.unspoken.set(voice::speak(words, failed).err());
    }
}
