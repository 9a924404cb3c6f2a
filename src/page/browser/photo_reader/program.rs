//! The program beside the page: where it is, how it starts, and what is heard of it.

use std::rc::{Rc, Weak};

use js_sys::{Function, Object, Reflect};
use leptos::prelude::{document, window};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Event, Worker, WorkerOptions, WorkerType};

/// The element of the page that names the program's script.
const NAME: &str = "meta[name=photo]";

/// Hears what the program says and that it failed. It outlives programs, since one that failed is followed by another.
pub(super) struct Listener {
    on_message: Callback,
    on_error: Callback,
}

/// Of the kind that Leptos listens with: every other kind would be one more function in the script of the page.
type Callback = Closure<dyn FnMut(Event)>;

impl Listener {
    /// Calls back as long as what it speaks for is there.
    pub(super) fn new<T: 'static>(
        desk: &Weak<T>,
        hear: fn(&Rc<T>, &Event),
        fail: fn(&Rc<T>, &Event),
    ) -> Self {
        let calling = |call: fn(&Rc<T>, &Event)| {
            let desk = desk.clone();
            Callback::new(move |event: Event| {
                if let Some(desk) = desk.upgrade() {
                    call(&desk, &event);
                }
            })
        };
        Self {
            on_message: calling(hear),
            on_error: calling(fail),
        }
    }
}

/// Starts the program; `None` where the browser knows no such programs.
pub(super) fn start(listener: &Listener) -> Option<Worker> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(&script()?, &options).ok()?;
    worker.set_onmessage(Some(listener.on_message.as_ref().unchecked_ref()));
    worker.set_onerror(Some(listener.on_error.as_ref().unchecked_ref()));
    Some(worker)
}

/// Has the browser ask the host for the script, in place of what it has kept of it. The script does the same for the program.
pub(super) async fn ask_the_host() {
    let Some(script) = script() else { return };
    let asked = || -> Result<JsFuture, JsValue> {
        let options = Object::new();
        Reflect::set(&options, &"cache".into(), &"reload".into())?;
        let fetch: Function = Reflect::get(&window(), &"fetch".into())?.dyn_into()?;
        let coming = fetch.call2(&window(), &script.as_str().into(), &options)?;
        Ok(JsFuture::from(coming.unchecked_into::<js_sys::Promise>()))
    };
    if let Ok(coming) = asked() {
        // The body has to come, too, or the browser keeps nothing.
        if let Ok(response) = coming.await {
            let body = web_sys::Response::from(response).text();
            if let Ok(body) = body {
                let _ = JsFuture::from(body).await;
            }
        }
    }
}

/// The address of the program's script from the page.
fn script() -> Option<String> {
    let named = document().query_selector(NAME).ok()??;
    named.get_attribute("content")
}
