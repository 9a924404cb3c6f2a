//! A sound and a shake, where the browser gives them (Web Audio, Vibration).

use js_sys::{Array, Function, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{AudioContext, AudioContextState};

/// Loudest the sound becomes, as a share of what the device gives. Our own choice.
const LOUD: f32 = 0.4;
/// A tone, in seconds, and the pause after it.
const TONE: f64 = 0.22;
const PAUSE: f64 = 0.14;
/// Time in which a tone fades in and out, in seconds: without it, it would crack.
const FADE: f64 = 0.02;

/// What gives the sound. Browsers allow it only after something was pressed, so it is made then.
#[derive(Clone, Debug)]
pub(crate) struct Chime(AudioContext);

impl Chime {
    /// Asks for sound; `None` where the browser has none, or refuses.
    pub(crate) fn ask() -> Option<Self> {
        let context = AudioContext::new().ok()?;
        let chime = Self(context);
        chime.wake();
        Some(chime)
    }

    /// Browsers put sound to sleep; something pressed wakes it.
    pub(crate) fn wake(&self) {
        // Where it stays asleep, `play` says so.
        let _ = self.0.resume();
    }

    /// Plays so many tones of a pitch, in hertz; `false` where nothing is heard.
    pub(crate) fn play(&self, tones: u32, pitch: f32) -> bool {
        self.0.state() == AudioContextState::Running
            && (0..tones).all(|tone| self.tone(f64::from(tone) * (TONE + PAUSE), pitch).is_ok())
    }

    fn tone(&self, after: f64, pitch: f32) -> Result<(), JsValue> {
        let begin = self.0.current_time() + after;
        let (oscillator, gain) = (self.0.create_oscillator()?, self.0.create_gain()?);
        oscillator.frequency().set_value(pitch);
        let loudness = gain.gain();
        loudness.set_value_at_time(0.0, begin)?;
        loudness.linear_ramp_to_value_at_time(LOUD, begin + FADE)?;
        loudness.set_value_at_time(LOUD, begin + TONE - FADE)?;
        loudness.linear_ramp_to_value_at_time(0.0, begin + TONE)?;
        oscillator.connect_with_audio_node(&gain)?;
        gain.connect_with_audio_node(&self.0.destination())?;
        oscillator.start_with_when(begin)?;
        oscillator.stop_with_when(begin + TONE)
    }
}

/// Shakes the device so many times; `false` where it cannot.
pub(crate) fn shake(times: u32) -> bool {
    let navigator: JsValue = window().navigator().into();
    // Before anything was pressed on this page, browsers refuse and complain.
    let activation = Reflect::get(&navigator, &"userActivation".into()).unwrap_or_default();
    let was_pressed = Reflect::get(&activation, &"hasBeenActive".into());
    if was_pressed.is_ok_and(|pressed| pressed.is_falsy()) && !activation.is_undefined() {
        return false;
    }
    let vibrate = Reflect::get(&navigator, &"vibrate".into()).ok();
    let Some(vibrate) = vibrate.and_then(|it| it.dyn_into::<Function>().ok()) else {
        return false;
    };
    // On and off, in milliseconds.
    let pattern: Array = (0..times)
        .flat_map(|_| [300, 200])
        .map(JsValue::from)
        .collect();
    let answer = vibrate.call1(&navigator, &pattern);
    answer.is_ok_and(|answer| answer.is_truthy())
}
