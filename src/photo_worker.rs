//! The program that reads photographs, beside the page: the third file of the site.

#[cfg(target_arch = "wasm32")]
fn main() {
    taperwright::page::photo_worker::start();
}

/// It exists for the browser only.
#[cfg(not(target_arch = "wasm32"))]
fn main() {}
