//! Words spoken by the browser (Web Speech API), where it has a voice for them.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{SpeechSynthesis, SpeechSynthesisUtterance, SpeechSynthesisVoice};

/// Language of the page.
const LANGUAGE: &str = "en";

/// Why nothing is spoken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum VoiceError {
    /// The browser cannot speak at all.
    Unsupported,
    /// There is no connection, and the voices of this browser need one.
    NeedsConnection,
    /// It refused, or failed.
    Failed,
}

/// Speaks some words in the place of any spoken before. What fails later is given to `failed`.
///
/// # Errors
/// [`VoiceError`] where it is known at once that nothing will be heard.
pub(crate) fn speak(
    words: &str,
    failed: impl FnOnce(VoiceError) + 'static,
) -> Result<(), VoiceError> {
    let synthesis = synthesis().ok_or(VoiceError::Unsupported)?;
    let utterance =
        SpeechSynthesisUtterance::new_with_text(words).map_err(|_| VoiceError::Unsupported)?;
    utterance.set_lang(LANGUAGE);
    let voices = voices(&synthesis);
    let local = voices.iter().find(|voice| voice.local_service());
    if local.is_none() && !voices.is_empty() && !window().navigator().on_line() {
        return Err(VoiceError::NeedsConnection);
    }
    // Without a list yet, the browser chooses by the language.
    if let Some(voice) = local.or(voices.first()) {
        utterance.set_voice(Some(voice));
    }
    let on_error = Closure::once_into_js(move |event: JsValue| {
        let error = Reflect::get(&event, &"error".into()).ok();
        let error = error
            .and_then(|error| error.as_string())
            .unwrap_or_default();
        match error.as_str() {
            // The next words took its place.
            "interrupted" | "canceled" => {}
            "network" => failed(VoiceError::NeedsConnection),
            _ => failed(VoiceError::Failed),
        }
    });
    utterance.set_onerror(on_error.dyn_ref());
    synthesis.cancel();
    synthesis.speak(&utterance);
    Ok(())
}

fn synthesis() -> Option<SpeechSynthesis> {
    let found = Reflect::get(&window(), &"speechSynthesis".into()).ok()?;
    let can = |name: &str| {
        let it = Reflect::get(&found, &name.into());
        it.is_ok_and(|it| it.is_function())
    };
    let is_whole = !found.is_undefined()
        && !found.is_null()
        && ["speak", "cancel", "getVoices"].into_iter().all(can);
    let has_words = Reflect::has(&window(), &"SpeechSynthesisUtterance".into()).unwrap_or(false);
    (is_whole && has_words).then(|| found.unchecked_into())
}

/// The voices for the page's language.
fn voices(synthesis: &SpeechSynthesis) -> Vec<SpeechSynthesisVoice> {
    let all = synthesis.get_voices();
    let voices = all
        .iter()
        .map(JsCast::unchecked_into::<SpeechSynthesisVoice>);
    voices
        .filter(|voice| voice.lang().starts_with(LANGUAGE))
        .collect()
}
