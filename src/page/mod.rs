//! The page. All but its looks, the names of its places, and what it says to the program that reads photographs exists in the
//! browser build only. That program (`photo-worker`) holds nothing else of the page.

pub mod looks;
pub mod photo_message;
#[cfg(target_arch = "wasm32")]
mod photo_parcel;
pub mod photo_requests;
pub mod picture_size;
pub mod places;

#[cfg(all(target_arch = "wasm32", not(feature = "photo-worker")))]
mod browser;
#[cfg(all(target_arch = "wasm32", feature = "photo-worker"))]
pub mod photo_worker;
#[cfg(all(target_arch = "wasm32", not(feature = "photo-worker")))]
pub mod view;
