//! One number, spoken: the browser's own recognition of speech, where it has one. Browsers may send what they hear to a service of
//! their own; it is used only while a button asks for it.

use std::cell::Cell;
use std::rc::Rc;

use js_sys::{Function, Reflect};
use leptos::prelude::window;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

/// The names of the recogniser: that of the standard, and one that browsers had before it (Web Speech API).
const NAMES: [&str; 2] = ["SpeechRecognition", "webkitSpeechRecognition"];

fn recogniser() -> Option<Function> {
    let found = |name: &&str| Reflect::get(&window(), &JsValue::from_str(name)).ok();
    let mut found = NAMES.iter().filter_map(found);
    found.find_map(|found| found.dyn_into().ok())
}

/// Whether this browser has a recogniser.
pub(crate) fn is_available() -> bool {
    recogniser().is_some()
}

/// Listens once, and gives what was heard; `None` where nothing was understood, or the browser refused. Called once.
pub(crate) fn listen(then: impl Fn(Option<String>) + 'static) {
    let is_told = Cell::new(false);
    let tell = Rc::new(move |words: Option<String>| {
        if !is_told.replace(true) {
            then(words);
        }
    });
    if start(&tell).is_none() {
        tell(None);
    }
}

fn start(tell: &Rc<impl Fn(Option<String>) + 'static>) -> Option<()> {
    let recogniser: JsValue = Reflect::construct(&recogniser()?, &js_sys::Array::new()).ok()?;
    let set = |name: &str, value: &JsValue| Reflect::set(&recogniser, &name.into(), value).ok();
    set("lang", &"en".into())?;
    let heard = tell.clone();
    let result = Closure::once_into_js(move |event: JsValue| heard(words_of(&event)));
    set("onresult", &result)?;
    for kind in ["onerror", "onnomatch", "onend"] {
        let tell = tell.clone();
        let nothing = Closure::once_into_js(move |_: JsValue| tell(None));
        set(kind, &nothing)?;
    }
    let start: Function = Reflect::get(&recogniser, &"start".into())
        .ok()?
        .dyn_into()
        .ok()?;
    start.call0(&recogniser).ok()?;
    Some(())
}

/// The likeliest words of an event: `results[0][0].transcript`.
fn words_of(event: &JsValue) -> Option<String> {
    let get = |of: &JsValue, name: &str| Reflect::get(of, &name.into()).ok();
    let results = get(event, "results")?;
    let first = Reflect::get_u32(&results, 0).ok()?;
    let likeliest = Reflect::get_u32(&first, 0).ok()?;
    get(&likeliest, "transcript")?.as_string()
}
