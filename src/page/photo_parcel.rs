//! Messages between the page and the program that reads photographs, as a browser carries them: a list of a number, the bytes of
//! the message, and what comes along.

use js_sys::{Array, Uint8Array};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::{JsCast, JsValue};

use super::photo_message::{bytes_of, message_of};

/// What the program sends before it ends by a failure.
pub(super) const BROKEN: &str = "broken";

/// A message with the number of its request, and what comes along.
pub(super) fn packed<T: Serialize>(number: u32, message: &T, along: &JsValue) -> Array {
    let bytes = Uint8Array::from(bytes_of(message).as_slice());
    Array::of3(&number.into(), &bytes, along)
}

/// Number, message and what comes along; `None` where it is no such message.
pub(super) fn unpacked<T: DeserializeOwned>(parcel: &JsValue) -> Option<(u32, T, JsValue)> {
    let parcel: &Array = parcel.dyn_ref()?;
    let bytes: Uint8Array = parcel.get(1).dyn_into().ok()?;
    let message = message_of(&bytes.to_vec())?;
    Some((number(&parcel.get(0))?, message, parcel.get(2)))
}

// It was made of one of these.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn number(value: &JsValue) -> Option<u32> {
    value.as_f64().map(|number| number as u32)
}
