//! The program that reads photographs, beside the page and not in its way. It is the third file of the site, holds only what a
//! reading takes, and has no Leptos. The end of its script (`style/photo.js`) holds messages back until it listens, and reports
//! what ends it.

mod opened;
mod scope;

use std::cell::{Cell, RefCell};
use std::panic;
use std::rc::Rc;

use js_sys::Array;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, MessageEvent};

use super::photo_message::{PhotoRequest, PhotoResponse, PhotoUnopened};
use super::photo_parcel::{BROKEN, packed, unpacked};
use crate::photo::{Asked, Picture, read_braid};
use opened::{Opened, opened};
use scope::scope;

/// What the program holds.
#[derive(Default)]
struct Desk {
    /// Number of the last file it was asked to open.
    last: Cell<u32>,
    /// The picture in it.
    picture: RefCell<Option<Picture>>,
}

/// Listens to the page from now on.
pub fn start() {
    panic::set_hook(Box::new(|panic| {
        console_error_panic_hook::hook(panic);
        send(&BROKEN.into(), &Array::new());
    }));
    let desk = Rc::new(Desk::default());
    let on_message = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        if let Some((number, request, file)) = unpacked(&event.data()) {
            obey(&desk, number, request, &file);
        }
    });
    scope().set_onmessage(Some(on_message.as_ref().unchecked_ref()));
    // It listens as long as the program runs.
    on_message.forget();
}

fn obey(desk: &Rc<Desk>, number: u32, request: PhotoRequest, file: &JsValue) {
    match request {
        PhotoRequest::Open(asked) => {
            desk.last.set(number);
            let (desk, file) = (desk.clone(), file.clone());
            spawn_local(async move { open(&desk, number, (file, asked)).await });
        }
        PhotoRequest::Read(asked) => {
            if let Some(picture) = &*desk.picture.borrow() {
                let reading = PhotoResponse::Read(Box::new(read_braid(picture, &asked)));
                answer(number, &reading, &JsValue::UNDEFINED);
            }
        }
    }
}

/// Opens a file and reads the picture in it, unless the next file was asked for meanwhile.
async fn open(desk: &Rc<Desk>, number: u32, (file, asked): (JsValue, Asked)) {
    *desk.picture.borrow_mut() = None;
    let found = match file.dyn_into::<Blob>() {
        Ok(file) => opened(&file).await,
        Err(_) => Err(PhotoUnopened::NotAPicture),
    };
    if desk.last.get() != number {
        return;
    }
    let Opened {
        picture,
        bitmap,
        size: (width, height),
    } = match found {
        Ok(opened) => opened,
        Err(reason) => {
            return answer(
                number,
                &PhotoResponse::Unopened(reason),
                &JsValue::UNDEFINED,
            );
        }
    };
    answer(number, &PhotoResponse::Opened(width, height), &bitmap);
    *desk.picture.borrow_mut() = Some(picture);
    obey(desk, number, PhotoRequest::Read(asked), &JsValue::UNDEFINED);
}

/// Sends an answer. What comes along is handed over, not copied.
fn answer(number: u32, response: &PhotoResponse, along: &JsValue) {
    let handed_over = if along.is_undefined() {
        Array::new()
    } else {
        Array::of1(along)
    };
    send(&packed(number, response, along), &handed_over);
}

fn send(message: &JsValue, handed_over: &Array) {
    // Refused only where the page has ended this program.
    let _ = scope().post_message_with_transfer(message, handed_over);
}
