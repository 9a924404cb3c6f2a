//! Files the maker saves and opens.

use js_sys::Array;
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, Url};

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
    Url::revoke_object_url(&address)
}

/// The text of a file; `None` when it cannot be read.
pub(crate) async fn text(file: &File) -> Option<String> {
    JsFuture::from(file.text()).await.ok()?.as_string()
}
