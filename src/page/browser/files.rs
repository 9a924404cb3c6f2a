//! Files the maker saves and opens.

use core::time::Duration;

use js_sys::Array;
use leptos::prelude::{document, set_timeout};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, Url};

/// How long the address of a file being saved stays valid.
const ADDRESS_LIFE: Duration = Duration::from_mins(1);

/// Hands a text to the browser as a file to save.
pub(crate) fn save(name: &str, text: &str, kind: &str) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let anchor: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    // Some browsers fetch the address only after the click has been dealt with, so it stays valid for a while.
    let forget = move || {
        // Refused only for an address that is no more.
        let _ = Url::revoke_object_url(&address);
    };
    set_timeout(forget, ADDRESS_LIFE);
    Ok(())
}

/// The text of a file; `None` when it cannot be read.
pub(crate) async fn text(file: &File) -> Option<String> {
    JsFuture::from(file.text()).await.ok()?.as_string()
}
