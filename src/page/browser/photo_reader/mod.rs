//! The reader of photographs: a program of its own that runs beside the page, so that the page goes on while it works
//! (`photo_worker`). It comes the first time a photograph is opened. Where it does not come whole, the host is asked once more.

mod drawn;
mod program;

use core::fmt;
use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use js_sys::Promise;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, Event, ImageBitmap, MessageEvent, Worker};

pub(in crate::page) use crate::page::photo_message::PhotoUnopened;
use crate::page::photo_message::{PhotoRequest, PhotoResponse};
use crate::page::photo_parcel::{BROKEN, packed, unpacked};
use crate::page::photo_requests::{PhotoRequests, ReadAnswer};
pub(in crate::page) use crate::page::picture_size::PictureCrop;
use crate::photo::{Asked, PhotoReading, PhotoRefusal};
pub(in crate::page) use drawn::{draw, small_picture};
use program::{Listener, ask_the_host, start};

/// A photograph that was opened, scaled to what is worked on.
#[derive(Clone, Debug)]
pub(in crate::page) struct OpenedPicture {
    /// Pixels from side to side.
    pub(in crate::page) width: u32,
    /// Pixels from top to bottom.
    pub(in crate::page) height: u32,
    /// The picture, for [`draw`].
    pub(in crate::page) bitmap: ImageBitmap,
}

/// What the reader says.
#[derive(Clone, Debug)]
pub(in crate::page) enum PhotoAnswer {
    /// The photograph is open. What it shows comes as the next answer.
    Opened(OpenedPicture),
    /// The file does not open.
    Unopened(PhotoUnopened),
    /// What the photograph shows, or why it shows nothing.
    Read(Box<Result<PhotoReading, PhotoRefusal>>),
    /// The reader did not come, or has failed. Opening a photograph starts another one.
    Broken,
}

/// The reader of photographs. It ends with this value.
pub(in crate::page) struct PhotoReader(Rc<Desk>);

impl fmt::Debug for PhotoReader {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("PhotoReader")
    }
}

impl Drop for PhotoReader {
    fn drop(&mut self) {
        self.0.end();
    }
}

impl PhotoReader {
    /// A reader that gives its answers to `answer`, never before a call of [`PhotoReader::open`] or [`PhotoReader::read`] is over.
    pub(in crate::page) fn start(answer: impl Fn(PhotoAnswer) + 'static) -> Self {
        let desk = Rc::new_cyclic(|desk: &Weak<Desk>| Desk {
            answer: Box::new(answer),
            requests: RefCell::default(),
            worker: RefCell::default(),
            file: RefCell::default(),
            progress: Cell::new(Progress::New),
            listener: Listener::new(desk, Desk::hear, Desk::fail),
        });
        Self(desk)
    }

    /// Opens a file and reads the braid in it. Answers about the picture before it do not come any more.
    pub(in crate::page) fn open(&self, file: &Blob, asked: Asked) {
        *self.0.file.borrow_mut() = Some((file.clone(), asked));
        self.0.open();
    }

    /// Reads the braid in the picture that was opened last. Of several calls
    /// before an answer, only the last one is answered. Without an open picture nothing happens.
    pub(in crate::page) fn read(&self, asked: Asked) {
        let number = self.0.requests.borrow_mut().read(asked);
        if let Some(number) = number {
            self.0
                .send(number, PhotoRequest::Read(asked), &JsValue::UNDEFINED);
        }
    }
}

/// How far a program has shown that it works.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Progress {
    /// Not asked for, or asked for once.
    New,
    /// It did not come; the host was asked for another copy of it.
    Again,
    /// It has answered.
    Working,
}

/// What the reader holds on the side of the page.
struct Desk {
    answer: Box<dyn Fn(PhotoAnswer)>,
    requests: RefCell<PhotoRequests>,
    /// The program; nothing while there is none.
    worker: RefCell<Option<Worker>>,
    /// The file that was opened last, and what was asked of it.
    file: RefCell<Option<(Blob, Asked)>>,
    progress: Cell<Progress>,
    listener: Listener,
}

