//! What the maker sets of the run clock: kept in the browser, the same for every line.

use leptos::prelude::*;

use crate::page::browser::storage::preference;
use crate::page::view::bench::Bench;

const LEAD_KEY: &str = "taperwright/run-lead";
const SOUND_KEY: &str = "taperwright/run-sound";
const VOICE_KEY: &str = "taperwright/run-voice";
const AID_KEY: &str = "taperwright/run-aid";
/// Circuits before a stop at which the signal is given, until the maker sets another number. Our own choice: half a minute at the usual
/// pace.
const LEAD: u32 = 20;
/// Most of them. Our own choice.
pub(crate) const MOST_LEAD: u32 = 500;

/// What the maker set.
#[derive(Clone, Copy)]
pub(crate) struct ClockSettings {
    bench: Bench,
    /// Circuits before a stop at which a signal is given; none where 0.
    pub(crate) lead: RwSignal<u32>,
    /// Whether signals are heard and felt.
    pub(crate) sound: RwSignal<bool>,
    /// Whether steps are spoken.
    pub(crate) voice: RwSignal<bool>,
    /// Whether the maker has read what the clock is.
    pub(crate) has_read: RwSignal<bool>,
}

impl ClockSettings {
    /// What was set at an earlier visit.
    pub(super) fn kept(bench: Bench) -> Self {
        let is_on = |key, at_first| preference(key).map_or(at_first, |text| text == "on");
        let lead = preference(LEAD_KEY).and_then(|text| text.parse().ok());
        Self {
            bench,
            lead: RwSignal::new(lead.filter(|lead| *lead <= MOST_LEAD).unwrap_or(LEAD)),
            sound: RwSignal::new(is_on(SOUND_KEY, true)),
            voice: RwSignal::new(is_on(VOICE_KEY, false)),
            has_read: RwSignal::new(is_on(AID_KEY, false)),
        }
    }

    pub(crate) fn set_lead(self, circuits: u32) {
        self.lead.set(circuits);
        self.bench.keep_preference(LEAD_KEY, &circuits.to_string());
    }

    pub(crate) fn set_sound(self, is_on: bool) {
        self.set(self.sound, SOUND_KEY, is_on);
    }

    pub(crate) fn set_voice(self, is_on: bool) {
        self.set(self.voice, VOICE_KEY, is_on);
    }

    pub(crate) fn read(self) {
        self.set(self.has_read, AID_KEY, true);
    }

    fn set(self, signal: RwSignal<bool>, key: &'static str, is_on: bool) {
        signal.set(is_on);
        self.bench
            .keep_preference(key, if is_on { "on" } else { "off" });
    }
}