impl Desk {
    /// Opens the file, in a program that is there or comes.
    fn open(self: &Rc<Self>) {
        let file = self.file.borrow().clone();
        let Some((file, asked)) = file else { return };
        let number = self.requests.borrow_mut().open();
        if self.worker.borrow().is_none() {
            let started = start(&self.listener);
            *self.worker.borrow_mut() = started;
        }
        if self.worker.borrow().is_some() {
            self.send(number, PhotoRequest::Open(asked), &file);
            return;
        }
        // The caller is not finished yet.
        let desk = Rc::downgrade(self);
        spawn_local(async move {
            let _ = JsFuture::from(Promise::resolve(&JsValue::UNDEFINED)).await;
            if let Some(desk) = desk.upgrade() {
                desk.break_off();
            }
        });
    }

    fn send(&self, number: u32, request: PhotoRequest, along: &JsValue) {
        if let Some(worker) = &*self.worker.borrow() {
            // Refused for nothing that can be in a message: numbers, bytes, a file.
            let _ = worker.post_message(&packed(number, &request, along));
        }
    }

    /// What the program says.
    fn hear(self: &Rc<Self>, event: &Event) {
        let data = event.unchecked_ref::<MessageEvent>().data();
        if data.as_string().as_deref() == Some(BROKEN) {
            return self.fail(event);
        }
        if !self.is_from_here(event) {
            return;
        }
        if let Some((number, response, along)) = unpacked(&data) {
            self.progress.set(Progress::Working);
            self.take(number, response, along);
        }
    }

    fn take(&self, number: u32, response: PhotoResponse, along: JsValue) {
        let is_of_picture = self.requests.borrow().is_of_picture(number);
        match response {
            PhotoResponse::Opened(width, height) => {
                if is_of_picture {
                    let bitmap = along.unchecked_into();
                    (self.answer)(PhotoAnswer::Opened(OpenedPicture {
                        width,
                        height,
                        bitmap,
                    }));
                }
            }
            PhotoResponse::Unopened(reason) => {
                if is_of_picture {
                    self.requests.borrow_mut().close();
                    (self.answer)(PhotoAnswer::Unopened(reason));
                }
            }
            PhotoResponse::Read(reading) => {
                let next = self.requests.borrow_mut().answered(number);
                match next {
                    ReadAnswer::Show => (self.answer)(PhotoAnswer::Read(reading)),
                    ReadAnswer::Ask(number, asked) => {
                        self.send(number, PhotoRequest::Read(asked), &JsValue::UNDEFINED);
                    }
                    ReadAnswer::Ignore => {}
                }
            }
        }
    }

    /// The program did not come, or has failed. One that never answered may have come damaged: the host is asked once more.
    fn fail(self: &Rc<Self>, event: &Event) {
        event.prevent_default();
        if !self.is_from_here(event) {
            return;
        }
        self.end();
        if self.progress.get() != Progress::New {
            return self.break_off();
        }
        self.progress.set(Progress::Again);
        let desk = Rc::downgrade(self);
        spawn_local(async move {
            ask_the_host().await;
            // Meanwhile a file may have been opened, or the reader be gone.
            if let Some(desk) = desk.upgrade()
                && desk.worker.borrow().is_none()
            {
                desk.open();
            }
        });
    }

    /// Whether an event is of the program that runs now.
    fn is_from_here(&self, event: &Event) -> bool {
        let worker = self.worker.borrow();
        let target = event.target();
        worker.as_ref().is_some_and(|worker| {
            let target = target.as_ref().map(AsRef::as_ref);
            target == Some::<&JsValue>(worker.as_ref())
        })
    }

    /// Says that there is no reader. The next file is opened in another program.
    fn break_off(&self) {
        self.end();
        self.requests.borrow_mut().close();
        self.progress.set(Progress::New);
        (self.answer)(PhotoAnswer::Broken);
    }

    fn end(&self) {
        if let Some(worker) = self.worker.take() {
            worker.terminate();
        }
    }
}
